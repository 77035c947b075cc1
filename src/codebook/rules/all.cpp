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
extern const Rule conductor_parallel;
extern const Rule conductor_wet_place;
extern const Rule egc_size;
extern const Rule current_rear_side;
extern const Rule conductor_hot_insulation;
extern const Rule conductor_colour;
extern const Rule raceway_fill;
extern const Rule raceway_bends;
extern const Rule raceway_pull_box;
extern const Rule raceway_support_spacing;
extern const Rule raceway_expansion;
extern const Rule raceway_heat;
extern const Rule raceway_flexible_ground;
extern const Rule wiring_exposed_wire;
extern const Rule wiring_wire_support;
extern const Rule wiring_guarded;
extern const Rule wiring_inside_building;
extern const Rule wiring_separation;
extern const Rule wiring_burial;
extern const Rule wiring_identification;
extern const Rule egc_with_circuit;
extern const Rule box_enclosure;
extern const Rule box_bond;
extern const Rule box_lugs;
extern const Rule array_leads;
extern const Rule array_fire_access;
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
extern const Rule voltage_bipolar;
extern const Rule voltage_engineered;
extern const Rule voltage_part_rating;
extern const Rule current_engineered;
extern const Rule current_converter_limit;
extern const Rule ocpd_poles;
extern const Rule ocpd_listing;
extern const Rule ocpd_source_end;
extern const Rule ocpd_access;
extern const Rule ocpd_fuse_service;
extern const Rule ocpd_hot_box;
extern const Rule conductor_shared_device;
extern const Rule equipment_listing;
extern const Rule box_busbar;
extern const Rule box_terminals;
extern const Rule box_openings;
extern const Rule box_one_per_hole;
extern const Rule disconnect_system;
extern const Rule disconnect_equipment;
extern const Rule disconnect_load_break;
extern const Rule disconnect_no_load_mark;
extern const Rule disconnect_grounded_conductor;
extern const Rule disconnect_rating;
extern const Rule disconnect_place;
extern const Rule disconnect_handle_height;
extern const Rule disconnect_cover;
extern const Rule space_working;
extern const Rule connector_pair;
extern const Rule connector_form;
extern const Rule connector_lock;
extern const Rule connector_load_break;
extern const Rule connector_current;
extern const Rule connector_grounding_pin;
extern const Rule output_boundary;
extern const Rule output_controller;
extern const Rule output_load_centre;
extern const Rule output_diversion;
extern const Rule battery_rules;
extern const Rule motor_disconnect;
extern const Rule grounding_kind;
extern const Rule grounding_one_bond;
extern const Rule grounding_electrode_wire;
extern const Rule grounding_array_electrode;
extern const Rule bonding_metal;
extern const Rule bonding_over_250_volts;
extern const Rule egc_exposed;
extern const Rule ground_fault_protection;
extern const Rule arc_fault_protection;
extern const Rule rapid_shutdown_limits;
extern const Rule rapid_shutdown_switch;
extern const Rule surge_needed;
extern const Rule surge_voltage;
extern const Rule surge_level;
extern const Rule surge_short_circuit;
extern const Rule surge_leads;
extern const Rule label_disconnect;
extern const Rule label_raceway;
extern const Rule label_sources;
extern const Rule label_rapid_shutdown;
extern const Rule label_grounding;
extern const Rule label_no_load;
extern const Rule label_module;
extern const Rule label_iec;
extern const Rule event_module_reverse_current;
extern const Rule event_conductor_fault_current;
extern const Rule event_bypass_diode_current;
extern const Rule event_connector_current;
extern const Rule event_device_recovery_voltage;
extern const Rule event_device_clears;
extern const Rule event_ground_fault_seen;
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
    &conductor_parallel,
    &conductor_wet_place,
    &egc_size,
    &current_rear_side,
    &conductor_hot_insulation,
    &conductor_colour,
    &raceway_fill,
    &raceway_bends,
    &raceway_pull_box,
    &raceway_support_spacing,
    &raceway_expansion,
    &raceway_heat,
    &raceway_flexible_ground,
    &wiring_exposed_wire,
    &wiring_wire_support,
    &wiring_guarded,
    &wiring_inside_building,
    &wiring_separation,
    &wiring_burial,
    &wiring_identification,
    &egc_with_circuit,
    &box_enclosure,
    &box_bond,
    &box_lugs,
    &array_leads,
    &array_fire_access,
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
    &voltage_bipolar,
    &voltage_engineered,
    &voltage_part_rating,
    &current_engineered,
    &current_converter_limit,
    &ocpd_poles,
    &ocpd_listing,
    &ocpd_source_end,
    &ocpd_access,
    &ocpd_fuse_service,
    &ocpd_hot_box,
    &conductor_shared_device,
    &equipment_listing,
    &box_busbar,
    &box_terminals,
    &box_openings,
    &box_one_per_hole,
    &disconnect_system,
    &disconnect_equipment,
    &disconnect_load_break,
    &disconnect_no_load_mark,
    &disconnect_grounded_conductor,
    &disconnect_rating,
    &disconnect_place,
    &disconnect_handle_height,
    &disconnect_cover,
    &space_working,
    &connector_pair,
    &connector_form,
    &connector_lock,
    &connector_load_break,
    &connector_current,
    &connector_grounding_pin,
    &output_boundary,
    &output_controller,
    &output_load_centre,
    &output_diversion,
    &battery_rules,
    &motor_disconnect,
    &grounding_kind,
    &grounding_one_bond,
    &grounding_electrode_wire,
    &grounding_array_electrode,
    &bonding_metal,
    &bonding_over_250_volts,
    &egc_exposed,
    &ground_fault_protection,
    &arc_fault_protection,
    &rapid_shutdown_limits,
    &rapid_shutdown_switch,
    &surge_needed,
    &surge_voltage,
    &surge_level,
    &surge_short_circuit,
    &surge_leads,
    &label_disconnect,
    &label_raceway,
    &label_sources,
    &label_rapid_shutdown,
    &label_grounding,
    &label_no_load,
    &label_module,
    &label_iec,
    &event_module_reverse_current,
    &event_conductor_fault_current,
    &event_bypass_diode_current,
    &event_connector_current,
    &event_device_recovery_voltage,
    &event_device_clears,
    &event_ground_fault_seen,
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
