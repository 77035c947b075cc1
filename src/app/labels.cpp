#include "app/labels.hpp"

#include <nlohmann/json.hpp>

namespace stringwright::app {
namespace {

using json = nlohmann::ordered_json;

json value(const codebook::LabelValue& v) {
  json number = nullptr, unit = nullptr;
  if (v.value) {
    number = units::shown_number(*v.value);
    unit = units::shown(*v.value).unit;
  }
  return {{"words", v.words}, {"number", number}, {"unit", unit}, {"printed", v.printed}};
}

json label(const codebook::LabelAnswer& a) {
  const auto& l = a.label;
  json values = json::array();
  for (const auto& v : l.values) values.push_back(value(v));
  return {{"id", l.id},
          {"title", l.title},
          {"thing", l.thing},
          {"place", l.place},
          {"due", a.due.holds ? json(*a.due.holds) : json(nullptr)},
          {"depends_on", a.due.holds ? "" : a.due.why},
          {"lines", l.lines},
          {"values", values},
          {"words", l.prescribed},
          {"letters_mm", l.letters ? json(l.letters->in(units::millimetres)) : json(nullptr)},
          {"colours", l.colours},
          {"asks", l.asks},
          {"cite", l.source.cite},
          {"status", l.source.status}};
}

}  // namespace

std::string labels_json(const Evaluation& e) {
  json all = json::array();
  for (const auto& a : e.report.labels) all.push_back(label(a));
  const json reply = {{"kind", "labels"},
                      {"file", e.file},
                      {"job", e.wiring.job.job.name.value_or("")},
                      {"edition", e.report.edition},
                      {"labels", all}};
  return reply.dump(2, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace stringwright::app
