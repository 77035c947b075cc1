#pragma once

#include <string_view>

#include "codebook/edition.hpp"
#include "units/sizes.hpp"

/// Tables of raceways and of what lies in them: dimensions, bends, supports, burial.
namespace stringwright::codebook {

/// True for the methods that are raceways (EMT, PVC40, ...), not free air, tray or bare earth.
bool is_raceway(std::string_view method);
bool is_metal_raceway(std::string_view method);     ///< EMT, RMC, IMC, FMC, LFMC
bool is_flexible_raceway(std::string_view method);  ///< FMC, LFMC, LFNC
bool is_pvc(std::string_view method);

/// Inside diameter of a raceway. No value where the table has no such size.
Looked<units::Length> raceway_inside(const Edition& edition, std::string_view method,
                                     const units::TradeSize& size);
/// Least radius to the centre line of a field bend, "other bends" column.
Looked<units::Length> bend_radius(const Edition& edition, const units::TradeSize& size);

/// Largest distance between supports, and from a box.
struct RacewaySupport {
  Looked<units::Length> spacing, from_box;
};
RacewaySupport raceway_support(const Edition& edition, std::string_view method,
                               const units::TradeSize& size);

/// Area of an insulated or bare conductor as raceway fill counts it, and its outside diameter. PV wire
/// is in no table: a typical value stands in with the status "typical".
Looked<units::Area> wire_area(const Edition& edition, const units::Wire& wire);
Looked<units::Length> wire_outside(const Edition& edition, const units::Wire& wire);

/// Least cover of a buried method under "soil", "slab", "drive" or "road".
Looked<units::Length> burial_depth(const Edition& edition, std::string_view method,
                                   std::string_view under);

/// Ampacity of conductors rated 105 or 125 °C in raceway, cable or earth; nothing before NEC 2020.
Looked<units::Current> hot_ampacity(const Edition& edition, const units::WireSize& size,
                                    units::Temperature rating);
/// Their ambient correction.
Looked<units::Ratio> hot_ambient_factor(const Edition& edition, units::Temperature ambient,
                                        units::Temperature rating);

}  // namespace stringwright::codebook
