#pragma once

#include "check/finding.hpp"
#include "sheets/report/flow.hpp"

namespace stringwright::sheets::report {

/// The page "Labels due": what stands on each label, where it hangs, what the code demands of its looks.
/// Nothing where no label is due.
void labels_due(Flow& flow, const check::Report& r);

}  // namespace stringwright::sheets::report
