#include <algorithm>
#include <ostream>

#include "app/json.hpp"
#include "cli/command.hpp"
#include "cli/report_text.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string job;
  bool json = false;
  bool trails = false;
  bool all = false;
  bool flips = false;
};

int check(const Options& o, const Out& out) {
  const auto e = evaluate_file(o.job, out);
  if (!e) return input;
  app::Flips flips;
  if (o.flips && e->usable) flips = app::flips_of(*e);
  if (o.json) {
    out.out << app::check_json(*e, o.flips ? &flips : nullptr);
  } else {
    print_diagnostics(*e, out);
    if (e->usable) print_report(*e, {o.trails, o.all, o.flips ? &flips : nullptr}, out);
  }
  if (!e->usable) return input;
  return check::fine(e->report) ? fine : findings;
}

}  // namespace

void add_check(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand("check", "Judge a job file by every rule of its edition");
  command->add_option("JOB", o->job, "Job file")->required();
  command->add_flag("--trail", o->trails, "Print the calculation under every finding");
  command->add_flag("--all", o->all, "List every rule that is NOT LOOKED AT, by id and title");
  command->add_flag("--flips", o->flips,
                    "Under each finding, the nearest single changes that would flip it");
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return check(*o, out); }; });
}

}  // namespace stringwright::cli
