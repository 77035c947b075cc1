#include "app/papers.hpp"

#include <algorithm>
#include <ostream>

#include "app/json.hpp"
#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/library.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string job;
  std::string folder = "papers";
  double dpi = 110;
  bool json = false;
};

int papers(const Options& o, const Out& out) {
  const auto e = evaluate_file(o.job, out);
  if (!e) return input;
  if (!e->usable) {
    if (o.json)
      out.out << app::check_json(*e);
    else
      print_diagnostics(*e, out);
    return input;
  }
  const auto library = whole_library(out);
  if (!library) return input;
  const auto files = app::papers(*e, o.dpi, *library);
  if (!files) {
    out.err << "stringwright: " << files.failure().message << " [" << files.failure().id << "]\n";
    return ours;
  }
  std::vector<std::pair<std::string, std::string>> named;
  for (const auto& f : *files) named.emplace_back(f.name, f.bytes);
  if (const auto written = write_files(o.folder, named); !written) {
    out.err << "stringwright: " << written.failure().message << " [" << written.failure().id
            << "]\n";
    return input;
  }
  if (o.json) {
    out.out << app::papers_json(*e, o.folder, *files);
  } else {
    print_diagnostics(*e, out);
    for (const auto& f : *files) out.out << o.folder << "/" << f.name << "\n";
    out.out << check::tally_line(e->report) << "\n";
    if (!check::fine(e->report))
      out.out << "Not fit to build yet: see the first page of the report, or run check.\n";
  }
  return check::fine(e->report) ? fine : findings;
}

}  // namespace

void add_papers(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand(
      "papers", "Write the papers of a job: one PDF, and each page as SVG and PNG");
  command->add_option("JOB", o->job, "Job file")->required();
  command->add_option("-o,--out", o->folder, "Folder to write into")->capture_default_str();
  command->add_option("--dpi", o->dpi, "Resolution of the PNG pictures; 0 leaves them out")
      ->check(CLI::Range(0.0, 600.0))
      ->capture_default_str();
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return papers(*o, out); }; });
}

}  // namespace stringwright::cli
