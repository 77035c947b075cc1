#pragma once

#include <string>
#include <vector>

#include "app/evaluate.hpp"
#include "base/result.hpp"

namespace stringwright::app {

/// A file to be written: a name below the output folder, and its bytes.
struct File {
  std::string name;
  std::string bytes;
};

/// The papers of an evaluation: one PDF of the whole set, and each page as SVG and PNG. A failure says
/// what is missing (no font on the machine).
/// @param png_dpi  0 leaves the PNGs out
/// @param stock    cables for the cut list, where the job lists none of its own
Result<std::vector<File>> papers(const Evaluation& e, double png_dpi = 110,
                                 const parts::Library& stock = {});

}  // namespace stringwright::app
