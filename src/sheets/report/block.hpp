#pragma once

#include "sheets/report/findings.hpp"
#include "sheets/report/flow.hpp"

namespace stringwright::sheets::report {

/// One finding with its trail, and the table of its variants. Rows stay whole; what runs over a page is
/// headed again.
void draw_finding(Flow& flow, const Entry& e);

}  // namespace stringwright::sheets::report
