#include <algorithm>
#include <ostream>

#include "app/bom.hpp"
#include "base/text.hpp"
#include "cli/columns.hpp"
#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/library.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string job, file;
  bool json = false, csv = false;
};

void print(const design::Bom& bom, const Out& out) {
  std::string group;
  for (const auto& l : bom.lines) {
    if (l.group != group)
      out.out << (group.empty() ? "" : "\n") << tone(out, Tone::strong, l.group) << "\n";
    group = l.group;
    const std::string n = app::quantity(l);
    out.out << "  " << std::string(n.size() < 7 ? 7 - n.size() : 0, ' ') << n << "  " << l.what;
    if (!l.part.empty() && l.what.find(l.part) == std::string::npos)
      out.out << " [" << l.part << "]";
    if (!l.where.empty()) out.out << "; for " << l.where;
    if (l.price) out.out << "; " << l.price->print();
    out.out << "\n";
    if (!l.torque.empty()) out.out << "           torque " << l.torque << "\n";
    if (!l.note.empty()) out.out << tone(out, Tone::faint, paragraph(l.note, 11));
  }
  out.out << "\n";
  for (const auto& r : bom.remarks) out.out << paragraph(r, 0);
}

int bom(const Options& o, const Out& out) {
  const auto e = evaluate_file(o.job, out);
  if (!e) return input;
  if (!e->usable) {
    if (o.json)
      out.out << app::bom_json(*e, nullptr);
    else
      print_diagnostics(*e, out);
    return input;
  }
  const auto library = whole_library(out);
  if (!library) return input;
  const auto list = app::bom(*e, *library);
  if (o.json) {
    out.out << app::bom_json(*e, &list);
    return fine;
  }
  if (o.file.empty()) {
    if (o.csv)
      out.out << app::bom_csv(list);
    else
      print(list, out);
    return fine;
  }
  std::string bytes;
  if (text::ends_with(text::lower(o.file), ".xlsx")) {
    auto book = app::bom_xlsx(*e, list);
    if (!book) {
      out.err << "stringwright: " << book.failure().message << " [" << book.failure().id << "]\n";
      return ours;
    }
    bytes = *std::move(book);
  } else {
    bytes = app::bom_csv(list);
  }
  if (const auto written = write_file(o.file, bytes); !written) {
    out.err << "stringwright: " << written.failure().message << " [" << written.failure().id
            << "]\n";
    return input;
  }
  out.out << o.file << "\n";
  return fine;
}

}  // namespace

void add_bom(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command =
      app.add_subcommand("bom", "Everything to buy, with tools, consumables and spares");
  command->add_option("JOB", o->job, "Job file")->required();
  command->add_option("-o,--out", o->file, "File to write: .xlsx for a workbook, else CSV");
  command->add_flag("--csv", o->csv, "Print as a table");
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return bom(*o, out); }; });
}

}  // namespace stringwright::cli
