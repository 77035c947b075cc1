#include <set>

#include "job/find.hpp"
#include "wiring/builder.hpp"

namespace stringwright::wiring {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// Joins two terminals through a device of its own, with links that are no wires.
void add(Builder& b, const std::string& owner, Pole pole, int at_pole, int at_ground, Span span) {
  if (at_pole < 0 || at_ground < 0) return;
  const int bond = b.device(DeviceKind::bond, owner + ".bond", "bond", owner, span);
  const int p = b.terminal(bond, "pole", pole == Pole::plus ? "+" : "−", pole);
  const int g = b.terminal(bond, "ground", "PE", Pole::ground);
  b.conductor(ConductorKind::finger, owner + ".bond.pole", "", pole, at_pole, p, span);
  b.conductor(ConductorKind::finger, owner + ".bond.ground", "", Pole::ground, at_ground, g, span);
}

/// At the first input of equipment: a bond inside it, or one behind it that reaches the array's pole.
void add_at_equipment(Builder& b, const job::Equipment& e, const std::string& owner, Pole pole,
                      Span span) {
  for (const auto& in : b.w.inputs) {
    if (in.equipment != e.id) continue;
    add(b, owner, pole, b.w.find_terminal(in.id + (pole == Pole::plus ? ".plus" : ".minus")),
        b.w.find_terminal(in.id + ".ground"), span);
    return;
  }
}

void add_in_box(Builder& b, const BoxCircuit& box, Pole pole, Span span) {
  const int bar = pole == Pole::plus ? box.bus_plus : box.bus_minus;
  if (bar < 0 || box.bar_ground < 0) return;
  add(b, box.id, pole, b.w.devices[at(bar)].terminals.front(),
      b.w.devices[at(box.bar_ground)].terminals.front(), span);
}

}  // namespace

/// The owner of the system bond first, then every other place that the job says is bonded: each is a
/// path of its own. A bond behind equipment reaches the array unless input and output are isolated.
void add_bonds(Builder& b) {
  const job::Job& j = b.w.job;
  const auto& g = j.grounding;
  if (!g.scheme || *g.scheme == job::Scheme::ungrounded || !g.pole) return;
  const Pole pole = *g.pole == job::Pole::plus ? Pole::plus : Pole::minus;
  const auto is_owner = [&](const std::string& place) { return g.bond && *g.bond == place; };

  for (const bool owner : {true, false}) {
    for (const auto& e : j.equipment) {
      if (owner ? is_owner(e.id) : e.bond_inside.value_or(false) && !is_owner(e.id))
        add_at_equipment(b, e, e.id, pole, owner ? g.bond.span : e.bond_inside.span);
      if (e.isolated.value_or(false)) continue;
      const std::string own = e.id + ".battery";
      const std::string centre = e.load_centre.value_or("");
      const bool here = (e.battery && (is_owner("battery") || is_owner(own))) ||
                        (!centre.empty() && is_owner(centre));
      if (owner ? here : e.battery && e.battery->bonded.value_or(false) && !here)
        add_at_equipment(b, e, is_owner(centre) ? e.id + "." + centre : own, pole,
                         owner ? g.bond.span : e.battery->bonded.span);
    }
    for (std::size_t i = 0; i < j.box.size(); ++i) {
      const job::Box& box = j.box[i];
      if (owner ? is_owner(box.id) : box.bonded.value_or(false) && !is_owner(box.id))
        add_in_box(b, b.w.boxes[i], pole, owner ? g.bond.span : box.bonded.span);
    }
  }
}

}  // namespace stringwright::wiring
