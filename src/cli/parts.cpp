#include <algorithm>
#include <filesystem>
#include <ostream>

#include "app/parts.hpp"
#include "base/text.hpp"
#include "cli/columns.hpp"
#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/library.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string kind, id, file, to;
  bool json = false, own = false, csv = false;
};

int fail(const Failure& f, const Out& out, Exit code = input) {
  out.err << "stringwright: " << f.message << " [" << f.id << "]\n";
  return code;
}

int list(const Options& o, const Out& out) {
  const auto own = own_rows(out);
  if (!own) return input;
  const auto lines = app::list_parts(*own, o.kind);
  if (o.json) {
    out.out << app::parts_list_json(lines);
    return fine;
  }
  std::size_t width = 0;
  for (const auto& l : lines) width = std::max(width, text::length(l.id));
  std::string kind;
  for (const auto& l : lines) {
    if (l.kind != kind)
      out.out << (kind.empty() ? "" : "\n") << tone(out, Tone::strong, l.kind) << "\n";
    kind = l.kind;
    out.out << "  " << padded(l.id, width + 2) << l.title << (l.own ? "  (yours)" : "") << "\n";
  }
  return fine;
}

int show(const Options& o, const Out& out) {
  const auto own = own_rows(out);
  if (!own) return input;
  const auto part = app::show_part(*own, o.id);
  if (!part) return fail(part.failure(), out);
  if (o.json)
    out.out << app::part_json(*part);
  else
    out.out << "# " << (part->line.own ? "from your own library" : "comes with the program") << "\n"
            << part->text;
  return fine;
}

Result<std::string> place() {
  const std::string path = library_path();
  if (path.empty())
    return Failure{"cli.no-home",
                   "neither XDG_DATA_HOME nor HOME is set, so there is no place for a library"};
  std::error_code error;
  std::filesystem::create_directories(std::filesystem::path(path).parent_path(), error);
  if (error) return Failure{"cli.cannot-write", path + ": cannot be made: " + error.message()};
  return path;
}

int add(const Options& o, const Out& out) {
  const auto text = read_file(o.file);
  if (!text) return fail(text.failure(), out);
  const bool csv = o.csv || text::ends_with(text::lower(o.file), ".csv");
  const auto reading = app::read_parts(*text, o.file, csv);
  const bool wrong = any_error(reading.diagnostics);
  if (wrong && o.json) {
    out.out << app::parts_mistakes_json(o.file, reading.diagnostics);
    return input;
  }
  for (const auto& d : reading.diagnostics) out.err << render(d, *text);
  if (wrong) {
    out.err << "Nothing was put into the library.\n";
    return input;
  }
  if (reading.rows.empty())
    return fail({"parts.none", o.file + ": holds no [module.ID] and no [part.ID]"}, out);
  const auto path = place();
  if (!path) return fail(path.failure(), out);
  const auto done = app::put_parts(*path, reading.rows);
  if (!done) return fail(done.failure(), out);
  if (o.json)
    out.out << app::parts_change_json(*path, *done);
  else
    out.out << *path << ": " << done->added << " added, " << done->replaced << " replaced, "
            << done->unchanged << " as they were\n";
  return fine;
}

int import(const Options& o, const Out& out) {
  Options table = o;
  table.csv = true;
  return add(table, out);
}

int remove(const Options& o, const Out& out) {
  const std::string path = library_path();
  const auto done = app::remove_part(path, o.id);
  if (!done) return fail(done.failure(), out);
  if (!*done) return fail({"parts.unknown", "your own library has no " + text::quoted(o.id)}, out);
  out.out << path << ": " << o.id << " taken out\n";
  return fine;
}

int write_out(const Options& o, const Out& out) {
  const auto own = own_rows(out);
  if (!own) return input;
  const bool csv = o.csv || text::ends_with(text::lower(o.to), ".csv");
  const std::string bytes = app::export_parts(*own, o.own, csv);
  if (o.to.empty()) {
    out.out << bytes;
    return fine;
  }
  if (const auto written = write_file(o.to, bytes); !written) return fail(written.failure(), out);
  out.out << o.to << "\n";
  return fine;
}

}  // namespace

void add_parts(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand("parts", "The library of things one can buy");
  command->require_subcommand(1);
  command->footer(
      "A job's own [module.ID] and [part.ID] win over your library, yours over the defaults.\n"
      "Your library lies in $XDG_DATA_HOME/stringwright/parts.db (else ~/.local/share/...).");
  const auto act = [o, &chosen](CLI::App* sub, int (*run)(const Options&, const Out&)) {
    sub->callback(
        [o, run, &chosen] { chosen = [o, run](const Out& out) { return run(*o, out); }; });
  };
  auto* listing = command->add_subcommand("list", "List ids and titles, by kind");
  listing->add_option("KIND", o->kind, "Only this kind")->check(CLI::IsMember(app::part_kinds()));
  listing->add_flag("--json", o->json, "Reply as JSON");
  act(listing, list);
  auto* showing = command->add_subcommand("show", "Print one record as it would stand in a job");
  showing->add_option("ID", o->id, "Its id")->required();
  showing->add_flag("--json", o->json, "Reply as JSON");
  act(showing, show);
  const auto put = [&](const char* name, const char* words) {
    auto* adding = command->add_subcommand(name, words);
    adding->add_option("FILE", o->file, "All of it is taken, or none where it has a mistake")
        ->required();
    adding->add_flag("--json", o->json, "Reply as JSON");
    return adding;
  };
  act(put("add", "Put the [module.ID] and [part.ID] of a TOML file into your library"), add);
  act(put("import", "Put a CSV table into your library: columns kind, id, then keys as in a job"),
      import);
  auto* removing = command->add_subcommand("remove", "Take one record out of your library");
  removing->add_option("ID", o->id, "Its id")->required();
  act(removing, remove);
  auto* exporting = command->add_subcommand("export", "All records as a parts file");
  exporting->add_option("-o,--out", o->to, "File to write; left out: printed");
  exporting->add_flag("--csv", o->csv, "As a table; so is a FILE that ends in .csv");
  exporting->add_flag("--own", o->own, "Only your own records");
  act(exporting, write_out);
}

}  // namespace stringwright::cli
