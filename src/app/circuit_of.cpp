#include "app/circuit_of.hpp"

#include "check/facts.hpp"

namespace stringwright::app {

Circuit circuit_of(const wiring::Wiring& w, const codebook::Edition& edition,
                   std::vector<std::string>& remarks) {
  Circuit c;
  if (w.inputs.empty() || w.strings.empty()) return c;
  std::map<std::string, Failure> failures;
  c.models = circuit::fit_models(w, failures);
  for (const auto& [id, failure] : failures)
    remarks.push_back("Module " + id + " has no model: " + failure.message + " [" + failure.id +
                      "]");
  if (!failures.empty()) return c;

  std::string converters;
  for (const auto& s : w.strings) {
    if (s.electronics.empty()) continue;
    const parts::Part* part = w.part_of(s.electronics.front());
    if (part && part->does && *part->does == parts::ElectronicsKind::rapid_shutdown) continue;
    converters += (converters.empty() ? "" : ", ") + s.id;
  }
  if (!converters.empty()) {
    remarks.push_back(
        "The units at the modules of " + converters +
        " give other volts and amperes than the modules, or may: the circuit can't be "
        "solved, and no voltage or current of these strings is told. Their maker's "
        "design limits decide.");
    return c;
  }

  std::string dark;
  for (const auto& d : w.devices)
    if (!d.rear_gain && dark.find(d.part) == std::string::npos)
      dark += (dark.empty() ? "" : ", ") + d.part;
  if (!dark.empty())
    remarks.push_back("Solved without light on the rear side of " + dark +
                      ": the surface's rear_sun is not known, so currents are higher than shown.");

  const auto known = check::conductor_resistances(w, edition);
  std::string unknown;
  for (std::size_t i = 0; i < known.size(); ++i) {
    c.resistances.push_back(known[i].value_or(units::Resistance{}));
    const bool carries = w.conductors[i].pole != wiring::Pole::ground &&
                         w.conductors[i].kind != wiring::ConductorKind::arrester;
    if (!known[i] && carries) unknown += (unknown.empty() ? "" : ", ") + w.conductors[i].id;
  }
  if (!unknown.empty())
    remarks.push_back("Solved without the resistance of " + unknown +
                      ": wire or length is not known.");
  c.solvable = true;
  return c;
}

}  // namespace stringwright::app
