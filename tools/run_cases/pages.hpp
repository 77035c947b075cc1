#pragma once

#include <filesystem>
#include <string>

namespace stringwright::run_cases {

/// docs/validation.md: each outside source, how many of its figures are checked, the largest difference,
/// who has seen them; and the same of every table and list of the code-book.
/// @param root  of the source tree: reads cases/ and data/codebook/
std::string validation_page(const std::filesystem::path& root);

/// docs/rules.md: each rule, what it asks, its place in each edition, its formula, its cases.
std::string rules_page(const std::filesystem::path& root);

/// Compares both pages with what is kept under `root`; with STRINGWRIGHT_REGENERATE=1 writes them.
/// Says what differs on standard output; true where nothing does.
bool pages_hold(const std::filesystem::path& root);

}  // namespace stringwright::run_cases
