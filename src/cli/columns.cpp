#include "cli/columns.hpp"

#include <sstream>

#include "base/text.hpp"

namespace stringwright::cli {

std::string padded(const std::string& s, std::size_t width) {
  const std::size_t n = text::length(s);
  return n < width ? s + std::string(width - n, ' ') : s + " ";
}

std::string paragraph(const std::string& words, std::size_t indent) {
  constexpr std::size_t width = 100;
  std::istringstream in(words);
  std::string all;
  std::string line(indent, ' ');
  bool empty = true;
  for (std::string word; in >> word;) {
    if (!empty && text::length(line) + 1 + text::length(word) > width) {
      all += line + "\n";
      line = std::string(indent, ' ');
      empty = true;
    }
    if (!empty) line += ' ';
    line += word;
    empty = false;
  }
  return all + line + "\n";
}

}  // namespace stringwright::cli
