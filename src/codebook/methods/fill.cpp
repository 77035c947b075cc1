#include "codebook/methods/fill.hpp"

#include <cmath>
#include <numbers>

#include "codebook/raceways.hpp"

namespace stringwright::codebook {

Looked<units::Ratio> fill_share(const Edition& edition, int count,
                                const Fact<units::Length>& length) {
  const auto nipple = edition.limit<units::dim::length>("fill.nipple-up-to");
  if (length.known() && nipple.value && length->si() > 0 &&
      units::at_most(*length, *nipple.value)) {
    auto share = edition.factor("fill.nipple");
    share.where = words::plain(*length) + " is no longer than 24 in";
    return share;
  }
  auto share = edition.factor(count == 1   ? "fill.one-wire"
                              : count == 2 ? "fill.two-wires"
                                           : "fill.more-wires");
  share.where = std::to_string(count) + (count == 1 ? " conductor" : " conductors");
  return share;
}

Traced<units::Area> inside_area(Trail& trail, const Looked<units::Length>& inside) {
  const auto d = read_table(trail, "d_in", "inside diameter", inside);
  auto quarter_pi = trail::number(std::numbers::pi / 4);
  quarter_pi.formula = quarter_pi.numbers = "π/4";
  return trail.let("A_in", "inside", quarter_pi * (d * d));
}

int most_wires(const Edition& edition, units::Length inside, units::Area each) {
  const units::Area all = std::numbers::pi / 4 * (inside * inside);
  const double up_from = edition.factor("fill.count-up-from").value.value_or(1.0).in(units::plain);
  const auto fit = [&](std::string_view share) {
    const double n =
        edition.factor(share).value.value_or(0.0).in(units::plain) * (all / each).in(units::plain);
    const double whole = std::floor(n + 1e-9);
    return static_cast<int>(n - whole >= up_from - 1e-9 ? whole + 1 : whole);
  };
  if (const int n = fit("fill.more-wires"); n >= 3) return n;
  if (fit("fill.two-wires") >= 2) return 2;
  return fit("fill.one-wire") >= 1 ? 1 : 0;
}

std::optional<WireRoom> room_of(const LaidWires& wires, const Edition& edition, Trail& trail,
                                bool with_margin, std::vector<std::string>& missing) {
  const auto lacks = [&](std::string what) -> std::optional<WireRoom> {
    missing.push_back(std::move(what));
    return std::nullopt;
  };
  if (!wires.wire.known()) return lacks("a conductor in it");
  if (!wires.count.known()) return lacks("the number of conductors in it");
  const auto n = trail.given("n_w", "number of " + wires.wire->print(), wires.count);
  WireRoom room;
  Traced<units::Area> each;
  if (wires.od.known()) {
    const auto d = trail.given("d_w", "outside of the wire", wires.od);
    auto quarter_pi = trail::number(std::numbers::pi / 4);
    quarter_pi.formula = quarter_pi.numbers = "π/4";
    each = trail.let("A_each", "area of one", quarter_pi * (d * d));
    room.od = *wires.od;
  } else {
    const auto area = wire_area(edition, *wires.wire);
    const auto od = wire_outside(edition, *wires.wire);
    if (!area.value || !od.value) return lacks("the outside diameter of " + wires.wire->print());
    room.typical = area.source.status == "typical";
    room.od = *od.value;
    each = read_table(trail, "A_each", "area of one", area);
    if (room.typical && with_margin) {
      const auto margin = use(trail, "m_od", "margin of the diameter",
                              edition.factor("insulated-wire.typical-margin"));
      const auto grown = trail::number(1) + margin;
      each = trail.let("A_max", "area with the margin", each * (grown * grown));
      room.od = (1.0 + margin.value->in(units::plain)) * room.od;
    }
  }
  room.each = *each.value;
  room.area = n * each;
  return room;
}

}  // namespace stringwright::codebook
