#pragma once

#include <string>
#include <string_view>

#include <toml++/toml.h>

#include "base/result.hpp"

namespace stringwright::run_cases {

inline Result<toml::table> parse_toml(const std::string& path, std::string_view text) {
  try {
    return toml::parse(text, path);
  } catch (const toml::parse_error& error) {
    return Failure{"cases.not-toml", path + ":" + std::to_string(error.source().begin.line) + ": " +
                                         std::string(error.description())};
  }
}

}  // namespace stringwright::run_cases
