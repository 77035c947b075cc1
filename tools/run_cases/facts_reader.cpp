#include "facts_reader.hpp"

#include <optional>
#include <string>
#include <vector>

#include "base/text.hpp"
#include "units/read.hpp"

namespace stringwright::run_cases {
namespace {

/// Reads one record by its field list; keeps the first thing that is wrong.
class Reader {
 public:
  explicit Reader(const toml::table& table) : table_(table) {}

  template <class T>
  void operator()(std::string_view key, T& member, const About& about) {
    known_.emplace_back(key);
    const toml::node* node = table_.get(key);
    if (node == nullptr) {
      if (about.required) wrong(key, "is missing");
      return;
    }
    take(key, *node, member);
  }

  /// Empty where all is well.
  std::string finish(const std::vector<std::string>& left_alone) {
    for (const auto& [key, value] : table_) {
      const std::string name(key.str());
      const auto in = [&](const std::vector<std::string>& names) {
        for (const auto& n : names)
          if (n == name) return true;
        return false;
      };
      if (in(known_) || in(left_alone)) continue;
      const auto near = text::nearest(name, known_);
      wrong(name, "is no fact" + (near ? "; did you mean '" + *near + "'?" : std::string()));
    }
    return problem_;
  }

 private:
  void wrong(std::string_view key, const std::string& what) {
    if (problem_.empty()) problem_ = text::quoted(key) + " " + what;
  }

  std::optional<std::string> words(std::string_view key, const toml::node& node) {
    auto value = node.value_exact<std::string>();
    if (!value) wrong(key, "has to be text");
    return value;
  }

  /// Any quantity: a number and its unit as text.
  template <units::Dimension D>
  void take(std::string_view key, const toml::node& node, units::Quantity<D>& q) {
    if constexpr (D == units::dim::one) {
      if (const auto number = node.value<double>()) {
        q = units::Ratio(*number);
        return;
      }
    }
    const auto written = words(key, node);
    if (!written) return;
    const auto read = units::read<D>(*written);
    if (read)
      q = *read;
    else
      wrong(key, read.failure().message);
  }
  void take(std::string_view key, const toml::node& node, units::Temperature& t) {
    const auto written = words(key, node);
    if (!written) return;
    const auto read = units::read_temperature(*written);
    if (read)
      t = *read;
    else
      wrong(key, read.failure().message);
  }
  void take(std::string_view key, const toml::node& node, units::Wire& wire) {
    const auto written = words(key, node);
    if (!written) return;
    auto read = units::Wire::read(*written);
    if (read)
      wire = *std::move(read);
    else
      wrong(key, read.failure().message);
  }
  void take(std::string_view key, const toml::node& node, units::TradeSize& size) {
    const auto written = words(key, node);
    if (!written) return;
    auto read = units::TradeSize::read(*written);
    if (read)
      size = *std::move(read);
    else
      wrong(key, read.failure().message);
  }
  void take(std::string_view key, const toml::node& node, units::WireSize& size) {
    const auto written = words(key, node);
    if (!written) return;
    auto read = units::WireSize::read(*written);
    if (read)
      size = *std::move(read);
    else
      wrong(key, read.failure().message);
  }
  void take(std::string_view key, const toml::node& node, std::string& s) {
    if (auto written = words(key, node)) s = *std::move(written);
  }
  void take(std::string_view key, const toml::node& node, bool& flag) {
    if (const auto value = node.value_exact<bool>())
      flag = *value;
    else
      wrong(key, "has to be true or false");
  }
  void take(std::string_view key, const toml::node& node, codebook::Subject& subject) {
    const auto written = words(key, node);
    if (!written) return;
    codebook::Subject* const tag = nullptr;
    for (int i = 0; !names(tag, i).first.empty(); ++i) {
      if (names(tag, i).first != *written) continue;
      subject = names(tag, i).second;
      return;
    }
    wrong(key, "is no subject: " + text::quoted(*written));
  }
  template <class T>
  void take(std::string_view key, const toml::node& node, codebook::Fact<T>& fact) {
    T value{};
    take(key, node, value);
    fact = codebook::Fact<T>(std::move(value));
  }
  template <class T>
  void take(std::string_view key, const toml::node& node, std::optional<T>& member) {
    T value{};
    take(key, node, value);
    member = std::move(value);
  }
  /// A record inside the record, as a table of its own.
  template <class T>
    requires requires(Reader& reader, T& record) { describe(reader, record); }
  void take(std::string_view key, const toml::node& node, T& record) {
    const auto* table = node.as_table();
    if (table == nullptr) return wrong(key, "has to be a table");
    Reader reader(*table);
    describe(reader, record);
    if (const auto problem = reader.finish({}); !problem.empty())
      wrong(key, "has something in it that is wrong: " + problem);
  }
  template <class T>
  void take(std::string_view key, const toml::node& node, std::vector<T>& records) {
    const auto* list = node.as_array();
    if (list == nullptr) return wrong(key, "has to be a list of tables");
    for (const auto& element : *list) {
      const auto* table = element.as_table();
      if (table == nullptr) return wrong(key, "has to be a list of tables");
      T record;
      Reader reader(*table);
      describe(reader, record);
      if (const auto problem = reader.finish({}); !problem.empty())
        wrong(key, "has a record in which " + problem);
      records.push_back(std::move(record));
    }
  }

  const toml::table& table_;
  std::vector<std::string> known_;
  std::string problem_;
};

}  // namespace

Result<codebook::Facts> read_facts(const toml::table& given) {
  codebook::Facts facts;
  Reader reader(given);
  describe(reader, facts);
  if (auto problem = reader.finish({"edition"}); !problem.empty())
    return Failure{"cases.fact", std::move(problem)};
  return facts;
}

}  // namespace stringwright::run_cases
