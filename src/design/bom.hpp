#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/cuts/cut_plan.hpp"
#include "parts/part.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::design {

/// One line of what to buy, fetch or bring.
struct BomLine {
  std::string group;    ///< "Modules", "Box and devices", "Cable", "Raceway", ... "Tools", "Spares"
  double quantity = 0;  ///< pieces, or metres where `unit` says so
  std::string unit;     ///< "" = pieces, "m"
  std::string part;     ///< id of the record; "" where no record says
  std::string what;     ///< in words
  std::string where;    ///< what it is for: "A1 Q1 to Q4"
  std::string torque;   ///< "2.8 N·m", "by marking"; "" where nothing is tightened
  std::string note;     ///< how sure it is, what to ask for
  std::optional<parts::Price> price;  ///< of the whole line
};

struct Bom {
  std::vector<BomLine> lines;
  std::vector<std::string> remarks;  ///< what is not counted, and why
};

/// Everything to buy for a wiring, from the same graph as every paper: modules, boxes and their devices, cable
/// by the cut plan, conductors with an allowance, raceways with their fittings, strain reliefs that
/// clamp the cable, labels, tools, consumables and spares. What the job does not say is a remark, never a
/// guess. Allowances and spares are common practice, no source.
Bom bill_of_materials(const wiring::Wiring& w, const CutPlan& cuts, const parts::Library& library);

/// The part's reliefs that take `count` cables of that diameter, the tightest clamp first; empty where none.
const parts::Part* relief_for(const parts::Library& library, units::Length outside, int holes);

}  // namespace stringwright::design
