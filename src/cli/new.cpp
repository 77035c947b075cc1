#include <ostream>

#include "app/json.hpp"
#include "app/starter.hpp"
#include "cli/command.hpp"
#include "cli/files.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string path = "job.toml";
  bool json = false;
};

int make(const Options& o, const Out& out) {
  const auto written = write_file(o.path, app::starter(), false);
  if (!written) {
    out.err << "stringwright: " << written.failure().message << " [" << written.failure().id
            << "]\n";
    return input;
  }
  if (o.json)
    out.out << app::new_json(o.path);
  else
    out.out << o.path << " written. Put in your own numbers, then: stringwright check " << o.path
            << "\n";
  return fine;
}

}  // namespace

void add_new(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand("new", "Write a commented starter job");
  command->add_option("FILE", o->path, "File to write; an existing one is left alone")
      ->capture_default_str();
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return make(*o, out); }; });
}

}  // namespace stringwright::cli
