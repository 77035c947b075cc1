#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "trail/trail.hpp"
#include "units/quantity.hpp"

namespace stringwright::codebook {

/// Which family of devices: what a current above the rating does to them is agreed differently.
enum class Convention {
  us,  ///< devices listed for PV in the USA
  gpv  ///< fuse-links of class gPV
};
std::string_view print(Convention c);  ///< "US", "IEC gPV"
std::optional<Convention> convention(std::string_view name);

/// Conventional currents of a device as multiples of its rating: it holds up to one, opens from the
/// other on within a time; between them it may open and need not.
struct DeviceResponse {
  units::Ratio holds = 1.0;
  units::Ratio opens = 1.0;
  units::Time within;
  trail::Source source;
};

/// The conventional currents of a device of that rating.
///
/// Source: head of data/codebook/device_response.csv. Limits: 25 °C and free air; a device in a hot box
/// opens earlier, one in the cold later. Proved: cases of kind fuse_characteristic.
DeviceResponse device_response(Convention c, units::Current rating);

/// Factor of the reverse-current overload test of a module on its maximum series fuse rating, and how
/// long the test lasts. Source: IEC 61730-2.
struct ReverseTest {
  units::Ratio factor = 1.0;
  units::Time lasts;
  trail::Source source;
};
ReverseTest module_reverse_test();

/// Factor on a module's short-circuit current that its bypass diodes have been proved to carry.
/// Source: head of data/codebook/device_response.csv.
ReverseTest bypass_diode_test();

/// Largest ground-fault fuse that an inverter of that rating may have: the larger it is, the larger the
/// fault of a grounded conductor that it never sees.
///
/// Source: head of data/codebook/ground_fault_device.csv. Proved: cases of kind ground_fault_detection.
units::Current largest_ground_fault_fuse(units::Power inverter);

/// A ground-fault fuse sees what is above its rating; below is its blind spot.
bool ground_fault_seen(units::Current fault, units::Current rating);

/// Time within which such a fuse has melted under a current; none: nobody has printed it.
std::optional<units::Time> ground_fault_melts_within(units::Current fault, units::Current rating);

}  // namespace stringwright::codebook
