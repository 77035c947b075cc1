#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"

namespace stringwright::codebook {

/// Where a box or a disconnect stands, and who gets at it.
struct PlaceFacts {
  trail::Fact<std::string> access;  ///< "anyone", "qualified", "ladder", "none"
  trail::Fact<std::string> stands;  ///< "outdoors", "roof", "indoors", "bathroom"
  trail::Fact<std::string> cover;   ///< "tool", "lock", "hand"
  trail::Fact<units::Length> handle;
  trail::Fact<units::Length> depth, width, height;  ///< clear space in front of it
  trail::Fact<std::string> opposite;                ///< "nothing", "grounded", "live"
  trail::Fact<units::Length> own_width;
};
template <class V>
void describe(V& visit, PlaceFacts& p) {
  visit("access", p.access, About{.doc = "Who reaches it.", .example = "anyone"});
  visit("stands", p.stands, About{.doc = "Where it is.", .example = "roof"});
  visit("cover", p.cover, About{.doc = "What opens its cover.", .example = "tool"});
  visit("handle", p.handle, About{.doc = "Height of the grip.", .example = "1.5 m"});
  visit("depth", p.depth, About{.doc = "Clear depth before it.", .example = "1 m"});
  visit("width", p.width, About{.doc = "Clear width before it.", .example = "0.8 m"});
  visit("height", p.height, About{.doc = "Clear height before it.", .example = "2 m"});
  visit("opposite", p.opposite, About{.doc = "What stands opposite.", .example = "grounded"});
  visit("own_width", p.own_width, About{.doc = "Width of the thing.", .example = "250 mm"});
}

}  // namespace stringwright::codebook
