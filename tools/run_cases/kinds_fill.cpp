// Published fills of raceways, by the tables and the method that the rule uses.
#include <cmath>
#include <optional>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/methods/fill.hpp"
#include "codebook/raceways.hpp"
#include "kinds.hpp"

namespace stringwright::run_cases {
namespace {

using codebook::Edition;

std::string type_named(const std::string& type) { return type == "THHN" ? "THWN-2" : type; }

/// Count of like conductors for one trade size.
void count(Answers& a) {
  const auto edition = Edition::open(Edition::offered(codebook::Family::nec).back()).value();
  const auto conduit = a.text("conduit"), trade = a.text("trade_size"), awg = a.text("awg"),
             insulation = a.text("insulation");
  if (!conduit || !trade || !awg || !insulation) return a.fail("lacks what it is counted by");
  units::Wire wire;
  wire.size = units::WireSize::from_table(*awg).value_or(units::WireSize{});
  wire.insulation = type_named(*insulation);
  const auto inside =
      codebook::raceway_inside(edition, *conduit, units::TradeSize::read(*trade).value());
  const auto each = codebook::wire_area(edition, wire);
  if (!inside.value || !each.value) return a.fail(inside.why + each.why);
  a.answer("max_conductors", codebook::most_wires(edition, *inside.value, *each.value), "1");
}

/// A share of a raceway of given inside area.
void share(Answers& a) {
  const auto edition = Edition::open(Edition::offered(codebook::Family::nec).back()).value();
  const auto total = a.number("total_area", "in2"), each = a.number("conductor_area_each", "in2"),
             n = a.number("thw_10", "1");
  a.text("conduit");
  a.text("trade_size");
  if (!total || !each || !n) return a.fail("lacks an area");
  const auto k = codebook::fill_share(edition, static_cast<int>(std::lround(*n)), {});
  const double used = *n * *each, useful = k.value->in(units::plain) * *total;
  a.answer("used_area", used, "in2");
  a.answer("useful_area", useful, "in2");
  a.answer("used_percent", 100 * used / *total, "%");
  // The source goes on with its rounded area.
  a.answer("unused_area", a.as_printed("useful_area", useful) - used, "in2");
  a.answer("unused_percent", 100 * (useful - used) / *total, "%");
}

/// Unlike conductors, and the smallest size that takes them.
void mixed(Answers& a) {
  const auto edition = Edition::open(Edition::offered(codebook::Family::nec).back()).value();
  const auto conduit = a.text("conduit");
  units::Area sum;
  int count = 0;
  for (const auto& [input, name] : {std::pair{"xhhw_6", "6 AWG Cu XHHW-2"},
                                    {"xhhw_8", "8 AWG Cu XHHW-2"},
                                    {"thhn_10", "10 AWG Cu THWN-2"}}) {
    const auto n = a.number(input, "1");
    const auto each = codebook::wire_area(edition, units::Wire::read(name).value());
    if (!n || !each.value) return a.fail("lacks a conductor");
    sum += *n * *each.value;
    count += static_cast<int>(std::lround(*n));
  }
  a.answer("conductor_area", sum.in(units::square_inches), "in2");
  const auto k = codebook::fill_share(edition, count, {});
  for (const auto& size : units::TradeSize::all()) {
    const auto inside = codebook::raceway_inside(edition, *conduit, size);
    if (!inside.value) continue;
    trail::Trail aside;
    if (!units::at_most(sum, *k.value * *codebook::inside_area(aside, inside).value)) continue;
    return a.answer_text("trade_size", size.table_name());
  }
}

}  // namespace

void check_conduit_fill(Answers& a) {
  if (a.gives("awg")) return a.for_each_element(count);
  if (a.gives("total_area")) return share(a);
  mixed(a);
}

}  // namespace stringwright::run_cases
