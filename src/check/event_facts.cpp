#include "check/event_facts.hpp"

#include <algorithm>
#include <map>
#include <string>

namespace stringwright::check {
namespace {

using codebook::EventFacts;
using codebook::Fact;
using codebook::Subject;
using events::Bears;
using events::Row;
using events::Sees;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// The things that stand for one another: every like string, with its device, under the same key.
struct Classes {
  std::map<std::string, std::string> of;  // id of a string or of its device -> key

  explicit Classes(const events::Site& s) {
    for (std::size_t k = 0; k < s.likes.size(); ++k)
      for (const int string : s.likes[k].strings) {
        const auto& x = s.w.strings[at(string)];
        of[x.id] = "strings " + std::to_string(k);
        if (x.device >= 0) of[s.w.devices[at(x.device)].id] = "devices " + std::to_string(k);
        if (x.inline_fuse >= 0)
          of[s.w.devices[at(x.inline_fuse)].id] = "in-line fuses " + std::to_string(k);
      }
  }
  std::string key(const std::string& thing) const {
    const auto known = of.find(thing);
    return known == of.end() ? thing : known->second;
  }
};

template <class Q>
void raise(Fact<Q>& most, Q value) {
  if (!most.known() || *most < value) most = Fact<Q>(value, "solution of the circuit");
}

bool opens(const Row& r) {
  return std::any_of(r.devices.begin(), r.devices.end(),
                     [](const Sees& x) { return x.opens == events::Opens::opens; });
}

std::string word_of(events::Seen seen) {
  switch (seen) {
    case events::Seen::seen:
      return "seen";
    case events::Seen::at_start:
      return "at-start";
    case events::Seen::blind:
      return "blind";
    case events::Seen::unsure:
      break;
  }
  return "unsure";
}

/// Ratings of a string's modules that its parts have to live with, the smallest; none where one is silent.
void add_ratings(const wiring::Wiring& w, const std::string& thing, codebook::Facts& f) {
  const std::string id = thing.substr(0, thing.find('/'));
  for (const auto& string : w.strings) {
    if (string.id != id) continue;
    const auto least = [&](Given<units::Current> parts::Module::* rating) {
      Fact<units::Current> smallest;
      for (const int m : string.modules) {
        const auto& sheet = w.module_of(m);
        const auto& value = sheet.*rating;
        if (!value) return Fact<units::Current>();
        if (!smallest.known() || *value < *smallest)
          smallest = Fact<units::Current>(value, "module." + sheet.id);
      }
      return smallest;
    };
    f.bypass_rating = least(&parts::Module::bypass_rating);
    f.connector_rating = least(&parts::Module::connector_rating);
  }
}

/// Current flows that should not: something runs backwards, or through the fault itself.
bool drives(const Row& r) {
  const events::Kind* kind = events::find_kind(r.event.kind);
  if (!kind || !kind->overcurrent) return false;
  return r.fault.si() > 0.05 || std::any_of(r.devices.begin(), r.devices.end(),
                                            [](const Sees& x) { return x.worst.si() < 0; });
}

}  // namespace

void add_events(const events::Site& site, const events::Table& table, std::vector<Judged>& all) {
  const Classes classes(site);
  // One record for each event and key, first in the order of the table.
  std::map<std::string, std::vector<EventFacts>> found;
  const auto record = [&](const std::string& key, const Row& r) -> EventFacts& {
    auto& here = found[key];
    if (here.empty() || here.back().id != r.event.id) {
      EventFacts e;
      e.id = r.event.id;
      e.work_error = Fact<bool>(r.event.cause == events::Cause::work, "event");
      e.cleared = Fact<bool>(false, "solution of the circuit");
      here.push_back(std::move(e));
    }
    return here.back();
  };
  std::map<std::string, units::Current> ampacity;
  std::vector<EventFacts> unsolved, flowing;
  for (const Row& r : table.rows) {
    if (r.failure) {
      EventFacts e;
      e.id = r.event.id;
      unsolved.push_back(std::move(e));
      continue;
    }
    const bool cleared = opens(r);
    const events::Kind* kind = events::find_kind(r.event.kind);
    const bool to_ground = kind && kind->overcurrent && kind->to_ground;
    const auto& d = r.detector;
    const bool ended = cleared || (d && d->ends && d->seen == events::Seen::seen);
    if (drives(r) || to_ground) {
      EventFacts e;
      e.id = r.event.id;
      e.work_error = Fact<bool>(r.event.cause == events::Cause::work, "event");
      if (drives(r)) e.cleared = Fact<bool>(ended, "solution of the circuit");
      if (to_ground)
        e.gf_sees = Fact<std::string>(d ? word_of(d->seen) : "unsure", "solution of the circuit");
      if (to_ground && d && d->most.si() > 0)
        e.i_gf = Fact<units::Current>(d->least, "solution of the circuit");
      flowing.push_back(std::move(e));
    }
    for (const Sees& x : r.devices) {
      for (const std::string& name : x.like) {
        std::string device = name;
        if (device.ends_with('+') || device.ends_with('-')) device.pop_back();
        EventFacts& e = record(classes.key(device), r);
        raise(e.i, units::abs(x.worst));
        if (x.wrong_way) e.against_marks = Fact<bool>(true, "solution of the circuit");
        if (x.after && x.after->recovery) raise(e.v_recovery, *x.after->recovery);
      }
    }
    for (const Bears& b : r.bears) {
      for (const std::string& thing : b.like) {
        EventFacts& e = record(classes.key(thing), r);
        e.cleared = Fact<bool>(cleared, "solution of the circuit");
        if (b.what == Bears::What::module_reverse) raise(e.i, b.i);
        if (b.what == Bears::What::bypass_diode) raise(e.i_diode, b.i);
        if (b.what == Bears::What::connector) raise(e.i_plug, b.i);
        if (b.what != Bears::What::conductor) continue;
        raise(e.i_wire, b.i);
        if (b.limit) ampacity[classes.key(thing)] = *b.limit;
      }
    }
  }
  for (auto& judged : all) {
    auto& f = judged.facts;
    if (f.subject == Subject::equipment_ground) continue;
    if (f.subject == Subject::string_circuit) add_ratings(site.w, f.thing, f);
    if (f.subject == Subject::input) {
      if (f.thing.find('/') != std::string::npos) continue;
      f.events = flowing;
      if (const auto* d = site.detector()) {
        f.ground_fault.by = Fact<std::string>(events::name_of(*d->by), "equipment");
        f.ground_fault.rating = Fact<units::Current>(d->rating, "equipment");
      }
    } else if (const auto known = found.find(classes.key(f.thing)); known != found.end()) {
      f.events = known->second;
    }
    if (const auto known = ampacity.find(classes.key(f.thing)); known != ampacity.end())
      f.ampacity = Fact<units::Current>(known->second, "conditions of use and terminals");
    f.events.insert(f.events.end(), unsolved.begin(), unsolved.end());
  }
}

}  // namespace stringwright::check
