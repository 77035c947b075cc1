#pragma once

#include <string>
#include <vector>

#include "sheets/box/view.hpp"

namespace stringwright::sheets::box {

/// Sentences that stand beside the drawing: what to do before a wire is landed, in this order, and what
/// stays dangerous whatever was done.
struct Advice {
  std::string head;
  std::vector<std::string> lines;
};
std::vector<Advice> advice(const View& v);

}  // namespace stringwright::sheets::box
