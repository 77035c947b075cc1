#include "case_file.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.hpp"
#include "toml_file.hpp"
#include "units/quantity.hpp"

namespace stringwright::run_cases {
namespace {

/// Units of the case files with the quantity they measure and their SI value.
struct KnownUnit {
  std::string_view name, quantity;
  double factor;
};
constexpr double foot = units::feet.factor;
constexpr double inch = units::inches.factor;
constexpr double circular_mil = 3.14159265358979323846 / 4 * 0.001 * 0.001 * inch * inch;
constexpr KnownUnit known_units[] = {
    {"1", "number", 1},
    {"%", "number", 0.01},
    {"flag", "flag", 1},
    {"V", "voltage", 1},
    {"mV", "voltage", 1e-3},
    {"A", "current", 1},
    {"mA", "current", 1e-3},
    {"ohm", "resistance", 1},
    {"Mohm", "resistance", 1e6},
    {"W", "power", 1},
    {"kW", "power", 1e3},
    {"W/m2", "irradiance", 1},
    {"m", "length", 1},
    {"mm", "length", 1e-3},
    {"ft", "length", foot},
    {"in", "length", inch},
    {"m2", "area", 1},
    {"mm2", "area", 1e-6},
    {"in2", "area", inch* inch},
    {"cmil", "area", circular_mil},
    {"kcmil", "area", 1e3 * circular_mil},
    {"s", "time", 1},
    {"min", "time", 60},
    {"h", "time", 3600},
    {"ohm/kft", "resistance per length", 1 / (1000 * foot)},
    {"ohm/km", "resistance per length", 1e-3},
    {"ohm/m", "resistance per length", 1},
    {"ohm m", "resistivity", 1},
    {"ohm cmil/ft", "resistivity", circular_mil / foot},
    {"1/K", "per kelvin", 1},
    {"1/degC", "per kelvin", 1},
    {"%/K", "per kelvin", 0.01},
    {"%/degC", "per kelvin", 0.01},
    {"V/K", "voltage per kelvin", 1},
    {"V/degC", "voltage per kelvin", 1},
    {"mV/K", "voltage per kelvin", 1e-3},
    {"mV/degC", "voltage per kelvin", 1e-3},
    {"A/K", "current per kelvin", 1},
    {"A/degC", "current per kelvin", 1},
    {"ohm/K", "resistance per kelvin", 1},
    {"J/K", "entropy", 1},
    {"C", "charge", 1},
    {"deg", "angle", units::degrees.factor},
    {"rad", "angle", 1},
};

const KnownUnit* find_unit(std::string_view name) {
  for (const auto& unit : known_units)
    if (unit.name == name) return &unit;
  return nullptr;
}

std::optional<double> to_kelvin(double number, std::string_view unit, bool difference) {
  if (unit == "K") return number;
  if (unit == "degC") return difference ? number : number + 273.15;
  if (unit == "degF") return difference ? number / 1.8 : (number - 32) / 1.8 + 273.15;
  return std::nullopt;
}

std::optional<double> from_kelvin(double kelvin, std::string_view unit, bool difference) {
  if (unit == "K") return kelvin;
  if (unit == "degC") return difference ? kelvin : kelvin - 273.15;
  if (unit == "degF") return difference ? kelvin * 1.8 : (kelvin - 273.15) * 1.8 + 32;
  return std::nullopt;
}

/// `value` of an entry: a number, a flag, a text, or a list of one of them.
bool take(const toml::node& node, Entry& entry) {
  if (const auto* list = node.as_array()) {
    entry.is_list = true;
    for (const auto& element : *list) {
      if (element.is_array() || !take(element, entry)) return false;
    }
    return entry.numbers.empty() || entry.texts.empty();
  }
  if (const auto flag = node.value_exact<bool>()) {
    entry.numbers.push_back(*flag ? 1 : 0);
  } else if (const auto words = node.value_exact<std::string>()) {
    entry.texts.push_back(*words);
  } else if (const auto number = node.value<double>()) {
    if (!std::isfinite(*number)) return false;
    entry.numbers.push_back(*number);
  } else {
    return false;
  }
  return true;
}

std::string show(const Entry& entry) {
  std::vector<std::string> parts;
  parts.reserve(entry.numbers.size() + entry.texts.size());
  for (double number : entry.numbers)
    parts.push_back(entry.unit == "flag" ? (number != 0 ? "true" : "false")
                                         : text::shortest(number, 10));
  for (const auto& words : entry.texts) parts.push_back(words);
  std::string all = text::join(parts, ", ");
  if (entry.is_list) all = "[" + all + "]";
  return entry.unit.empty() || entry.unit == "1" || entry.unit == "flag" ? all
                                                                         : all + " " + entry.unit;
}

std::string string_of(const toml::table& table, std::string_view key) {
  return table[key].value_or<std::string>("");
}

}  // namespace

std::optional<double> convert(double number, std::string_view from, std::string_view to,
                              bool difference) {
  if (from == to) return number;
  if (const auto kelvin = to_kelvin(number, from, difference))
    return from_kelvin(*kelvin, to, difference);
  const auto* source = find_unit(from);
  const auto* target = find_unit(to);
  if (source == nullptr || target == nullptr || source->quantity != target->quantity)
    return std::nullopt;
  return number * (source->factor / target->factor);
}

Result<std::vector<Case>> read_published(const std::string& path, std::string_view source) {
  const auto parsed = parse_toml(path, source);
  if (!parsed) return parsed.failure();
  std::vector<Case> cases;
  const auto* list = (*parsed)["case"].as_array();
  if (list == nullptr) return cases;
  for (const auto& node : *list) {
    const auto* table = node.as_table();
    if (table == nullptr) return Failure{"cases.no-table", path + ": a [[case]] is not a table"};
    Case c;
    c.file = path;
    c.id = string_of(*table, "id");
    c.kind = string_of(*table, "kind");
    c.title = string_of(*table, "title");
    c.edition = string_of(*table, "edition");
    c.status = string_of(*table, "status");
    const auto bad = [&](std::string_view name, std::string_view what) {
      return Failure{"cases.bad-value",
                     path + ": case " + c.id + ": " + std::string(name) + ": " + std::string(what)};
    };
    if (const auto* inputs = (*table)["inputs"].as_table()) {
      for (const auto& [key, value] : *inputs) {
        const auto* record = value.as_table();
        Entry entry;
        entry.name = key.str();
        if (record == nullptr) return bad(entry.name, "needs value and unit");
        entry.unit = string_of(*record, "unit");
        const auto* number = record->get("value");
        if (number == nullptr || !take(*number, entry))
          return bad(entry.name, "no value that can be read");
        c.inputs.push_back(std::move(entry));
      }
    }
    if (const auto* expected = (*table)["expected"].as_table()) {
      for (const auto& [key, value] : *expected) {
        const auto* record = value.as_table();
        Expected e;
        e.printed.name = key.str();
        if (record == nullptr) return bad(e.printed.name, "needs value and unit");
        e.printed.unit = string_of(*record, "unit");
        const auto* printed = record->get("value");
        if (printed == nullptr || !take(*printed, e.printed))
          return bad(e.printed.name, "no value that can be read");
        e.resolution = (*record)["resolution"].value_or(0.0);
        e.reproduces = (*record)["reproduces"].value_or(true);
        if (const auto* again = record->get("recomputed_value")) {
          Entry entry;
          entry.name = e.printed.name;
          entry.unit = e.printed.unit;
          if (take(*again, entry)) e.recomputed = std::move(entry);
        }
        if (!e.reproduces && !e.recomputed)
          return bad(e.printed.name, "does not reproduce and has no recomputed_value");
        c.expected.push_back(std::move(e));
      }
    }
    cases.push_back(std::move(c));
  }
  return cases;
}

bool Answers::gives(std::string_view name) const {
  return std::any_of(case_->inputs.begin(), case_->inputs.end(),
                     [&](const Entry& e) { return e.name == name; });
}

bool Answers::expects(std::string_view name) const {
  return std::any_of(case_->expected.begin(), case_->expected.end(),
                     [&](const Expected& e) { return e.printed.name == name; });
}

std::string Answers::unit_of(std::string_view name) const {
  for (const auto& entry : case_->inputs)
    if (entry.name == name) return entry.unit;
  return "";
}

double Answers::as_printed(std::string_view output, double value) const {
  for (const auto& e : case_->expected)
    if (e.printed.name == output && e.resolution > 0)
      return std::round(value / e.resolution) * e.resolution;
  return value;
}

const Entry* Answers::input(std::string_view name) {
  for (const auto& entry : case_->inputs) {
    if (entry.name != name) continue;
    used_.emplace_back(name);
    return &entry;
  }
  return nullptr;
}

std::vector<double> Answers::numbers(std::string_view name, std::string_view unit) {
  const auto* entry = input(name);
  if (entry == nullptr) return {};
  if (!entry->texts.empty()) {
    fail("input " + entry->name + " is text, a number in " + std::string(unit) + " is needed");
    return {};
  }
  std::vector<double> all;
  for (double number : entry->numbers) {
    const auto converted = convert(number, entry->unit, unit);
    if (!converted) {
      fail("input " + entry->name + " is in " + entry->unit + ", which is not turned into " +
           std::string(unit));
      return {};
    }
    all.push_back(*converted);
  }
  return all;
}

std::optional<double> Answers::number(std::string_view name, std::string_view unit) {
  const auto all = numbers(name, unit);
  if (all.empty()) return std::nullopt;
  if (all.size() > 1) {
    fail("input " + std::string(name) + " is a list, one value is needed");
    return std::nullopt;
  }
  return all.front();
}

std::optional<double> Answers::difference(std::string_view name) {
  const auto* entry = input(name);
  if (entry == nullptr) return std::nullopt;
  if (entry->numbers.size() != 1) {
    fail("input " + entry->name + " is not one temperature difference");
    return std::nullopt;
  }
  const auto converted = convert(entry->numbers.front(), entry->unit, "K", true);
  if (!converted)
    fail("input " + entry->name + " is in " + entry->unit + ", which is no temperature");
  return converted;
}

std::vector<std::string> Answers::texts(std::string_view name) {
  const auto* entry = input(name);
  if (entry == nullptr) return {};
  if (!entry->numbers.empty()) {
    fail("input " + entry->name + " is a number, text is needed");
    return {};
  }
  return entry->texts;
}

std::optional<std::string> Answers::text(std::string_view name) {
  const auto all = texts(name);
  if (all.empty()) return std::nullopt;
  if (all.size() > 1) {
    fail("input " + std::string(name) + " is a list, one value is needed");
    return std::nullopt;
  }
  return all.front();
}

void Answers::answer(std::string_view name, double value, std::string_view unit) {
  answers_.push_back({{std::string(name), std::string(unit), false, {value}, {}}, false});
}
void Answers::answer(std::string_view name, std::vector<double> values, std::string_view unit) {
  answers_.push_back({{std::string(name), std::string(unit), true, std::move(values), {}}, false});
}
void Answers::answer_difference(std::string_view name, double value, std::string_view unit) {
  answers_.push_back({{std::string(name), std::string(unit), false, {value}, {}}, true});
}
void Answers::answer_text(std::string_view name, std::string value) {
  answers_.push_back({{std::string(name), "", false, {}, {std::move(value)}}, false});
}
void Answers::answer_texts(std::string_view name, std::vector<std::string> values) {
  answers_.push_back({{std::string(name), "", true, {}, std::move(values)}, false});
}
void Answers::answer_flag(std::string_view name, bool value) {
  answer(name, value ? 1.0 : 0.0, "flag");
}
void Answers::answer_flags(std::string_view name, const std::vector<bool>& values) {
  answer(name, std::vector<double>(values.begin(), values.end()), "flag");
}

void Answers::for_each_element(void (*check)(Answers&),
                               const std::vector<std::string_view>& whole) {
  const auto by_element = [&](const Entry& e) {
    return e.is_list && std::find(whole.begin(), whole.end(), e.name) == whole.end();
  };
  std::size_t rows = 0;
  for (const auto& entry : case_->inputs) {
    if (!by_element(entry)) continue;
    const std::size_t length = entry.numbers.size() + entry.texts.size();
    if (rows != 0 && rows != length) return fail("lists of unlike length");
    rows = length;
  }
  if (rows == 0) return check(*this);

  std::vector<Answer> merged;
  for (std::size_t i = 0; i < rows; ++i) {
    Case row = *case_;
    for (auto& entry : row.inputs) {
      if (!by_element(entry)) continue;
      entry.is_list = false;
      if (!entry.numbers.empty()) entry.numbers = {entry.numbers[i]};
      if (!entry.texts.empty()) entry.texts = {entry.texts[i]};
    }
    Answers answers(row);
    check(answers);
    used_.insert(used_.end(), answers.used_.begin(), answers.used_.end());
    failures_.insert(failures_.end(), answers.failures_.begin(), answers.failures_.end());
    for (auto& one : answers.answers_) {
      const auto known = std::find_if(merged.begin(), merged.end(), [&](const Answer& m) {
        return m.value.name == one.value.name;
      });
      if (known == merged.end()) {
        one.value.is_list = true;
        merged.push_back(std::move(one));
        continue;
      }
      auto& all = known->value;
      all.numbers.insert(all.numbers.end(), one.value.numbers.begin(), one.value.numbers.end());
      all.texts.insert(all.texts.end(), one.value.texts.begin(), one.value.texts.end());
    }
  }
  for (auto& one : merged) {
    const auto expected =
        std::find_if(case_->expected.begin(), case_->expected.end(),
                     [&](const Expected& e) { return e.printed.name == one.value.name; });
    auto& v = one.value;
    if (expected != case_->expected.end() && !expected->printed.is_list) {
      if (!v.numbers.empty() && std::all_of(v.numbers.begin(), v.numbers.end(),
                                            [&](double n) { return n == v.numbers[0]; }))
        v.numbers.resize(1);
      if (!v.texts.empty() && std::all_of(v.texts.begin(), v.texts.end(),
                                          [&](const auto& t) { return t == v.texts[0]; }))
        v.texts.resize(1);
    }
    answers_.push_back(std::move(one));
  }
}

void Answers::fail(std::string why) { failures_.push_back(std::move(why)); }

std::string Answers::judge(const Expected& expected, const Answer& answer) const {
  const Entry& target = expected.reproduces ? expected.printed : *expected.recomputed;
  Entry found = answer.value;
  if (!found.numbers.empty()) {
    for (double& number : found.numbers) {
      const auto converted = convert(number, found.unit, target.unit, answer.difference);
      if (!converted)
        return expected.printed.name + ": answered in " + found.unit + ", expected in " +
               target.unit;
      number = *converted;
    }
  }
  found.unit = target.unit;
  found.is_list = target.is_list || found.numbers.size() + found.texts.size() != 1;
  std::string both =
      expected.printed.name + ": expected " + show(target) +
      (expected.reproduces ? "" : " (the printed figure is " + show(expected.printed) + ")") +
      ", found " + show(found);
  if (found.texts != target.texts || found.numbers.size() != target.numbers.size()) return both;
  for (std::size_t i = 0; i < found.numbers.size(); ++i) {
    const double noise =
        units::guard * std::fmax(std::fabs(found.numbers[i]), std::fabs(target.numbers[i]));
    const double difference = std::fabs(found.numbers[i] - target.numbers[i]);
    if (!(difference <= expected.resolution / 2 + noise)) return both;
  }
  return "";
}

std::vector<Answers::Difference> Answers::differences() const {
  std::vector<Difference> all;
  for (const auto& expected : case_->expected) {
    const auto answer = std::find_if(answers_.begin(), answers_.end(), [&](const Answer& a) {
      return a.value.name == expected.printed.name;
    });
    const Entry& target = expected.reproduces ? expected.printed : *expected.recomputed;
    if (answer == answers_.end() || target.unit == "flag" ||
        answer->value.numbers.size() != target.numbers.size() || target.numbers.empty())
      continue;
    Difference d{expected.printed.name, 0};
    for (std::size_t i = 0; i < target.numbers.size(); ++i) {
      const auto found =
          convert(answer->value.numbers[i], answer->value.unit, target.unit, answer->difference);
      if (!found) continue;
      const double scale = std::fmax(std::fabs(*found), std::fabs(target.numbers[i]));
      // Of nothing there is no share.
      if (std::fabs(target.numbers[i]) > expected.resolution)
        d.share = std::fmax(d.share, std::fabs(*found - target.numbers[i]) / scale);
    }
    all.push_back(d);
  }
  return all;
}

std::vector<std::string> Answers::misses() const {
  std::vector<std::string> all = failures_;
  for (const auto& entry : case_->inputs)
    if (std::find(used_.begin(), used_.end(), entry.name) == used_.end())
      all.push_back("input " + entry.name + " = " + show(entry) + " is not used");
  for (const auto& expected : case_->expected) {
    const auto found = std::find_if(answers_.begin(), answers_.end(), [&](const Answer& a) {
      return a.value.name == expected.printed.name;
    });
    if (found == answers_.end()) {
      all.push_back(expected.printed.name + ": expected " + show(expected.printed) + ", no answer");
      continue;
    }
    const auto miss = judge(expected, *found);
    if (!miss.empty()) all.push_back(miss);
  }
  if (case_->expected.empty()) all.emplace_back("the case expects nothing");
  return all;
}

}  // namespace stringwright::run_cases
