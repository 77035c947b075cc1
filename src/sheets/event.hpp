#pragma once

#include <string>
#include <vector>

#include "circuit/curve.hpp"
#include "events/paths.hpp"
#include "events/table.hpp"
#include "sheets/draw/scene.hpp"

namespace stringwright::sheets {

/// One event as a circuit diagram: which way current flows, how much of it, and where nothing ends it.
/// Thickness and arrows say it; copper marks what runs against normal service and the fault itself.
/// Strings that do the same are drawn once.
draw::Page event_page(const events::Site& site, const events::Row& row, const events::Paths& paths);

/// A point on the chart.
struct CurveMark {
  std::string label;  ///< "maximum power"
  units::Voltage v;
  units::Current i;
};

/// Current over voltage of one input: the whole, and each kind of string at its landing.
draw::Page curve_page(const wiring::Wiring& w, const circuit::IvCurve& curve,
                      const std::vector<std::string>& kinds, const std::vector<int>& strings,
                      const std::vector<CurveMark>& marks, const std::string& title,
                      const std::string& under);

}  // namespace stringwright::sheets
