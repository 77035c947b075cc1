#pragma once

#include <memory>
#include <vector>

#include "base/result.hpp"
#include "circuit/network.hpp"
#include "units/quantity.hpp"

namespace stringwright::circuit {

struct SolveOptions {
  /// Largest sum of currents left at any node, relative to the largest current there. What is
  /// reached is usually rounding.
  double tolerance = 1e-10;
  int max_iterations = 200;
  /// Evaluate alike elements of a chain once. Off only to measure what it is worth.
  bool merge = true;
  /// Evaluate cells in vector registers (pv::Lanes). Off: one by one, to compare.
  bool lanes = true;
};

/// Voltages and currents everywhere in a network.
struct Solution {
  std::vector<units::Voltage> potential;  ///< [n_nodes] against the reference of the node's part
  std::vector<int> part;                  ///< [n_nodes] connected part of the network, from 0
  std::vector<bool> floating;             ///< [n_parts] no reference node stands in it
  std::vector<units::Current> current;    ///< [n_elements] positive out of plus
  units::Current residual;                ///< largest sum of currents at a node
  int iterations = 0;                     ///< Newton steps
};

/// The operating point of any network.
///
/// Chains between the nodes where more than two elements meet are one section with one current each;
/// Newton's method in the voltages of those nodes, with bracketed section solves and a line search on
/// the co-content, converges from anywhere because every law is monotone. Cost is linear in the number
/// of elements. Method: docs/methods/circuit.md.
///
/// Failures: circuit.bad-network (a node or law that is not there), circuit.source-loop (ideal sources
/// that contradict each other), circuit.not-converged (with the residual).
Result<Solution> solve(const Network& network, const SolveOptions& options = {});

/// A network taken apart once, to be solved for many values of its sources. Keeps the last solution
/// as the start of the next. The network must stay where it is, unchanged, as long as the solver.
class Solver {
 public:
  static Result<Solver> make(const Network& network, const SolveOptions& options = {});
  static Result<Solver> make(Network&&, const SolveOptions& = {}) = delete;
  Solver(Solver&&) noexcept;
  Solver& operator=(Solver&&) noexcept;
  ~Solver();

  /// A new voltage for an element that is a Source.
  void set_source(int element, units::Voltage e);
  Result<Solution> solve();

  /// After solve(): current out of the plus end of a source and how it changes with the source's own
  /// voltage, every other source held.
  struct Port {
    units::Current i;
    pv::Conductance di_de;
  };
  Result<Port> solve_port(int element);

 private:
  Solver();
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace stringwright::circuit
