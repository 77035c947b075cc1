#pragma once

#include <optional>
#include <string>
#include <vector>

#include "parts/part.hpp"
#include "sheets/draw/wires.hpp"
#include "wiring/wiring.hpp"

/// How papers name what stands in the graph; the same words on every sheet.
namespace stringwright::sheets {

/// Pattern and weight of a conductor, by its pole and the grounding of the job.
draw::Look look(const wiring::Wiring& w, const wiring::Conductor& c);

/// "10 AWG PV", "500 kcmil Al XHHW-2", "6 AWG bare"; "to be chosen"; "not known".
std::string wire_words(const Given<units::Wire>& wire);

/// The same of a conductor: "2 × 500 kcmil Al XHHW-2" where wires lie side by side.
std::string wire_words(const wiring::Conductor& c);

/// Torque in both units; empty where the maker's marking has to be read.
struct TorqueWords {
  std::string newton_metres, pound_force_inches;
};
std::optional<TorqueWords> torque(const std::optional<parts::TerminalSpec>& spec);

/// "1.95 m (6.4 ft)", feet first where the job says so; "not known".
std::string length_words(const job::Job& job, std::optional<units::Length> length);

/// "functional ground, minus; bond in CC1".
std::string basis_words(const job::Job& job);

/// "PVC40 1 in, buried 0.6 m, 38 °C".
std::string stretch_words(const wiring::Stretch& s);

/// "Q1, Q2", "Q1 to Q12": runs of three or more are drawn together.
std::string listed(const std::vector<std::string>& names);

/// "breaker", "fuse", "disconnect": what the string devices of a job are; "device" where not known.
std::string device_word(const parts::Part* part);

/// {"20 A", "150 V"}: current, and volts a pole or in all; {"not known"} where nothing is said.
std::vector<std::string> rating(const parts::Part* part);

}  // namespace stringwright::sheets
