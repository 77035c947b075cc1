#include "design/choose/open.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "job/find.hpp"

namespace stringwright::design {
namespace {

using parts::Part;
using parts::PartKind;

class Finder {
 public:
  Finder(const job::Job& job, const parts::Library& library) : job_(job) {
    for (const auto& p : job.part) parts_.push_back(&p);
    for (const auto& p : library.parts)
      if (!job::find(job.part, p.id)) parts_.push_back(&p);
  }

  std::vector<Open> all() {
    for (const auto& box : job_.box)
      if (box.slot.device.choose) string_device(box);
    for (const auto& box : job_.box)
      if (box.part.choose) box_part(box);
    for (const auto& box : job_.box)
      if (box.home_run.wire.choose) home_wire(box);
    for (const auto& run : job_.run) {
      if (run.wire.poles.choose) run_wire(run);
      for (std::size_t i = 0; i < run.segment.size(); ++i)
        if (run.segment[i].size.choose) raceway(run, i);
    }
    for (const auto& equipment : job_.equipment)
      for (const auto& input : equipment.input)
        if (input.device.choose) input_device(equipment, input);
    for (const auto& box : job_.box)
      if (box.arrester.choose) arrester(box);
    return std::move(open_);
  }

 private:
  using Less = bool (*)(const Part*, const Part*);

  /// Parts of a kind that pass `fits`, in order.
  template <class Fits>
  std::vector<const Part*> of_kind(std::initializer_list<PartKind> kinds, Fits fits,
                                   Less less) const {
    std::vector<const Part*> found;
    for (const Part* p : parts_)
      if (p->kind && std::find(kinds.begin(), kinds.end(), *p->kind) != kinds.end() && fits(*p))
        found.push_back(p);
    std::sort(found.begin(), found.end(), less);
    return found;
  }

  /// Adopts the library's record, as reading a job that names it would.
  static void adopt(job::Job& job, const Part& part) {
    if (job::find(job.part, part.id)) return;
    job.part.push_back(part);
    job.part.back().span = {};
  }

  Open& add(std::string key, Span span, std::string none) {
    open_.push_back({std::move(key), span, {}, std::move(none)});
    return open_.back();
  }

  static bool smaller_device(const Part* x, const Part* y) {
    const auto key = [](const Part* p) {
      return std::tuple(p->rating.value_or({}).si(),
                        p->v_dc_pole.value_or({}).si() * p->poles.value_or(1),
                        p->kind.value_or(PartKind::fuse), p->poles.value_or(1), p->id);
    };
    return key(x) < key(y);
  }

  void string_device(const job::Box& box) {
    const bool both =
        job_.grounding.devices_in && *job_.grounding.devices_in == job::DevicesIn::both;
    auto& open = add("box." + box.id + ".slot.device", box.slot.device.span,
                     "no breaker or fuse with poles that suit is in the library");
    const auto fits = [&](const Part& p) { return poles_for(p, both, box.slot.poles) > 0; };
    for (const Part* p : of_kind({PartKind::breaker, PartKind::fuse}, fits, smaller_device)) {
      const int poles = poles_for(*p, both, box.slot.poles);
      Candidate c{p->id, p->title.value_or(""), {}, {}};
      if (!box.slot.poles) c.also_write.push_back("poles = " + std::to_string(poles));
      c.put = [id = box.id, part = *p, poles](job::Job& j) {
        adopt(j, part);
        for (auto& b : j.box)
          if (b.id == id) {
            const Span span = b.slot.device.span;
            b.slot.device = Given<std::string>(part.id, span);
            if (!b.slot.poles) b.slot.poles = Given<int>(poles, span);
          }
      };
      open.candidates.push_back(std::move(c));
    }
  }

  /// Poles of the circuit that such a device takes: fuses are single, a breaker has as many as it has.
  /// 0: does not suit.
  static int poles_for(const Part& p, bool both, const Given<int>& asked) {
    const int own = p.poles.value_or(1);
    const bool fuse = p.kind && *p.kind == PartKind::fuse;
    int poles = own;
    if (both) poles = fuse ? 2 : own == 2 ? 2 : 0;
    if (asked && *asked != poles && !(fuse && own == 1)) return 0;
    return asked ? *asked : poles;
  }

  void box_part(const job::Box& box) {
    int highest = 0;
    const auto count = [&](const Given<job::Landing>& l) {
      if (l && l->owner == box.id && l->bar.empty()) highest = std::max(highest, l->number);
    };
    for (const auto& s : job_.string) count(s.lands);
    for (const auto& b : job_.box) count(b.lands);
    auto& open = add("box." + box.id + ".part", box.part.span,
                     "no box with " + std::to_string(highest) + " slots is in the library");
    const auto fits = [&](const Part& p) { return p.slots && *p.slots >= highest; };
    const Less less = [](const Part* x, const Part* y) {
      const auto key = [](const Part* p) {
        return std::tuple(p->slots.value_or(0), p->v_dc.value_or({}).si(),
                          p->bus_rating.value_or({}).si(), p->id);
      };
      return key(x) < key(y);
    };
    for (const Part* p : of_kind({PartKind::box}, fits, less))
      open.candidates.push_back({p->id,
                                 p->title.value_or(""),
                                 [id = box.id, part = *p](job::Job& j) {
                                   adopt(j, part);
                                   for (auto& b : j.box)
                                     if (b.id == id)
                                       b.part = Given<std::string>(part.id, b.part.span);
                                 },
                                 {}});
  }

  static bool thinner(const units::Wire& x, const units::Wire& y) {
    // Copper before aluminium; of one size the insulation that every wet and hot place of a run allows.
    const auto key = [](const units::Wire& w) {
      return std::tuple(w.metal == units::Metal::copper ? 0 : 1, w.size.area().si(),
                        w.insulation == "XHHW-2" ? 0 : 1, w.insulation);
    };
    return key(x) < key(y);
  }

  template <class Takes>
  std::vector<units::Wire> wires(PartKind kind, Takes takes) const {
    std::vector<units::Wire> found;
    for (const Part* p : parts_)
      if (p->kind && *p->kind == kind && p->wire && takes(*p) &&
          std::find(found.begin(), found.end(), *p->wire) == found.end())
        found.push_back(*p->wire);
    std::sort(found.begin(), found.end(), thinner);
    return found;
  }

  void home_wire(const job::Box& box) {
    std::set<std::string> families;
    for (const auto& m : job_.module)
      if (m.family) families.insert(*m.family);
    auto& open = add("box." + box.id + ".home_run.wire", box.home_run.wire.span,
                     "no connectorised cable of the modules' family is in the library");
    const auto takes = [&](const Part& p) { return p.family && families.count(*p.family) > 0; };
    for (const auto& wire : wires(PartKind::cable, takes))
      open.candidates.push_back({wire.print(),
                                 "",
                                 [id = box.id, wire](job::Job& j) {
                                   for (auto& b : j.box)
                                     if (b.id == id)
                                       b.home_run.wire =
                                           Given<units::Wire>(wire, b.home_run.wire.span);
                                 },
                                 {}});
  }

  void run_wire(const job::Run& run) {
    auto& open = add("run." + run.id + ".wire.poles", run.wire.poles.span,
                     "no insulated wire is in the library");
    const auto takes = [](const Part& p) {
      return p.wire->insulation != "bare" && p.wire->insulation != "PV";
    };
    for (const auto& wire : wires(PartKind::wire, takes))
      open.candidates.push_back({wire.print(),
                                 "",
                                 [id = run.id, wire](job::Job& j) {
                                   for (auto& r : j.run)
                                     if (r.id == id)
                                       r.wire.poles = Given<units::Wire>(wire, r.wire.poles.span);
                                 },
                                 {}});
  }

  void raceway(const job::Run& run, std::size_t segment) {
    const auto& s = run.segment[segment];
    auto& open =
        add("run." + run.id + ".segment " + std::to_string(segment + 1) + ".size", s.size.span,
            "no raceway " + s.in.value_or("of that kind") + " is in the library");
    std::vector<units::TradeSize> sizes;
    for (const Part* p : parts_)
      if (p->kind && *p->kind == PartKind::conduit && p->method && s.in && *p->method == *s.in &&
          p->trade_size && std::find(sizes.begin(), sizes.end(), *p->trade_size) == sizes.end())
        sizes.push_back(*p->trade_size);
    std::sort(sizes.begin(), sizes.end(),
              [](const auto& x, const auto& y) { return x.nominal_inches() < y.nominal_inches(); });
    for (const auto& size : sizes)
      open.candidates.push_back({size.print(),
                                 s.in.value_or(""),
                                 [id = run.id, segment, size](job::Job& j) {
                                   for (auto& r : j.run)
                                     if (r.id == id)
                                       r.segment[segment].size = Given<units::TradeSize>(
                                           size, r.segment[segment].size.span);
                                 },
                                 {}});
  }

  void input_device(const job::Equipment& equipment, const job::Input& input) {
    auto& open = add("equipment." + equipment.id + ".input." + input.id + ".device",
                     input.device.span, "no breaker, fuse or disconnect is in the library");
    const auto fits = [&](const Part& p) { return poles_for(p, false, input.poles) > 0; };
    for (const Part* p : of_kind({PartKind::breaker, PartKind::disconnect}, fits, smaller_device)) {
      const int poles = poles_for(*p, false, input.poles);
      Candidate c{p->id, p->title.value_or(""), {}, {}};
      if (!input.poles) c.also_write.push_back("poles = " + std::to_string(poles));
      c.put = [e = equipment.id, i = input.id, part = *p, poles](job::Job& j) {
        adopt(j, part);
        for (auto& q : j.equipment)
          for (auto& in : q.input)
            if (q.id == e && in.id == i) {
              const Span span = in.device.span;
              in.device = Given<std::string>(part.id, span);
              if (!in.poles) in.poles = Given<int>(poles, span);
            }
      };
      open.candidates.push_back(std::move(c));
    }
  }

  void arrester(const job::Box& box) {
    auto& open = add("box." + box.id + ".arrester", box.arrester.span,
                     "no surge arrester is in the library");
    const Less less = [](const Part* x, const Part* y) {
      const auto key = [](const Part* p) { return std::tuple(p->v_dc.value_or({}).si(), p->id); };
      return key(x) < key(y);
    };
    const auto any = [](const Part&) { return true; };
    for (const Part* p : of_kind({PartKind::arrester}, any, less))
      open.candidates.push_back({p->id,
                                 p->title.value_or(""),
                                 [id = box.id, part = *p](job::Job& j) {
                                   adopt(j, part);
                                   for (auto& b : j.box)
                                     if (b.id == id)
                                       b.arrester = Given<std::string>(part.id, b.arrester.span);
                                 },
                                 {}});
  }

  const job::Job& job_;
  std::vector<const Part*> parts_;
  std::vector<Open> open_;
};

}  // namespace

std::vector<Open> open_choices(const job::Job& job, const parts::Library& library) {
  return Finder(job, library).all();
}

}  // namespace stringwright::design
