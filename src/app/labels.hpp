#pragma once

#include <string>

#include "app/evaluate.hpp"
#include "check/labels.hpp"

namespace stringwright::app {

/// The labels that a design needs in its edition, as JSON (schema: stringwright schema reply).
std::string labels_json(const Evaluation& e);

}  // namespace stringwright::app
