#pragma once

#include "base/about.hpp"
#include "parts/part.hpp"

namespace stringwright::job {

/// A file of parts: `[module.*]` and `[part.*]` as in a job, and nothing else.
struct PartsFile {
  parts::Library library;
};
template <class V>
void describe(V& visit, PartsFile& file) {
  visit("module", file.library.modules, About{.doc = "Modules by id."});
  visit("part", file.library.parts, About{.doc = "Parts by id."});
}

}  // namespace stringwright::job
