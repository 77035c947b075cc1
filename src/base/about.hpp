#pragma once

#include <limits>
#include <string_view>

namespace stringwright {

/// What the one field list of a record says of each field. Reader, writer, JSON Schema, reference
/// page and case files all come from it, so they can't disagree.
///
/// A record has one function `template <class V> void describe(V& visit, Record& r)` in its own
/// namespace, that calls `visit("key", r.member, About{...})` once per field, in the order of the
/// reference page.
struct About {
  std::string_view doc;           ///< one sentence for the reference page
  bool required = false;          ///< must be written; otherwise left out means unknown
  std::string_view example = {};  ///< as a person would write it
  double min = -std::numeric_limits<double>::infinity();  ///< allowed range, SI (kelvin for points)
  double max = std::numeric_limits<double>::infinity();
  bool may_choose = false;     ///< "choose" is allowed: the design search fills it
  std::string_view only = {};  ///< kinds (blank separated) the field belongs to; empty = every kind
  int items = 0;               ///< exact number of items of a list; 0 = any
};

}  // namespace stringwright
