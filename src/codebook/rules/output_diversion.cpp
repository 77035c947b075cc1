#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment; }

///     I_div ≥ k_div · I_src,    I_w ≥ k_div · I_dmax,    I_dev2 ≥ k_div · I_dmax
///
/// I_src   greatest output current of the charge source [A]
/// I_div   current the diversion load takes without end [A]
/// I_dmax  greatest current through the load, the controller's rating: here what the source gives [A]
///
/// Source: NFPA 70, 690.72(B) (later 706). Proved: cases/rules/output_diversion.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.behind.diversion.known() || !*f.behind.diversion)
    return not_applicable("The job has no diversion load.");
  const auto source = edition.cite("output.diversion");
  Demands demands(trail);
  const auto k = use(trail, "k_div", "half as much again", edition.factor("diversion.factor"));
  const auto i_src = trail.given("I_src", "charge source", f.behind.source);
  const auto need = trail.let("I_150", "must take", k * i_src, source);
  const auto load = trail.given("I_div", "diversion load", f.behind.diversion_load);
  demands.add(demand_at_least(trail, load, need, source));
  const auto wire = trail.given("I_w", "its conductors carry", f.behind.diversion_wire);
  demands.add(demand_at_least(trail, wire, need, source));
  const auto device = trail.given("I_dev2", "its device", f.behind.diversion_device);
  demands.add(demand_at_least(trail, device, need, source));
  demands.ask(f.behind.second_means,
              {"a second, independent means guards the battery",
               "no second means guards the battery from overcharge",
               "whether a second, independent means guards the battery"},
              source);
  return demands.outcome("Say it in the record of the diversion load.");
}

}  // namespace

extern const Rule output_diversion{
    .id = "output.diversion",
    .title = "Diversion load",
    .aliases = "K7",
    .asks =
        "Does a diversion load take half as much again as the source gives, with conductors and "
        "device to match, and is there a second means against overcharge?",
    .applies = applies,
    .check = check,
    .cites = "output.diversion"};

}  // namespace stringwright::codebook
