#include <algorithm>

#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

bool says(const Fact<bool>& f, bool answer) { return f.known() && *f == answer; }

/// The circuits are said to be on or in a dwelling, and not on or in a building.
bool contradiction(const Facts& f) { return says(f.dwelling, true) && says(f.on_building, false); }

/// The ceilings that the known facts leave possible, each with the place it holds in.
std::vector<Looked<units::Voltage>> possible_ceilings(const Facts& f, const Edition& edition) {
  std::vector<Looked<units::Voltage>> all;
  const bool inside_possible = !says(f.on_building, false) || says(f.dwelling, true);
  if (inside_possible && !says(f.dwelling, false))
    all.push_back(edition.voltage_ceiling(true, true));
  if (inside_possible && !says(f.dwelling, true))
    all.push_back(edition.voltage_ceiling(true, false));
  if (!says(f.on_building, true)) all.push_back(edition.voltage_ceiling(false, false));
  return all;
}

/// The place has a ceiling of its own: dwellings lowest, other buildings higher, open ground highest.
///
///     V_max ≤ V_place
///
/// Where the place is not fully known, every ceiling that is still possible has to be kept.
///
/// Source: NFPA 70, 690.7 (2014: 690.7(C)). Proved: cases/rules/voltage_ceiling.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_max = maximum_voltage(f, edition, trail);
  auto ceilings = possible_ceilings(f, edition);
  std::sort(ceilings.begin(), ceilings.end(), [](const auto& x, const auto& y) {
    return x.value.value_or(units::Voltage{}) < y.value.value_or(units::Voltage{});
  });
  const auto lowest = read_table(trail, "V_place", "ceiling of place", ceilings.front());
  Outcome outcome = demand_at_most(trail, v_max, lowest, edition.cite("voltage.ceiling"));
  if (!v_max.value || !lowest.value) return outcome;
  outcome.also.push_back("Ceiling: " + ceilings.front().where + ".");
  if (outcome.verdict == Verdict::fail && ceilings.size() > 1 && ceilings.back().value &&
      units::at_most(*v_max.value, *ceilings.back().value)) {
    outcome = cannot_tell(contradiction(f)
                              ? "cannot tell: the circuits are said to be on or in a dwelling, and "
                                "not on or in a building."
                              : "cannot tell: whether the circuits are on or in a " +
                                    std::string(f.on_building.known() ? "dwelling" : "building") +
                                    " is not known.");
    outcome.also.push_back(ceilings.front().where + ": " +
                           words::at_most(*v_max.value, *lowest.value));
    outcome.also.push_back(ceilings.back().where + ": " +
                           words::at_most(*v_max.value, *ceilings.back().value));
  }
  return outcome;
}

}  // namespace

extern const Rule voltage_ceiling{.id = "voltage.ceiling",
                                  .title = "Voltage ceiling of the place",
                                  .aliases = "V5",
                                  .asks =
                                      "Does the maximum voltage stay at or below what the code "
                                      "allows on or in a dwelling, another building, or elsewhere?",
                                  .applies = applies,
                                  .check = check,
                                  .cites = "voltage.ceiling",
                                  .family = Asked::both};

}  // namespace stringwright::codebook
