#include "cli/cli.hpp"

#include <exception>
#include <ostream>

#include "base/version.hpp"
#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/library.hpp"

namespace stringwright::cli {

const std::vector<Command>& all_commands() {
  static const std::vector<Command> all = {
      add_check,   add_compare, add_papers, add_events, add_netlist, add_labels, add_new,
      add_explain, add_schema,  add_parts,  add_cuts,   add_design,  add_bom,    add_counter};
  return all;
}

std::string tone(const Out& out, Tone t, const std::string& text) {
  if (!out.colour || t == Tone::plain || text.empty()) return text;
  const char* code = t == Tone::strong  ? "1"
                     : t == Tone::faint ? "2"
                     : t == Tone::bad   ? "1;31"
                     : t == Tone::doubt ? "1;33"
                                        : "32";
  return "\x1b[" + std::string(code) + "m" + text + "\x1b[0m";
}

std::optional<app::Evaluation> evaluate_file(const std::string& path, const Out& out) {
  const auto text = read_file(path);
  if (!text) {
    out.err << "stringwright: " << text.failure().message << " [" << text.failure().id << "]\n";
    return {};
  }
  const auto own = own_rows(out);
  if (!own) return {};
  const auto library = app::library_for(*text, *own);
  for (const auto& d : library.diagnostics) out.err << render(d, "");
  return app::evaluate(*text, path, {}, library.library);
}

void print_diagnostics(const app::Evaluation& e, const Out& out) {
  for (const auto& d : e.diagnostics) out.err << render(d, e.text);
}

int run(const std::vector<std::string>& arguments, const Out& out) {
  CLI::App app{
      "Stringwright: from a job file to a judged, drawn combiner box.\n"
      "A string is live as long as there is light, whatever the breakers say. The local code, the "
      "authority\n"
      "having jurisdiction and licensed practice decide; this tool helps them.",
      "stringwright"};
  app.set_version_flag("--version", std::string("stringwright ") + std::string(base::version));
  app.require_subcommand(1);
  app.footer(
      "Exit: 0 fine (cautions and points to check on site included), 1 a fail not waived or a "
      "cannot-tell, 2 input, 3 our "
      "fault.");
  Action chosen;
  for (const Command add : all_commands()) add(app, chosen);

  try {
    std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
    app.parse(reversed);
  } catch (const CLI::ParseError& e) {
    // CLI11 has exit codes of its own; ours say input. Help and version are successes.
    return app.exit(e, out.out, out.err) == 0 ? fine : input;
  }
  try {
    return chosen ? chosen(out) : static_cast<int>(input);
  } catch (const std::exception& e) {
    out.err << "stringwright: this is our fault, not yours: " << e.what() << " [cli.unexpected]\n";
    return ours;
  }
}

}  // namespace stringwright::cli
