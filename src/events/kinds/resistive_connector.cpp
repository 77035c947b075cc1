#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"
#include "events/table.hpp"
#include "units/print.hpp"

namespace stringwright::events {
namespace {

/// A pair of plugs gone bad; a sound one has well under 1 mΩ. Common practice, no source.
constexpr double bad_contact_ohms = 0.05;

Result<std::string> says(const Site& s, std::string_view place) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  return "a plug of " + s.w.strings[*string].id + " has 50 mΩ";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  Applied a;
  a.hot_spot = units::ohms(bad_contact_ohms);
  a.fault =
      circuit::faults::in_series(b, b.module[s.w.strings[*string].modules.front()], a.hot_spot);
  return a;
}

void tell(const Site&, Row& r) {
  if (!r.heat) return;
  r.verdict = units::print(*r.heat, 0) + " in the plug; no device can see it";
  r.danger = Danger::silent;
  r.notes.push_back("At 5 mΩ " + units::print(0.1 * *r.heat, 1) +
                    "; a sound pair of plugs has well under 1 mΩ.");
}

}  // namespace

extern const Kind resistive_connector{.id = "resistive-connector",
                                      .title = "Resistive connector",
                                      .cause = Cause::equipment,
                                      .load = Load::working,
                                      .places = each_string,
                                      .says = says,
                                      .apply = apply,
                                      .overcurrent = false,
                                      .tell = tell};

}  // namespace stringwright::events
