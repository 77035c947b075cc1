#include <algorithm>

#include "events/event.hpp"

namespace stringwright::events {

extern const Kind short_string;
extern const Kind short_modules;
extern const Kind short_group;
extern const Kind line_to_line;
extern const Kind short_bus;
extern const Kind short_feeder;
extern const Kind battery_into_string;
extern const Kind battery_into_bus;
extern const Kind battery_backfeed;
extern const Kind ground_fault;
extern const Kind second_ground_fault;
extern const Kind broken_negative;
extern const Kind resistive_connector;
extern const Kind open_plug;
extern const Kind reversed;
extern const Kind module_missing;
extern const Kind module_extra;
extern const Kind wrong_box;
extern const Kind two_bonds;

const std::vector<const Kind*>& all_kinds() {
  static const std::vector<const Kind*> all = {&short_string,
                                               &short_modules,
                                               &short_group,
                                               &line_to_line,
                                               &short_bus,
                                               &short_feeder,
                                               &battery_into_string,
                                               &battery_into_bus,
                                               &battery_backfeed,
                                               &ground_fault,
                                               &second_ground_fault,
                                               &broken_negative,
                                               &resistive_connector,
                                               &open_plug,
                                               &reversed,
                                               &module_missing,
                                               &module_extra,
                                               &wrong_box,
                                               &two_bonds};
  return all;
}

const Kind* find_kind(std::string_view id) {
  const auto& all = all_kinds();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Kind* k) { return k->id == id; });
  return found == all.end() ? nullptr : *found;
}

}  // namespace stringwright::events
