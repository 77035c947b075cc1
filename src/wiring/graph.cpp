#include <cassert>

#include "job/find.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::wiring {
namespace {

template <class List>
int index_of(const List& list, std::string_view id) {
  for (std::size_t i = 0; i < list.size(); ++i)
    if (list[i].id == id) return static_cast<int>(i);
  return -1;
}

std::string counted(int n, const std::string& one, const std::string& many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

}  // namespace

const parts::Module& Wiring::module_of(int device) const {
  const auto& d = devices[static_cast<std::size_t>(device)];
  const parts::Module* m = job::find(job.module, d.part);
  assert(d.kind == DeviceKind::module && m && "the reader resolves every module reference");
  return *m;
}

const parts::Part* Wiring::part_of(int device) const {
  return device < 0 ? nullptr : job::find(job.part, devices[static_cast<std::size_t>(device)].part);
}

int Wiring::find_device(std::string_view id) const { return index_of(devices, id); }
int Wiring::find_terminal(std::string_view id) const { return index_of(terminals, id); }
int Wiring::find_conductor(std::string_view id) const { return index_of(conductors, id); }

Counts count(const Wiring& w) {
  Counts n;
  n.strings = static_cast<int>(w.strings.size());
  for (const auto& b : w.boxes) n.boxes += !b.branch;
  for (const auto& d : w.devices) {
    n.modules += d.kind == DeviceKind::module;
    n.devices += d.kind == DeviceKind::protector && !d.spare && d.number > 0;
  }
  for (const auto& c : w.conductors) {
    if (c.kind == ConductorKind::home_run) n.string_wires += c.parallel;
    if (c.kind == ConductorKind::output || c.kind == ConductorKind::equipment_ground)
      n.output_wires += c.parallel;
  }
  return n;
}

std::string counts_line(const Wiring& w) {
  const Counts n = count(w);
  std::string line =
      counted(n.modules, "module", "modules") + " · " + counted(n.strings, "string", "strings");
  if (n.boxes != 1) line += " · " + counted(n.boxes, "box", "boxes");
  line += " · " + counted(n.devices, "string device", "string devices") + " · " +
          counted(n.string_wires, "string wire", "string wires") + " · " +
          std::to_string(n.output_wires) + " down";
  return line;
}

std::string colour(const Wiring& w, const Conductor& c) {
  if (!c.colour.empty()) return c.colour;
  if (c.pole == Pole::ground) {
    const bool bare = c.wire.known() && c.wire->insulation == "bare";
    const bool iec = w.job.job.edition.value_or("").starts_with("iec_");
    return bare ? "bare" : iec ? "green-yellow" : "green";
  }
  const auto& g = w.job.grounding;
  // Before 2017 a pole grounded through a fuse counts as grounded too: 200.6(A)(6) of 2014.
  const bool fuse_counts = w.job.job.edition.value_or("") == "nec_2014";
  const bool solid =
      g.scheme && g.pole &&
      (*g.scheme == job::Scheme::solid || (fuse_counts && *g.scheme == job::Scheme::functional));
  const bool grounded_pole = solid && ((*g.pole == job::Pole::plus) == (c.pole == Pole::plus));
  if (grounded_pole) return "white";
  return c.pole == Pole::plus ? "red" : "black";
}

}  // namespace stringwright::wiring
