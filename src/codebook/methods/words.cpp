#include "codebook/methods/words.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.hpp"

namespace stringwright::codebook {
namespace {

/// "150.0 V" -> "150 V".
std::string without_zeros(std::string printed) {
  const auto point = printed.find('.');
  if (point == std::string::npos) return printed;
  auto end = point + 1;
  while (end < printed.size() && printed[end] >= '0' && printed[end] <= '9') ++end;
  auto last = end;
  while (last > point + 1 && printed[last - 1] == '0') --last;
  if (last == point + 1) last = point;
  return printed.erase(last, end - last);
}

/// |x − limit| with enough decimals to show that it is not nothing.
std::string gap(const units::AnyQuantity& x, const units::AnyQuantity& limit) {
  units::AnyQuantity q = x;
  q.si = std::fabs(x.si - limit.si);
  int decimals = units::shown(x).decimals;
  const double shown = std::fabs(units::shown_number(q));
  while (decimals < 9 && shown * std::pow(10.0, decimals) < 0.95) ++decimals;
  return without_zeros(units::print(q, decimals));
}

/// Above zero: over the limit; within the guard zero.
double over_by(const units::AnyQuantity& x, const units::AnyQuantity& limit) {
  const double scale = std::fmax(std::fabs(x.si), std::fabs(limit.si));
  return std::fabs(x.si - limit.si) <= units::guard * scale ? 0 : x.si - limit.si;
}

std::string relation(const units::AnyQuantity& x, const char* sign,
                     const units::AnyQuantity& limit) {
  const auto [left, right] = units::print_pair(x, limit);
  return without_zeros(left) + sign + without_zeros(right);
}

std::string sentence(const units::AnyQuantity& x, const units::AnyQuantity& limit, bool at_most) {
  const double over = over_by(x, limit) * (at_most ? 1 : -1);
  const char* holds = at_most ? " ≤ " : " ≥ ";
  if (over == 0) return relation(x, holds, limit) + ": passes with nothing to spare.";
  const std::string share =
      limit.si != 0 ? " (" + without_zeros(text::fixed(std::fabs(over / limit.si) * 100, 1)) +
                          " % of " + without_zeros(units::print(limit)) + ")"
                    : "";
  if (over < 0)
    return relation(x, holds, limit) + ": passes with " + gap(x, limit) + " to spare" + share + ".";
  return relation(x, at_most ? " > " : " < ", limit) + ": fails by " + gap(x, limit) + share + ".";
}

}  // namespace

namespace words {

std::string plain(const units::AnyQuantity& q) { return without_zeros(units::print(q)); }

std::string list(const std::vector<std::string>& all) {
  std::string line;
  for (std::size_t i = 0; i < all.size(); ++i)
    line += (i == 0 ? "" : i + 1 == all.size() ? " and " : ", ") + all[i];
  return line;
}

std::string unknown(const Trail& trail, const std::vector<std::string>& symbols) {
  std::vector<std::string> names;
  for (const auto& symbol : symbols) {
    std::string name = symbol;
    for (const auto& step : trail.steps()) {
      if (step.symbol != symbol || step.value) continue;
      if (step.kind == trail::Step::Kind::table && !step.numbers.empty())
        return "cannot tell: " + step.numbers + ".";
      name = step.words;
    }
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return "cannot tell: " + list(names) + (names.size() == 1 ? " is" : " are") + " not known.";
}

std::string compared(const units::AnyQuantity& x, const units::AnyQuantity& limit) {
  return relation(x, over_by(x, limit) > 0 ? " > " : " ≤ ", limit);
}

std::string at_most(const units::AnyQuantity& x, const units::AnyQuantity& limit) {
  return sentence(x, limit, true);
}

std::string at_least(const units::AnyQuantity& x, const units::AnyQuantity& limit) {
  return sentence(x, limit, false);
}

}  // namespace words

Outcome cannot_tell(std::string why) { return {Verdict::cannot_tell, std::move(why), {}, {}}; }
Outcome on_site(std::string demand) { return {Verdict::on_site, std::move(demand), {}, {}}; }

Outcome not_applicable(std::string why) {
  return {Verdict::not_applicable, std::move(why), {}, {}};
}

}  // namespace stringwright::codebook
