#pragma once

#include <optional>
#include <string_view>

#include <toml++/toml.h>

#include "base/span.hpp"
#include "job/messages.hpp"

namespace stringwright::job {

/// The TOML tree of a text as far as it can be read, with one message for each mistake; nothing where a
/// mistake leaves the rest without a shape. A tree beside messages lacks what they are about. Never throws,
/// whatever the bytes are.
std::optional<toml::table> parse_toml(std::string_view text, Messages& out);

Span span_of(const toml::source_region& region);
inline Span span_of(const toml::node& node) { return span_of(node.source()); }
inline Span span_of(const toml::key& key) { return span_of(key.source()); }

/// What a node is, for a person: "a text", "a whole number", "a list" ...
std::string_view kind_of(const toml::node& node);

}  // namespace stringwright::job
