#include "design/bom.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>

#include "base/text.hpp"
#include "job/find.hpp"
#include "units/print.hpp"

namespace stringwright::design {
namespace {

using parts::Part;
using parts::PartKind;
using wiring::ConductorKind;
using wiring::DeviceKind;
using wiring::Wiring;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// Allowance on conductors that are cut from a length. Common practice, no source.
constexpr double wire_allowance = 1.05;

std::string listed(std::vector<std::string> names) {
  constexpr std::size_t most = 6;
  const std::size_t n = names.size();
  if (n > most) {
    names.resize(most);
    names.push_back("and " + std::to_string(n - most) + " more");
  }
  return text::join(names, ", ");
}

class Counter {
 public:
  Counter(const Wiring& w, const CutPlan& cuts, const parts::Library& library)
      : w_(w), cuts_(cuts), library_(library) {}

  Bom count() {
    modules();
    boxes();
    devices();
    cables();
    conductors();
    raceways();
    reliefs();
    labels();
    tools();
    spares();
    not_counted();
    return std::move(bom_);
  }

 private:
  const Part* part(const std::string& id) const {
    const Part* p = job::find(w_.job.part, id);
    return p ? p : job::find(library_.parts, id);
  }
  const Part* first_of(PartKind kind, const std::function<bool(const Part&)>& fits) const {
    for (const auto* from : {&w_.job.part, &library_.parts})
      for (const auto& p : *from)
        if (p.kind && *p.kind == kind && fits(p)) return &p;
    return nullptr;
  }

  BomLine& add(std::string group, double quantity, std::string what) {
    BomLine line;
    line.group = std::move(group);
    line.quantity = quantity;
    line.what = std::move(what);
    bom_.lines.push_back(std::move(line));
    return bom_.lines.back();
  }
  void of_part(BomLine& line, const Part* p) const {
    if (!p) return;
    line.part = p->id;
    if (p->title) line.what = *p->title;
    if (!p->price) return;
    const double share =
        p->price_per ? line.quantity / p->price_per->in(units::metres) : line.quantity;
    line.price = parts::Price{
        static_cast<std::int64_t>(std::llround(share * static_cast<double>(p->price->hundredths))),
        p->price->currency};
  }

  void modules() {
    std::map<std::string, int> counts;
    for (const auto& d : w_.devices)
      if (d.kind == DeviceKind::module) ++counts[d.part];
    for (const auto& [id, count] : counts) {
      auto& line = add("Modules", count, "module " + id);
      line.part = id;
      const auto* m = job::find(w_.job.module, id);
      if (m && m->p_max) line.what += ", " + units::print(*m->p_max);
      if (m && m->family) line.what += ", plugs " + *m->family;
    }
  }

  void boxes() {
    for (const auto& box : w_.boxes) {
      const Part* p = part(box.part);
      auto& line =
          add("Box and devices", 1,
              box.part.empty() ? "combiner box, still to be chosen" : "combiner box " + box.part);
      line.part = box.part;
      of_part(line, p);
      line.where = box.id;
      if (p && p->enclosure) line.note = "enclosure type " + *p->enclosure;
      if (p && p->slots) {
        const int used =
            static_cast<int>(std::count_if(box.devices.begin(), box.devices.end(),
                                           [&](int d) { return !w_.devices[at(d)].spare; }));
        if (*p->slots > used)
          add("Box and devices", *p->slots - used, "blank or cover for an unused slot").where =
              box.id;
      }
    }
  }

  static std::string torque_of(const Part* p) {
    if (p && p->line.torque) return units::print(*p->line.torque);
    return "by marking";
  }

  void devices() {
    std::map<std::string, std::vector<std::string>> users;
    std::map<std::string, int> poles;
    for (const auto& d : w_.devices) {
      const bool counted =
          (d.kind == DeviceKind::protector && !d.spare) || d.kind == DeviceKind::arrester;
      if (!counted) continue;
      users[d.part].push_back(d.owner + " " + d.label);
      poles[d.part] = d.poles;
    }
    for (const auto& [id, where] : users) {
      const Part* p = part(id);
      // Fuses are single: a circuit of two poles takes two of them.
      const bool fuse = p && p->kind && *p->kind == PartKind::fuse;
      const int each = fuse ? std::max(1, poles[id] / std::max(1, p->poles.value_or(1))) : 1;
      auto& line = add("Box and devices", static_cast<double>(where.size()) * each,
                       id.empty() ? "device, still to be chosen" : id);
      line.part = id;
      of_part(line, p);
      line.where = listed(where);
      line.torque = torque_of(p);
      if (p && p->rating && p->v_dc_pole)
        line.note = units::print(*p->rating) + ", " + units::print(*p->v_dc_pole) + " d.c. a pole" +
                    (p->poles ? ", " + std::to_string(*p->poles) + " poles" : "");
      if (fuse) {
        auto& holder = add("Box and devices", line.quantity, "fuse holder for " + id);
        holder.where = bom_.lines[bom_.lines.size() - 2].where;
        holder.note = "where the box does not bring its own; never opened under load";
        const Part* h = first_of(PartKind::holder, [&](const Part& x) {
          return x.poles && *x.poles == 1 && x.v_dc_pole && p->v_dc_pole &&
                 *x.v_dc_pole >= *p->v_dc_pole && x.rating && p->rating && *x.rating >= *p->rating;
        });
        if (h) holder.part = h->id;
      }
    }
  }

  void cables() {
    for (const auto& b : cuts_.buy) {
      auto& line = add("Cable of home runs", b.count, b.title.empty() ? b.part : b.title);
      of_part(line, part(b.part));
      line.part = b.part;
      if (!b.title.empty()) line.what = b.title;
      line.note = "by the cut list";
      const Part* p = part(b.part);
      if (!p || !p->kind || *p->kind != PartKind::wire) continue;
      line.quantity = std::ceil(b.length.in(units::metres));
      line.unit = "m";
    }
    std::map<std::pair<std::string, std::string>, int> fitted;
    for (const auto& r : cuts_.reel) ++fitted[{r.family, r.wire.print()}];
    for (const auto& [key, count] : fitted) {
      auto& line = add("Cable of home runs", count,
                       "connectors of family " + key.first + " for " + key.second);
      line.note = "pin or socket by the module's plug; crimped with their maker's tool";
    }
    for (const auto& why : cuts_.cannot_tell) bom_.remarks.push_back("Cable not counted: " + why);
  }

  void conductors() {
    std::map<std::string, std::pair<units::Length, std::vector<std::string>>> by_wire;
    std::set<std::string> unknown;
    for (const auto& c : w_.conductors) {
      const bool counted = c.kind == ConductorKind::output ||
                           c.kind == ConductorKind::equipment_ground ||
                           c.kind == ConductorKind::rack_bond || c.kind == ConductorKind::arrester;
      if (!counted) continue;
      if (!c.wire) {
        unknown.insert(c.tag + ": conductor " + (c.wire.choose ? "still open" : "not known"));
        continue;
      }
      if (!c.length) {
        unknown.insert(c.tag + ": " + c.wire->print() + ", length not known");
        continue;
      }
      auto& [length, tags] =
          by_wire[c.wire->print() + (c.pole == wiring::Pole::ground && c.wire->insulation != "bare"
                                         ? ", green"
                                         : "")];
      length += *c.length;
      tags.push_back(c.tag);
    }
    for (const auto& [words, use] : by_wire) {
      const std::string wire = words.substr(0, words.find(','));
      auto& line = add("Conductors", std::ceil(use.first.in(units::metres)*wire_allowance), words);
      line.unit = "m";
      line.where = listed(use.second);
      line.note = "with 5 % to spare";
      const Part* p = first_of(PartKind::wire,
                               [&](const Part& x) { return x.wire && x.wire->print() == wire; });
      if (!p) continue;
      of_part(line, p);
      line.what = words;
    }
    for (const auto& u : unknown) bom_.remarks.push_back("Wire not counted: " + u + ".");
  }

  void raceways() {
    struct Use {
      units::Length length;
      int bends = 0, ends = 0;
      std::vector<std::string> runs;
    };
    std::map<std::pair<std::string, std::string>, Use> by_size;
    for (const auto& run : w_.job.run) {
      const job::Segment* last = nullptr;
      for (const auto& s : run.segment) {
        if (!s.in || *s.in == "free-air" || *s.in == "tray" || *s.in == "buried") continue;
        if (!s.size || !s.length) {
          bom_.remarks.push_back("Raceway of run " + run.id +
                                 " not counted: " + (s.size ? "length" : "size") + " not known.");
          continue;
        }
        auto& use = by_size[{*s.in, s.size->table_name()}];
        use.length += *s.length;
        for (const auto& b : s.bends.value_or({}))
          use.bends += static_cast<int>(std::lround(b.in(units::degrees) / 90.0));
        if (use.runs.empty() || use.runs.back() != run.id) use.runs.push_back(run.id);
        if (!last) ++use.ends;
        last = &s;
      }
      if (last) ++by_size[{*last->in, last->size->table_name()}].ends;
    }
    for (const auto& [key, use] : by_size) {
      const auto& [method, size] = key;
      const auto is = [&](const Part& p, const char* form) {
        return p.method && *p.method == method && p.trade_size &&
               p.trade_size->table_name() == size &&
               (!form || (p.form && text::starts_with(*p.form, form)));
      };
      const Part* stick =
          first_of(PartKind::conduit, [&](const Part& p) { return is(p, nullptr); });
      const bool sticks = stick && stick->length;
      const double count = sticks ? std::ceil(use.length.si() / stick->length->si() - 1e-9)
                                  : std::ceil(use.length.in(units::metres)*wire_allowance);
      auto& line = add("Raceway", count, method + " " + size + " in");
      line.unit = sticks ? "" : "m";
      of_part(line, stick);
      line.where = listed(use.runs);
      line.note = units::print(use.length) + " in all";
      const auto fitting = [&](double n, const char* form, const std::string& note) {
        if (n <= 0) return;
        auto& f = add("Raceway", n, std::string(form) + " for " + method + " " + size + " in");
        of_part(f, first_of(PartKind::fitting, [&](const Part& p) { return is(p, form); }));
        f.where = listed(use.runs);
        f.note = note;
      };
      fitting(use.ends, "hub", "wet-rated where it enters outdoors, from below");
      fitting(use.ends, "bushing", "");
      fitting(use.bends, "elbow", "factory bends; count of 90° on the drawing");
      if (sticks) fitting(count - 1 + use.bends, "coupling", "fewer where sticks have a bell end");
    }
  }

  void reliefs() {
    for (const auto& box : w_.boxes) {
      std::set<std::string> wires;
      int cables = 0;
      for (const int s : box.strings)
        for (const int c : {w_.strings[at(s)].plus, w_.strings[at(s)].minus}) {
          if (c < 0) continue;
          ++cables;
          if (w_.conductors[at(c)].wire) wires.insert(w_.conductors[at(c)].wire->print());
        }
      if (cables == 0) continue;
      const Part* cable =
          wires.size() == 1
              ? first_of(PartKind::cable,
                         [&](const Part& p) {
                           return p.wire && p.wire->print() == *wires.begin() && p.outside;
                         })
              : nullptr;
      constexpr int holes = 4;  // as the box sheet draws them
      const int per_pole = cables / 2;
      const double count = 2 * std::ceil(per_pole / static_cast<double>(holes));
      const Part* relief =
          cable ? relief_for(library_, *cable->outside, std::min(per_pole, holes)) : nullptr;
      auto& line = add("Box and devices", count,
                       "strain relief for " + std::to_string(cables / 2) + " cables a pole");
      of_part(line, relief);
      line.where = box.id;
      line.torque = "by marking";
      line.note = cable ? "cable outside " + units::print(*cable->outside) +
                              " by its record: measure yours; plug every unused hole"
                        : "outside diameter not known: measure the cable";
    }
  }

  void labels() {
    int pieces = 0;
    for (const auto& c : cuts_.cables) pieces += (c.plus ? 1 : 0) + (c.minus ? 1 : 0);
    pieces += static_cast<int>(cuts_.reel.size());
    if (pieces > 0)
      add("Labels", 2 * pieces, "wire label, sun-proof, printed").note =
          "one for each end of each piece; texts: stringwright cuts --labels";
    int others = 0;
    for (const auto& c : w_.conductors)
      others += c.kind == ConductorKind::output || c.kind == ConductorKind::equipment_ground ||
                c.kind == ConductorKind::rack_bond;
    if (others > 0)
      add("Labels", 2 * others, "wire label, printed").note = "output and ground conductors";
  }

  void tools() {
    std::set<std::pair<double, std::string>> torques;
    bool by_marking = false;
    for (const auto& t : w_.terminals) {
      const auto kind = w_.devices[at(t.device)].kind;
      if (kind == DeviceKind::module) continue;
      if (t.spec && t.spec->torque)
        torques.insert({t.spec->torque->si(), units::print(*t.spec->torque)});
      else
        by_marking = true;
    }
    auto& torque = add("Tools", 1, "torque screwdriver or wrench, calibrated");
    torque.note = torques.empty() ? "range by the markings of the terminals"
                                  : torques.begin()->second + " to " + torques.rbegin()->second +
                                        (by_marking ? "; other terminals by their marking" : "");
    add("Tools", 1, "voltmeter with probes, CAT III").note =
        "rated at least twice the coldest string voltage: a reversed string shows that much";
    add("Tools", 1, "d.c. clamp meter").note = "an a.c. clamp reads 0 and lies";
    add("Tools", 1, "insulation tester");
    add("Tools", 1, "connector opening tool of the family");
    if (!cuts_.reel.empty()) add("Tools", 1, "crimping tool of the connectors' maker");
    add("Tools", 2, "lock and tag for the far disconnect");
    add("Consumables", static_cast<double>(2 * w_.strings.size()), "cap for an unmated plug").note =
        "plugs stay open and capped until the box is finished";
    add("Consumables", 1, "duct seal for conduits between warm and cold").note = "common practice";
    add("Consumables", static_cast<double>(std::max<std::size_t>(20, 10 * w_.strings.size())),
        "sun-proof cable clip")
        .note = "common practice, no source: by the length of the way";
    add("Consumables", 1, "torque-mark pen");
  }

  void spares() {
    std::map<std::string, int> counts;
    for (const auto& d : w_.devices)
      if (d.kind == DeviceKind::protector && !d.spare && !d.part.empty()) ++counts[d.part];
    for (const auto& [id, count] : counts) {
      const Part* p = part(id);
      const bool fuse = p && p->kind && *p->kind == PartKind::fuse;
      constexpr double share = 0.1;
      auto& line = add("Spares", fuse ? std::max(2.0, std::ceil(count * share)) : 1, id);
      line.part = id;
      of_part(line, p);
      line.note =
          fuse ? "taped inside the box; common practice, no source" : "common practice, no source";
    }
  }

  void not_counted() {
    bom_.remarks.push_back(
        "Not counted: racking and its bonding, the equipment itself, the battery side, signs and "
        "labels that "
        "the code asks for.");
  }

  const Wiring& w_;
  const CutPlan& cuts_;
  const parts::Library& library_;
  Bom bom_;
};

}  // namespace

const Part* relief_for(const parts::Library& library, units::Length outside, int holes) {
  const Part* best = nullptr;
  for (const auto& p : library.parts) {
    if (!p.kind || *p.kind != PartKind::relief || !p.holes || *p.holes < holes) continue;
    if (!p.clamp_min || !p.clamp_max || outside < *p.clamp_min || *p.clamp_max < outside) continue;
    // The fewest holes to plug, then the diameter nearest the middle of the clamp.
    const auto off = [&](const Part& x) {
      return std::pair(*x.holes, units::abs(0.5 * (*x.clamp_min + *x.clamp_max) - outside).si());
    };
    if (!best || off(p) < off(*best)) best = &p;
  }
  return best;
}

Bom bill_of_materials(const Wiring& w, const CutPlan& cuts, const parts::Library& library) {
  return Counter(w, cuts, library).count();
}

}  // namespace stringwright::design
