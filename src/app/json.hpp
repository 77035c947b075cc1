#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/compare.hpp"
#include "app/evaluate.hpp"
#include "app/events.hpp"
#include "app/explain.hpp"
#include "app/flips.hpp"
#include "app/papers.hpp"

/// Replies as JSON. Keys end in their unit; the schema of each reply stands in data/schema/.
namespace stringwright::app {

/// Flips of findings by their id; see app/flips.hpp.
using Flips = std::map<std::string, std::vector<check::Flip>>;

/// @param flips  null: not asked for
std::string check_json(const Evaluation& e, const Flips* flips = nullptr);
std::string papers_json(const Evaluation& e, const std::string& folder,
                        const std::vector<File>& files);
std::string compare_json(const Comparison& c);
std::string events_json(const Evaluation& e, const EventsReply& reply);
std::string explain_json(const Explanation& x);
std::string new_json(const std::string& path);

/// JSON Schema (draft-07) of all replies; the reply's `kind` picks the branch.
std::string reply_schema();

}  // namespace stringwright::app
