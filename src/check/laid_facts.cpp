#include "check/laid_facts.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "codebook/raceways.hpp"
#include "job/find.hpp"

namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::LaidWires;
using codebook::Subject;
using wiring::Wiring;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// One stretch under construction.
struct Lane {
  std::string key;   ///< raceway name, or run and place in it
  std::string base;  ///< "OUT", "A1.home_run"; "" for a named raceway
  int number = 0;    ///< in the base, from 1
  wiring::Stretch first;
  std::string from;
  units::Length length;
  Fact<units::Angle> bends;
  bool inside_known = true, inside = false;
  std::vector<LaidWires> wires;
  std::vector<int> conductors, strings;
  bool output = false;
};

template <class E>
std::string name_of(E value) {
  return std::string(names(static_cast<E*>(nullptr), static_cast<int>(value)).first);
}

/// All bends between the two pull points around stretch `k`: raceway that follows raceway counts on.
Fact<units::Angle> bends_around(const std::vector<wiring::Stretch>& all, std::size_t k,
                                const std::string& from) {
  std::size_t begin = k, end = k + 1;
  while (begin > 0 && !all[begin].after_pull_point && codebook::is_raceway(all[begin - 1].in))
    --begin;
  while (end < all.size() && !all[end].after_pull_point && codebook::is_raceway(all[end].in)) ++end;
  units::Angle sum;
  for (std::size_t i = begin; i < end; ++i) {
    if (!all[i].said.bends) return {};
    for (const auto bend : *all[i].said.bends) sum += bend;
  }
  return {sum, from};
}

class Lanes {
 public:
  explicit Lanes(const Wiring& w) : w_(w) {}

  /// Everything that one conductor lies in. `first` is the number of its first stretch in the base.
  int add(int conductor, const std::string& base, int first, const std::vector<int>& strings,
          bool output) {
    if (conductor < 0) return first;
    const auto& c = w_.conductors[at(conductor)];
    for (std::size_t k = 0; k < c.stretches.size(); ++k, ++first) {
      const auto& s = c.stretches[k];
      const std::string name = s.said.raceway.value_or("");
      Lane& lane = find(name.empty() ? base + "/" + std::to_string(first) : "=" + name);
      if (lane.from.empty()) begin(lane, s, name.empty() ? base : "", first, base);
      note(lane, c, k, base);
      if (std::find(lane.conductors.begin(), lane.conductors.end(), conductor) !=
          lane.conductors.end())
        continue;
      lane.conductors.push_back(conductor);
      lane.output = lane.output || output;
      put(lane, c, s.raceways);
      for (int string : strings)
        if (std::find(lane.strings.begin(), lane.strings.end(), string) == lane.strings.end())
          lane.strings.push_back(string);
    }
    return first;
  }

  std::vector<Judged> judged() const {
    std::vector<Judged> all;
    for (const auto& lane : lanes_) all.push_back(facts(lane));
    return all;
  }

 private:
  Lane& find(const std::string& key) {
    for (auto& lane : lanes_)
      if (lane.key == key) return lane;
    lanes_.emplace_back();
    lanes_.back().key = key;
    return lanes_.back();
  }

  static void begin(Lane& lane, const wiring::Stretch& s, const std::string& base, int number,
                    const std::string& from) {
    lane.base = base;
    lane.number = number;
    lane.first = s;
    lane.from = from;
  }

  /// What a further stretch or conductor of the same raceway changes.
  static void note(Lane& lane, const wiring::Conductor& c, std::size_t k, const std::string& from) {
    const auto& s = c.stretches[k];
    lane.length = units::max(lane.length, s.length);
    if (!lane.bends.known()) lane.bends = bends_around(c.stretches, k, from);
    lane.inside_known = lane.inside_known && s.said.inside.known();
    lane.inside = lane.inside || s.said.inside.value_or(false);
  }

  /// Wires side by side are divided among alike raceways; an odd share counts as the larger one.
  static void put(Lane& lane, const wiring::Conductor& c, int raceways) {
    const double wires = (c.parallel + raceways - 1) / raceways;
    LaidWires one;
    const bool ground = c.pole == wiring::Pole::ground;
    const std::string from = c.run.empty() ? lane.from : "run." + c.run;
    one.wire = Fact<units::Wire>(c.wire, from);
    one.count = Fact<units::Ratio>(wires, from);
    one.ground = Fact<bool>(ground, from);
    if (!ground) {
      one.od = Fact<units::Length>(c.marks.od, from);
      one.sunlight = Fact<bool>(c.marks.sunlight_resistant, from);
      one.burial = Fact<bool>(c.marks.direct_burial, from);
    }
    for (auto& known : lane.wires)
      if (known.wire.value == one.wire.value && known.od.value == one.od.value &&
          known.ground.value == one.ground.value) {
        known.count.value = *known.count.value + units::Ratio(wires);
        return;
      }
    lane.wires.push_back(one);
  }

  std::string thing(const Lane& lane) const {
    if (lane.base.empty()) return lane.key.substr(1);
    const bool alone = std::count_if(lanes_.begin(), lanes_.end(), [&](const Lane& other) {
                         return other.base == lane.base;
                       }) == 1;
    return alone ? lane.base : lane.base + "." + std::to_string(lane.number);
  }

  /// Where the job counts the current-carrying wires itself, its count wins: strings of one home run may
  /// be spread over several raceways; wires of which nothing else is said are not known.
  static void count_as_said(Lane& lane) {
    if (!lane.first.said.wires || !codebook::is_raceway(lane.first.in)) return;
    const int said = *lane.first.said.wires;
    int own = 0, kinds = 0;
    for (const auto& wires : lane.wires)
      if (!*wires.ground) own += static_cast<int>(wires.count->in(units::plain)), ++kinds;
    if (said > own) {
      LaidWires rest;
      rest.count = Fact<units::Ratio>(static_cast<double>(said - own), lane.from);
      lane.wires.push_back(rest);
    } else if (said < own && kinds == 1) {
      for (auto& wires : lane.wires)
        if (!*wires.ground) wires.count.value = static_cast<double>(said);
    }
  }

  Judged facts(Lane lane) const {
    count_as_said(lane);
    const auto& s = lane.first;
    Judged j{basis_of(w_, lane.strings, lane.from), s.span};
    Facts& f = j.facts;
    f.subject = Subject::stretch;
    f.thing = thing(lane);
    auto& laid = f.laid;
    const std::string& from = lane.from;
    if (!s.in.empty()) laid.method = Fact<std::string>(s.in, from, s.span);
    laid.circuit = Fact<std::string>(lane.output ? "output" : "string", from);
    laid.size = Fact<units::TradeSize>(s.size, from);
    if (lane.length.si() > 0) laid.length = Fact<units::Length>(lane.length, from);
    if (s.ambient) laid.ambient = Fact<units::Temperature>(*s.ambient, s.ambient_from);
    laid.buried = Fact<units::Length>(s.said.buried, from);
    laid.above_roof = Fact<units::Length>(s.said.above_roof, from);
    laid.wires = lane.wires;
    laid.bends = lane.bends;
    laid.guarded = Fact<bool>(s.said.guarded, from);
    if (lane.inside || lane.inside_known) laid.inside = Fact<bool>(lane.inside, from);
    laid.support = Fact<units::Length>(s.said.support, from);
    if (s.said.under) laid.under = Fact<std::string>(name_of(*s.said.under), from);
    laid.other_wires = Fact<bool>(s.said.other_wires, from);
    laid.partition = Fact<bool>(s.said.partition, from);
    laid.expansion = Fact<bool>(s.said.expansion_fitting, from);
    return j;
  }

  const Wiring& w_;
  std::vector<Lane> lanes_;
};

/// Pull boxes and junctions of one list of segments, each with the raceways beside it.
void add_pull_boxes(const std::vector<job::Segment>& segments, const Given<units::Wire>& wire,
                    const std::string& from, std::vector<Judged>& all) {
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const auto& s = segments[i];
    if (!s.pull_box && !(s.junction && s.box_size)) continue;
    Judged j{{}, s.span};
    Facts& f = j.facts;
    f.subject = Subject::pull_box;
    f.thing = s.pull_box ? *s.pull_box : *s.junction;
    f.pull.wire = Fact<units::Wire>(s.wire ? s.wire : wire, from);
    if (s.box_size && s.box_size->size() == 2)
      f.pull.smallest = Fact<units::Length>(units::min((*s.box_size)[0], (*s.box_size)[1]), from);
    if (s.pull) f.pull.pull = Fact<std::string>(name_of(*s.pull), from);
    std::optional<units::TradeSize> largest;
    bool known = true;
    for (const std::size_t k : {i - 1, i + 1}) {
      if (k >= segments.size() || !codebook::is_raceway(segments[k].in.value_or(""))) continue;
      known = known && segments[k].size.known();
      if (segments[k].size && (!largest || *largest < *segments[k].size))
        largest = *segments[k].size;
    }
    if (largest && known) f.pull.largest = Fact<units::TradeSize>(*largest, from);
    all.push_back(std::move(j));
  }
}

}  // namespace

std::vector<Judged> laid_facts(const Wiring& w) {
  Lanes lanes(w);
  for (std::size_t i = 0; i < w.strings.size(); ++i) {
    const auto& s = w.strings[i];
    if (s.modules.empty()) continue;
    for (const auto* path : {&s.plus_path, &s.minus_path}) {
      int first = 1;
      for (int c : *path) {
        const std::string& run = w.conductors[at(c)].run;
        const std::string base =
            !run.empty() ? run : (s.box >= 0 ? w.boxes[at(s.box)].id : s.id) + ".home_run";
        first = lanes.add(c, base, first, {static_cast<int>(i)}, false);
      }
    }
  }
  for (const auto& box : w.boxes) {
    if (box.out_plus < 0) continue;
    const auto strings = strings_reaching(w, box);
    for (int c : {box.out_plus, box.out_minus, box.out_ground})
      if (c >= 0) lanes.add(c, w.conductors[at(c)].run, 1, strings, true);
  }
  auto all = lanes.judged();
  for (const auto& run : w.job.run)
    add_pull_boxes(run.segment, run.wire.poles, "run." + run.id, all);
  for (const auto& box : w.job.box)
    add_pull_boxes(box.home_run.segment, box.home_run.wire, "box." + box.id, all);
  return all;
}

std::vector<Judged> enclosure_facts(const Wiring& w) {
  std::vector<Judged> all;
  for (const auto& circuit : w.boxes) {
    const job::Box* box = job::find(w.job.box, circuit.id);
    if (!box) continue;
    const parts::Part* part = job::find(w.job.part, circuit.part);
    Judged j{basis_of(w, strings_reaching(w, circuit), "box." + box->id), circuit.span};
    Facts& f = j.facts;
    f.subject = Subject::enclosure;
    f.thing = box->id;
    auto& h = f.hull;
    const std::string from = "box." + box->id;
    if (part) {
      h.type = Fact<std::string>(part->enclosure, "part." + part->id);
      if (part->material)
        h.metal = Fact<bool>(*part->material == parts::Material::metal, "part." + part->id);
    }
    if (box->mounted) h.mounted = Fact<std::string>(name_of(*box->mounted), from);
    h.outdoors = Fact<bool>(box->outdoors, from);
    h.jumper = Fact<bool>(box->raceway_jumper, from);
    bool known = true, metal = false, aluminium = false;
    const auto enters = [&](int c, bool at_end) {
      if (c < 0) return;
      const auto& conductor = w.conductors[at(c)];
      aluminium = aluminium || (conductor.wire && conductor.wire->metal == units::Metal::aluminium);
      if (conductor.stretches.empty() ||
          (at_end ? conductor.stretches.back() : conductor.stretches.front()).in.empty()) {
        known = false;
        return;
      }
      const auto& s = at_end ? conductor.stretches.back() : conductor.stretches.front();
      metal = metal || codebook::is_metal_raceway(s.in);
    };
    enters(circuit.out_plus, false);
    for (int s : circuit.strings)
      if (!w.strings[at(s)].plus_path.empty()) enters(w.strings[at(s)].plus_path.back(), true);
    for (int b : circuit.feeders) enters(w.boxes[at(b)].out_plus, true);
    if (metal || known) h.metal_raceway = Fact<bool>(metal, "wiring");
    h.aluminium = Fact<bool>(aluminium, "wiring");
    all.push_back(std::move(j));
  }

  // Surfaces that carry modules; an array without any is one thing.
  std::vector<int> every(w.strings.size());
  for (std::size_t i = 0; i < every.size(); ++i) every[i] = static_cast<int>(i);
  const auto surface = [&](const std::string& thing, const std::vector<int>& strings, Span span) {
    Judged j{basis_of(w, strings, "site"), span};
    Facts& f = j.facts;
    f.subject = Subject::surface;
    f.thing = thing;
    if (w.job.site.place) f.marks.place = Fact<std::string>(name_of(*w.job.site.place), "site");
    f.marks.plugs = Fact<units::Ratio>(2.0 * static_cast<double>(strings.size()), "wiring");
    for (int s : strings)
      if (!w.strings[at(s)].plus_path.empty())
        f.marks.od = Fact<units::Length>(
            w.conductors[at(w.strings[at(s)].plus_path.front())].marks.od, "job");
    return j;
  };
  for (const auto& s : w.job.surface) {
    std::vector<int> here;
    for (std::size_t i = 0; i < w.strings.size(); ++i)
      for (int d : w.strings[i].modules) {
        const job::Row* row = job::find(w.job.row, w.devices[at(d)].owner);
        if (!row || row->on.value_or("") != s.id) continue;
        here.push_back(static_cast<int>(i));
        break;
      }
    if (here.empty()) continue;
    all.push_back(surface(s.id, here, s.span));
    all.back().facts.marks.guarded = Fact<bool>(s.guarded, "surface." + s.id);
  }
  return all;
}

}  // namespace stringwright::check
