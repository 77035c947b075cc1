#pragma once

#include <string>

#include "app/evaluate.hpp"
#include "base/result.hpp"
#include "design/bom.hpp"

namespace stringwright::app {

/// Everything to buy for a usable evaluation.
design::Bom bom(const Evaluation& e, const parts::Library& library);

std::string bom_csv(const design::Bom& bom);
/// A workbook. A failure says what the machine refused (no room for a temporary file).
Result<std::string> bom_xlsx(const Evaluation& e, const design::Bom& bom);
std::string bom_json(const Evaluation& e, const design::Bom* bom);

/// "4", "57 m".
std::string quantity(const design::BomLine& line);

}  // namespace stringwright::app
