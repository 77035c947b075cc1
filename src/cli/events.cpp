#include "app/events.hpp"

#include <algorithm>
#include <ostream>

#include "app/json.hpp"
#include "base/text.hpp"
#include "cli/command.hpp"
#include "cli/events_text.hpp"
#include "cli/files.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string job, event, file, convention;
  bool json = false, curves = false;
};

int run_events(const Options& o, const Out& out) {
  const auto e = evaluate_file(o.job, out);
  if (!e) return input;
  if (!e->usable) {
    if (o.json)
      out.out << app::check_json(*e);
    else
      print_diagnostics(*e, out);
    return input;
  }
  app::EventsOptions options;
  options.event = o.event;
  options.convention = codebook::convention(o.convention);
  if (!o.file.empty()) {
    if (o.curves == !o.event.empty()) {
      out.err << "stringwright: -o draws one event (--event ID) or the curves (--curves) "
                 "[cli.which-drawing]\n";
      return input;
    }
    const auto svg = o.curves ? app::curves_svg(*e) : app::event_svg(*e, options);
    if (!svg) {
      out.err << "stringwright: " << svg.failure().message << " [" << svg.failure().id << "]\n";
      return input;
    }
    if (const auto written = write_file(o.file, *svg, true); !written) {
      out.err << "stringwright: " << written.failure().message << " [" << written.failure().id
              << "]\n";
      return input;
    }
    if (o.curves) {
      out.out << o.file << "\n";
      return fine;
    }
  }
  const auto reply = app::events(*e, options);
  if (!reply) {
    out.err << "stringwright: " << reply.failure().message << " [" << reply.failure().id << "]\n";
    return input;
  }
  if (o.json)
    out.out << app::events_json(*e, *reply);
  else
    print_events(*e, *reply, out);
  const auto& rows = reply->table.rows;
  return std::any_of(rows.begin(), rows.end(), [](const auto& r) { return r.failure.has_value(); })
             ? findings
             : fine;
}

}  // namespace

void add_events(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand("events", "What every fault and mistake does to every device");
  command->add_option("JOB", o->job, "Job file")->required();
  command->add_option("--event", o->event,
                      "One event, KIND@PLACE: short-string@S1, ground-fault@S2.0");
  command
      ->add_option("--devices", o->convention,
                   "When devices open: us (1.35 x in the hour), gpv (1.13 holds, 1.45 opens); "
                   "left out: as the job's edition lists them")
      ->check(CLI::IsMember({"us", "gpv"}))
      ->default_str("");
  command->add_option("-o,--out", o->file,
                      "SVG file: current paths of the --event, or the curves with --curves");
  command->add_flag("--curves", o->curves,
                    "With -o: current over voltage of strings and sum, with operating points");
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return run_events(*o, out); }; });
}

}  // namespace stringwright::cli
