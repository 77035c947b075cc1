#include "parts/part.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "parts/module.hpp"

namespace stringwright::parts {
namespace {

struct Keys {
  template <class T>
  void operator()(std::string_view key, T&, const About& about) {
    all.emplace_back(key);
    EXPECT_FALSE(about.doc.empty()) << key;
    EXPECT_EQ(about.doc.back(), '.') << key;
    EXPECT_LE(about.min, about.max) << key;
  }
  std::vector<std::string> all;
};

template <class R>
std::vector<std::string> keys() {
  Keys keys;
  R record;
  describe(keys, record);
  return keys.all;
}

TEST(Parts, EveryFieldIsDescribedOnce) {
  for (auto all : {keys<Module>(), keys<Part>(), keys<TerminalSpec>()}) {
    const auto count = all.size();
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    EXPECT_EQ(all.size(), count);
  }
  EXPECT_GE(keys<Module>().size(), 19U);
  EXPECT_GE(keys<Part>().size(), 25U);
}

TEST(Parts, KindsHaveNames) {
  std::vector<std::string> all;
  for (int i = 0; !names(static_cast<PartKind*>(nullptr), i).first.empty(); ++i)
    all.emplace_back(names(static_cast<PartKind*>(nullptr), i).first);
  EXPECT_EQ(all, (std::vector<std::string>{"box", "breaker", "fuse", "disconnect", "arrester",
                                           "holder", "cable", "wire", "connector", "conduit",
                                           "fitting", "relief", "ground-bar", "lug", "controller",
                                           "inverter", "diode", "electronics", "branch"}));
}

TEST(Parts, PricesAreReadExactlyOrRefused) {
  EXPECT_EQ(Price::read("12.50 EUR")->hundredths, 1250);
  EXPECT_EQ(Price::read("7 USD")->print(), "7.00 USD");
  EXPECT_EQ(Price::read(" 0.5  USD ")->print(), "0.50 USD");
  for (const char* bad : {"", "12", "12.50", "EUR 12", "12,50 EUR", "12.505 EUR", "-1 EUR", "1 eur",
                          "1 EURO", ". EUR", "1. EUR", "1e3 EUR", "9999999999 EUR"})
    EXPECT_FALSE(Price::read(bad)) << bad;
}

/// −0.115 V/K of 41.07 V is −0.28 %/K: the two ways of a data sheet say the same.
TEST(Parts, CoefficientsAreRelativeOrAbsolute) {
  Coefficient<units::dim::voltage> absolute;
  absolute.absolute = units::volts_per_kelvin(-0.115);
  EXPECT_NEAR(absolute.per_kelvin(units::volts(41.07)).in(units::percent_per_kelvin), -0.28, 1e-4);
  Coefficient<units::dim::voltage> relative;
  relative.relative = units::percent_per_kelvin(-0.28);
  EXPECT_DOUBLE_EQ(relative.per_kelvin(units::volts(41.07)).in(units::percent_per_kelvin), -0.28);
}

}  // namespace
}  // namespace stringwright::parts
