#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment; }

///     I_req = k_dty · I_out,    I_n ≥ I_req,    I_t ≥ I_req
///
/// I_out  rated continuous output current [A]
/// I_t    ampacity in the column of the coolest terminal; conditions along its way are not judged [A]
///
/// Source: NFPA 70, 690.72, 215, 706. Proved: cases/rules/output_controller.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.battery.known() && !*f.battery) return not_applicable("It charges no battery.");
  if (!f.behind.output_given.known() || !*f.behind.output_given) {
    Outcome o = cannot_tell("cannot tell: the controller's output circuit is not described.");
    o.also.push_back(
        "Its conductors and its device carry 1.25 times its rated output, and the device "
        "stands at the battery. Say it as output of the equipment.");
    return o;
  }
  const auto source = edition.cite("output.controller");
  Demands demands(trail);
  const auto k = use(trail, "k_dty", "continuous duty", edition.factor("load.continuous-factor"));
  const auto i_out = trail.given("I_out", "controller output", f.behind.i_out);
  const auto i_req = trail.let("I_req", "must carry", k * i_out, source);
  const auto i_n = trail.given("I_n", "output device", f.behind.out_device);
  demands.add(demand_at_least(trail, i_n, i_req, source));
  if (!f.wire.known()) {
    demands.add(cannot_tell("cannot tell: the conductors of the output are not known."));
  } else {
    const auto terminal = terminal_ampacity(f, edition, trail, i_req);
    demands.add(demand_at_least(trail, terminal.i_t, i_req, source));
    const auto most = largest_device(f, edition, trail, terminal.i_t);
    demands.add(demand_at_most(trail, i_n, most, edition.cite("conductor.protection")));
  }
  demands.ask(
      f.behind.at_battery,
      {"its device stands at the battery's end", "its device does not stand at the battery's end",
       "whether its device stands at the battery's end"},
      source);
  Outcome o = demands.outcome("Say it in the record of the output.");
  return o;
}

}  // namespace

extern const Rule output_controller{
    .id = "output.controller",
    .title = "Output of the charge controller",
    .aliases = "K4",
    .asks =
        "Do conductors and device of the controller's output carry its rated current all day, "
        "with the device at the battery's end?",
    .applies = applies,
    .check = check,
    .cites = "output.controller conductor.protection"};

}  // namespace stringwright::codebook
