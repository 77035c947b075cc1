#include <algorithm>
#include <cmath>

#include "codebook/iec_tables.hpp"
#include "codebook/methods/iec.hpp"

namespace stringwright::codebook::iec {
namespace {

bool raceway(const std::string& method) {
  return method != "free-air" && method != "tray" && method != "buried";
}

std::string name_of(const Facts& facts, std::size_t i) {
  const auto& method = facts.stretches[i].method;
  return "stretch " + std::to_string(i + 1) + (method.known() ? " (" + *method + ")" : "");
}

/// The column of a cable's insulation; empty for types without a table in this family.
std::optional<units::Temperature> column_of(const std::string& insulation) {
  if (insulation == "PV" || insulation == "XLPE") return units::celsius(90);
  if (insulation == "PVC") return units::celsius(70);
  return std::nullopt;
}

/// Air around the conductor: hotter behind modules, and in the sun over a roof.
Traced<units::Temperature> air(const Facts& facts, const StretchFacts& s, const std::string& name,
                               const Edition& edition, Trail& trail) {
  auto t_a = trail.given("T_a", "ambient", s.ambient);
  if (!t_a.value) {
    t_a.missing = {"ambient of " + name};
    return t_a;
  }
  if (facts.subject == Subject::string_circuit && *s.method == "free-air") {
    const auto least = edition.temperature("iec.behind-modules");
    const auto t_m = use(trail, "T_m", "behind modules", least);
    if (t_m.value && *t_a.value < *t_m.value) return t_m;
  }
  if (!s.above_roof) return t_a;
  const auto sun =
      use(trail, "ΔT_roof", "in the sun", edition.limit<units::dim::kelvin>("iec.sunlit"));
  return trail.let("T_c", "at the cable", t_a + sun);
}

Traced<units::Ratio> grouped(const StretchFacts& s, const std::string& name, const Edition& edition,
                             Trail& trail) {
  const auto n = trail.given("n", "number of wires", s.wires);
  if (!n.value) return not_known<units::Ratio>("k_N", {"number of wires together in " + name});
  const int circuits =
      std::max(1, static_cast<int>(std::ceil(n.value->in(units::plain) / 2 - 1e-9)));
  const std::string_view arrangement = *s.method == "tray" ? "tray" : "bunched";
  return read_table(trail, "k_N", "grouping", grouping_factor(edition, arrangement, circuits));
}

Traced<units::Current> stretch(const Facts& facts, std::size_t i, const Edition& edition,
                               Trail& trail) {
  const StretchFacts& s = facts.stretches[i];
  const std::string name = name_of(facts, i);
  const auto missing = [](std::string what) {
    return not_known<units::Current>("I_z", {std::move(what)});
  };
  if (!s.method.known()) return missing("wiring method of " + name);
  if (*s.method == "buried")
    return missing("capacity of a buried cable (no table of it is held here)");
  const auto column = column_of(facts.wire->insulation);
  if (!column)
    return missing(
        "capacity of insulation " +
        (facts.wire->insulation.empty() ? std::string("not named") : facts.wire->insulation) +
        " (no table of the IEC family; PV, XLPE and PVC have one)");
  const bool open = !raceway(*s.method);
  const bool pv = facts.wire->insulation == "PV" && open;
  const auto t = air(facts, s, name, edition, trail);
  const auto i_i = read_table(trail, "I_i", "cable as laid",
                              pv ? pv_cable_capacity(edition, facts.wire->size, "two_touching")
                                 : cable_capacity(edition, facts.wire->size, facts.wire->metal,
                                                  open ? "c" : "b1", *column));
  auto k_t = not_known<units::Ratio>("k_T", t.missing);
  if (t.value)
    k_t = read_table(
        trail, "k_T", "heat",
        pv ? pv_cable_factor(edition, *t.value) : ambient_factor(edition, *t.value, *column));
  const auto k_n = grouped(s, name, edition, trail);
  return trail.let("I_z", "in this stretch", i_i * k_t * k_n, edition.cite("iec.cable-current"));
}

}  // namespace

Capacity capacity(const Facts& facts, const Edition& edition, Trail& trail) {
  Capacity found;
  if (!facts.wire.known()) {
    found.i_u = not_known<units::Current>("I_u", {"conductor"});
    return found;
  }
  if (facts.stretches.empty()) {
    found.i_u = not_known<units::Current>("I_u", {"way of the conductor"});
    return found;
  }
  found.all_known = true;
  std::size_t worst = 0;
  std::optional<units::Current> least;
  for (std::size_t i = 0; i < facts.stretches.size(); ++i) {
    Trail aside;
    const auto i_z = stretch(facts, i, edition, aside);
    if (!i_z.value) {
      found.all_known = false;
      if (!least) worst = i;
      continue;
    }
    if (!least || *i_z.value < *least) {
      least = *i_z.value;
      worst = i;
    }
  }
  if (facts.stretches.size() > 1)
    trail.note("Of " + std::to_string(facts.stretches.size()) + " stretches, " +
               name_of(facts, worst) + " decides.");
  const auto i_z = stretch(facts, worst, edition, trail);
  const bool hot = facts.terminals.known() && facts.terminals->celsius() >= 90 - 1e-9;
  if (facts.terminals.known()) trail.given("T_term", "coolest terminal", facts.terminals);
  const auto i_t = read_table(trail, "I_t", "terminal column",
                              cable_capacity(edition, facts.wire->size, facts.wire->metal, "b1",
                                             units::celsius(hot ? 90 : 70)));
  found.label =
      i_z.value && i_t.value && *i_t.value < *i_z.value ? "terminals" : name_of(facts, worst);
  found.i_u = trail.let("I_u", "may carry", lesser(i_z, i_t));
  return found;
}

}  // namespace stringwright::codebook::iec
