#include <nlohmann/json.hpp>

#include "app/json.hpp"

namespace stringwright::app {
namespace {

using json = nlohmann::ordered_json;
using events::Bears;
using events::Danger;
using events::Row;
using events::Sees;

template <class Q, class U>
json in_unit(const std::optional<Q>& q, U unit) {
  return q ? json(q->in(unit)) : json(nullptr);
}

const char* key(Danger d) {
  switch (d) {
    case Danger::none:
      return "none";
    case Danger::seen:
      return "live";
    case Danger::late:
      return "not-always";
    case Danger::silent:
      return "nothing-trips";
    case Danger::breaks:
      return "breaks";
  }
  return "none";
}

json live_at(const events::LiveAt& x) {
  return {{"terminals", x.terminals},
          {"touch", events::word(x.touch)},
          {"to_ground_v", in_unit(x.to_ground, units::volts)},
          {"to_minus_v", in_unit(x.to_minus, units::volts)}};
}

json after(const events::After& x) {
  return {{"recovery_v", in_unit(x.recovery, units::volts)},
          {"recovery_in_voc", in_unit(x.in_voc, units::plain)},
          {"recovery_floats", !x.recovery},
          {"fault_a", x.left.in(units::amps)},
          {"largest_a", x.most.in(units::amps)},
          {"largest_at", x.most_at.empty() ? json(nullptr) : json(x.most_at)},
          {"still_tied_by", x.still},
          {"line", live_at(x.line)},
          {"load", live_at(x.load)}};
}

json detector(const events::DetectorSees& x) {
  const char* seen = x.seen == events::Seen::seen       ? "seen"
                     : x.seen == events::Seen::at_start ? "at-start"
                     : x.seen == events::Seen::blind    ? "blind"
                                                        : "unsure";
  return {{"by", events::name_of(x.by)},
          {"seen", seen},
          {"rating_a", in_unit(x.trip, units::amps)},
          {"least_a", x.least.in(units::amps)},
          {"most_a", x.most.in(units::amps)},
          {"above_w_m2", in_unit(x.above, units::watts_per_square_metre)},
          {"why", x.why}};
}

json device(const Sees& x) {
  json currents = json::array();
  for (const auto i : x.i) currents.push_back(i.in(units::amps));
  return {{"name", x.name},
          {"like", x.like},
          {"direction", x.towards},
          {"worst_a", x.worst.in(units::amps)},
          {"i_a", currents},
          {"rating_a", in_unit(x.rating, units::amps)},
          {"ratio", in_unit(x.ratio, units::plain)},
          {"response", x.opens ? json(events::word(*x.opens)) : json(nullptr)},
          {"opens_above_w_m2", in_unit(x.above, units::watts_per_square_metre)},
          {"opens_above_cold_w_m2", in_unit(x.above_cold, units::watts_per_square_metre)},
          {"opens_above_hot_w_m2", in_unit(x.above_hot, units::watts_per_square_metre)},
          {"bound_n_minus_1_isc_w_m2", in_unit(x.above_by_bound, units::watts_per_square_metre)},
          {"against_marks", x.wrong_way},
          {"beyond_interrupt", x.beyond_interrupt},
          {"opens_in_s", in_unit(x.opens_in, units::seconds)},
          {"may_open_v", in_unit(x.v_opens, units::volts)},
          {"opened_alone", x.after ? after(*x.after) : json(nullptr)}};
}

json bears(const Bears& b) {
  const char* what = b.what == Bears::What::module_reverse ? "module-reverse"
                     : b.what == Bears::What::bypass_diode ? "bypass-diode"
                     : b.what == Bears::What::connector    ? "connector"
                                                           : "conductor";
  const auto holds = b.holds();
  return {{"what", what},
          {"thing", b.thing},
          {"like", b.like},
          {"i_a", b.i.in(units::amps)},
          {"limit_a", in_unit(b.limit, units::amps)},
          {"limit", b.limit_words},
          {"holds", holds ? json(*holds) : json(nullptr)}};
}

json row(const Row& r) {
  const auto& e = r.event;
  json devices = json::array(), bear = json::array(), touched = json::array();
  for (const auto& x : r.live) touched.push_back(live_at(x));
  for (const auto& x : r.devices) devices.push_back(device(x));
  for (const auto& b : r.bears) bear.push_back(bears(b));
  return {{"id", e.id},
          {"kind", e.kind},
          {"place", e.place},
          {"title", e.title},
          {"cause", e.cause == events::Cause::work ? "work error" : "equipment fault"},
          {"gate", e.gate.empty() ? json(nullptr) : json(e.gate)},
          {"load", e.load == events::Load::idle      ? "idle"
                   : e.load == events::Load::working ? "working"
                                                     : "battery"},
          {"like", e.like},
          {"solved", !r.failure},
          {"failure",
           r.failure ? json(r.failure->message + " [" + r.failure->id + "]") : json(nullptr)},
          {"danger", key(r.danger)},
          {"verdict", r.verdict},
          {"notes", r.notes},
          {"fault_a", r.fault.in(units::amps)},
          {"gap_v", in_unit(r.gap, units::volts)},
          {"gap_most_v", in_unit(r.gap_most, units::volts)},
          {"heat_w", in_unit(r.heat, units::watts)},
          {"opened", r.opened},
          {"left_a", r.left.in(units::amps)},
          {"cleared", r.cleared},
          {"ground_fault_device", r.detector ? detector(*r.detector) : json(nullptr)},
          {"in_the_dark_a", in_unit(r.in_the_dark, units::amps)},
          {"while_working_a", in_unit(r.while_working, units::amps)},
          {"devices", devices},
          {"bears", bear},
          {"live", touched}};
}

}  // namespace

std::string events_json(const Evaluation& e, const EventsReply& reply) {
  json skies = json::array(), rows = json::array();
  for (const auto& sky : reply.table.skies)
    skies.push_back(
        {{"sun_w_m2", sky.sun.in(units::watts_per_square_metre)}, {"cell_c", sky.cell.celsius()}});
  for (const auto& r : reply.table.rows) rows.push_back(row(r));
  const json j = {{"kind", "events"},
                  {"file", e.file},
                  {"job", e.wiring.job.job.name.value_or("")},
                  {"convention", codebook::print(reply.table.convention)},
                  {"skies", skies},
                  {"solutions", reply.table.solutions},
                  {"remarks", reply.remarks},
                  {"rows", rows}};
  return j.dump(2, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace stringwright::app
