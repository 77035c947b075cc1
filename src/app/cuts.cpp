#include "app/cuts.hpp"

#include "app/json_common.hpp"

namespace stringwright::app {
namespace {

Json piece(const design::CutPiece& p) {
  const char* plug = p.pole == wiring::Pole::plus ? "mates with module +" : "mates with module -";
  return {{"tag", p.tag},
          {"need_m", p.need.in(units::metres)},
          {"length_m", p.length.in(units::metres)},
          {"spare_m", p.spare().in(units::metres)},
          {"plug", plug},
          {"at_string", p.at_string},
          {"at_box", p.at_box}};
}

Json cable(const design::CutCable& c) {
  Json pieces = Json::array();
  if (c.plus) pieces.push_back(piece(*c.plus));
  if (c.minus) pieces.push_back(piece(*c.minus));
  return {{"number", c.number},
          {"part", c.part},
          {"family", c.family},
          {"wire", c.wire.print()},
          {"stock_m", c.stock.in(units::metres)},
          {"cut_m", c.cut.in(units::metres)},
          {"half_holds", c.half_holds ? Json(*c.half_holds) : Json(nullptr)},
          {"half_short_m", c.half_holds ? Json(c.half_short.in(units::metres)) : Json(nullptr)},
          {"pieces", pieces},
          {"flags", c.flags}};
}

}  // namespace

design::CutPlan cuts(const Evaluation& e, const parts::Library& stock,
                     const design::CutOptions& options) {
  return design::cut_plan(e.wiring, stock, options);
}

design::PlaceCurve place(const Evaluation& e, const std::string& box, const parts::Library& stock) {
  const auto line = design::usual_line(e.wiring.job, box);
  if (line) return design::place_box(e.wiring.job, box, *line, stock);
  design::PlaceCurve none;
  none.box = box;
  none.why_not = "box " + box + " has no place on a surface with rows (at = { on, x, y })";
  return none;
}

std::string cuts_json(const Evaluation& e, const design::CutPlan* plan) {
  Json j = {{"kind", "cuts"},
            {"file", e.file},
            {"usable", e.usable},
            {"diagnostics", diagnostics_json(e.diagnostics)}};
  if (!plan) return text_of(j);
  j["by"] = plan->by_price ? "price" : "cables";
  j["proved"] = plan->proved;
  j["bought_m"] = plan->bought.in(units::metres);
  j["needed_m"] = plan->needed.in(units::metres);
  j["price"] = plan->price ? Json(plan->price->print()) : Json(nullptr);
  j["price_date"] = plan->price ? Json(plan->price_date) : Json(nullptr);
  j["cables"] = Json::array();
  for (const auto& c : plan->cables) j["cables"].push_back(cable(c));
  j["reel"] = Json::array();
  for (const auto& r : plan->reel)
    j["reel"].push_back(
        {{"piece", piece(r.piece)},
         {"family", r.family},
         {"wire", r.wire.print()},
         {"longest_stock_m",
          r.longest_stock ? Json(r.longest_stock->in(units::metres)) : Json(nullptr)}});
  j["buy"] = Json::array();
  for (const auto& b : plan->buy)
    j["buy"].push_back({{"count", b.count},
                        {"part", b.part},
                        {"title", b.title},
                        {"length_m", b.length.in(units::metres)}});
  j["advice"] = plan->advice;
  j["cannot_tell"] = plan->cannot_tell;
  return text_of(j);
}

}  // namespace stringwright::app
