#include "codebook/device_response.hpp"
#include "kinds.hpp"

namespace stringwright::run_cases {

namespace {

using codebook::Convention;

void answer_all(Answers& a, std::string_view name, const std::vector<double>& values,
                std::string_view unit) {
  if (values.size() == 1)
    a.answer(name, values.front(), unit);
  else
    a.answer(name, values, unit);
}

}  // namespace

void check_fuse_characteristic(Answers& a) {
  const auto ratings = a.numbers("rating", "A");
  std::vector<double> holds, opens, hours, opening;
  for (const double rating : ratings) {
    const auto gpv = codebook::device_response(Convention::gpv, units::amps(rating));
    holds.push_back((gpv.holds * units::amps(rating)).in(units::amps));
    opens.push_back((gpv.opens * units::amps(rating)).in(units::amps));
    hours.push_back(gpv.within.in(units::hours));
    opening.push_back(
        (codebook::device_response(Convention::us, units::amps(rating)).opens * units::amps(rating))
            .in(units::amps));
  }
  if (!ratings.empty()) {
    answer_all(a, "non_fusing", holds, "A");
    answer_all(a, "fusing", opens, "A");
    answer_all(a, "conventional_time", hours, "h");
    answer_all(a, "opening_current", opening, "A");
  }
  if (const auto most = a.number("module_max_series_fuse", "A")) {
    const auto test = codebook::module_reverse_test();
    a.answer("factor", test.factor.in(units::plain), "1");
    a.answer("test_current", (test.factor * units::amps(*most)).in(units::amps), "A");
    a.answer("duration", test.lasts.in(units::hours), "h");
  }
}

void check_ground_fault_detection(Answers& a) {
  std::vector<double> largest;
  for (const double power : a.numbers("inverter_power", "kW"))
    largest.push_back(codebook::largest_ground_fault_fuse(units::kilowatts(power)).in(units::amps));
  if (!largest.empty()) answer_all(a, "max_fuse", largest, "A");
  const auto fault = a.number("fault_current", "A");
  const auto rating = a.number("gfpd_rating", "A");
  if (!fault || !rating) return;
  a.answer_flag("detected", codebook::ground_fault_seen(units::amps(*fault), units::amps(*rating)));
  a.answer("fraction_of_rating", *fault / *rating, "1");
  a.answer("multiple", *fault / *rating, "1");
  if (const auto within =
          codebook::ground_fault_melts_within(units::amps(*fault), units::amps(*rating)))
    a.answer("clearing_time_below", within->in(units::seconds), "s");
}

}  // namespace stringwright::run_cases
