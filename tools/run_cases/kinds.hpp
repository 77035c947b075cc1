#pragma once

#include <span>
#include <string_view>

#include "case_file.hpp"

namespace stringwright::run_cases {

/// One kind of published case: reads its inputs, and answers every output that they suffice for, through
/// the functions of the library.
struct Kind {
  std::string_view name;
  void (*check)(Answers&);
};

/// Hand-written list in kinds.cpp.
std::span<const Kind> all_kinds();

// kinds_code.cpp: codebook
void check_backfeed_current(Answers& a);
void check_circuit_current(Answers& a);
void check_cold_voltage_coefficient(Answers& a);
void check_cold_voltage_table(Answers& a);
void check_conductor_ampacity(Answers& a);
void check_conductor_resistance(Answers& a);
void check_egc_size(Answers& a);
void check_ocpd_size(Answers& a);
void check_rooftop_temperature(Answers& a);
void check_string_sizing(Answers& a);
void check_terminal_temperature(Answers& a);
void check_voltage_drop(Answers& a);

// kinds_design.cpp: the design search
void check_cutting_stock(Answers& a);

// kinds_fill.cpp: raceways
void check_conduit_fill(Answers& a);

// kinds_events.cpp: what devices do
void check_fuse_characteristic(Answers& a);
void check_ground_fault_detection(Answers& a);

// kinds_mismatch.cpp: what unlike cells lose
void check_mismatch_loss(Answers& a);

// kinds_pv.cpp: pv
void check_cell_temperature(Answers& a);
void check_diode_voltage(Answers& a);
void check_five_parameter(Answers& a);
void check_iv_fit_rmse(Answers& a);
void check_iv_key_points(Answers& a);
void check_iv_point(Answers& a);
void check_iv_translation(Answers& a);
void check_reverse_bias(Answers& a);

}  // namespace stringwright::run_cases
