#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "trail/outcome.hpp"

/// What of a job can be changed by itself: the values that flips vary. Not here: what the data sheet of
/// a module says, and what follows from a solution of the circuit.
namespace stringwright::check {

/// A quantity that may take any value, as a number in the unit that a person writes it in.
struct Lever {
  std::string key;  ///< "length", "stretches.2.above_roof"
  double low = 0, high = 0;
  double step = 1;       ///< what it is rounded to
  double origin = 0;     ///< of the rounding
  bool only_up = false;  ///< lowering it is never an advice
  double effort = 0;     ///< order among levers
  std::function<std::optional<double>(const codebook::Facts&)> get;
  std::function<void(codebook::Facts&, double)> set;
  /// @param at      the value now
  /// @param to      the nearest round value that passes (`better`), or the last that still holds
  /// @param better  the verdict gets better there
  std::function<std::string(double at, double to, bool better, trail::Verdict)> say;
};

/// A choice out of a standard series, as an index into it.
struct Series {
  std::string key;  ///< "wire", "rating"
  int size = 0;
  double effort = 0;
  std::function<std::optional<int>(const codebook::Facts&)> now;
  std::function<void(codebook::Facts&, int)> set;
  /// @param held     the last of the series that still holds
  /// @param flipped  the first beyond it
  std::function<std::string(int held, int flipped, bool better, trail::Verdict)> say;
};

/// Those that these facts have.
std::vector<Lever> levers(const codebook::Facts& facts);
std::vector<Series> series_of(const codebook::Facts& facts, const codebook::Edition& edition);

}  // namespace stringwright::check
