#pragma once

#include <string_view>

namespace stringwright::codebook::tables {

bool exempt_from_rooftop_adder(std::string_view insulation, int edition);

}  // namespace stringwright::codebook::tables
