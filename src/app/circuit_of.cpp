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
