#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"

namespace stringwright::cli {

/// The whole of a file. A failure says why not ("no such file").
Result<std::string> read_file(const std::string& path);

/// Write a file whole or not at all: a temporary name beside it, flushed, then renamed.
/// @param replace  false: an existing file is left alone, which is a failure
Result<bool> write_file(const std::string& path, const std::string& bytes, bool replace = true);

/// Write several files below a folder, which is made if needed. Every one is first written under a
/// temporary name; only when all are complete are they renamed, so a failure leaves no partial set.
Result<bool> write_files(const std::string& folder,
                         const std::vector<std::pair<std::string, std::string>>& files);

}  // namespace stringwright::cli
