#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"

/// A string built with a module too few or too many.
namespace stringwright::events {
namespace {

Result<std::string> missing_says(const Site& s, std::string_view place) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  return s.w.strings[*string].id + " built one module short";
}

Result<std::string> extra_says(const Site& s, std::string_view place) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  return s.w.strings[*string].id + " built with one module too many";
}

Result<Applied> set(const Site& s, std::string_view place, circuit::Built& b, int count) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  circuit::faults::set_modules(b, s.w.strings[*string].modules.front(), count);
  return Applied{};
}

constexpr std::string_view gate =
    "volts of all strings side by side at the same minute; across the open device about 0 V, one "
    "module's volts mean a wrong count";

}  // namespace

extern const Kind module_missing{.id = "module-missing",
                                 .title = "One module short",
                                 .cause = Cause::work,
                                 .load = Load::idle,
                                 .places = each_string,
                                 .says = missing_says,
                                 .apply = [](const Site& s, std::string_view place,
                                             circuit::Built& b) { return set(s, place, b, 0); },
                                 .gate = gate};

extern const Kind module_extra{.id = "module-extra",
                               .title = "One module too many",
                               .cause = Cause::work,
                               .load = Load::idle,
                               .places = each_string,
                               .says = extra_says,
                               .apply = [](const Site& s, std::string_view place,
                                           circuit::Built& b) { return set(s, place, b, 2); },
                               .gate = gate};

}  // namespace stringwright::events
