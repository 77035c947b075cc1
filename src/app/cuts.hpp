#pragma once

#include <string>

#include "app/evaluate.hpp"
#include "design/cuts/cut_plan.hpp"
#include "design/place.hpp"

namespace stringwright::app {

/// The cut plan of a usable evaluation, over the cables of the job, else of `stock`.
design::CutPlan cuts(const Evaluation& e, const parts::Library& stock,
                     const design::CutOptions& options = {});

/// Cable against the position of a box, along the usual line past the array.
design::PlaceCurve place(const Evaluation& e, const std::string& box, const parts::Library& stock);

std::string cuts_json(const Evaluation& e, const design::CutPlan* plan);

}  // namespace stringwright::app
