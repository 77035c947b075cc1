#include "app/json_common.hpp"
#include "app/parts.hpp"

namespace stringwright::app {
namespace {

Json line(const PartLine& l) {
  return {{"kind", l.kind}, {"id", l.id}, {"title", l.title}, {"own", l.own}};
}

}  // namespace

std::string parts_list_json(const std::vector<PartLine>& lines) {
  Json all = Json::array();
  for (const auto& l : lines) all.push_back(line(l));
  return text_of({{"kind", "parts-list"}, {"parts", all}});
}

std::string part_json(const PartText& part) {
  return text_of({{"kind", "part"}, {"part", line(part.line)}, {"text", part.text}});
}

std::string parts_change_json(const std::string& path, const parts::Changes& c) {
  return text_of({{"kind", "parts-change"},
                  {"library", path},
                  {"added", c.added},
                  {"replaced", c.replaced},
                  {"unchanged", c.unchanged}});
}

std::string parts_mistakes_json(const std::string& file, const Diagnostics& diagnostics) {
  return text_of(
      {{"kind", "parts-mistakes"}, {"file", file}, {"diagnostics", diagnostics_json(diagnostics)}});
}

}  // namespace stringwright::app
