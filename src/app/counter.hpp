#pragma once

#include <string>
#include <vector>

#include "app/design.hpp"
#include "design/bom.hpp"

namespace stringwright::app {

/// What a caller can say in two minutes; quantities as written.
struct CounterFacts {
  std::string module;  ///< id in the library (from the photo of its label)
  int count = 0;       ///< modules there are
  std::string
      equipment;  ///< id of a controller or inverter in the library; or the two limits below
  std::string v_max, isc_max;
  std::string battery;  ///< highest charge voltage; "" = none
  std::string far;      ///< box to equipment, one way
  std::string end;      ///< from the farther string end to the box
  std::string cold, hot;
  std::string mount = "roof";
  std::string edition = "nec_2023";
};

struct CounterReply {
  bool usable = false;
  std::vector<std::string> mistakes;  ///< in the facts
  std::string slip;                   ///< at most 80 columns, ready to print, send or read out
  bool fine = false;                  ///< no fail and nothing that can't be told
  std::string job;                    ///< the job file behind the slip, with the choices in it
};

/// Five facts to a verdict, a reason in a line each, and a cart. All of it comes from a job file that is
/// built from the facts, laid out, designed and judged as any other.
CounterReply counter(const CounterFacts& facts, const parts::Library& library);

}  // namespace stringwright::app
