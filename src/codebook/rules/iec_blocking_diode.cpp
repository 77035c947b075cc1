#include "codebook/methods/currents.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// A blocking diode replaces no fuse. Where one is fitted:
///
///     V_rrm ≥ 2 · V_max,    I_f ≥ 1.4 · I_sc
///
/// No key of the job names diodes: what to look for is named.
///
/// Source: IEC 62548-1, 7.2, from memory. Proved: cases/rules/iec_blocking_diode.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto k_v = use(trail, "k_rrm", "twice the voltage", edition.factor("iec.diode-reverse"));
  const auto k_i = use(trail, "k_f", "margin of current", edition.factor("iec.diode-forward"));
  const auto cite = edition.cite("iec.diode");
  const auto v_rrm = trail.let("V_rrm", "reverse voltage", k_v * v_max, cite);
  const auto i_sc = trail.given("I_sc", "I_sc of the string", f.i_sc);
  const auto i_f = trail.let("I_f", "forward current", k_i * i_sc, cite);
  std::string said = "A blocking diode in a string replaces no fuse";
  if (v_rrm.value && i_f.value)
    said += "; where one is fitted it bears " + words::plain(*v_rrm.value) + " backwards and " +
            words::plain(*i_f.value) + " forwards, on a heat sink";
  return on_site(said + ".");
}

}  // namespace

extern const Rule iec_blocking_diode{
    .id = "iec.blocking-diode",
    .title = "Blocking diodes",
    .aliases = "E7",
    .asks =
        "Where blocking diodes are fitted, do they bear twice the array voltage and the current, "
        "and does a fuse stand beside them all the same?",
    .applies = applies,
    .check = check,
    .cites = "iec.diode",
    .family = Asked::iec};

}  // namespace stringwright::codebook
