#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <optional>
#include <string>

#include "app/evaluate.hpp"
#include "cli/cli.hpp"

namespace stringwright::cli {

/// A subcommand adds itself and stores what to do when it was the one asked for.
using Action = std::function<int(const Out&)>;
using Command = void (*)(CLI::App& app, Action& chosen);

void add_check(CLI::App& app, Action& chosen);
void add_papers(CLI::App& app, Action& chosen);
void add_compare(CLI::App& app, Action& chosen);
void add_events(CLI::App& app, Action& chosen);
void add_netlist(CLI::App& app, Action& chosen);
void add_labels(CLI::App& app, Action& chosen);
void add_new(CLI::App& app, Action& chosen);
void add_explain(CLI::App& app, Action& chosen);
void add_schema(CLI::App& app, Action& chosen);
void add_parts(CLI::App& app, Action& chosen);
void add_cuts(CLI::App& app, Action& chosen);
void add_design(CLI::App& app, Action& chosen);
void add_bom(CLI::App& app, Action& chosen);
void add_counter(CLI::App& app, Action& chosen);

/// All subcommands in the order of the help.
const std::vector<Command>& all_commands();

/// Evaluate the job file at `path`. Prints why it can't be read; empty then.
std::optional<app::Evaluation> evaluate_file(const std::string& path, const Out& out);

/// All diagnostics of an evaluation, as `file:line:column: error: ...` with line and caret.
void print_diagnostics(const app::Evaluation& e, const Out& out);

/// What kind of emphasis; none where no person watches.
enum class Tone { plain, strong, faint, bad, doubt, good };
std::string tone(const Out& out, Tone t, const std::string& text);

}  // namespace stringwright::cli
