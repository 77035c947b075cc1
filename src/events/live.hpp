#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "events/solve.hpp"

namespace stringwright::events {

/// What a hand finds at a terminal.
enum class Touch {
  live,      ///< a source drives it against ground
  floating,  ///< a source stands behind it, and nothing holds it against ground: treat it as live
  ground,    ///< held at ground by a solid bond that no device opens
  dead       ///< no source reaches it in this position of the devices
};
std::string_view word(Touch t);  ///< "LIVE", "FLOAT", "GROUND", "DEAD"

/// Terminals that are one point of the circuit.
struct LiveAt {
  std::vector<std::string> terminals;
  Touch touch = Touch::floating;
  std::optional<units::Voltage> to_ground;  ///< none: nothing holds it against ground
  std::optional<units::Voltage>
      to_minus;  ///< against the minus of its input; none: not joined to it
};

/// Every terminal of boxes, devices and inputs in a solved position, in the order of the wiring; grounded
/// metal and the joints between modules are left out.
///
/// Leaks through the insulation hold nothing. A pole that is at ground through a functional bond (a switch, a
/// fuse) floats: the bond may open at any moment. Dead is not proven: a device that closes makes it live.
std::vector<LiveAt> live(const Site& s, const Solved& x);

/// The entry of one terminal; null where it has none.
const LiveAt* live_at(const std::vector<LiveAt>& all, const std::string& terminal);

}  // namespace stringwright::events
