#include "trail/trail.hpp"

#include <algorithm>
#include <tuple>

#include "base/text.hpp"

namespace stringwright::trail {
namespace detail {

std::vector<std::string> both(const std::vector<std::string>& x,
                              const std::vector<std::string>& y) {
  std::vector<std::string> all = x;
  for (const auto& name : y)
    if (std::find(all.begin(), all.end(), name) == all.end()) all.push_back(name);
  return all;
}

std::string behind_sign(const std::string& figures) {
  return text::starts_with(figures, "−") ? "(" + figures + ")" : figures;
}

Claim compare(const Traced<units::AnyQuantity>& x, const Traced<units::AnyQuantity>& y,
              std::string_view sign, std::optional<bool> holds) {
  Claim c;
  c.formula = x.text(2) + " " + std::string(sign) + " " + y.text(2);
  std::string left = "?";
  std::string right = "?";
  if (x.value && y.value) {
    std::tie(left, right) = units::print_pair(*x.value, *y.value);
  } else {
    if (x.value) left = units::print(*x.value);
    if (y.value) right = units::print(*y.value);
  }
  c.numbers = left + " " + std::string(sign) + " " + right;
  c.holds = holds;
  c.missing = both(x.missing, y.missing);
  return c;
}

}  // namespace detail

Traced<units::Ratio> number(double n) {
  Traced<units::Ratio> t;
  t.value = units::Ratio(n);
  t.formula = text::shortest(n);
  t.numbers = t.formula;
  return t;
}

Traced<units::Temperature> reference(units::Temperature point) {
  Traced<units::Temperature> t;
  t.value = point;
  t.formula = units::print(point);
  t.numbers = t.formula;
  return t;
}

Step Trail::step(Step::Kind kind, std::string words, std::optional<units::AnyQuantity> value,
                 Source source) {
  Step s;
  s.kind = kind;
  s.words = std::move(words);
  s.value = value;
  s.printed = value ? units::print(*value) : "not known";
  s.source = std::move(source);
  return s;
}

std::optional<bool> Trail::require(const Claim& claim, Source source) {
  Step s;
  s.kind = Step::Kind::require;
  s.formula = claim.formula;
  s.numbers = claim.numbers;
  s.holds = claim.holds;
  s.printed = !claim.holds ? "cannot tell" : *claim.holds ? "holds" : "does not hold";
  s.source = std::move(source);
  steps_.push_back(std::move(s));
  return claim.holds;
}

void Trail::note(std::string sentence, Source source) {
  Step s;
  s.kind = Step::Kind::note;
  s.words = std::move(sentence);
  s.source = std::move(source);
  steps_.push_back(std::move(s));
}

std::string render(const Step& s) {
  std::string line;
  std::string cite = s.source.cite.empty() ? "" : "  [" + s.source.cite + "]";
  if (!s.source.cite.empty() && s.source.status == "memory")
    cite.insert(cite.size() - 1, "; from memory");
  switch (s.kind) {
    case Step::Kind::given:
      line = s.symbol + " = " + s.printed +
             (s.source.cite.empty() ? "  (given)" : "  (given: " + s.source.cite + ")");
      break;
    case Step::Kind::factor:
      line = s.symbol + " = " + s.printed + cite;
      break;
    case Step::Kind::table:
      line =
          s.symbol + " = " + s.printed + (s.numbers.empty() ? "" : "  (" + s.numbers + ")") + cite;
      break;
    case Step::Kind::let:
      line = s.symbol + " = " + s.formula + (s.numbers == s.printed ? "" : " = " + s.numbers) +
             " = " + s.printed + cite;
      break;
    case Step::Kind::require:
      line = "require " + s.formula + ": " + s.numbers + "  " +
             (!s.holds   ? "cannot tell"
              : *s.holds ? "holds"
                         : "does not hold") +
             cite;
      break;
    case Step::Kind::note:
      line = s.words + cite;
      break;
  }
  return line;
}

std::string render(const Trail& trail) {
  std::string all;
  for (const auto& s : trail.steps()) all += render(s) + "\n";
  return all;
}

}  // namespace stringwright::trail
