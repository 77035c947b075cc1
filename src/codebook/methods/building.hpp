#pragma once

#include <optional>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"

/// Where an array stands and how close its d.c. circuits come to a building.
namespace stringwright::codebook {

/// An edition of the other family; this one's clauses are none of the NEC's.
bool of_iec(const Edition& edition);

/// An answer that may be missing, with the reason in a few words.
struct Answer {
  std::optional<bool> holds;
  std::string why;  ///< "the array stands on a roof"; where nothing is known: what to find out
};

/// Any of the array's d.c. circuits runs on or in a building.
Answer on_a_building(const Facts& facts);

/// No d.c. circuit of the array comes near a building but one that houses nothing but PV equipment,
/// and the array itself does not stand on it.
Answer apart_from_buildings(const Facts& facts);

}  // namespace stringwright::codebook
