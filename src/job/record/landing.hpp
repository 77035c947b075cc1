#pragma once

#include <string>

namespace stringwright::job {

/// Where an end lands, as written ("A1.1", "CC1.PV1", "BA.minus.7") and taken apart.
struct Landing {
  std::string text;
  std::string owner;  ///< box or equipment id
  std::string bar;    ///< "" = slot, "minus", "earth", or the input's name on equipment
  int number = 0;     ///< slot or hole, from 1; 0 for an input
};

}  // namespace stringwright::job
