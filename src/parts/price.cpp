#include "parts/price.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace stringwright::parts {
namespace {

bool digits(std::string_view s) {
  return !s.empty() && s.find_first_not_of("0123456789") == std::string_view::npos;
}

Failure refuse(std::string_view found) {
  return {"parts.bad-price", "can't read the price " + text::quoted(found) +
                                 "; an amount with at most two decimals and a currency of three "
                                 "capital letters is needed, such as \"12.50 EUR\""};
}

}  // namespace

Result<Price> Price::read(std::string_view whole) {
  const std::string_view s = text::trim(whole);
  const auto blank = s.find(' ');
  if (blank == std::string_view::npos) return refuse(whole);
  const std::string_view amount = s.substr(0, blank);
  const std::string_view currency = text::trim(s.substr(blank));
  const auto point = amount.find('.');
  const std::string_view units = amount.substr(0, point);
  std::string cents =
      point == std::string_view::npos ? "00" : std::string(amount.substr(point + 1));
  constexpr std::size_t most_digits = 9;
  if (!digits(units) || units.size() > most_digits || !digits(cents) || cents.size() > 2)
    return refuse(whole);
  if (cents.size() == 1) cents += '0';
  const bool letters =
      currency.size() == 3 &&
      std::all_of(currency.begin(), currency.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  if (!letters) return refuse(whole);
  Price p;
  p.hundredths = std::stoll(std::string(units)) * 100 + std::stoll(cents);
  p.currency = currency;
  return p;
}

std::string Price::print() const {
  const std::string cents = std::to_string(hundredths % 100);
  return std::to_string(hundredths / 100) + "." + (cents.size() < 2 ? "0" : "") + cents + " " +
         currency;
}

}  // namespace stringwright::parts
