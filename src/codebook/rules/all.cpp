#include <algorithm>
#include <array>

#include "codebook/rule.hpp"

namespace stringwright::codebook {

extern const Rule voltage_equipment_input;
extern const Rule voltage_modules;
extern const Rule voltage_ceiling;
extern const Rule voltage_operating_window;
extern const Rule current_equipment_input;
extern const Rule ocpd_string_needed;
extern const Rule ocpd_rating_window;
extern const Rule ocpd_output_rating;
extern const Rule ocpd_volts_per_pole;
extern const Rule ocpd_reversed_string;
extern const Rule ocpd_direction;
extern const Rule ocpd_interrupt_rating;
extern const Rule conductor_terminal_ampacity;
extern const Rule conductor_conditions_of_use;
extern const Rule conductor_protected_by_device;
extern const Rule conductor_voltage_drop;
extern const Rule conductor_minimum_size;
extern const Rule conductor_wet_place;
extern const Rule egc_size;
extern const Rule iec_string_device_needed;
extern const Rule iec_string_device_rating;
extern const Rule iec_group_device_rating;
extern const Rule iec_device_poles;
extern const Rule iec_sub_array_device;
extern const Rule iec_array_device;
extern const Rule iec_string_cable;
extern const Rule iec_array_cable;
extern const Rule iec_protective_conductor;
extern const Rule iec_blocking_diode;
extern const Rule iec_insulation_before_start;
extern const Rule iec_switch_category;
extern const Rule iec_shock_protection;
extern const Rule iec_small_loops;
extern const Rule event_module_reverse_current;
extern const Rule event_conductor_fault_current;
extern const Rule event_device_recovery_voltage;
extern const Rule event_device_clears;
extern const Rule event_fault_persists;

namespace {

/// In the order of a report.
constexpr std::array rules{
    &voltage_equipment_input,
    &voltage_modules,
    &voltage_ceiling,
    &voltage_operating_window,
    &current_equipment_input,
    &ocpd_string_needed,
    &ocpd_rating_window,
    &ocpd_output_rating,
    &ocpd_volts_per_pole,
    &ocpd_reversed_string,
    &ocpd_direction,
    &ocpd_interrupt_rating,
    &conductor_terminal_ampacity,
    &conductor_conditions_of_use,
    &conductor_protected_by_device,
    &conductor_voltage_drop,
    &conductor_minimum_size,
    &conductor_wet_place,
    &egc_size,
    &iec_string_device_needed,
    &iec_string_device_rating,
    &iec_group_device_rating,
    &iec_device_poles,
    &iec_sub_array_device,
    &iec_array_device,
    &iec_string_cable,
    &iec_array_cable,
    &iec_protective_conductor,
    &iec_blocking_diode,
    &iec_insulation_before_start,
    &iec_switch_category,
    &iec_shock_protection,
    &iec_small_loops,
    &event_module_reverse_current,
    &event_conductor_fault_current,
    &event_device_recovery_voltage,
    &event_device_clears,
    &event_fault_persists,
};

}  // namespace

std::span<const Rule* const> all_rules() { return rules; }

namespace {

bool of_family(const Rule& rule, Family family) {
  if (rule.family == Asked::both) return true;
  return rule.family == (family == Family::nec ? Asked::nec : Asked::iec);
}

bool asked(const Rule& rule, const Edition& edition, const std::vector<ListedRule>& listed) {
  if (!of_family(rule, edition.family())) return false;
  bool any = false;
  for (std::size_t from = 0; from < rule.aliases.size();) {
    const auto to = std::min(rule.aliases.find(' ', from), rule.aliases.size());
    const auto alias = rule.aliases.substr(from, to - from);
    from = to + 1;
    if (alias.empty()) continue;
    any = true;
    for (const auto& one : listed)
      if (one.id == alias) return true;
  }
  return !any;
}

}  // namespace

std::vector<const Rule*> rules_of(const Edition& edition) {
  const auto listed = listed_rules(edition);
  std::vector<const Rule*> mine;
  for (const auto* rule : rules)
    if (asked(*rule, edition, listed)) mine.push_back(rule);
  return mine;
}

bool asked_in(const Rule& rule, const Edition& edition) {
  return asked(rule, edition, listed_rules(edition));
}

const Rule* find_rule(std::string_view id) {
  for (const auto* rule : rules)
    if (rule->id == id) return rule;
  return nullptr;
}

}  // namespace stringwright::codebook
