// Exactly on the limit passes where a code says "not less than" or "not more than", whatever the binary
// rounding of the way to it: every comparison of a rule goes through units::at_least and at_most.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <string>

#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"
#include "units/read.hpp"

namespace stringwright::codebook {
namespace {

Edition nec() { return Edition::open("nec_2023").value(); }

Verdict verdict(std::string_view rule, const Facts& f, const Edition& edition = nec()) {
  Trail aside;
  return find_rule(rule)->check(f, edition, aside).verdict;
}

/// The same number by another way: sums of parts, feet instead of metres and back.
double roundabout(double x) {
  double sum = 0;
  for (int i = 0; i < 10; ++i) sum += x / 10;
  return sum / 0.3048 * 0.3048;
}

RC_GTEST_PROP(OnTheLimit, DeviceExactlyTheRequiredCurrentPasses, ()) {
  const double i_sc = *rc::gen::inRange(100, 400000) / 1000.0 + 0.1;
  Facts f;
  f.subject = Subject::output_device;
  f.fitted = Fact<bool>(true);
  f.i_sc_total = Fact<units::Current>(units::amps(roundabout(i_sc)));
  f.rating = Fact<units::Current>(units::amps(i_sc * 1.5625));
  RC_ASSERT(verdict("ocpd.output-rating", f) == Verdict::pass);
  f.rating = Fact<units::Current>(units::amps(i_sc * 1.5625 * (1 - 1e-6)));
  RC_ASSERT(verdict("ocpd.output-rating", f) == Verdict::fail);
}

RC_GTEST_PROP(OnTheLimit, WindowOfADeviceIsClosedAtBothEnds, ()) {
  const double i_sc = *rc::gen::inRange(1000, 40000) / 1000.0;
  Facts f;
  f.subject = Subject::string_device;
  f.fitted = Fact<bool>(true);
  f.i_sc = Fact<units::Current>(units::amps(roundabout(i_sc)));
  f.rating = Fact<units::Current>(units::amps(1.25 * (1.25 * i_sc)));
  f.fuse_max = Fact<units::Current>(units::amps(roundabout(1.5625 * i_sc)));
  RC_ASSERT(verdict("ocpd.rating-window", f) == Verdict::pass);
}

RC_GTEST_PROP(OnTheLimit, VoltageExactlyTheLimitPasses, ()) {
  const int n = *rc::gen::inRange(1, 30);
  const double v_oc = *rc::gen::inRange(20000, 60000) / 1000.0;
  const double b = *rc::gen::inRange(200, 400) / -100000.0;
  const int t = *rc::gen::inRange(-40, 20);
  Facts f;
  f.subject = Subject::input;
  SeriesGroup g;
  g.count = Fact<units::Ratio>(static_cast<double>(n));
  g.v_oc = Fact<units::Voltage>(units::volts(v_oc));
  g.b_voc = Fact<units::PerKelvin>(units::per_kelvin(b));
  f.series.push_back(g);
  f.t_min = Fact<units::Temperature>(units::celsius(t));
  f.voltage_by = Fact<std::string>("coefficient");
  f.v_max_input = Fact<units::Voltage>(units::volts(v_oc * (n + n * b * (t - 25))));
  RC_ASSERT(verdict("voltage.equipment-input", f) == Verdict::pass);
  f.v_max_input = Fact<units::Voltage>(units::volts(v_oc * (n + n * b * (t - 25)) * (1 - 1e-6)));
  RC_ASSERT(verdict("voltage.equipment-input", f) == Verdict::fail);
}

RC_GTEST_PROP(OnTheLimit, CurrentExactlyTheInputsLimitPasses, ()) {
  const double i = *rc::gen::inRange(1000, 900000) / 1000.0;
  Facts f;
  f.subject = Subject::input;
  f.i_sc_total = Fact<units::Current>(units::amps(i));
  f.isc_max_input = Fact<units::Current>(units::amps(roundabout(i) * 1.25));
  RC_ASSERT(verdict("current.equipment-input", f) == Verdict::pass);
}

// The IEC window is open: "above" and "below" fail on the limit, in spite of rounding too.
RC_GTEST_PROP(OnTheLimit, OpenWindowsFailAtTheirEnds, ()) {
  const double i_sc = *rc::gen::inRange(1000, 30000) / 1000.0;
  Facts f;
  f.subject = Subject::string_device;
  f.fitted = Fact<bool>(true);
  f.i_sc = Fact<units::Current>(units::amps(roundabout(i_sc)));
  f.fuse_max = Fact<units::Current>(units::amps(1000));
  const auto iec = Edition::open("iec_2023").value();
  for (const double k : {1.5, 2.4}) {
    f.rating = Fact<units::Current>(units::amps(k * i_sc));
    RC_ASSERT(verdict("iec.string-device-rating", f, iec) == Verdict::fail);
  }
  f.rating = Fact<units::Current>(units::amps(1.6 * i_sc));
  RC_ASSERT(verdict("iec.string-device-rating", f, iec) == Verdict::pass);
}

// A table's bound belongs to the row that ends there.
TEST(OnTheLimit, TablesTakeTheirBoundIn) {
  EXPECT_EQ(
      nec().equipment_ground(units::amps(roundabout(60)), units::Metal::copper).value->print(),
      "10 AWG");
  EXPECT_EQ(nec().standard_rating_at_least(units::amps(roundabout(35))).value->in(units::amps), 35);
  EXPECT_EQ(
      nec().rooftop_adder(units::inches(roundabout(0.75)), "THWN-2").value->in(units::kelvins), 0);
}

// A raw comparison of two quantities in a rule would be a verdict by binary rounding. What is allowed
// here picks or sorts, and decides nothing.
TEST(OnTheLimit, RulesCompareThroughTheSharedGuard) {
  namespace fs = std::filesystem;
  const std::regex raw(R"re(\*[a-z_]+(\.value|->)?[a-z_.()]* (<|>|<=|>=) \*)re");
  for (const auto& entry :
       fs::directory_iterator(fs::path(STRINGWRIGHT_SOURCE_DIR) / "src/codebook/rules")) {
    if (entry.path().string().ends_with("_test.cpp")) continue;
    std::ifstream in(entry.path());
    std::string line;
    for (int n = 1; std::getline(in, line); ++n) {
      EXPECT_FALSE(std::regex_search(line, raw))
          << entry.path().filename() << ":" << n << ": " << line
          << "\n  compare quantities with units::at_least or at_most, or through the trail";
    }
  }
}

}  // namespace
}  // namespace stringwright::codebook
