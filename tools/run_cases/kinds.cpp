#include "kinds.hpp"

namespace stringwright::run_cases {
namespace {

constexpr Kind kinds[] = {
    // codebook
    {"backfeed_current", check_backfeed_current},
    {"circuit_current", check_circuit_current},
    {"cold_voltage_coefficient", check_cold_voltage_coefficient},
    {"cold_voltage_table", check_cold_voltage_table},
    {"conductor_ampacity", check_conductor_ampacity},
    {"conductor_resistance", check_conductor_resistance},
    {"conduit_fill", check_conduit_fill},
    {"egc_size", check_egc_size},
    {"fuse_characteristic", check_fuse_characteristic},
    {"ground_fault_detection", check_ground_fault_detection},
    {"ocpd_size", check_ocpd_size},
    {"rooftop_temperature", check_rooftop_temperature},
    {"string_sizing", check_string_sizing},
    {"terminal_temperature", check_terminal_temperature},
    {"voltage_drop", check_voltage_drop},
    // design
    {"cutting_stock", check_cutting_stock},
    // pv
    {"cell_temperature", check_cell_temperature},
    {"diode_voltage", check_diode_voltage},
    {"five_parameter", check_five_parameter},
    {"iv_fit_rmse", check_iv_fit_rmse},
    {"iv_key_points", check_iv_key_points},
    {"iv_point", check_iv_point},
    {"iv_translation", check_iv_translation},
    {"mismatch_loss", check_mismatch_loss},
    {"reverse_bias", check_reverse_bias},
};

}  // namespace

std::span<const Kind> all_kinds() { return kinds; }

}  // namespace stringwright::run_cases
