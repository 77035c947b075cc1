#pragma once

#include <vector>

#include "codebook/edition.hpp"

/// Tables of the IEC family. Metric sizes, other methods of installation and other base temperatures than
/// those of the NEC family: never read one with a value of the other. Sources, units and status stand at
/// the head of each CSV.
namespace stringwright::codebook::iec {

/// Capacity of copper conductors of which two are loaded, 30 °C air.
/// @param method  "b1" conduit on a wall, "c" clipped direct, "e" free air or perforated tray
/// @param column  70 °C (PVC) or 90 °C (XLPE)
Looked<units::Current> cable_capacity(const Edition& edition, const units::WireSize& size,
                                      units::Metal metal, std::string_view method,
                                      units::Temperature column);
/// Factor for air other than 30 °C; between two rows the hotter one holds; none above the table.
Looked<units::Ratio> ambient_factor(const Edition& edition, units::Temperature ambient,
                                    units::Temperature column);
/// Factor for `circuits` that lie together; between two columns the one of more circuits holds.
/// @param arrangement  "bunched", "surface", "tray", "ladder"
Looked<units::Ratio> grouping_factor(const Edition& edition, std::string_view arrangement,
                                     int circuits);

/// Capacity of single-core PV cable, 60 °C air, conductor at 120 °C.
/// @param laying  "free_air", "surface", "two_touching"
Looked<units::Current> pv_cable_capacity(const Edition& edition, const units::WireSize& size,
                                         std::string_view laying);
/// Factor for air hotter than 60 °C: the smaller of the printed one and the heat balance.
Looked<units::Ratio> pv_cable_factor(const Edition& edition, units::Temperature ambient);

/// Largest resistance per length at 20 °C: copper as flexible tinned (PV cable), aluminium as stranded.
Looked<units::ResistancePerLength> resistance_at_20(const Edition& edition,
                                                    const units::WireSize& size,
                                                    units::Metal metal);

/// Smallest protective conductor beside line conductors of the same metal: S up to 16 mm², 16 mm² up to
/// 35 mm², above that S/2.
Looked<units::Area> protective_conductor(const Edition& edition, const units::WireSize& line);

/// Rated currents of gPV fuse-links, small to large.
struct FuseRating {
  units::Current rating;
  std::string status;
};
const std::vector<FuseRating>& fuse_ratings();

}  // namespace stringwright::codebook::iec
