// check-layers <src>: reads every #include "..." below <src> and reports each that <src>/layers.toml
// does not allow, each room that the file does not list, and each circle of arrows or of files.
// Tests (*_test.cpp, *_test.hpp) may use everything. Exit: 0 clean, 1 something reported, 2 no usable input.

#include <algorithm>
#include <cstddef>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <toml++/toml.h>

namespace {

namespace fs = std::filesystem;

using Arrows = std::map<std::string, std::set<std::string>>;

struct Include {
  std::size_t line;
  std::string path;
};

class Report {
 public:
  void add(const std::string& place, const std::string& text) {
    std::cout << place << ": error: " << text << '\n';
    ++count_;
  }
  std::size_t count() const { return count_; }

 private:
  std::size_t count_ = 0;
};

/// The room of a path such as "units/read.hpp"; empty when it stands in no folder.
std::string room_of(const fs::path& path) {
  return std::next(path.begin()) == path.end() ? std::string{} : path.begin()->string();
}

/// Arrows of the list. A room that names itself, one further down or none that is listed is reported;
/// what remains points upstream, so it has no circle.
Arrows read_arrows(const fs::path& file, Report& report) {
  const auto table = toml::parse_file(file.string());
  const auto* rooms = table["rooms"].as_table();
  if (rooms == nullptr) throw std::runtime_error("no table [rooms]");

  std::map<std::string, toml::source_position> places;
  for (const auto& [key, value] : *rooms) places.emplace(key.str(), key.source().begin);

  Arrows arrows;
  for (const auto& [key, value] : *rooms) {
    const std::string room{key.str()};
    auto& allowed = arrows[room];
    const auto* names = value.as_array();
    if (names == nullptr) throw std::runtime_error("room '" + room + "' has no list");
    for (const auto& item : *names) {
      const auto name = item.value<std::string>().value_or("");
      const auto place = file.string() + ":" + std::to_string(places.at(room).line);
      const auto target = places.find(name);
      if (target == places.end()) {
        report.add(place, "'" + room + "' names the unknown room '" + name + "'");
      } else if (target->second.line >= places.at(room).line) {
        report.add(place, "'" + room + "' names '" + name + "', which is not above it");
      } else {
        allowed.insert(name);
      }
    }
  }
  return arrows;
}

std::vector<Include> read_includes(const fs::path& file) {
  static const std::regex directive{R"(^\s*#\s*include\s*"([^"]+)\")"};
  std::vector<Include> found;
  std::ifstream in{file};
  if (!in) throw std::runtime_error("cannot read " + file.string());
  std::string text;
  for (std::size_t line = 1; std::getline(in, text); ++line) {
    if (std::smatch match; std::regex_search(text, match, directive)) {
      found.push_back({line, match[1].str()});
    }
  }
  return found;
}

std::vector<fs::path> source_files(const fs::path& root) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(root)) {
    const auto ending = entry.path().extension();
    if (entry.is_regular_file() && (ending == ".hpp" || ending == ".cpp" || ending == ".h")) {
      files.push_back(fs::relative(entry.path(), root));
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

bool is_test(const fs::path& file) {
  const std::string_view name{file.native()};
  return name.ends_with("_test.cpp") || name.ends_with("_test.hpp");
}

void check_include(const fs::path& root, const fs::path& file, const Include& include,
                   const Arrows& arrows, Report& report) {
  const auto place = (root / file).string() + ":" + std::to_string(include.line);
  const auto from = room_of(file);
  const auto to = room_of(include.path);
  if (!arrows.contains(to)) {
    report.add(place, "\"" + include.path + "\" is in no room: write \"room/file.hpp\" for ours, " +
                          "<...> for others'");
  } else if (std::string_view{include.path}.ends_with("_test.hpp")) {
    report.add(place, "\"" + include.path + "\" is a test's: nothing uses it");
  } else if (const auto allowed = arrows.find(from);
             allowed != arrows.end() && from != to && !allowed->second.contains(to)) {
    report.add(place, "'" + from + "' may not include '" + to + "' (\"" + include.path + "\")");
  }
}

/// Depth first through the includes of one file; a file met again on its own way is a circle.
class Circles {
 public:
  Circles(const fs::path& root, const std::map<std::string, std::vector<Include>>& includes,
          Report& report)
      : root_{root}, includes_{includes}, report_{report} {}

  void visit(const std::string& file) {
    if (done_.contains(file)) return;
    const auto found = includes_.find(file);
    if (found == includes_.end()) return;
    way_.push_back(file);
    for (const auto& include : found->second) {
      const auto met = std::find(way_.begin(), way_.end(), include.path);
      if (met == way_.end()) {
        visit(include.path);
        continue;
      }
      std::string circle;
      for (auto step = met; step != way_.end(); ++step) circle += *step + " -> ";
      report_.add((root_ / file).string() + ":" + std::to_string(include.line),
                  "circle: " + circle + include.path);
    }
    way_.pop_back();
    done_.insert(file);
  }

 private:
  const fs::path& root_;
  const std::map<std::string, std::vector<Include>>& includes_;
  Report& report_;
  std::vector<std::string> way_;
  std::set<std::string> done_;
};

int run(const fs::path& root) {
  Report report;
  const auto arrows = read_arrows(root / "layers.toml", report);

  std::set<std::string> strangers;
  std::map<std::string, std::vector<Include>> includes;
  for (const auto& file : source_files(root)) {
    const auto room = room_of(file);
    if (!arrows.contains(room) && strangers.insert(room).second) {
      report.add((root / file).string(), "room '" + room + "' is not in layers.toml");
    }
    if (is_test(file)) continue;
    auto found = read_includes(root / file);
    for (const auto& include : found) check_include(root, file, include, arrows, report);
    includes.emplace(file.generic_string(), std::move(found));
  }

  Circles circles{root, includes, report};
  for (const auto& [file, unused] : includes) circles.visit(file);

  if (report.count() > 0) return 1;
  std::cout << "layers: " << includes.size() << " files, every include is allowed\n";
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: check-layers <src>\n";
    return 2;
  }
  try {
    return run(argv[1]);
  } catch (const toml::parse_error& error) {
    std::cerr << argv[1] << "/layers.toml:" << error.source().begin.line
              << ": error: " << error.description() << '\n';
  } catch (const std::exception& error) {
    std::cerr << argv[1] << ": error: " << error.what() << '\n';
  }
  return 2;
}
