#include <algorithm>
#include <cstdint>
#include <unordered_map>
#include <utility>

#include "base/text.hpp"
#include "job/checks.hpp"
#include "job/fields.hpp"
#include "job/names.hpp"
#include "job/place.hpp"

namespace stringwright::job {
namespace {

/// Records of one kind by their id.
template <class T>
class Index {
 public:
  Index(std::string_view kind, std::vector<T>& records, const Unsure& unsure, Messages& out)
      : kind_(kind), unsure_(is_in(unsure.sections, kind)) {
    by_id_.reserve(records.size());
    for (auto& record : records) {
      ids_.push_back(record.id);
      const auto [first, is_new] = by_id_.emplace(record.id, &record);
      if (!is_new)
        out.error("job.duplicate", record.span,
                  std::string(kind) + " " + record.id + " stands twice; first at line " +
                      std::to_string(first->second->span.line));
    }
  }

  T* find(std::string_view id) const {
    const auto found = by_id_.find(id);
    return found == by_id_.end() ? nullptr : found->second;
  }
  const std::vector<std::string>& ids() const { return ids_; }
  std::string_view kind() const { return kind_; }
  /// The section could not be read: what is not found may be in it.
  bool unsure() const { return unsure_; }

 private:
  static bool is_in(const std::vector<std::string>& words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
  }

  std::string_view kind_;
  bool unsure_;
  std::unordered_map<std::string_view, T*> by_id_;
  std::vector<std::string> ids_;
};

std::string plural(std::string_view kind) {
  return std::string(kind) + (kind == "box" ? "es" : "s");
}

std::string known_ids(std::string_view word, const std::vector<std::string>& ids,
                      const std::string& kinds, const Messages& out) {
  if (out.many()) return {};
  return ids.empty() ? "the job has no " + kinds : suggest(word, ids, kinds + ": ");
}

/// "RN12" where "RN" is a broken pattern.
bool of_pattern(std::string_view id, const std::vector<std::string>& patterns) {
  for (const auto& pattern : patterns)
    if (text::starts_with(id, pattern) && read_count(id.substr(pattern.size()))) return true;
  return false;
}

/// Takes the places away: a record of the library stands nowhere in the job's text.
struct TakePlacesAway {
  template <class T>
  void operator()(std::string_view, Given<T>& member, const About&) {
    member.span = {};
  }
  template <Record R>
  void operator()(std::string_view, R& member, const About&) {
    member.span = {};
    describe(*this, member);
  }
  template <Record R>
  void operator()(std::string_view key, std::vector<R>& member, const About& about) {
    for (R& one : member) (*this)(key, one, about);
  }
};

template <class T>
void adopt(const Given<std::string>& id, std::vector<T>& own, const std::vector<T>& library) {
  if (!id || library.empty()) return;
  const auto is_meant = [&](const T& record) { return record.id == *id; };
  if (std::any_of(own.begin(), own.end(), is_meant)) return;
  const auto found = std::find_if(library.begin(), library.end(), is_meant);
  if (found == library.end()) return;
  T& record = own.emplace_back(*found);
  TakePlacesAway visit;
  record.span = {};
  describe(visit, record);
}

void adopt_from_library(Job& job, const parts::Library& library) {
  std::string_view last;
  for (const auto& row : job.row) {
    if (row.module && *row.module == last) continue;
    adopt(row.module, job.module, library.modules);
    if (row.module) last = *row.module;
  }
  for (const auto& box : job.box) {
    adopt(box.part, job.part, library.parts);
    adopt(box.slot.device, job.part, library.parts);
    for (const auto& e : box.slot.except) adopt(e.device, job.part, library.parts);
    adopt(box.arrester, job.part, library.parts);
    if (box.disconnect) adopt(box.disconnect->part, job.part, library.parts);
  }
  for (const auto& string : job.string)
    for (const auto* own : {&string.inline_fuse, &string.blocking_diode, &string.electronics})
      adopt(*own, job.part, library.parts);
  for (const auto& equipment : job.equipment)
    for (const auto& input : equipment.input) {
      adopt(input.device, job.part, library.parts);
      if (input.disconnect) adopt(input.disconnect->part, job.part, library.parts);
    }
  for (const auto& equipment : job.equipment)
    if (equipment.system_disconnect)
      adopt(equipment.system_disconnect->part, job.part, library.parts);
}

class Resolver {
 public:
  Resolver(Job& job, const Unsure& unsure, Messages& out)
      : job_(job),
        unsure_(unsure),
        out_(out),
        surfaces_("surface", job.surface, unsure, out),
        modules_("module", job.module, unsure, out),
        parts_("part", job.part, unsure, out),
        rows_("row", job.row, unsure, out),
        strings_("string", job.string, unsure, out),
        boxes_("box", job.box, unsure, out),
        runs_("run", job.run, unsure, out),
        equipment_("equipment", job.equipment, unsure, out) {}

  void all() {
    one_name_one_thing();
    for (auto& row : job_.row) {
      refer(row.on, surfaces_, "row " + row.id);
      refer(row.module, modules_, "row " + row.id);
    }
    if (job_.grounding.bond) bond();
    for (auto& string : job_.string) {
      walk(string);
      if (string.lands) land(*string.lands, string.lands.span, "string " + string.id);
      refer(string.home_run, runs_, "string " + string.id);
      in_its_leads(string);
    }
    for (auto& box : job_.box) references_of(box);
    join_boxes_and_runs();
    for (auto& box : job_.box)
      if (box.lands) land(*box.lands, box.lands.span, "box " + box.id);
    for (const auto& box : job_.box) idle_exceptions(box);
    no_circle();
    for (auto& equipment : job_.equipment)
      for (auto& input : equipment.input)
        device(input.device, "input " + equipment.id + "." + input.id);
    for (auto& equipment : job_.equipment) disconnects_of(equipment);
    for (auto& found : job_.as_built) as_built(found);
  }

 private:
  /// Boxes, equipment, runs and strings are named alone, in landings, marks and findings.
  void one_name_one_thing() {
    struct Owner {
      std::string_view kind;
      Span span;
    };
    std::unordered_map<std::string_view, Owner> owners;
    const auto claim = [&](std::string_view kind, const auto& records) {
      for (const auto& record : records) {
        const auto [first, is_new] = owners.emplace(record.id, Owner{kind, record.span});
        if (is_new || first->second.kind == kind) continue;
        const bool later = is_before(first->second.span, record.span);
        const Span at = later ? record.span : first->second.span;
        const Span other = later ? first->second.span : record.span;
        out_.error("job.duplicate", at,
                   text::quoted(record.id) + " is the name of a " +
                       std::string(first->second.kind) + " and of a " + std::string(kind) +
                       "; the other stands at line " + std::to_string(other.line),
                   "a landing or a finding names one thing only: call one of them otherwise");
      }
    };
    claim("box", job_.box);
    claim("piece of equipment", job_.equipment);
    claim("run", job_.run);
    claim("string", job_.string);
  }

  template <class T>
  T* refer(const Given<std::string>& ref, const Index<T>& index, const std::string& who) {
    if (!ref) return nullptr;
    T* found = index.find(*ref);
    if (!found && !index.unsure() && !out_.has("job.dangling", ref.span))
      out_.error("job.dangling", ref.span,
                 who + ": there is no " + std::string(index.kind()) + " " + text::quoted(*ref),
                 known_ids(*ref, index.ids(), plural(index.kind()), out_));
    return found;
  }

  parts::Part* part_of_kind(const Given<std::string>& ref, std::vector<parts::PartKind> kinds,
                            const std::string& needed, const std::string& who) {
    auto* part = refer(ref, parts_, who);
    if (!part || !part->kind) return part;
    if (std::find(kinds.begin(), kinds.end(), *part->kind) == kinds.end())
      out_.error("job.part-kind", ref.span, who + ": part " + part->id + " is no " + needed);
    return part;
  }

  /// A device that opens a circuit.
  void device(const Given<std::string>& ref, const std::string& who) {
    part_of_kind(ref,
                 {parts::PartKind::breaker, parts::PartKind::fuse, parts::PartKind::disconnect},
                 "breaker, fuse or disconnect", who);
  }

  void slot_exception(const SlotException& e, const Box& box) {
    device(e.device, "slot " + e.id + " of box " + box.id);
    const parts::Part* part = box.part ? parts_.find(*box.part) : nullptr;
    const auto number = read_count(e.id);
    const int most = part ? part->slots.value_or(0) : 0;
    const bool is_number = number && std::to_string(*number) == e.id;
    if (is_number && *number >= 1 && (most == 0 || *number <= most)) return;
    out_.error("job.out-of-range", e.span,
               "the slots of box " + box.id + " except slot " + text::quoted(e.id) + ", but " +
                   (most > 0 ? "part " + part->id + " has slots 1 to " + std::to_string(most)
                             : std::string("slots count from 1")),
               "write the number of a slot: slot.except.5 = { device = ... }");
  }

  /// A slot with a device of its own is meant for something.
  void idle_exceptions(const Box& box) {
    if (strings_.unsure() || boxes_.unsure() || !unsure_.patterns.strings.empty()) return;
    for (const auto& e : box.slot.except)
      if (read_count(e.id) && taken_.count(box.id + "." + e.id) == 0)
        out_.question(e.span, "slot " + e.id + " of box " + box.id +
                                  " has a device of its own, but nothing lands there; is it the "
                                  "slot that is meant?");
  }

  void references_of(Box& box) {
    const std::string who = "box " + box.id;
    const auto* part = part_of_kind(box.part, {parts::PartKind::box, parts::PartKind::branch},
                                    "box and no pair of branch connectors", who);
    if (part && part->kind && *part->kind == parts::PartKind::branch) branch(box, who);
    refer(box.at.on, surfaces_, who);
    device(box.slot.device, who);
    for (const auto& e : box.slot.except) slot_exception(e, box);
    part_of_kind(box.arrester, {parts::PartKind::arrester}, "arrester", who);
    disconnect(box.disconnect, "disconnect of box " + box.id);
  }

  void disconnect(const std::optional<Disconnect>& d, const std::string& who) {
    if (d)
      part_of_kind(d->part, {parts::PartKind::breaker, parts::PartKind::disconnect},
                   "breaker or disconnect", who);
  }

  void disconnects_of(const Equipment& e) {
    for (const auto& input : e.input)
      disconnect(input.disconnect, "disconnect of input " + e.id + "." + input.id);
    disconnect(e.system_disconnect, "system disconnect of " + e.id);
  }

  /// Parts that sit in the leads of a string itself.
  void in_its_leads(const String& string) {
    const std::string who = "string " + string.id;
    part_of_kind(string.inline_fuse, {parts::PartKind::fuse}, "fuse", who);
    part_of_kind(string.blocking_diode, {parts::PartKind::diode}, "diode", who);
    part_of_kind(string.electronics, {parts::PartKind::electronics}, "module electronics", who);
    if (string.inline_fuse_in && !string.inline_fuse && !string.inline_fuse.choose)
      out_.error("job.contradiction", string.inline_fuse_in.span,
                 who + " says the pole of an in-line fuse, but names no fuse",
                 "write inline_fuse = \"...\" beside it");
  }

  /// Connectors hold no devices and no wires of a box.
  void branch(const Box& box, const std::string& who) {
    const auto refuse = [&](bool written, Span span, std::string_view key) {
      if (written)
        out_.error("job.contradiction", span,
                   who + " is a pair of branch connectors, so it has no '" + std::string(key) + "'",
                   "give the strings their in-line fuses: inline_fuse = \"...\"");
    };
    refuse(box.slot.device.known() || box.slot.device.choose || !box.slot.except.empty(),
           box.slot.span, "slot");
    refuse(box.arrester.known(), box.arrester.span, "arrester");
    refuse(box.rack_bond.known(), box.rack_bond.span, "rack_bond");
    refuse(box.bonded.known(), box.bonded.span, "bonded");
  }

  /// A box, a piece of equipment, its load centre or its battery.
  void bond() {
    const auto& ref = job_.grounding.bond;
    std::vector<std::string> known = owners();
    int batteries = 0;
    for (const auto& e : job_.equipment) {
      if (e.load_centre) known.push_back(*e.load_centre);
      if (!e.battery) continue;
      known.push_back(e.id + ".battery");
      ++batteries;
    }
    if (batteries > 0) known.emplace_back("battery");
    if (*ref == "battery" && batteries > 1) {
      out_.error("job.dangling", ref.span, "bond: there is more than one battery; whose is it?",
                 "write \"" + job_.equipment.front().id +
                     ".battery\", say; where all share one, "
                     "name the load centre: equipment.load_centre");
      return;
    }
    if (std::find(known.begin(), known.end(), *ref) != known.end() || boxes_.unsure() ||
        equipment_.unsure())
      return;
    out_.error("job.dangling", ref.span,
               "bond: there is no box, equipment, load centre or battery " + text::quoted(*ref),
               known_ids(*ref, known, "places for a bond", out_));
  }

  std::vector<std::string> owners() const {
    std::vector<std::string> all = boxes_.ids();
    all.insert(all.end(), equipment_.ids().begin(), equipment_.ids().end());
    return all;
  }

  void walk(const String& string) {
    if (!string.walk) return;
    const Row* row = nullptr;
    std::string_view last;
    bool said = false;
    for (const auto& place : *string.walk) {
      if (place.row != last) {
        row = rows_.find(place.row);
        last = place.row;
        said = false;
        if (!row) no_row(string, place);
      }
      if (!row || said) continue;
      const std::string name = place.row + "." + std::to_string(place.number);
      const Span span = out_.inside(string.walk.span, name);
      if (row->count && (place.number < 1 || place.number > *row->count)) {
        out_.error("job.bad-walk", span,
                   "walk of string " + string.id + ": there is no place " + name + "; row " +
                       row->id + " has places 1 to " + std::to_string(*row->count));
        said = true;
        continue;
      }
      const auto key = (static_cast<std::uint64_t>(row - job_.row.data()) << 32U) |
                       static_cast<std::uint32_t>(place.number);
      const auto [first, is_new] = placed_.emplace(key, &string);
      if (is_new) continue;
      said = true;
      const String& other = *first->second;
      out_.error(
          "job.duplicate", span,
          "module " + name +
              (&other == &string ? " stands twice in the walk of string " + string.id
                                 : " is in string " + other.id + " and in string " + string.id));
    }
  }

  void no_row(const String& string, const ModulePlace& place) {
    if (rows_.unsure() || of_pattern(place.row, unsure_.patterns.rows)) return;
    const Span span = out_.inside(string.walk.span, place.row + "." + std::to_string(place.number));
    if (out_.has("job.dangling", span)) return;
    out_.error("job.dangling", span,
               "walk of string " + string.id + ": there is no row " + text::quoted(place.row),
               known_ids(place.row, rows_.ids(), "rows", out_));
  }

  /// A string or a box on a slot of a box or an input of equipment; sorts out which it is.
  void land(Landing& landing, Span span, const std::string& who) {
    if (Equipment* equipment = equipment_.find(landing.owner)) {
      on_input(landing, span, *equipment, who);
    } else if (const Box* box = boxes_.find(landing.owner)) {
      if (!landing.bar.empty()) {
        out_.error("job.bad-landing", span,
                   who + " lands on " + text::quoted(landing.text) + ", but " + box->id +
                       " is a box: its slots are " + box->id + ".1, " + box->id + ".2 and so on");
        return;
      }
      if (!fits(landing, span, *box, who)) return;
      const auto [first, is_new] =
          taken_.emplace(landing.owner + "." + std::to_string(landing.number), who);
      if (!is_new)
        out_.error(
            "job.duplicate", span,
            who + " lands on " + landing.text + ", where " + first->second + " lands already");
    } else {
      no_owner(landing, span, who);
    }
  }

  void no_owner(const Landing& landing, Span span, const std::string& who) {
    const Span at = out_.inside(span, landing.owner);
    if (boxes_.unsure() || equipment_.unsure() || out_.has("job.dangling", at)) return;
    out_.error("job.dangling", at,
               who + " lands on " + text::quoted(landing.text) +
                   ", but there is no box and no equipment " + text::quoted(landing.owner),
               known_ids(landing.owner, owners(), "boxes and equipment", out_));
  }

  void on_input(Landing& landing, Span span, const Equipment& equipment, const std::string& who) {
    if (!landing.bar.empty() && landing.number > 0) {
      out_.error("job.bad-landing", span,
                 who + " lands on " + text::quoted(landing.text) + ", but " + equipment.id +
                     " is equipment, which has inputs and no bars");
      return;
    }
    if (landing.bar.empty())
      landing.bar = landing.text.substr(landing.owner.size() + 1);  // an input called "1"
    landing.number = 0;
    std::vector<std::string> inputs;
    for (const auto& input : equipment.input) {
      if (input.id == landing.bar) return;
      inputs.push_back(input.id);
    }
    if (inputs.empty()) return;  // said to be missing, or broken
    out_.error("job.dangling", out_.inside(span, landing.text),
               who + " lands on " + text::quoted(landing.text) + ", but " + equipment.id +
                   " has no such input",
               suggest(landing.bar, inputs, "inputs: "));
  }

  /// Whether the slot or hole exists in the box's part, as far as that is known.
  bool fits(const Landing& landing, Span span, const Box& box, const std::string& who) {
    const parts::Part* part = box.part ? parts_.find(*box.part) : nullptr;
    const bool slot = landing.bar.empty();
    std::optional<int> there;
    if (part)
      there = (slot                     ? part->slots
               : landing.bar == "minus" ? part->minus_holes
                                        : part->earth_holes)
                  .value;
    if (landing.number >= 1 && landing.number <= there.value_or(landing.number)) return true;
    const std::string places = slot ? "slot" : "hole";
    out_.error(
        "job.out-of-range", span,
        who + " lands on " + landing.text + ", but " +
            (there ? "part " + part->id + " has " + places + "s 1 to " + std::to_string(*there)
                   : places + "s count from 1"));
    return false;
  }

  /// `out` and `lands` of a box say the same as `from` and `to` of its run: each is filled in from the other.
  void join_boxes_and_runs() {
    std::unordered_map<const Run*, const Box*> leaves;
    for (auto& box : job_.box) {
      Run* run = refer(box.out, runs_, "box " + box.id);
      if (!run) continue;
      const auto [first, is_new] = leaves.emplace(run, &box);
      if (!is_new)
        out_.error("job.duplicate", box.out.span,
                   "box " + box.id + " leaves by run " + run->id + ", by which box " +
                       first->second->id + " leaves already");
    }
    for (auto& run : job_.run) {
      const std::string who = "run " + run.id;
      Box* box = refer(run.from, boxes_, who);
      if (const auto found = leaves.find(&run); found != leaves.end()) {
        if (box && box != found->second)
          out_.error(
              "job.contradiction", run.from.span,
              who + " is from " + box->id + ", but it is the output of box " + found->second->id);
        if (!run.from.known()) run.from = {found->second->id, found->second->out.span};
        box = boxes_.find(found->second->id);
      } else if (box && !box->out) {
        box->out = {run.id, run.from.span};
      } else if (box) {
        out_.error(
            "job.contradiction", run.from.span,
            who + " is from " + box->id + ", but box " + box->id + " leaves by run " + *box->out);
      }
      end_of(run, box);
    }
  }

  void end_of(const Run& run, Box* box) {
    if (!run.to) return;
    auto to = read_landing(*run.to);
    if (!to) {
      out_.error(
          "job.bad-landing", run.to.span,
          "'to' of run " + run.id + " is " + text::quoted(*run.to) + "; " + to.failure().message);
      return;
    }
    if (!box) {
      land_of_free_run(*to, run);
    } else if (!box->lands) {
      box->lands = {*std::move(to), run.to.span};
    } else if (box->lands->text != to->text) {
      out_.error("job.contradiction", run.to.span,
                 "run " + run.id + " goes to " + to->text + ", but box " + box->id + " lands on " +
                     box->lands->text);
    }
  }

  /// A run that no box leaves by (a home run): its end exists, but takes no slot of its own.
  void land_of_free_run(Landing& to, const Run& run) {
    if (Equipment* equipment = equipment_.find(to.owner))
      on_input(to, run.to.span, *equipment, "run " + run.id);
    else if (!boxes_.find(to.owner))
      no_owner(to, run.to.span, "run " + run.id);
  }

  void no_circle() {
    std::unordered_map<const Box*, int> seen_by;  // which search met a box first
    int search = 0;
    for (const auto& start : job_.box) {
      ++search;
      std::vector<const Box*> path;
      const Box* box = &start;
      while (box && seen_by.emplace(box, search).second) {
        path.push_back(box);
        box = box->lands ? boxes_.find(box->lands->owner) : nullptr;
      }
      if (!box || seen_by.at(box) != search) continue;
      std::vector<std::string> circle;
      for (auto i = std::find(path.begin(), path.end(), box); i != path.end(); ++i)
        circle.push_back((*i)->id);
      circle.push_back(box->id);
      out_.error("job.cycle", box->lands.span,
                 "boxes land on each other in a circle: " + text::join(circle, " → "),
                 "let one of them land on an input");
    }
  }

  void as_built(AsBuilt& found) {
    if (found.end) {
      const auto end = read_string_end(*found.end);
      if (!end)
        out_.error("job.bad-form", found.end.span,
                   text::quoted(*found.end) + ": " + end.failure().message);
      else if (!strings_.find(end->string) && !strings_.unsure() &&
               !of_pattern(end->string, unsure_.patterns.strings))
        out_.error("job.dangling", found.end.span,
                   "as_built: there is no string " + text::quoted(end->string),
                   known_ids(end->string, strings_.ids(), "strings", out_));
    }
    if (!found.lands) return;
    Landing& landing = *found.lands;
    if (Equipment* equipment = equipment_.find(landing.owner))
      on_input(landing, found.lands.span, *equipment, "as_built");
    else if (const Box* box = boxes_.find(landing.owner))
      on_box(landing, found.lands.span, *box);
    else
      no_owner(landing, found.lands.span, "as_built");
  }

  void on_box(const Landing& landing, Span span, const Box& box) {
    if (landing.bar.empty() || landing.number > 0)
      fits(landing, span, box, "as_built");
    else
      out_.error(
          "job.bad-landing", span,
          "as_built lands on " + text::quoted(landing.text) + ", but " + box.id +
              " is a box without inputs",
          "a slot is " + box.id + ".1, a hole " + box.id + ".minus.1 or " + box.id + ".earth.1");
  }

  Job& job_;
  const Unsure& unsure_;
  Messages& out_;
  Index<Surface> surfaces_;
  Index<parts::Module> modules_;
  Index<parts::Part> parts_;
  Index<Row> rows_;
  Index<String> strings_;
  Index<Box> boxes_;
  Index<Run> runs_;
  Index<Equipment> equipment_;
  std::unordered_map<std::uint64_t, const String*> placed_;
  std::unordered_map<std::string, std::string> taken_;
};

}  // namespace

void resolve(Job& job, const Unsure& unsure, const parts::Library& library, Messages& out) {
  adopt_from_library(job, library);
  Resolver(job, unsure, out).all();
}

}  // namespace stringwright::job
