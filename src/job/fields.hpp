#pragma once

#include <algorithm>
#include <concepts>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include <toml++/toml.h>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/messages.hpp"
#include "job/toml_text.hpp"
#include "job/values.hpp"

namespace stringwright::job {

struct AnyVisitor {
  template <class T>
  void operator()(std::string_view, T&, const About&) {}
};

/// A struct with a field list.
template <class R>
concept Record = requires(AnyVisitor visit, R record) { describe(visit, record); };

/// A record that is referred to by its id: `[kind.id]`.
template <class R>
concept RecordById = Record<R> && requires(R record) {
  { record.id } -> std::same_as<std::string&>;
};

/// Reads one table into one record: the field list calls it once per field, then `finish` says which
/// keys are unknown and which are missing.
class RecordReader {
 public:
  /// @param table  null where the record is left out: fields then only get the span
  /// @param path   "run.OUT"; empty for the whole file
  /// @param where  how messages name it
  RecordReader(const toml::table* table, Span span, std::string path, std::string where,
               Messages& out)
      : table_(table), span_(span), path_(std::move(path)), where_(std::move(where)), out_(out) {}

  template <class T>
  void operator()(std::string_view key, Given<T>& member, const About& about) {
    member.span = span_;
    const auto* node = take(key, about);
    if (!node) return;
    member.span = span_of(*node);
    const Field field{key, about, where_, out_};
    if (is_choose(*node) && about.may_choose) {
      member.choose = true;
      return;
    }
    if (is_choose(*node) && !std::is_same_v<T, std::string>) {
      cannot_choose(field, *node);
      return;
    }
    T value{};
    if (read_value(field, *node, value)) member.value = std::move(value);
  }

  template <Record R>
  void operator()(std::string_view key, R& member, const About& about) {
    const auto* node = take(key, about);
    const auto* table = node ? table_of(key, *node, about) : nullptr;
    const Span span = node ? span_of(*key_of(key)) : span_;
    if (node) member.span = span;
    read_record(table, span, child(key), "[" + child(key) + "]", member);
  }

  template <Record R>
  void operator()(std::string_view key, std::optional<R>& member, const About& about) {
    const auto* node = take(key, about);
    const auto* table = node ? table_of(key, *node, about) : nullptr;
    if (!table) return;
    member.emplace().span = span_of(*key_of(key));
    read_record(table, member->span, child(key), "[" + child(key) + "]", *member);
  }

  template <RecordById R>
  void operator()(std::string_view key, std::vector<R>& member, const About& about) {
    const auto* node = take(key, about);
    const auto* table = node ? table_of(key, *node, about) : nullptr;
    if (!table) return;
    for (const auto& [id, entry] : in_order(*table)) {
      const std::string path = child(key) + "." + std::string(id->str());
      auto& record = member.emplace_back();
      record.id = std::string(id->str());
      record.span = span_of(*id);
      check_id(*id, child(key));
      const auto* inner = entry->as_table();
      if (!inner) not_a_table(path, *entry);
      read_record(inner, record.span, path, "[" + path + "]", record);
    }
  }

  template <class R>
    requires(Record<R> && !RecordById<R>)
  void operator()(std::string_view key, std::vector<R>& member, const About& about) {
    const auto* node = take(key, about);
    const auto* list = node ? list_of(key, *node) : nullptr;
    if (!list) return;
    int number = 0;
    for (const auto& entry : *list) {
      const std::string where = std::string(key) + " " + std::to_string(++number) +
                                (path_.empty() ? "" : " of " + where_);
      const auto* inner = entry.as_table();
      if (!inner) {
        not_a_table(where, entry);
        continue;
      }
      auto& record = member.emplace_back();
      record.span = span_of(entry);
      read_record(inner, record.span, child(key), where, record);
    }
  }

  void finish();

  /// Keys that stand for nothing usable: of a wrong type, or meant by an unknown key.
  const std::vector<std::string>& broken() const { return broken_; }

 private:
  using Entry = std::pair<const toml::key*, const toml::node*>;

  static bool is_choose(const toml::node& node) {
    const auto* s = node.as_string();
    return s && **s == "choose";
  }
  const toml::node* take(std::string_view key, const About& about);
  const toml::key* key_of(std::string_view key) const { return &table_->find(key)->first; }
  std::string child(std::string_view key) const {
    return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
  }
  const toml::table* table_of(std::string_view key, const toml::node& node, const About& about);
  const toml::array* list_of(std::string_view key, const toml::node& node);
  void not_a_table(const std::string& what, const toml::node& node);
  void cannot_choose(const Field& field, const toml::node& node);
  void check_id(const toml::key& id, const std::string& kind);
  static std::vector<Entry> in_order(const toml::table& table);

  template <class R>
  void read_record(const toml::table* table, Span span, std::string path, std::string where,
                   R& record) {
    RecordReader inner(table, span, std::move(path), std::move(where), out_);
    describe(inner, record);
    inner.finish();
  }

  const toml::table* table_;
  Span span_;
  std::string path_, where_;
  Messages& out_;
  std::vector<std::string_view> known_;
  std::vector<std::pair<std::string_view, std::string>> missing_;  ///< key and example
  std::vector<std::string> broken_;
};

}  // namespace stringwright::job
