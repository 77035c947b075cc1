#include <string>

#include "check/common.hpp"
#include "job/find.hpp"

/// What stands behind the PV inputs of each piece of equipment, and what is decided once for the array.
namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using wiring::Wiring;

void fill(const job::Equipment& e, Facts& f) {
  const std::string from = "equipment." + e.id;
  auto& b = f.behind;
  b.kind = choice(e.kind, from);
  b.motor_disconnect = Fact<bool>(e.motor_disconnect, from);
  if (e.battery) {
    b.v_nominal = Fact<units::Voltage>(e.battery->v_nominal, from + ".battery");
    b.energy = Fact<units::Energy>(e.battery->energy, from + ".battery");
    b.cells = choice(e.battery->cells, from + ".battery");
    b.guarded = Fact<bool>(e.battery->guarded, from + ".battery");
    b.leaves = Fact<bool>(e.battery->leaves, from + ".battery");
    b.device = Fact<bool>(e.battery->device, from + ".battery");
    b.disconnect = Fact<bool>(e.battery->disconnect, from + ".battery");
  }
  b.output_given = Fact<bool>(e.output.has_value(), from);
  if (e.output) {
    b.i_out = Fact<units::Current>(e.output->i_max, from + ".output");
    b.out_device = Fact<units::Current>(e.output->device, from + ".output");
    b.at_battery = Fact<bool>(e.output->at_battery, from + ".output");
    f.wire = Fact<units::Wire>(e.output->wire, from + ".output");
    f.terminals = Fact<units::Temperature>(e.output->terminals, from + ".output");
  }
  b.centre_given = Fact<bool>(e.centre.has_value(), from);
  if (e.centre) {
    b.centre_listed = Fact<bool>(e.centre->listed, from + ".centre");
    b.centre_volts = Fact<units::Voltage>(e.centre->v_dc, from + ".centre");
    b.centre_bus = Fact<units::Current>(e.centre->bus_rating, from + ".centre");
    b.centre_devices = Fact<units::Current>(e.centre->devices, from + ".centre");
    b.battery_switch = Fact<bool>(e.centre->battery_switch, from + ".centre");
  }
  b.diversion = Fact<bool>(e.diversion.has_value(), from);
  if (e.diversion) {
    b.source = Fact<units::Current>(e.diversion->source, from + ".diversion");
    b.diversion_load = Fact<units::Current>(e.diversion->load, from + ".diversion");
    b.diversion_wire = Fact<units::Current>(e.diversion->wire_ampacity, from + ".diversion");
    b.diversion_device = Fact<units::Current>(e.diversion->device, from + ".diversion");
    b.second_means = Fact<bool>(e.diversion->second_means, from + ".diversion");
  }
}

}  // namespace

void add_what_stands_behind(const Wiring& w, std::vector<Judged>& all) {
  for (const auto& e : w.job.equipment) {
    Judged& j = of_thing(all, Subject::equipment, e.id, e.span);
    add_site(w, j.facts);
    for (std::size_t i = 0; i < w.inputs.size(); ++i) {
      if (w.inputs[i].equipment != e.id) continue;
      const auto strings = strings_at(w, w.inputs[i]);
      if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, j.facts);
      add_parallel(w, strings, "wiring", j.facts);
      add_equipment(w, static_cast<int>(i), j.facts);
      break;
    }
    fill(e, j.facts);
  }
  Judged& j = of_thing(all, Subject::array, "array", w.job.grounding.span);
  add_site(w, j.facts);
  bool fitted = false;
  for (const auto& s : w.strings)
    fitted =
        fitted || (s.device >= 0 && !w.devices[static_cast<std::size_t>(s.device)].part.empty());
  j.facts.fitted = Fact<bool>(fitted, "job");
}

}  // namespace stringwright::check
