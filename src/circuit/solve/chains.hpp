#pragma once

#include <vector>

#include "circuit/network.hpp"
#include "circuit/solve/bracket.hpp"
#include "circuit/solve/carry.hpp"
#include "circuit/solve/sections.hpp"
#include "pv/lanes.hpp"

/// Inside of the solver: sections of cells alone, all of whose terms are evaluated together.
namespace stringwright::circuit::solve_detail {

/// What a section carries under a voltage as far as an expansion tells: g = −di/dv > 0.
struct Guess {
  double i = 0, g = 0;
  bool exact = false;  ///< another evaluation would not move it
};

/// Sections whose terms are cells, all the same way round. For each of them the voltage is known under one
/// current, with two derivatives; from there the current under any voltage nearby follows by
///
///     V(i) = V_0 + σ·ln(1 + (i − i_0)·s_d/σ) − R·(i − i_0),    σ = −s_d²/V''
///
/// a junction of the same slope s_d and curvature behind the section's resistance R: exact for cells alone
/// or their bypass diodes alone, and as good as any parabola near i_0.
class Chains {
 public:
  /// @param lanes  false: term by term, without vector registers
  Chains(const Sections& s, const std::vector<Law>& laws, bool lanes);

  int of(std::size_t section) const { return of_[section]; }  ///< -1: not of cells alone
  int size() const { return static_cast<int>(all_.size()); }
  std::size_t section(int chain) const { return static_cast<std::size_t>(all_[chain].section); }

  /// 0.9 of the smallest short-circuit current, with its sign.
  double likely_current(int chain) const { return 0.9 * all_[chain].sign * all_[chain].i_sc; }

  /// Takes up expansions at new currents, `[n_which]`.
  void expand(const std::vector<int>& which, const std::vector<double>& currents);

  /// The expansion at hand: voltage without that of the section's sources, and its slope.
  Voltage voltage(int chain) const {
    const Chain& c = all_[chain];
    return {c.v, c.slope, c.size};
  }

  /// Under voltage `w` less what the section's sources add. Beyond `most` it goes on as a straight line.
  Guess at(int chain, double w, double most) const;

  /// Currents under voltages, exactly: expansions are taken up until each is exact, within brackets.
  ///
  /// @param which   chains, emptied but for those without a root within the rounds allowed
  /// @param w       [n_which] voltages
  /// @param result  [n_chains], written for each of `which`
  void solve(std::vector<int>& which, std::vector<double>& w, double most,
             std::vector<Guess>& result);

  /// Voltages of one element of each term of all chains, `drop[n_terms]`, under `carried[n_sections]`.
  void drops(const std::vector<double>& carried, std::vector<double>& drop);

 private:
  struct Chain {
    int section = -1;
    std::size_t first = 0, count = 0;  // lanes
    std::size_t term = 0;
    double sign = 1, r = 0;
    double fixed = 0;  // R: r and all series resistances
    double i_sc = 0;   // the smallest of its terms
    double sharp = 1;  // the smallest voltage over which the current of a term changes e-fold
    // The expansion at i: voltage without that of sources, its derivatives, a bound of the third.
    double i = 0, v = 0, slope = -1, per_slope = -1, bend = 0, third = 0;
    double size = 0;  // of the parts of v
  };
  void make_room(std::size_t n);
  void evaluate(std::size_t first, std::size_t n);

  const Sections& s_;
  std::vector<Chain> all_;
  std::vector<int> of_;
  bool in_lanes_;
  pv::Lanes lanes_;
  std::vector<double> i_, v_, dv_, d2v_, d3v_;  // what goes to the lanes at once, and comes back
  std::vector<double> currents_;
  std::vector<Bracket> bracket_;
};

}  // namespace stringwright::circuit::solve_detail
