#pragma once

#include <string>

/// Pieces of the schema of the replies: of parts, cuts and what a design proposes.
namespace stringwright::app {

/// References for the list of replies, comma separated.
std::string design_replies();

/// Their definitions, comma separated.
std::string design_definitions();

}  // namespace stringwright::app
