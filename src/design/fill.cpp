#include "design/fill.hpp"

#include <algorithm>

#include "check/check.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::design {
namespace {

/// Smallest copper conductor of the circuit's own series of sizes that the rule passes as the ground of this box's output.
std::optional<units::Wire> smallest_ground(const wiring::Wiring& w, const wiring::BoxCircuit& box,
                                           const codebook::Rule& rule,
                                           const codebook::Edition& edition) {
  const auto& poles = w.conductors[static_cast<std::size_t>(box.out_plus)].wire;
  check::Judged judged = check::equipment_ground_facts(w, box);
  const bool metric =
      poles.known() ? poles->size.metric() : edition.family() == codebook::Family::iec;
  const auto& sizes = metric ? units::WireSize::metric_series() : units::WireSize::american();
  for (const auto& size : sizes) {
    units::Wire wire;
    wire.size = size;
    wire.metal = units::Metal::copper;
    // It lies in the same raceway as the poles: the same insulation suits the place.
    wire.insulation = poles.known() ? poles->insulation : "";
    judged.facts.wire = codebook::Fact<units::Wire>(wire, "tried");
    const check::Finding f = check::ask(rule, judged, edition);
    if (f.outcome.verdict == trail::Verdict::pass) return wire;
    if (f.outcome.verdict == trail::Verdict::cannot_tell) return {};
  }
  return {};
}

}  // namespace

Design fill(const job::Job& job, const codebook::Edition& edition) {
  Design d{job, {}};
  const bool open =
      std::any_of(job.run.begin(), job.run.end(), [](const auto& r) { return r.wire.egc.choose; });
  const codebook::Rule* rule = codebook::find_rule(
      edition.family() == codebook::Family::iec ? "iec.protective-conductor" : "egc.size");
  if (!open || !rule) return d;

  Diagnostics
      ignored;  // the caller builds the finished design again and reports what is wrong with it
  const wiring::Wiring w = wiring::build(job, ignored);
  for (const auto& box : w.boxes) {
    if (box.out_ground < 0) continue;
    const auto& conductor = w.conductors[static_cast<std::size_t>(box.out_ground)];
    if (!conductor.wire.choose) continue;
    const auto wire = smallest_ground(w, box, *rule, edition);
    if (!wire) continue;
    for (auto& run : d.job.run) {
      if (run.id != conductor.run) continue;
      const Span span = run.wire.egc.span;
      run.wire.egc = Given<units::Wire>(*wire, span);
      d.choices.push_back({"run." + run.id + ".wire.egc", wire->print(),
                           "the smallest copper size that passes " + std::string(rule->id), span});
    }
  }
  return d;
}

}  // namespace stringwright::design
