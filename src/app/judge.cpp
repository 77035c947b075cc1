#include "app/judge.hpp"

#include "base/text.hpp"
#include "check/ampacity.hpp"
#include "check/check.hpp"
#include "events/site.hpp"

namespace stringwright::app {

Judged judge(const wiring::Wiring& w, const codebook::Edition& edition,
             std::vector<std::string>& remarks) {
  Judged j;
  j.circuit = circuit_of(w, edition, remarks);
  if (j.circuit.solvable) {
    const events::Site site(w, j.circuit.models, j.circuit.resistances,
                            edition.family() == codebook::Family::iec ? codebook::Convention::gpv
                                                                      : codebook::Convention::us);
    events::TableOptions options;
    options.thorough = false;
    // Findings are about what stays for hours: the code's own factor on full sun, not the edge of a cloud.
    const auto k = edition.factor("current.irradiance-factor").value.value_or(1.25);
    options.suns = {k * units::watts_per_square_metre(1000)};
    options.ampacity = check::conductor_ampacities(w, edition);
    const auto table = events::table(site, check::events_to_judge(site), options);
    const check::Events events{site, table};
    j.report = check::check(w, edition, &events);
  } else {
    j.report = check::check(w, edition);
    if (!w.strings.empty())
      j.report.findings.push_back(check::not_solved(text::join(remarks, " ")));
  }
  return j;
}

}  // namespace stringwright::app
