#include <nlohmann/json.hpp>

#include "app/json.hpp"

namespace stringwright::app {

std::string compare_json(const Comparison& c) {
  using json = nlohmann::ordered_json;
  json editions = json::array();
  for (const auto& side : c.editions)
    editions.push_back({{"id", side.id},
                        {"name", side.name},
                        {"own", side.own},
                        {"tally",
                         {{"fail", side.tally.fail},
                          {"cannot_tell", side.tally.cannot_tell},
                          {"caution", side.tally.caution},
                          {"on_site", side.tally.on_site},
                          {"pass", side.tally.pass},
                          {"waived", side.tally.waived},
                          {"not_applicable", side.tally.not_applicable},
                          {"not_looked_at", side.tally.not_looked_at}}}});
  json groups = json::array();
  for (const auto& g : c.groups) {
    json changes = json::array();
    for (const auto& x : g.changes)
      changes.push_back({{"rule", x.rule},
                         {"title", x.title},
                         {"verdict_changes", x.verdict},
                         {"sentence", x.sentence},
                         {"cheapest", x.cheapest}});
    groups.push_back({{"things", g.things}, {"changes", changes}, {"savings", g.savings}});
  }
  json messages = json::array();
  for (const auto& d : c.diagnostics) messages.push_back(d.message);
  const json reply = {{"kind", "compare"}, {"file", c.file},       {"usable", c.usable},
                      {"job", c.job},      {"messages", messages}, {"editions", editions},
                      {"groups", groups},  {"same", c.same},       {"notes", c.notes}};
  return reply.dump(2, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace stringwright::app
