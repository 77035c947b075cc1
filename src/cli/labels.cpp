#include "app/labels.hpp"

#include <ostream>

#include "app/json.hpp"
#include "cli/columns.hpp"
#include "cli/command.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string job;
  bool json = false;
};

void print(const check::LikeLabels& like, const Out& out) {
  const auto& l = like.first.label;
  out.out << "\n" << tone(out, Tone::strong, l.title);
  if (!like.first.due.holds)
    out.out << tone(out, Tone::doubt, "  CANNOT TELL whether it is due") << "\n"
            << "  depends on " << like.first.due.why << "\n";
  else
    out.out << "\n";
  for (const auto& line : l.lines) out.out << "    | " << line << "\n";
  for (const auto& place : like.places) out.out << "  " << place << "\n";
  if (const auto demands = check::demands(l); !demands.empty()) out.out << "  " << demands << "\n";
  out.out << "  " << check::whose_words(l) << "  [" << l.source.cite
          << (l.source.status == "memory" ? "; from memory" : "") << "]\n";
}

int labels(const Options& o, const Out& out) {
  const auto e = evaluate_file(o.job, out);
  if (!e) return input;
  if (!e->usable) {
    if (o.json)
      out.out << app::check_json(*e);
    else
      print_diagnostics(*e, out);
    return input;
  }
  if (o.json) {
    out.out << app::labels_json(*e);
    return fine;
  }
  const auto all = check::like_labels(e->report.labels);
  out.out << "Labels due: " << e->wiring.job.job.name.value_or("") << ", " << e->report.edition
          << "\n";
  for (const auto& like : all) print(like, out);
  out.out
      << "\nEvery one durable for its place, put on for good, not written by hand but for values "
         "that change.\n";
  return fine;
}

}  // namespace

void add_labels(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command =
      app.add_subcommand("labels", "The labels that the edition asks of this design, with values");
  command->add_option("JOB", o->job, "Job file")->required();
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return labels(*o, out); }; });
}

}  // namespace stringwright::cli
