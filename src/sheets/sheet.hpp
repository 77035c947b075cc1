#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "check/finding.hpp"
#include "design/cuts/cut_plan.hpp"
#include "job/job.hpp"
#include "sheets/draw/scene.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::sheets {

/// One line of the table of operating points on the report: what, under which sky, volts, amps, watts.
struct OperatingLine {
  std::string thing;               ///< "CC1.PV1", "S1"
  std::string condition;           ///< "open circuit, −31 °C cell, 1000 W/m²"
  std::string volts, amps, watts;  ///< printed; "" = does not apply
};

/// Everything a paper may show. Papers compute nothing: they place what is here.
struct Material {
  const wiring::Wiring& wiring;
  const check::Report& report;
  std::vector<OperatingLine> operating;
  std::vector<std::string> remarks;  ///< what could not be computed, and why; one sentence each
  std::string program;               ///< "0.1.0", the version beside our mark
  const design::CutPlan* cuts = nullptr;  ///< of the home runs; null: no cut list
};

/// One paper per file; listed in all.cpp in the order of the set. A sheet may make several papers (one
/// per box) or none; its pages come without frame and strip.
struct Sheet {
  std::string_view id;  ///< "box", "schedule", "report"
  std::string_view title;
  std::vector<draw::Paper> (*make)(const Material&);
};
const std::vector<Sheet>& all_sheets();

/// The whole set with title strips, sheet numbers and totals filled in.
std::vector<draw::Paper> papers(const Material& m);

}  // namespace stringwright::sheets
