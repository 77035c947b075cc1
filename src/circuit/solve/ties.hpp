#pragma once

#include <vector>

#include "base/result.hpp"
#include "circuit/solve/sections.hpp"

/// Inside of the solver: knots tied together by ideal joints and sources. Numbers are SI.
namespace stringwright::circuit::solve_detail {

/// Groups of knots whose voltages differ by fixed amounts.
struct Ties {
  std::vector<int> group;      ///< [n_knots]
  std::vector<double> offset;  ///< [n_knots] against the group's own voltage
  int groups = 0;
};

/// Fails with circuit.source-loop where ideal sources contradict each other.
///
/// @param e  voltage of each rigid section, [n_sections]; others are not read
Result<Ties> tie(const Sections& s, const std::vector<double>& e);

/// Currents of the rigid sections by the current balance of their knots. In a ring of ideal joints the
/// shares are those of equal small resistances.
///
/// @param into  sum of the currents of all other sections into each knot, [n_knots]
/// @param i     [n_sections], filled in for rigid sections
void tied_currents(const Sections& s, std::vector<double> into, std::vector<double>& i);

}  // namespace stringwright::circuit::solve_detail
