#include "kinds.hpp"

namespace stringwright::run_cases {

void check_backfeed_current(Answers&) {}
void check_circuit_current(Answers&) {}
void check_cold_voltage_coefficient(Answers&) {}
void check_cold_voltage_table(Answers&) {}
void check_conductor_ampacity(Answers&) {}
void check_conductor_resistance(Answers&) {}
void check_egc_size(Answers&) {}
void check_ocpd_size(Answers&) {}
void check_rooftop_temperature(Answers&) {}
void check_string_sizing(Answers&) {}
void check_terminal_temperature(Answers&) {}
void check_voltage_drop(Answers&) {}

}  // namespace stringwright::run_cases
