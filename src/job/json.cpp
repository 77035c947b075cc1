#include "job/json.hpp"

#include <fmt/format.h>

#include "base/text.hpp"

namespace stringwright::job {
namespace {

std::string quote(std::string_view s) {
  std::string all = "\"";
  for (const char c : s) {
    if (c == '"' || c == '\\') {
      all += '\\';
      all += c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      all += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    } else {
      all += c;
    }
  }
  return all + "\"";
}

}  // namespace

Json Json::text(std::string_view s) { return raw(quote(s)); }

Json Json::raw(std::string s) {
  Json json;
  json.scalar_ = std::move(s);
  return json;
}

Json Json::object() {
  Json json;
  json.shape_ = Shape::object;
  return json;
}

Json Json::list() {
  Json json;
  json.shape_ = Shape::list;
  return json;
}

Json& Json::set(std::string_view key, Json value) {
  members_.emplace_back(key, std::move(value));
  return *this;
}

Json& Json::take_members(const Json& other) {
  members_.insert(members_.end(), other.members_.begin(), other.members_.end());
  return *this;
}

Json& Json::add(Json value) { return set("", std::move(value)); }

std::string Json::on_one_line() const {
  if (shape_ == Shape::scalar) return scalar_;
  const bool object = shape_ == Shape::object;
  std::vector<std::string> all;
  all.reserve(members_.size());
  for (const auto& [key, value] : members_)
    all.push_back((object ? quote(key) + ": " : "") + value.on_one_line());
  const std::string inside = stringwright::text::join(all, ", ");
  if (!object) return "[" + inside + "]";
  return inside.empty() ? "{}" : "{ " + inside + " }";
}

std::string Json::print(int level) const {
  constexpr std::size_t width = 80;
  std::string line = on_one_line();
  if (shape_ == Shape::scalar || stringwright::text::length(line) <= width) return line;
  const bool object = shape_ == Shape::object;
  const std::string indent(static_cast<std::size_t>(2 * level), ' ');
  std::string all = object ? "{\n" : "[\n";
  for (std::size_t i = 0; i < members_.size(); ++i) {
    const auto& [key, value] = members_[i];
    all += indent + "  " + (object ? quote(key) + ": " : "") + value.print(level + 1);
    all += i + 1 < members_.size() ? ",\n" : "\n";
  }
  return all + indent + (object ? "}" : "]");
}

}  // namespace stringwright::job
