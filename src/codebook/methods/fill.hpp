#pragma once

#include <string>
#include <vector>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"

/// Fill of raceways.
namespace stringwright::codebook {

/// Share of a raceway's inside that `count` conductors may take: 53 % one, 31 % two, 40 % more, 60 % in
/// a nipple up to 24 in. Equipment grounding conductors count. Source: NFPA 70, chapter 9, table 1.
Looked<units::Ratio> fill_share(const Edition& edition, int count,
                                const Fact<units::Length>& length);

/// A_in = π/4 · d_in².
Traced<units::Area> inside_area(Trail& trail, const Looked<units::Length>& inside);

/// Most conductors of one area that a raceway takes: down to whole ones, but up where the remainder is
/// 0.8 or more (note 7); the 31 % and 53 % rows where fewer than three fit.
///
/// Proved: cases/published/nec_annexC.toml, raceways_test.cpp (250 counts of Annex C).
int most_wires(const Edition& edition, units::Length inside, units::Area each);

/// What one kind of wire takes, and where the value comes from.
struct WireRoom {
  Traced<units::Area> area;  ///< of all of the kind
  units::Area each;
  units::Length od;
  bool typical = false;  ///< no printed dimension: a typical one, with its margin
};
/// Empty where the outside of a wire is not known; `missing` then names it.
std::optional<WireRoom> room_of(const LaidWires& wires, const Edition& edition, Trail& trail,
                                bool with_margin, std::vector<std::string>& missing);

}  // namespace stringwright::codebook
