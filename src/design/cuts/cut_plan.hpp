#pragma once

#include <optional>
#include <string>
#include <vector>

#include "parts/part.hpp"
#include "units/quantity.hpp"
#include "wiring/wiring.hpp"

/// Which connectorised cables to buy for the home runs, and where to cut them. Method and limits:
/// docs/methods/cuts.md.
namespace stringwright::design {

/// One piece of cable: from its plug, mated at an end of a string, to the box.
struct CutPiece {
  int string = -1;  ///< index into Wiring::strings
  wiring::Pole pole = wiring::Pole::plus;
  int conductor = -1;
  std::string tag;       ///< "S1+", on the wire and on the papers
  units::Length need;    ///< path and tail, from the wiring graph
  units::Length tail;    ///< the part of it inside the box
  units::Length length;  ///< as cut
  units::Length spare() const { return length - need; }
  std::string at_string;  ///< label for the plug's end: "S1+ to A1 L1"
  std::string at_box;     ///< label for the cut end: "S1+ from R1.1 +"
};

/// One stock cable. Its plugs have opposite genders, as the ends of a string have: the piece for a plus
/// end keeps the plug that mates with module plus, the piece for a minus end the other one.
struct CutCable {
  int number = 0;  ///< from 1
  std::string part;
  std::string family;
  units::Wire wire;
  units::Length stock;
  std::optional<CutPiece> plus, minus;  ///< at least one
  units::Length cut;                    ///< from the plug that mates with module plus
  std::optional<bool> half_holds;       ///< a cut in the middle would reach too; of two pieces only
  units::Length half_short;             ///< what the longer piece would lack then
  std::string half_short_tag;
  std::vector<std::string> flags;
  bool shared() const { return plus && minus && plus->string != minus->string; }
};

/// A piece that no stock cable reaches: reel cable with one fitted connector.
struct ReelPiece {
  CutPiece piece;
  std::string family;
  units::Wire wire;
  std::optional<units::Length>
      longest_stock;  ///< of the cables that would fit; none is known otherwise
};

struct BuyLine {
  int count = 0;
  std::string part;  ///< "" where the library has none
  std::string title;
  units::Length length;  ///< of one; of reel cable: of all
};

struct CutPlan {
  std::vector<CutCable> cables;
  std::vector<ReelPiece> reel;
  std::vector<BuyLine> buy;
  bool by_price = false;  ///< made least: the price; else the number of cables, then their length
  bool proved = false;    ///< no cheaper plan exists with the stock given
  std::optional<parts::Price> price;
  std::string price_date;                ///< the oldest of those used
  units::Length bought, needed;          ///< cables only
  std::vector<std::string> advice;       ///< what would save a size; what sharing saves
  std::vector<std::string> cannot_tell;  ///< ends without a length, a wire or a connector family
  bool empty() const { return cables.empty() && reel.empty(); }
};

struct CutOptions {
  bool share = true;  ///< one cable may serve two strings where that is cheaper
};

/// The cheapest way to cut all home runs from stock cables of the right family and wire: of the job where
/// it lists any such, else of `stock`.
///
/// Each cable gives at most one piece with each plug, so the plan is an assignment of plus pieces to minus
/// pieces, with pieces alone allowed; it is solved to a proven optimum (assignment.hpp): least price where all
/// cables have one; else, or among equals, fewest cables, then least length, then fewest cables that serve two
/// strings. So both ends of a string come from one cable where it reaches.
CutPlan cut_plan(const wiring::Wiring& w, const parts::Library& stock,
                 const CutOptions& options = {});

/// A piece whose spare is less than this has no drip loop. Common practice, no source.
inline constexpr units::Length drip_loop = units::metres(0.3);

}  // namespace stringwright::design
