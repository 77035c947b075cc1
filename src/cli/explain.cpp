#include "app/explain.hpp"

#include <ostream>
#include <set>

#include "app/json.hpp"
#include "base/text.hpp"
#include "cli/columns.hpp"
#include "cli/command.hpp"
#include "cli/report_text.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string id, job;
  bool json = false;
};

int explain(const Options& o, const Out& out) {
  std::optional<app::Evaluation> e;
  if (!o.job.empty()) {
    e = evaluate_file(o.job, out);
    if (!e) return input;
    if (!e->usable) {
      print_diagnostics(*e, out);
      return input;
    }
  }
  const auto x = app::explain(o.id, e ? &*e : nullptr);
  if (!x) {
    out.err << "stringwright: " << x.failure().message << " [" << x.failure().id << "]\n";
    return input;
  }
  if (o.json) {
    out.out << app::explain_json(*x);
    return fine;
  }
  out.out << tone(out, Tone::strong, x->title) << "  " << x->rule
          << (x->aliases.empty() ? "" : "  (" + x->aliases + ")") << "\n";
  out.out << x->asks << "\n\n";
  for (const auto& asked : x->asked) {
    out.out << tone(out, Tone::strong, app::editions_named(asked.editions))
            << (asked.editions.size() == 1 ? " asks\n" : " ask\n");
    for (const auto& line : asked.lines) {
      std::string cite = line.cite;
      const auto comma = cite.find(", ");  // the edition stands in the heading
      if (comma != std::string::npos && text::starts_with(cite, "NFPA 70-"))
        cite.erase(0, comma + 2);
      out.out << "  " << padded(line.text, 44) << padded(line.words, 22)
              << (cite.empty() ? "" : tone(out, Tone::faint, "[" + cite + "] "))
              << (line.status.empty() ? "" : tone(out, Tone::faint, line.status)) << "\n";
    }
    out.out << "\n";
  }
  if (!x->not_asked_in.empty())
    out.out << "Not asked in " << app::editions_named(x->not_asked_in) << ".\n\n";
  out.out << tone(out, Tone::strong, "Where it stands") << "\n";
  for (const auto& c : x->cited)
    out.out << "  " << c.edition << ": " << c.cite
            << (c.status == "memory" ? "  (from memory: nobody has compared it with print)" : "")
            << "\n";
  if (x->finding) {
    out.out << "\n";
    const std::set<std::string> wanted{x->finding->id};
    const auto flips = app::flips_of(*e, &wanted);
    print_finding(*e, *x->finding, true, &flips, out);
    if (!flips.empty())
      out.out
          << "\n\"~\": what alone would flip it, cheapest first; proved for this finding alone.\n";
  }
  return fine;
}

}  // namespace

void add_explain(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command =
      app.add_subcommand("explain", "What a rule asks, and the calculation behind a finding");
  command
      ->add_option(
          "ID", o->id,
          "Rule (conductor.terminal-ampacity) or finding (conductor.terminal-ampacity@OUT)")
      ->required();
  command->add_option("JOB", o->job, "Job file; needed for a finding");
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return explain(*o, out); }; });
}

}  // namespace stringwright::cli
