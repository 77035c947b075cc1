#include "codebook/example.hpp"

#include <cstdlib>
#include <string>
#include <utility>

#include "units/read.hpp"

namespace stringwright::codebook {
namespace {

/// Fills a record from the examples of its own field list.
class Filler {
 public:
  explicit Filler(Family family) : family_(family) {}

  template <class T>
  void operator()(std::string_view key, T& member, const About& about) {
    take(key, member, std::string(about.example));
  }

 private:
  template <units::Dimension D>
  void take(std::string_view, units::Quantity<D>& q, const std::string& example) {
    if (const auto read = units::read<D>(example)) q = *read;
  }
  void take(std::string_view, units::Temperature& t, const std::string& example) {
    if (const auto read = units::read_temperature(example)) t = *read;
  }
  void take(std::string_view, units::Wire& wire, const std::string& example) {
    const bool american = family_ == Family::nec;
    if (auto read = units::Wire::read(american ? example : "6 mm² Cu PV")) wire = *std::move(read);
  }
  void take(std::string_view, units::TradeSize& size, const std::string& example) {
    if (auto read = units::TradeSize::read(example)) size = *std::move(read);
  }
  void take(std::string_view, units::WireSize& size, const std::string& example) {
    if (auto read = units::WireSize::read(example)) size = *std::move(read);
  }
  void take(std::string_view, int& n, const std::string& example) {
    if (!example.empty()) n = static_cast<int>(std::strtol(example.c_str(), nullptr, 10));
  }
  void take(std::string_view, std::string& s, const std::string& example) { s = example; }
  void take(std::string_view, bool& flag, const std::string& example) { flag = example == "true"; }
  void take(std::string_view, Subject&, const std::string&) {}
  template <class T>
  void take(std::string_view key, Fact<T>& fact, const std::string& example) {
    if (example.empty()) return;
    T value{};
    take(key, value, example);
    fact = Fact<T>(std::move(value), "example");
  }
  template <class T>
  void take(std::string_view key, std::optional<T>& member, const std::string& example) {
    if (example.empty()) return;
    T value{};
    take(key, value, example);
    member = std::move(value);
  }
  template <class T>
  void take(std::string_view, std::vector<T>& records, const std::string&) {
    if constexpr (requires(Filler& f, T& record) { describe(f, record); }) {
      T record;
      describe(*this, record);
      records.push_back(std::move(record));
    }
  }
  template <class T>
    requires requires(Filler& f, T& record) { describe(f, record); }
  void take(std::string_view, T& record, const std::string&) {
    describe(*this, record);
  }

  Family family_;
};

}  // namespace

Facts example_facts(Subject subject, Family family) {
  Facts facts;
  Filler fill(family);
  describe(fill, facts);
  facts.subject = subject;
  return facts;
}

std::optional<Facts> example_for(const Rule& rule, Family family) {
  Subject* const tag = nullptr;
  for (int i = 0; !names(tag, i).first.empty(); ++i) {
    Facts facts = example_facts(names(tag, i).second, family);
    if (rule.applies(facts)) return facts;
  }
  // Some ask what the example is not: a sub-array, several strings on one device.
  for (int i = 0; !names(tag, i).first.empty(); ++i) {
    Facts facts = example_facts(names(tag, i).second, family);
    facts.parallel.lands_on_input.value = false;
    facts.parallel.strings_on_device.value = units::Ratio(2.0);
    if (rule.applies(facts)) return facts;
  }
  return std::nullopt;
}

std::vector<AskedLine> asked_lines(const Rule& rule, const Edition& edition) {
  std::vector<AskedLine> lines;
  const auto facts = example_for(rule, edition.family());
  if (!facts || !asked_in(rule, edition)) return lines;
  trail::Trail trail;
  rule.check(*facts, edition, trail);
  using Kind = trail::Step::Kind;
  for (const auto& step : trail.steps()) {
    AskedLine line;
    line.words = step.words;
    line.cite = step.source.cite;
    line.status = step.source.status;
    switch (step.kind) {
      case Kind::given:
        continue;
      case Kind::factor:
        line.text = step.symbol + " = " + step.printed;
        break;
      case Kind::table:
        line.text = step.symbol + " read in a table";
        break;
      case Kind::let:
        line.text = step.symbol + " = " + step.formula;
        break;
      case Kind::require:
        line.text = "require " + step.formula;
        break;
      case Kind::note:
        line.text = step.words;
        line.words.clear();
        if (line.cite.empty()) continue;  // about the example, not about the rule
        break;
    }
    if (line.status == "given") line.status.clear();
    bool again = false;
    for (const auto& before : lines) again = again || before.text == line.text;
    if (!again) lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace stringwright::codebook
