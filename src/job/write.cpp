#include <fmt/format.h>

#include <string>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "job/fields.hpp"
#include "job/kinds.hpp"
#include "job/names.hpp"
#include "job/parts_file.hpp"
#include "job/read.hpp"
#include "units/print.hpp"

namespace stringwright::job {
namespace {

std::string quoted(std::string_view s) {
  std::string all = "\"";
  for (const char c : s) {
    if (c == '"' || c == '\\') {
      all += '\\';
      all += c;
    } else if (c == '\n') {
      all += "\\n";
    } else {
      all += c;
    }
  }
  return all + "\"";
}

std::string key_text(const std::string& id) {
  constexpr std::string_view bare =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-";
  return !id.empty() && id.find_first_not_of(bare) == std::string::npos ? id : quoted(id);
}

/// The shortest decimal in the shown unit that reads back as the very same number.
std::string exact(const units::AnyQuantity& q) {
  const auto shown = units::shown(q);
  const double number = units::shown_number(q);
  const std::string unit = shown.unit.empty() ? "" : " " + std::string(shown.unit);
  constexpr int most = 17;
  for (int digits = 6;; ++digits) {
    const std::string text = fmt::format("{:.{}g}", number, digits) + unit;
    const auto back = read_number(text, q.dimension, q.point);
    if (back && *back == q.si) return text;
    // Not every length has a decimal in millimetres that reads back as it was; in metres it has.
    if (digits >= most) return q.dimension == units::dim::length ? fmt::format("{} m", q.si) : text;
  }
}

template <units::Dimension D>
std::string toml_of(const units::Quantity<D>& q) {
  return quoted(exact(q));
}
std::string toml_of(const units::Ratio& q) { return fmt::format("{}", q.si()); }
std::string toml_of(const units::Temperature& t) { return quoted(exact(t)); }
template <units::Dimension D>
std::string toml_of(const parts::Coefficient<D>& c) {
  return c.relative ? toml_of(*c.relative)
                    : toml_of(c.absolute.value_or(units::Quantity<D - units::dim::kelvin>{}));
}
std::string toml_of(bool b) { return b ? "true" : "false"; }
std::string toml_of(int i) { return std::to_string(i); }
std::string toml_of(const std::string& s) { return quoted(s); }
std::string toml_of(const units::Wire& w) { return quoted(w.print()); }
std::string toml_of(const units::WireSize& s) { return quoted(s.print()); }
std::string toml_of(const units::TradeSize& s) { return quoted(s.print()); }
std::string toml_of(const parts::Price& p) { return quoted(p.print()); }
std::string toml_of(const std::vector<ModulePlace>& walk) { return quoted(print_walk(walk)); }
std::string toml_of(const Landing& landing) { return quoted(landing.text); }
template <class E>
  requires std::is_enum_v<E>
std::string toml_of(const E& choice) {
  return quoted(name_of(choice));
}
template <class T>
std::string toml_of(const std::vector<T>& list) {
  std::vector<std::string> all;
  all.reserve(list.size());
  for (const auto& entry : list) all.push_back(toml_of(entry));
  return "[" + text::join(all, ", ") + "]";
}

template <class T>
bool is_written(const Given<T>& field) {
  return field.known() || field.choose;
}
template <class T>
std::string value_of(const Given<T>& field) {
  return field.choose ? "\"choose\"" : toml_of(*field);
}

/// `{ key = value, ... }`, empty where nothing of the record is known.
class InlineWriter {
 public:
  template <class T>
  void operator()(std::string_view key, Given<T>& member, const About&) {
    if (is_written(member)) add(key, value_of(member));
  }
  template <Record R>
  void operator()(std::string_view key, R& member, const About&) {
    const std::string text = of(member);
    if (!text.empty()) add(key, text);
  }
  template <RecordById R>
  void operator()(std::string_view key, std::vector<R>& member, const About&) {
    std::vector<std::string> all;
    for (auto& record : member) {
      const std::string text = of(record);
      all.push_back(key_text(record.id) + " = " + (text.empty() ? "{}" : text));
    }
    if (!all.empty()) add(key, "{ " + text::join(all, ", ") + " }");
  }
  template <class R>
    requires(Record<R> && !RecordById<R>)
  void operator()(std::string_view key, std::vector<R>& member, const About&) {
    if (!member.empty()) add(key, list_of(member));
  }

  template <Record R>
  static std::string of(R& record) {
    InlineWriter inner;
    describe(inner, record);
    return inner.all_.empty() ? "" : "{ " + text::join(inner.all_, ", ") + " }";
  }
  template <Record R>
  static std::string list_of(std::vector<R>& records) {
    std::vector<std::string> all;
    for (auto& record : records) {
      const std::string text = of(record);
      all.push_back(text.empty() ? "{}" : text);
    }
    return "[" + text::join(all, ", ") + "]";
  }

 private:
  void add(std::string_view key, const std::string& value) {
    all_.push_back(std::string(key) + " = " + value);
  }
  std::vector<std::string> all_;
};

/// One table; tables within it that have ids come behind it.
class TableWriter {
 public:
  explicit TableWriter(std::string path) : path_(std::move(path)) {}

  template <class T>
  void operator()(std::string_view key, Given<T>& member, const About&) {
    if (is_written(member)) line(key, value_of(member));
  }
  template <Record R>
  void operator()(std::string_view key, R& member, const About&) {
    if (path_.empty()) {
      TableWriter inner{std::string(key)};
      describe(inner, member);
      if (!inner.lines_.empty()) behind_ += inner.print();
    } else if (const std::string text = InlineWriter::of(member); !text.empty()) {
      line(key, text);
    }
  }
  template <Record R>
  void operator()(std::string_view key, std::optional<R>& member, const About&) {
    if (!member) return;
    const std::string text = InlineWriter::of(*member);
    line(key, text.empty() ? "{}" : text);
  }
  template <RecordById R>
  void operator()(std::string_view key, std::vector<R>& member, const About&) {
    for (auto& record : member) {
      TableWriter inner((path_.empty() ? "" : path_ + ".") + std::string(key) + "." +
                        key_text(record.id));
      describe(inner, record);
      behind_ += inner.print();
    }
  }
  template <class R>
    requires(Record<R> && !RecordById<R>)
  void operator()(std::string_view key, std::vector<R>& member, const About&) {
    if (!member.empty()) line(key, InlineWriter::list_of(member));
  }

  std::string print() const {
    return (path_.empty() ? "" : "\n[" + path_ + "]\n") + lines_ + behind_;
  }

 private:
  void line(std::string_view key, const std::string& value) {
    lines_ += std::string(key) + " = " + value + "\n";
  }

  std::string path_, lines_, behind_;
};

}  // namespace

std::string write(const Job& job) {
  Job copy = job;  // field lists visit what can be written
  TableWriter file("");
  describe(file, copy);
  return file.print();
}

std::string write_library(const parts::Library& library) {
  PartsFile copy{library};
  TableWriter file("");
  describe(file, copy);
  return file.print();
}

}  // namespace stringwright::job
