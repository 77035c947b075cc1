#include "app/compare.hpp"

#include <ostream>

#include "app/json.hpp"
#include "cli/columns.hpp"
#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/library.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string job;
  std::string family = "nec";
  bool json = false;
};

void print(const app::Comparison& c, const Out& out) {
  out.out << tone(out, Tone::strong, c.job.empty() ? "job without a name" : c.job)
          << " · the same job under every edition offered\n\n";
  out.out << "  " << padded("", 22) << "fail  cannot tell  caution  on site  pass  NOT LOOKED AT\n";
  for (const auto& side : c.editions) {
    const auto& t = side.tally;
    out.out << "  " << padded(side.name + (side.own ? "  (the job's)" : ""), 22)
            << padded(std::to_string(t.fail), 6) << padded(std::to_string(t.cannot_tell), 13)
            << padded(std::to_string(t.caution), 9) << padded(std::to_string(t.on_site), 9)
            << padded(std::to_string(t.pass), 6) << t.not_looked_at << "\n";
  }
  for (const auto& g : c.groups) {
    std::string things;
    for (const auto& thing : g.things) things += (things.empty() ? "" : ", ") + thing;
    out.out << "\n" << tone(out, Tone::strong, things) << "\n";
    for (const auto& x : g.changes) {
      out.out << tone(out, x.verdict ? Tone::doubt : Tone::plain,
                      paragraph((x.verdict ? "> " : "  ") + x.sentence, 2));
      for (const auto& line : x.cheapest) out.out << paragraph("Cheapest mend, " + line, 6);
    }
    for (const auto& line : g.savings) out.out << paragraph("Saves wire, " + line, 6);
  }
  out.out << "\n";
  if (c.editions.size() > 1)
    out.out << (c.groups.empty() ? "Nothing changes: all " : "Nothing else changes: ") << c.same
            << " findings say the same in all of them.\n";
  if (!c.groups.empty())
    out.out
        << "\"> \" marks what changes its verdict; the rest changes its numbers only. A mend is "
           "proved for its\nown finding alone: check the whole job after it.\n";
  for (const auto& note : c.notes) out.out << paragraph(note, 0);
}

int compare(const Options& o, const Out& out) {
  const auto text = read_file(o.job);
  if (!text) {
    out.err << "stringwright: " << text.failure().message << " [" << text.failure().id << "]\n";
    return input;
  }
  const auto family = o.family == "iec" ? codebook::Family::iec : codebook::Family::nec;
  const auto own = own_rows(out);
  if (!own) return input;
  const auto library = app::library_for(*text, *own);
  const auto c = app::compare(*text, o.job, family, library.library);
  if (o.json) {
    out.out << app::compare_json(c);
    return c.usable ? fine : input;
  }
  if (!c.usable) {
    for (const auto& d : c.diagnostics) out.err << render(d, *text);
    return input;
  }
  print(c, out);
  return fine;
}

}  // namespace

void add_compare(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand(
      "compare", "The same job under every edition of a family: only what changes");
  command->add_option("JOB", o->job, "Job file")->required();
  command->add_option("--family", o->family, "Whose editions; the families are never mixed")
      ->check(CLI::IsMember({"nec", "iec"}))
      ->capture_default_str();
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return compare(*o, out); }; });
}

}  // namespace stringwright::cli
