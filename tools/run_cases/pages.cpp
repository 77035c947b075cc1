#include "pages.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <sstream>
#include <vector>

#include "base/text.hpp"
#include "case_file.hpp"
#include "codebook/edition.hpp"
#include "codebook/example.hpp"
#include "codebook/rule.hpp"
#include "kinds.hpp"
#include "toml_file.hpp"

namespace stringwright::run_cases {
namespace {

namespace fs = std::filesystem;

std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<fs::path> files_in(const fs::path& folder, const std::string& extension) {
  std::vector<fs::path> all;
  std::error_code trouble;
  for (const auto& entry : fs::directory_iterator(folder, trouble))
    if (entry.is_regular_file() && entry.path().extension() == extension)
      all.push_back(entry.path());
  std::sort(all.begin(), all.end());
  return all;
}

/// A cell of a Markdown table.
std::string cell(std::string words) { return text::replace_all(words, "|", "\\|"); }

std::string percent(double share) {
  if (share == 0) return "none";
  if (share < 1e-7) return "below 0.00001 %";
  std::string shown = text::shortest(share * 100, 2);
  return shown + " %";
}

/// "3 verified, 1 memory": words in this order, others after them.
std::string counted(const std::map<std::string, int>& by_status) {
  std::string line;
  for (const auto& [status, n] : by_status)
    line += (line.empty() ? "" : ", ") + std::to_string(n) + " " + status;
  return line;
}

/// One file of published cases.
struct Published {
  std::string name, citation, type;
  int checks = 0, exact = 0, known = 0, unknown = 0;
  Answers::Difference worst;
  std::map<std::string, int> status;
};

Published published(const fs::path& path) {
  Published p;
  p.name = path.stem().string();
  const std::string text = read_file(path);
  if (const auto toml = parse_toml(path.generic_string(), text)) {
    p.citation = (*toml)["source"]["citation"].value_or<std::string>("");
    p.type = (*toml)["source"]["type"].value_or<std::string>("");
  }
  const auto cases = read_published(path.generic_string(), text);
  if (!cases) return p;
  const auto kinds = all_kinds();
  for (const auto& c : *cases) {
    const auto kind =
        std::find_if(kinds.begin(), kinds.end(), [&](const Kind& k) { return k.name == c.kind; });
    if (kind == kinds.end()) {
      ++p.unknown;
      continue;
    }
    Answers answers(c);
    kind->check(answers);
    if (!answers.skipped().empty()) {
      ++p.unknown;
      continue;
    }
    ++p.known;
    ++p.status[c.status.empty() ? "not said" : c.status];
    for (const auto& e : c.expected)
      p.checks += static_cast<int>(e.printed.numbers.size() + e.printed.texts.size());
    for (const auto& d : answers.differences())
      if (d.share > p.worst.share) p.worst = d;
  }
  return p;
}

/// Rows of a code-book file by their status, over all columns that end in or are "status".
std::map<std::string, int> statuses(const std::string& csv) {
  std::map<std::string, int> all;
  std::vector<std::size_t> columns;
  bool head = true;
  for (const auto line : text::split(csv, '\n')) {
    if (text::trim(line).empty() || line.front() == '#') continue;
    const auto cells = text::csv_row(line);
    if (head) {
      head = false;
      for (std::size_t i = 0; i < cells.size(); ++i)
        if (text::starts_with(cells[i], "status")) columns.push_back(i);
      continue;
    }
    for (const auto i : columns)
      if (i < cells.size()) ++all[cells[i]];
  }
  return all;
}

/// The comment at the head of a CSV, first sentence.
std::string what_of(const std::string& csv) {
  const auto end = csv.find('\n');
  std::string line = csv.substr(0, end);
  while (!line.empty() && (line.front() == '#' || line.front() == ' ')) line.erase(0, 1);
  if (const auto stop = line.find(". "); stop != std::string::npos) line.resize(stop);
  while (!line.empty() && line.back() == '.') line.pop_back();
  return line;
}

std::vector<std::string> words_of(std::string_view line) {
  std::istringstream in{std::string(line)};
  std::vector<std::string> all;
  for (std::string word; in >> word;) all.push_back(word);
  return all;
}

std::string case_file_of(const codebook::Rule& rule) {
  std::string name(rule.id);
  std::replace(name.begin(), name.end(), '.', '_');
  std::replace(name.begin(), name.end(), '-', '_');
  return name + ".toml";
}

struct RuleCases {
  std::string source;
  std::map<std::string, int> verdicts;
  int all = 0;
};

RuleCases cases_of(const fs::path& root, const codebook::Rule& rule) {
  RuleCases found;
  const auto path = root / "cases/rules" / case_file_of(rule);
  const auto toml = parse_toml(path.generic_string(), read_file(path));
  if (!toml) return found;
  found.source = (*toml)["source"].value_or<std::string>("");
  if (const auto* list = (*toml)["case"].as_array())
    for (const auto& one : *list)
      if (const auto* table = one.as_table()) {
        ++found.all;
        ++found.verdicts[(*table)["expect"].value_or<std::string>("?")];
      }
  return found;
}

/// "NEC 2017, 2020, 2023".
std::string short_names(const std::vector<std::string>& names) {
  std::string line;
  for (const auto& name : names)
    line += line.empty() ? name
            : text::starts_with(name, "NEC ") && text::starts_with(line, "NEC ")
                ? ", " + name.substr(4)
                : ", " + name;
  return line;
}

/// The place of one citation through the editions: "690.8(A)(1) (NEC 2014), 690.8(A)(1)(1) (NEC 2017)".
std::string places(const codebook::Rule& rule, const std::string& key) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_cite;
  std::string status;
  for (const auto& id : codebook::Edition::offered()) {
    const auto edition = codebook::Edition::open(id).value();
    if (!codebook::asked_in(rule, edition) || !edition.has_cite(key)) continue;
    const auto source = edition.cite(key);
    std::string cite = source.cite;
    const std::string title = std::string(edition.title()) + ", ";
    if (text::starts_with(cite, title)) cite.erase(0, title.size());
    if (source.status == "memory") cite += " (memory)";
    const auto same = std::find_if(by_cite.begin(), by_cite.end(),
                                   [&](const auto& c) { return c.first == cite; });
    if (same == by_cite.end())
      by_cite.push_back({cite, {std::string(edition.name())}});
    else
      same->second.push_back(std::string(edition.name()));
  }
  std::string line;
  for (const auto& [cite, names] : by_cite)
    line += (line.empty() ? "" : "; ") + cite + " [" + short_names(names) + "]";
  return line;
}

void add_formulas(const codebook::Rule& rule, std::ostringstream& out) {
  for (const auto family : {codebook::Family::nec, codebook::Family::iec}) {
    const auto ids = codebook::Edition::offered(family);
    for (auto id = ids.rbegin(); id != ids.rend(); ++id) {
      const auto edition = codebook::Edition::open(*id).value();
      const auto lines = codebook::asked_lines(rule, edition);
      if (lines.empty()) continue;
      out << "\n```\n";
      for (const auto& line : lines)
        out << line.text << (line.words.empty() ? "" : "    " + line.words)
            << (line.status.empty() ? "" : "    " + line.status) << "\n";
      out << "```\n";
      break;
    }
    if (rule.family != codebook::Asked::both || family == codebook::Family::nec) {
      // Rules of both families have one formula; it is shown once.
      if (!codebook::asked_lines(rule, codebook::Edition::open(ids.back()).value()).empty()) break;
    }
  }
}

bool holds(const fs::path& path, const std::string& page) {
  if (std::getenv("STRINGWRIGHT_REGENERATE") != nullptr) {
    std::ofstream(path, std::ios::binary) << page;
    return true;
  }
  if (read_file(path) == page) return true;
  const std::string kept = read_file(path);
  const auto before = text::split(kept, '\n');
  const auto after = text::split(page, '\n');
  std::size_t line = 0;
  while (line < before.size() && line < after.size() && before[line] == after[line]) ++line;
  std::printf(
      "%s is not what rules, cases and tables say, from line %zu on; to write it again:\n"
      "  STRINGWRIGHT_REGENERATE=1 run-cases --pages ROOT\n",
      path.generic_string().c_str(), line + 1);
  return false;
}

}  // namespace

std::string validation_page(const fs::path& root) {
  std::ostringstream out;
  out << "<!-- Generated from cases/ and data/codebook/ by run-cases --pages; do not edit. -->\n"
         "# What the numbers are checked against\n\n"
         "Every computation is compared with something that was not made here: a standard, a table "
         "of a "
         "handbook, a published\nexample, a data set, another program. This page counts those "
         "checks, and "
         "says of every number in the tables who has\nseen it in print. *verified*: the value or "
         "the "
         "substance was seen on a public page that reprints or quotes the source.\n*memory*: "
         "recalled, "
         "nobody has compared it with print yet; compare before you rely on it alone. *computed*: "
         "a "
         "published\nrule with chosen inputs. *common practice*: no source.\n\n"
         "## Published sources\n\n"
         "A figure agrees when it is within half of the last printed digit. The difference is the "
         "largest "
         "of all figures of the\nsource, as a share of the figure.\n\n"
         "| source | kind | figures | cases | largest difference | status of the cases |\n"
         "|---|---|---|---|---|---|\n";
  int figures = 0;
  int cases = 0;
  std::string waiting;
  for (const auto& path : files_in(root / "cases/published", ".toml")) {
    const auto p = published(path);
    if (p.unknown > 0)
      waiting += "- `" + p.name + "`: " + std::to_string(p.unknown) +
                 (p.unknown == 1 ? " case" : " cases") + ", " + p.citation + "\n";
    if (p.known == 0) continue;
    figures += p.checks;
    cases += p.known;
    out << "| `" << p.name << "` " << cell(p.citation) << " | " << cell(p.type) << " | " << p.checks
        << " | " << p.known << " | " << percent(p.worst.share)
        << (p.worst.share > 0 ? " (" + p.worst.output + ")" : "") << " | " << counted(p.status)
        << " |\n";
  }
  out << "\n" << figures << " figures in " << cases << " cases.\n";
  if (!waiting.empty())
    out << "\nKept, and not compared yet, because what they ask is not built here:\n\n" << waiting;

  out << "\n## Rules\n\nCases of their own (`cases/rules`), each with its source; by what the rule "
         "ends "
         "as. Under, on and over the limit, where it\ndoes not ask, and with a fact missing.\n\n"
         "| rule | cases | by verdict | source |\n|---|---|---|---|\n";
  for (const auto* rule : codebook::all_rules()) {
    const auto c = cases_of(root, *rule);
    out << "| [" << rule->id << "](rules.md#" << text::replace_all(std::string(rule->id), ".", "")
        << ") | " << c.all << " | " << counted(c.verdicts) << " | " << cell(c.source) << " |\n";
  }
  out << "\nTwo whole arrays are worked by hand through every edition of the NEC in "
         "`cases/editions`.\n";

  out << "\n## Tables and lists of the code-book\n\nRows by who has seen them; where a table has a "
         "status a "
         "column, by cell group.\n\n| file | what | status |\n|---|---|---|\n";
  std::map<std::string, int> sum;
  for (const auto& path : files_in(root / "data/codebook", ".csv")) {
    const std::string csv = read_file(path);
    const auto by_status = statuses(csv);
    for (const auto& [status, n] : by_status) sum[status] += n;
    out << "| `" << path.filename().string() << "` | " << cell(what_of(csv)) << " | "
        << (by_status.empty() ? "at the head of the file" : counted(by_status)) << " |\n";
  }
  out << "\nIn all: " << counted(sum) << ".\n";
  return out.str();
}

std::string rules_page(const fs::path& root) {
  std::ostringstream out;
  out << "<!-- Generated from the rules, data/codebook/ and cases/ by run-cases --pages; do not "
         "edit. "
         "-->\n# Rules\n\nWhat each rule asks, where it stands in each edition that asks it, its "
         "formula, "
         "and its cases. `stringwright explain RULE`\nprints the same with every source; a formula "
         "here is "
         "that of the newest edition. A family of codes asks only its own\nrules and those that "
         "both ask "
         "alike. Symbols: [notation.md](notation.md).\n";
  for (const auto* rule : codebook::all_rules()) {
    out << "\n## " << rule->id << "\n\n**" << rule->title << ".** " << rule->asks << "\n\n";
    std::vector<std::string> asked;
    for (const auto& id : codebook::Edition::offered()) {
      const auto edition = codebook::Edition::open(id).value();
      if (codebook::asked_in(*rule, edition)) asked.push_back(std::string(edition.name()));
    }
    out << "Asked in " << short_names(asked) << ".";
    if (!rule->aliases.empty())
      out << " Rule list: " << text::join(words_of(rule->aliases), ", ") << ".";
    out << "\n\n";
    for (const auto& key : words_of(rule->cites)) {
      const auto line = places(*rule, key);
      if (!line.empty()) out << "- " << line << "\n";
    }
    add_formulas(*rule, out);
    const auto c = cases_of(root, *rule);
    out << "\nCases: [" << case_file_of(*rule) << "](../cases/rules/" << case_file_of(*rule)
        << "), " << c.all << " (" << counted(c.verdicts) << ").\n";
  }
  return out.str();
}

bool pages_hold(const fs::path& root) {
  const bool validation = holds(root / "docs/validation.md", validation_page(root));
  const bool rules = holds(root / "docs/rules.md", rules_page(root));
  return validation && rules;
}

}  // namespace stringwright::run_cases
