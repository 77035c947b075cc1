#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace stringwright::parts {

/// What a part costs: hundredths of a currency, kept whole so that sums are exact.
struct Price {
  std::int64_t hundredths = 0;
  std::string currency;  ///< three capital letters (ISO 4217): "USD", "EUR"

  /// "12.50 EUR", "7 USD". The message of a failure says what was found and what is allowed.
  static Result<Price> read(std::string_view text);
  std::string print() const;  ///< "12.50 EUR"
  friend bool operator==(const Price&, const Price&) = default;
};

}  // namespace stringwright::parts
