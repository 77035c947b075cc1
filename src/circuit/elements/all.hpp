#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include "circuit/drop.hpp"
#include "circuit/elements/cell_group.hpp"
#include "circuit/elements/diode.hpp"
#include "circuit/elements/joint.hpp"
#include "circuit/elements/resistor.hpp"
#include "circuit/elements/source.hpp"

namespace stringwright::circuit {

/// Every kind of element, one file each. The solver asks only the three functions below; a new kind
/// is a file, a line here and a name in all.cpp.
using Law = std::variant<CellGroup, Resistor, Source, Joint, Diode>;

std::string_view name(const Law& law);  ///< "cell-group", "resistor", ...

/// Set where the law is a straight line; its other two answers follow from it.
std::optional<Linear> linear(const Law& law);
Drop at_current(const Law& law, units::Current i);
/// Not for a law without resistance (a source, a joint).
Flow at_voltage(const Law& law, units::Voltage v);

}  // namespace stringwright::circuit
