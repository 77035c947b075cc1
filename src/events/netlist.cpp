#include "events/netlist.hpp"

#include <set>
#include <vector>

#include "circuit/netlist.hpp"
#include "units/print.hpp"

namespace stringwright::events {

Result<std::string> netlist(Trials& trials, const Event* event, const Sky& sky) {
  const Site& s = trials.site();
  auto faulted = event ? trials.network(*event, sky) : trials.sound_network(Load::working, sky);
  if (!faulted) return faulted.failure();
  const auto& b = faulted->built;
  const auto names = circuit::node_names(b.network);

  // A title line ends at its first line break; what follows are comments.
  std::string head = s.w.job.job.name.value_or("job") + ", " +
                     (event ? event->id + ", " + event->title : "as designed") + ", " +
                     units::print(sky.sun, 0) + ", cells " + units::print(sky.cell) + "\n";
  head +=
      "* A current is positive from line to load in a device, out of the plus end in a string, "
      "from the source\n"
      "* side in a conductor; a fault's as it leaves the first of its two nodes. Volts are against "
      "n(minus input).\n";
  std::vector<std::string> print;
  const auto current = [&](int element, const std::string& what) {
    if (element < 0) return;
    print.push_back("i(vi" + std::to_string(element) + ")");
    head += "* " + print.back() + ": " + what + "\n";
  };
  for (std::size_t p = 0; p < s.poles.size(); ++p) current(faulted->pole[p], s.poles[p].name);
  for (const auto& string : s.w.strings)
    if (!string.modules.empty())
      current(b.module[static_cast<std::size_t>(string.modules.back())], "string " + string.id);
  for (std::size_t c = 0; c < s.w.conductors.size(); ++c)
    if (s.w.conductors[c].kind != wiring::ConductorKind::lead &&
        s.w.conductors[c].kind != wiring::ConductorKind::finger)
      current(b.conductor[c], "conductor " + s.w.conductors[c].id);
  current(faulted->applied.fault, "the fault");
  std::set<std::string> said;
  for (std::size_t t = 0; t < s.w.terminals.size(); ++t) {
    const auto& device = s.w.devices[static_cast<std::size_t>(s.w.terminals[t].device)];
    if (device.spare || device.kind == wiring::DeviceKind::module) continue;
    const std::string& node = names[static_cast<std::size_t>(b.node[t])];
    if (node == "0" || !said.insert(node).second) continue;
    print.push_back("v(" + node + ")");
    head += "* " + print.back() + ": terminal " + s.w.terminals[t].id + "\n";
  }
  head.pop_back();
  return circuit::netlist(b.network, head, print, false);
}

}  // namespace stringwright::events
