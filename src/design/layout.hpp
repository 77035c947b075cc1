#pragma once

#include <optional>
#include <string>
#include <vector>

#include "check/facts.hpp"
#include "codebook/edition.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::design {

/// One way to put an input's modules together: `series` in each string, `parallel` strings.
struct Layout {
  int series = 0, parallel = 0;
  units::Voltage v_cold, v_hot;            ///< by the method that judges; at the hottest cells
  std::optional<units::Voltage> v_record;  ///< at the record low, by the coefficient
  std::optional<units::Voltage> v_table;   ///< by the code's table
  units::Power p_hot;   ///< V_hot · I_mp of all strings: what a hot noon yields, no more
  units::Current i_sc;  ///< of all strings, at STC: what the way down is sized by
  std::optional<units::Voltage>
      margin_cold;  ///< what is left to the input's limit; none is known without one
  std::optional<bool> needs_devices;  ///< the others can drive more back than a module bears
  std::optional<int> spare_slots;     ///< of the job's box; negative: too few
  std::vector<std::string> cautions, cannot_tell;  ///< findings that say so, rule ids
  bool now = false;                                ///< as the job has it
  bool front = false;  ///< no other layout is at least as good in every way and better in one
};

/// All layouts of one input.
struct Layouts {
  std::string input;  ///< "CC1.PV1"
  std::string module;
  int modules = 0;           ///< modules that the job has for it
  std::vector<Layout> fits;  ///< the front first, by yield
  int refused = 0;           ///< counts that a rule fails
  std::string
      first_refused;  ///< "4 in series: ..." the shortest string that is too long, else why none fits
};

/// Every count in series and in parallel that the rules about an input pass, cold and hot: the same rules
/// that check asks, with other counts in the facts. Of an input whose strings are alike and of one module;
/// with no more modules than the job has there.
///
/// Better means: more yield hot, more margin cold, less current down the way (conductor cost goes by it),
/// no string devices needed, more slots to spare.
std::vector<Layouts> layouts(const wiring::Wiring& w, const codebook::Edition& edition);

}  // namespace stringwright::design
