#pragma once

#include <vector>

#include "circuit/network.hpp"
#include "circuit/solve/sections.hpp"

/// Inside of the solver: the current of one section. Numbers are SI.
namespace stringwright::circuit::solve_detail {

/// What a section carries under a voltage, and how it falls with it: g = −di/dv >= 0.
struct Carried {
  double i = 0, g = 0;
  bool exact = true;  ///< false: no root was found within the steps allowed
};

/// Voltage of a section under a current, and its slope <= 0.
struct Voltage {
  double v = 0, dv_di = 0;
  double size = 0;  ///< sum of the magnitudes that make up v
};
Voltage voltage_of(const Section& s, const std::vector<Term>& terms, const std::vector<Law>& laws,
                   double i);

/// The current under which a section has voltage `v`, to rounding: by one root in the voltage of its
/// only term, or in the current where terms differ, always within a bracket. Not for a rigid section.
///
/// @param start  a current to begin with, the nearer the faster
Carried carry(const Section& s, const std::vector<Term>& terms, const std::vector<Law>& laws,
              double v, double start);

/// A current somewhat below the smallest short-circuit current of the section's terms, with its sign.
double likely_current(const Section& s, const std::vector<Term>& terms,
                      const std::vector<Law>& laws);

}  // namespace stringwright::circuit::solve_detail
