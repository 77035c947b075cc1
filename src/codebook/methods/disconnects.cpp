#include "codebook/methods/disconnects.hpp"

namespace stringwright::codebook {

std::optional<std::string> grounded_conductor(const Facts& facts, const Edition& edition) {
  if (!facts.scheme.known()) return {};
  const bool fuse_counts = edition.factor("grounding.functional-is-grounded").value.value_or(0) > 0;
  if (*facts.scheme == "ungrounded" || (*facts.scheme == "functional" && !fuse_counts)) return "";
  if (!facts.grounded_pole.known()) return {};
  return *facts.grounded_pole;
}

std::optional<std::string> must_open(const Facts& facts, const Edition& edition) {
  const auto grounded = grounded_conductor(facts, edition);
  if (!grounded) return {};
  if (grounded->empty()) return "both";
  return *grounded == "minus" ? "plus" : "minus";
}

std::optional<bool> opens_enough(const Facts& facts, const Edition& edition) {
  const auto& opens = facts.disconnect.opens;
  if (!opens.known()) return {};
  if (*opens == "both") return true;
  const auto must = must_open(facts, edition);
  if (!must) return {};
  return *opens == *must;
}

std::string conductors(const std::string& opens) {
  return opens == "both" ? "plus and minus" : "the " + opens + " conductor";
}

std::optional<bool> breaks_load(const Facts& facts) {
  if (!facts.disconnect.means.known()) return {};
  if (*facts.disconnect.means == "holders") return false;
  return facts.load_break.value;
}

}  // namespace stringwright::codebook
