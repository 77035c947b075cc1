#include "job/fields.hpp"

#include "base/text.hpp"
#include "job/names.hpp"
#include "job/patterns.hpp"

namespace stringwright::job {

const toml::node* RecordReader::take(std::string_view key, const About& about) {
  known_.push_back(key);
  if (!table_) return nullptr;
  const auto* node = table_->get(key);
  if (!node && about.required)
    missing_.emplace_back(key, Field{key, about, where_, out_}.example());
  return node;
}

const toml::table* RecordReader::table_of(std::string_view key, const toml::node& node,
                                          const About& about) {
  const auto* table = node.as_table();
  if (table) return table;
  broken_.emplace_back(key);
  const std::string help =
      about.example.empty()
          ? "write " + std::string(key) + " = { ... } or [" + child(key) + "]"
          : "for example: " + std::string(key) + " = " + std::string(about.example);
  const Field field{key, about, where_, out_};
  out_.error("job.wrong-type", span_of(node),
             field.name() + " is " + std::string(kind_of(node)) + ", but a table is needed", help);
  return nullptr;
}

const toml::array* RecordReader::list_of(std::string_view key, const toml::node& node) {
  const auto* list = node.as_array();
  if (list) return list;
  broken_.emplace_back(key);
  out_.error("job.wrong-type", span_of(node),
             "'" + std::string(key) + "' in " + where_ + " is " + std::string(kind_of(node)) +
                 ", but a list of tables is needed",
             "write " + std::string(key) + " = [ { ... }, { ... } ]");
  return nullptr;
}

void RecordReader::not_a_table(const std::string& what, const toml::node& node) {
  out_.error("job.wrong-type", span_of(node),
             what + " is " + std::string(kind_of(node)) + ", but a table { ... } is needed");
}

void RecordReader::cannot_choose(const Field& field, const toml::node& node) {
  out_.error("job.wrong-type", span_of(node), field.name() + " can't be left to \"choose\"",
             "write it, or leave it out where it is not known");
}

void RecordReader::check_id(const toml::key& id, const std::string& kind) {
  if (const auto bad = bad_id(id.str()))
    out_.error("job.bad-id", span_of(id),
               text::quoted(id.str()) + " can't be an id in [" + kind + "]: " + *bad);
}

std::vector<RecordReader::Entry> RecordReader::in_order(const toml::table& table) {
  std::vector<Entry> all;
  all.reserve(table.size());
  for (const auto& [key, node] : table) all.emplace_back(&key, &node);
  std::sort(all.begin(), all.end(), [](const Entry& x, const Entry& y) {
    const auto& a = x.first->source().begin;
    const auto& b = y.first->source().begin;
    return std::pair(a.line, a.column) < std::pair(b.line, b.column);
  });
  return all;
}

void RecordReader::finish() {
  if (!table_) return;
  for (const auto& [key, node] : *table_) {
    const std::string_view name = key.str();
    if (std::find(known_.begin(), known_.end(), name) != known_.end()) continue;
    const std::vector<std::string> known(known_.begin(), known_.end());
    out_.error("job.unknown-key", span_of(key),
               "unknown key " + text::quoted(name) + " in " + where_,
               suggest(name, known, "known here: "));
    if (const auto meant = text::nearest(name, known)) {
      const auto is_meant = [&](const auto& entry) { return entry.first == *meant; };
      missing_.erase(std::remove_if(missing_.begin(), missing_.end(), is_meant), missing_.end());
      broken_.push_back(*meant);
    }
  }
  for (const auto& [key, example] : missing_)
    out_.error("job.missing", span_, where_ + " lacks '" + std::string(key) + "'", example);
}

bool read_value(const Field& field, const toml::node& node, LengthPattern& value) {
  value.span = span_of(node);
  const auto* table = node.as_table();
  if (!table) {
    units::Length all;
    if (!read_value(field, node, all)) return false;
    value.first = {all, value.span};
    return true;
  }
  RecordReader reader(table, value.span, std::string(field.key), field.name(), field.out);
  describe(reader, value);
  reader.finish();
  return value.first && value.step;
}

}  // namespace stringwright::job
