#pragma once

#include "app/evaluate.hpp"
#include "app/json.hpp"
#include "cli/cli.hpp"

namespace stringwright::cli {

struct ReportOptions {
  bool trails = false;                ///< the calculation under every finding
  bool not_looked_at = false;         ///< every rule nobody has built yet, by id and title
  const app::Flips* flips = nullptr;  ///< what would flip each finding; null: not asked for
};

/// The report as text: findings with fails and unknowns first, choices made, operating points, what was
/// not looked at, the tally, the cautions.
void print_report(const app::Evaluation& e, const ReportOptions& options, const Out& out);

/// One finding with everything known of it.
/// @param flips  what would flip it; null: not said
void print_finding(const app::Evaluation& e, const check::Finding& f, bool trail,
                   const app::Flips* flips, const Out& out);

}  // namespace stringwright::cli
