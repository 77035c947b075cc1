#include <unistd.h>

#include <cstdlib>
#include <iostream>
#include <string>
#include <vector>

#include "cli/cli.hpp"

int main(int argc, char** argv) {
  // Colour only where a person watches, and not against their will (no-color.org).
  const bool colour = ::isatty(STDOUT_FILENO) != 0 && std::getenv("NO_COLOR") == nullptr;
  const stringwright::cli::Out out{std::cout, std::cerr, colour};
  const int code = stringwright::cli::run(std::vector<std::string>(argv + 1, argv + argc), out);
  std::cout.flush();
  return std::cout ? code : static_cast<int>(stringwright::cli::ours);
}
