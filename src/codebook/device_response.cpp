#include "codebook/device_response.hpp"

#include <cassert>
#include <vector>

#include "codebook/tables/csv.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  std::string convention;
  std::optional<units::Current> up_to;
  DeviceResponse response;
};

const std::vector<Row>& rows() {
  static const std::vector<Row> all = [] {
    const auto csv = tables::compiled_in("device_response.csv");
    std::vector<Row> read;
    for (std::size_t i = 0; i < csv.size(); ++i) {
      Row r;
      r.convention = csv.text(i, "convention");
      if (const auto most = csv.number(i, "rating_up_to_a")) r.up_to = units::amps(*most);
      r.response.holds = csv.number(i, "holds").value_or(1);
      r.response.opens = csv.number(i, "opens").value_or(1);
      r.response.within = units::hours(csv.number(i, "within_h").value_or(1));
      r.response.source = {csv.text(i, "cite"), csv.text(i, "status")};
      read.push_back(std::move(r));
    }
    return read;
  }();
  return all;
}

const DeviceResponse& find(std::string_view convention, units::Current rating) {
  for (const auto& r : rows())
    if (r.convention == convention && (!r.up_to || units::at_most(rating, *r.up_to)))
      return r.response;
  assert(false && "every convention has a row without an upper end");
  return rows().back().response;
}

}  // namespace

std::string_view print(Convention c) { return c == Convention::us ? "US" : "IEC gPV"; }

std::optional<Convention> convention(std::string_view name) {
  if (name == "us") return Convention::us;
  if (name == "gpv") return Convention::gpv;
  return std::nullopt;
}

DeviceResponse device_response(Convention c, units::Current rating) {
  return find(c == Convention::us ? "us" : "gpv", rating);
}

ReverseTest module_reverse_test() {
  const auto& r = find("test", units::amps(0));
  return {r.opens, r.within, r.source};
}

ReverseTest bypass_diode_test() {
  const auto& r = find("diode-test", units::amps(0));
  return {r.opens, r.within, r.source};
}

namespace {

/// Value of the row of `what` whose bound is not below `x`, or has none.
std::optional<double> ground_fault_row(std::string_view what, double x, bool up_to) {
  static const auto csv = tables::compiled_in("ground_fault_device.csv");
  for (std::size_t i = 0; i < csv.size(); ++i) {
    if (csv.text(i, "what") != what) continue;
    const auto bound = csv.number(i, "up_to");
    const units::Ratio here(x);
    if (!bound || (up_to ? units::at_most(here, units::Ratio(*bound))
                         : units::at_least(here, units::Ratio(*bound))))
      return csv.number(i, "value");
  }
  return std::nullopt;
}

}  // namespace

units::Current largest_ground_fault_fuse(units::Power inverter) {
  return units::amps(ground_fault_row("largest", inverter.in(units::kilowatts), true).value_or(0));
}

bool ground_fault_seen(units::Current fault, units::Current rating) {
  return !units::at_most(fault, rating);
}

std::optional<units::Time> ground_fault_melts_within(units::Current fault, units::Current rating) {
  const auto within = ground_fault_row("melts", fault / rating, false);
  return within ? std::optional(units::seconds(*within)) : std::nullopt;
}

}  // namespace stringwright::codebook
