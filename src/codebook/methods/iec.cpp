#include "codebook/methods/iec.hpp"

#include <algorithm>

namespace stringwright::codebook::iec {

units::Current backfeed(int strings, units::Current i_sc) {
  return std::max(strings - 1, 0) * i_sc;
}

bool protection_needed(int strings, units::Current i_sc, units::Current module_limit) {
  return !units::at_most(backfeed(strings, i_sc), module_limit);
}

bool FuseWindow::holds(units::Current rating, units::Current module_limit) const {
  return !units::at_most(rating, above) && !units::at_least(rating, below) &&
         units::at_most(rating, module_limit);
}

FuseWindow fuse_window(const Edition& edition, units::Current i_sc) {
  const auto low = edition.factor("string-fuse.above");
  const auto high = edition.factor("string-fuse.below");
  return {low.value.value_or(units::Ratio{}) * i_sc, high.value.value_or(units::Ratio{}) * i_sc};
}

}  // namespace stringwright::codebook::iec
