#include "app/design.hpp"

#include "app/json_common.hpp"
#include "app/judge.hpp"
#include "job/read.hpp"

namespace stringwright::app {
namespace {

std::string in_quotes(const std::string& s) { return "\"" + s + "\""; }

}  // namespace

DesignReply design_job(std::string_view text, std::string_view file,
                       const parts::Library& library) {
  DesignReply reply;
  reply.file = file;
  reply.text = text;
  reply.written = text;
  auto reading = job::read(text, file, library);
  reply.diagnostics = std::move(reading.diagnostics);
  if (!reading.job) return reply;
  const auto edition = codebook::Edition::open(reading.job->job.edition.value_or(""));
  if (!edition) {
    reply.diagnostics.push_back({Severity::error,
                                 edition.failure().id,
                                 edition.failure().message,
                                 {},
                                 std::string(file),
                                 reading.job->job.edition.span});
    return reply;
  }
  Diagnostics problems;
  wiring::build(*reading.job, problems);
  for (auto& d : problems) {
    d.file = file;
    reply.diagnostics.push_back(std::move(d));
  }
  if (any_error(reply.diagnostics)) return reply;

  const design::Judge check = [&](const job::Job& tried) {
    const auto filled = design::fill(tried, *edition);
    Diagnostics ignored;
    std::vector<std::string> remarks;
    return judge(wiring::build(filled.job, ignored), *edition, remarks).report;
  };
  reply.proposal = design::search(*reading.job, design::open_choices(*reading.job, library), check);
  auto done = design::fill(reply.proposal.job, *edition);
  reply.filled = std::move(done.choices);
  reply.proposal.job = std::move(done.job);

  std::vector<job::Splice> changes;
  for (const auto& c : reply.proposal.chosen) {
    changes.push_back({c.span, in_quotes(c.value)});
    for (const auto& more : c.also_write) changes.push_back(job::key_behind(text, c.span, more));
  }
  for (const auto& c : reply.filled) changes.push_back({c.span, in_quotes(c.value)});
  auto written = job::splice(text, std::move(changes));
  if (written) {
    // Never hand out a text that does not read as what was meant.
    const auto back = job::read(*written, file, library);
    if (back.job) reply.written = *std::move(written);
  }
  reply.usable = true;
  return reply;
}

FrontReply front(std::string_view text, std::string_view file, const parts::Library& library) {
  const auto e = evaluate(text, file, {}, library);
  FrontReply reply{e.file, e.diagnostics, e.usable, {}};
  if (!e.usable) return reply;
  if (const auto edition = codebook::Edition::open(e.wiring.job.job.edition.value_or("")))
    reply.inputs = design::layouts(e.wiring, *edition);
  return reply;
}

std::string front_json(const FrontReply& r) {
  Json j = {{"kind", "layouts"},
            {"file", r.file},
            {"usable", r.usable},
            {"diagnostics", diagnostics_json(r.diagnostics)}};
  j["inputs"] = Json::array();
  for (const auto& in : r.inputs) {
    Json fits = Json::array();
    const auto volts = [](const std::optional<units::Voltage>& v) {
      return v ? Json(v->in(units::volts)) : Json(nullptr);
    };
    for (const auto& l : in.fits)
      fits.push_back({{"series", l.series},
                      {"parallel", l.parallel},
                      {"now", l.now},
                      {"front", l.front},
                      {"v_cold_v", l.v_cold.in(units::volts)},
                      {"v_record_v", volts(l.v_record)},
                      {"v_table_v", volts(l.v_table)},
                      {"v_hot_v", l.v_hot.in(units::volts)},
                      {"margin_cold_v", volts(l.margin_cold)},
                      {"p_hot_w", l.p_hot.in(units::watts)},
                      {"i_sc_a", l.i_sc.in(units::amps)},
                      {"needs_devices", l.needs_devices ? Json(*l.needs_devices) : Json(nullptr)},
                      {"spare_slots", l.spare_slots ? Json(*l.spare_slots) : Json(nullptr)},
                      {"cautions", l.cautions},
                      {"cannot_tell", l.cannot_tell}});
    j["inputs"].push_back({{"input", in.input},
                           {"module", in.module},
                           {"modules", in.modules},
                           {"refused", in.refused},
                           {"first_refused", in.first_refused},
                           {"fits", fits}});
  }
  return text_of(j);
}

std::string design_json(const DesignReply& r) {
  Json j = {{"kind", "design"},
            {"file", r.file},
            {"usable", r.usable},
            {"diagnostics", diagnostics_json(r.diagnostics)}};
  if (!r.usable) return text_of(j);
  const auto score = [](const design::Score& s) {
    return Json{{"fail", s.fail}, {"cannot_tell", s.cannot_tell}, {"caution", s.caution}};
  };
  j["before"] = score(r.proposal.before);
  j["after"] = score(r.proposal.after);
  j["asked"] = r.proposal.asked;
  j["proved"] = r.proposal.proved;
  j["chosen"] = Json::array();
  for (const auto& c : r.proposal.chosen)
    j["chosen"].push_back({{"key", c.key},
                           {"value", c.value},
                           {"what", c.what},
                           {"reason", c.reason},
                           {"runner_up", c.runner_up},
                           {"at", span_json(c.span)}});
  for (const auto& c : r.filled)
    j["chosen"].push_back({{"key", c.key},
                           {"value", c.value},
                           {"what", ""},
                           {"reason", c.reason},
                           {"runner_up", ""},
                           {"at", span_json(c.span)}});
  j["open"] = Json::array();
  for (const auto& o : r.proposal.open)
    j["open"].push_back({{"key", o.key}, {"why", o.why}, {"at", span_json(o.span)}});
  return text_of(j);
}

}  // namespace stringwright::app
