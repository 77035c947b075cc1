#pragma once

#include "circuit/build.hpp"
#include "units/quantity.hpp"
#include "wiring/wiring.hpp"

/// What a fault does to a built network: an element more, an element altered, an end that lands
/// elsewhere. The solver knows nothing of it. Every change clears `Built::one_maximum`.
namespace stringwright::circuit::faults {

/// Bypass groups of a module; 1 where the sheet does not say.
int groups_of(const Built& b, const wiring::Wiring& w, int device);

/// Node inside a module, `groups` bypass groups away from its minus terminal: 0 is that terminal, all of
/// them the plus terminal. In between the module's element is parted; the part at the plus end keeps
/// its index.
int tap(Built& b, const wiring::Wiring& w, int device, int groups);

/// A connection between two nodes; 0 Ω is an ideal joint. Its current is positive where it leaves at `a`.
/// Returns the element.
int bridge(Built& b, int a, int c, units::Resistance r = {});

/// A source behind a resistance, plus at `plus`. Returns the element that carries its current, positive
/// out of its plus end.
int battery(Built& b, int plus, int minus, units::Voltage e, units::Resistance r);

/// The element's plus end is cut off and hangs free. Returns the new node at that end.
int cut(Built& b, int element);

/// A resistance in series at the element's plus end. Returns its element; its current runs as the old one's.
int in_series(Built& b, int element, units::Resistance r);

/// The far end of a conductor lands on another terminal.
void land(Built& b, int conductor, int terminal);

/// The two ends of a string's home run land where the other belongs.
void reverse(Built& b, const wiring::Wiring& w, int string);

/// So many modules stand where one should: 0, none; 2, one too many.
void set_modules(Built& b, int device, int count);

}  // namespace stringwright::circuit::faults
