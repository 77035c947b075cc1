#pragma once

#include <vector>

#include "base/result.hpp"
#include "circuit/network.hpp"

/// Inside of the solver: a network taken apart into sections. Numbers are SI.
namespace stringwright::circuit::solve_detail {

/// Alike elements of one section: they add sign · count · v(sign · i) to its voltage.
struct Term {
  int law = -1;
  double count = 1;
  double sign = 1;
};

/// One element in the order of its chain, from the section's `from` end to its `to` end.
struct Link {
  int element = -1;
  int term = -1;  ///< -1: a straight line, part of the section's e and r
  int sign = 1;   ///< 1: the element's plus end looks to `to`
};

/// A chain of elements between two nodes where something branches off, with one current:
///
///     V(to) − V(from) = e − r · i + Σ terms
///
/// i is positive where it leaves at `to`.
struct Section {
  int from = -1, to = -1;  ///< knots
  double e = 0, r = 0;
  int term = 0, terms = 0;  ///< first one and number
  int link = 0, links = 0;
  bool live = true;    ///< false: a dead end that carries no current
  bool rigid = false;  ///< no resistance at all: ties its two knots together
};

/// A dead end: the section and its loose knot.
struct DeadEnd {
  int section = -1;
  int knot = -1;
};

struct Sections {
  std::vector<Section> all;
  std::vector<Term> terms;
  std::vector<Link> links;
  std::vector<int> node;           ///< [n_knots]
  std::vector<int> part;           ///< [n_knots]
  std::vector<DeadEnd> dead_ends;  ///< outermost first
  std::vector<int> section_of;     ///< [n_elements]
  int parts = 0;

  /// 1 or −1: whether an element's current runs with that of its section.
  int sign_of(int element) const;
};

/// Takes a network apart. Fails with circuit.bad-network.
Result<Sections> take_apart(const Network& n, bool merge);

}  // namespace stringwright::circuit::solve_detail
