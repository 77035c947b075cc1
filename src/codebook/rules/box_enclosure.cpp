#include <algorithm>
#include <array>
#include <string_view>

#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::enclosure; }

/// Types for outdoors, and those of them that hold out rain only as they were tested: upright.
constexpr std::array<std::string_view, 9> outdoor{"3",   "3R", "3S", "3X", "3RX",
                                                  "3SX", "4",  "4X", "6P"};
constexpr std::array<std::string_view, 2> upright{"3R", "3RX"};

template <std::size_t N>
bool in(const std::array<std::string_view, N>& all, const std::string& type) {
  return std::find(all.begin(), all.end(), type) != all.end();
}

/// An enclosure outdoors is of a type that keeps weather out, and hangs as it was tested: 3R upright.
/// What the eye must see is named: hubs, weep hole, seals.
///
/// Source: NFPA 70, 110.28, 300.7(A). Proved: cases/rules/box_enclosure.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("Enclosure type by its place; wet hubs above live parts; seals between warm and cold.",
             edition.cite("box.enclosure"));
  const auto& h = f.hull;
  if (!h.outdoors.known())
    return cannot_tell("cannot tell: does the box hang outdoors or indoors (stands)?");
  if (!*h.outdoors) return {Verdict::pass, "It hangs indoors: any type serves.", {}, {}};
  if (!h.type.known())
    return cannot_tell("cannot tell: its enclosure type is not known (enclosure).");
  if (!in(outdoor, *h.type))
    return {Verdict::fail, "Type " + *h.type + " is not made for outdoors: fails.", {}, {}};
  Outcome outcome{Verdict::pass, "Type " + *h.type + " is made for outdoors: passes.", {}, {}};
  if (in(upright, *h.type)) {
    if (!h.mounted.known())
      return cannot_tell("cannot tell: type " + *h.type +
                         " keeps rain out only upright; how does it hang (mounted)?");
    if (*h.mounted != "upright")
      return {Verdict::fail,
              "Type " + *h.type + " keeps rain out only upright, and it hangs " + *h.mounted +
                  ": fails.",
              {"Hang it upright, or take type 4 or 4X."},
              {}};
    outcome.so = "Type " + *h.type + " outdoors, upright: passes.";
  }
  outcome.also.push_back(
      "On site: hubs for wet places above live parts or entries from below, the weep hole open and "
      "lowest, raceways from warm into cold sealed.");
  return outcome;
}

}  // namespace

extern const Rule box_enclosure{
    .id = "box.enclosure",
    .title = "Enclosure for its place",
    .aliases = "M2",
    .asks = "Does the box's enclosure keep the weather out where and as it hangs?",
    .applies = applies,
    .check = check,
    .cites = "box.enclosure"};

}  // namespace stringwright::codebook
