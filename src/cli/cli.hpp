#pragma once

#include <iosfwd>
#include <string>
#include <vector>

/// The command line: flags -> app -> print. One subcommand per file; listed in all.cpp.
namespace stringwright::cli {

/// How a command ends: 0 fine (cautions and points to check on site included), 1 a fail not waived or a cannot-tell, 2 input,
/// 3 ours.
enum Exit { fine = 0, findings = 1, input = 2, ours = 3 };

/// Where a command prints, and whether a person watches.
struct Out {
  std::ostream& out;
  std::ostream& err;
  bool colour = false;
};

/// Run one command line, without the program's name. Never throws.
int run(const std::vector<std::string>& arguments, const Out& out);

}  // namespace stringwright::cli
