#include <ostream>

#include "app/events.hpp"
#include "cli/command.hpp"
#include "cli/files.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string job, event, file;
  double sun = 1000;
  double cell = -1000;  // none
};

int netlist(const Options& o, const Out& out) {
  const auto e = evaluate_file(o.job, out);
  if (!e) return input;
  if (!e->usable) {
    print_diagnostics(*e, out);
    return input;
  }
  app::NetlistOptions options;
  options.event = o.event;
  options.sun = units::watts_per_square_metre(o.sun);
  if (o.cell > -1000) options.cell = units::celsius(o.cell);
  const auto text = app::netlist(*e, options);
  if (!text) {
    out.err << "stringwright: " << text.failure().message << " [" << text.failure().id << "]\n";
    return input;
  }
  if (o.file.empty()) {
    out.out << *text;
    return fine;
  }
  if (const auto written = write_file(o.file, *text); !written) {
    out.err << "stringwright: " << written.failure().message << " [" << written.failure().id
            << "]\n";
    return input;
  }
  out.out << o.file << "\n";
  return fine;
}

}  // namespace

void add_netlist(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand(
      "netlist", "The circuit as a netlist, for a second opinion from a circuit simulator");
  command->add_option("JOB", o->job, "Job file")->required();
  command->add_option("--event", o->event,
                      "An event, KIND@PLACE; left out: as designed, the equipment working");
  command->add_option("-o,--out", o->file, "File to write; left out: printed");
  command->add_option("--sun", o->sun, "Light on the modules, W/m²")
      ->check(CLI::Range(0.0, 2000.0))
      ->capture_default_str();
  command->add_option("--cell", o->cell, "Cells, °C; left out: the hottest of the site")
      ->check(CLI::Range(-90.0, 150.0))
      ->default_str("");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return netlist(*o, out); }; });
}

}  // namespace stringwright::cli
