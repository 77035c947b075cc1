#pragma once

#include <optional>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"

/// Which conductors a disconnect has to open, and how near it has to stand.
namespace stringwright::codebook {

/// The conductors that one stroke has to open: all that are not solidly grounded. In editions before
/// functional grounding a conductor grounded through a fuse counts as grounded too.
///
/// @returns  "both", "plus" or "minus"; nothing where scheme or pole is not known
///
/// Source: NFPA 70, 690.13, 690.15 (2014: ungrounded conductors). Proved: cases/rules/disconnect_equipment.toml.
std::optional<std::string> must_open(const Facts& facts, const Edition& edition);

/// Whether `opens` of the facts covers that.
std::optional<bool> opens_enough(const Facts& facts, const Edition& edition);

/// "plus and minus", "the plus conductor": for sentences.
std::string conductors(const std::string& opens);

/// The conductor that is grounded in the sense of the edition; "" where none is.
std::optional<std::string> grounded_conductor(const Facts& facts, const Edition& edition);

/// Breaks load: a device that may, or plugs that may. Plugs and holders do not unless said so.
std::optional<bool> breaks_load(const Facts& facts);

}  // namespace stringwright::codebook
