#pragma once

#include <string>

#include <nlohmann/json.hpp>

#include "base/diagnostic.hpp"

/// What every JSON reply shares. For the `*_json.cpp` files of this room.
namespace stringwright::app {

// ordered_json keeps the keys as written: same evaluation, same bytes.
using Json = nlohmann::ordered_json;

/// Invalid UTF-8 of a file name or a text is replaced, never an exception.
inline std::string text_of(const Json& j) {
  return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

inline Json span_json(const Span& s) {
  if (!s.known()) return nullptr;
  return {{"line", s.line},
          {"column", s.column},
          {"end_line", s.end_line},
          {"end_column", s.end_column}};
}

inline Json diagnostics_json(const Diagnostics& all) {
  Json list = Json::array();
  for (const auto& d : all) {
    const char* severity = d.severity == Severity::error      ? "error"
                           : d.severity == Severity::question ? "question"
                                                              : "note";
    list.push_back({{"severity", severity},
                    {"id", d.id},
                    {"message", d.message},
                    {"help", d.help},
                    {"file", d.file},
                    {"at", span_json(d.span)}});
  }
  return list;
}

}  // namespace stringwright::app
