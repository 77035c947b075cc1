#pragma once

#include <string>
#include <vector>

#include <fmt/format.h>

#include "job/fields.hpp"
#include "job/names.hpp"
#include "job/patterns.hpp"

/// For tests: a record as lines `path = value`, each number with all its bits, spans left out. Two
/// records are the same when their lines are.
namespace stringwright::job {

class Flat {
 public:
  template <class R>
  static std::vector<std::string> of(const R& record) {
    Flat flat("");
    R copy = record;
    describe(flat, copy);
    return flat.lines_;
  }

  template <class T>
  void operator()(std::string_view key, Given<T>& member, const About&) {
    if (member.choose) add(key, "choose");
    if (member.known()) add(key, bits(*member));
  }
  template <Record R>
  void operator()(std::string_view key, R& member, const About&) {
    inner(key, member);
  }
  template <Record R>
  void operator()(std::string_view key, std::optional<R>& member, const About&) {
    if (!member) return;
    add(key, "there");
    inner(key, *member);
  }
  template <Record R>
  void operator()(std::string_view key, std::vector<R>& member, const About&) {
    for (std::size_t i = 0; i < member.size(); ++i) {
      std::string name = std::string(key) + "." + std::to_string(i);
      if constexpr (RecordById<R>) name += " " + member[i].id;
      add(name, "there");
      inner(name, member[i]);
    }
  }

 private:
  explicit Flat(std::string path) : path_(std::move(path)) {}

  template <units::Dimension D>
  static std::string bits(const units::Quantity<D>& q) {
    return fmt::format("{:a}", q.si());
  }
  static std::string bits(const units::Temperature& t) { return fmt::format("{:a}", t.kelvin()); }
  template <units::Dimension D>
  static std::string bits(const parts::Coefficient<D>& c) {
    return c.relative ? "relative " + bits(*c.relative) : "absolute " + bits(*c.absolute);
  }
  static std::string bits(int i) { return std::to_string(i); }
  static std::string bits(bool b) { return b ? "true" : "false"; }
  static std::string bits(const std::string& s) { return s; }
  static std::string bits(const units::Wire& w) { return w.print(); }
  static std::string bits(const units::WireSize& s) { return s.print(); }
  static std::string bits(const units::TradeSize& s) { return s.print(); }
  static std::string bits(const parts::Price& p) { return p.print(); }
  static std::string bits(const std::vector<ModulePlace>& walk) { return print_walk(walk); }
  static std::string bits(const Landing& l) {
    return fmt::format("{} {} {} {}", l.text, l.owner, l.bar, l.number);
  }
  template <class E>
    requires std::is_enum_v<E>
  static std::string bits(const E& choice) {
    return std::to_string(static_cast<int>(choice));
  }
  template <class T>
  static std::string bits(const std::vector<T>& list) {
    std::string all;
    for (const auto& entry : list) all += bits(entry) + ", ";
    return all;
  }

  void add(std::string_view key, const std::string& value) {
    lines_.push_back(path_ + std::string(key) + " = " + value);
  }
  template <class R>
  void inner(std::string_view key, R& record) {
    Flat flat(path_ + std::string(key) + ".");
    describe(flat, record);
    lines_.insert(lines_.end(), flat.lines_.begin(), flat.lines_.end());
  }

  std::string path_;
  std::vector<std::string> lines_;
};

}  // namespace stringwright::job
