#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "app/evaluate.hpp"
#include "design/choose/search.hpp"
#include "design/layout.hpp"
#include "job/splice.hpp"

namespace stringwright::app {

/// What the search proposes for a job's open choices, and the job's text with them written in.
struct DesignReply {
  std::string file, text;
  Diagnostics diagnostics;
  bool usable = false;  ///< no mistake in the job: what follows is filled
  design::Proposal proposal;
  std::vector<design::Choice> filled;  ///< equipment grounds, which follow from the rest
  std::string written;  ///< the text with all choices; the same text where none was made
};

/// @param library  the whole library: what can be chosen from, beside the job's own parts
DesignReply design_job(std::string_view text, std::string_view file, const parts::Library& library);

std::string design_json(const DesignReply& reply);

/// Other counts in series and parallel for each input of a job; nothing is searched or chosen.
struct FrontReply {
  std::string file;
  Diagnostics diagnostics;
  bool usable = false;
  std::vector<design::Layouts> inputs;
};
FrontReply front(std::string_view text, std::string_view file, const parts::Library& library);

std::string front_json(const FrontReply& reply);

}  // namespace stringwright::app
