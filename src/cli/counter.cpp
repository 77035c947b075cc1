#include <ostream>

#include "app/counter.hpp"
#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/library.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  app::CounterFacts facts;
  std::string job;
};

int counter(const Options& o, const Out& out) {
  const auto library = whole_library(out);
  if (!library) return input;
  const auto reply = app::counter(o.facts, *library);
  for (const auto& m : reply.mistakes) out.err << "stringwright: " << m << " [counter.facts]\n";
  if (!reply.usable) return input;
  out.out << reply.slip;
  if (!o.job.empty() && !reply.job.empty()) {
    if (const auto done = write_file(o.job, reply.job, false); !done) {
      out.err << "stringwright: " << done.failure().message << " [" << done.failure().id << "]\n";
      return input;
    }
    out.out << o.job << "\n";
  }
  return reply.fine ? fine : findings;
}

}  // namespace

void add_counter(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand(
      "counter", "Five facts from a caller -> one slip of 80 columns, and a cart");
  auto& f = o->facts;
  command
      ->add_option("--module", f.module, "1. The module, an id of the library (parts list module)")
      ->required();
  command->add_option("--equipment", f.equipment,
                      "2. Controller or inverter, an id of the library");
  command->add_option("--v-max", f.v_max, "   or its highest input voltage, \"150 V\"");
  command->add_option("--isc-max", f.isc_max, "   and its highest short-circuit current, \"50 A\"");
  command->add_option("--battery", f.battery, "   Highest charge voltage of a battery behind it");
  command->add_option("--count", f.count, "3. Modules there are")
      ->required()
      ->check(CLI::Range(1, 500));
  command->add_option("--mount", f.mount, "   and what they sit on")
      ->check(CLI::IsMember({"roof", "ground", "pole"}))
      ->capture_default_str();
  command->add_option("--far", f.far, "4. Box to equipment, one way, \"38 m\"")->required();
  command->add_option("--end", f.end, "   and the farther string end to the box, \"6 m\"")
      ->required();
  command->add_option("--cold", f.cold, "5. Coldest night, \"-31 °C\"")->required();
  command->add_option("--hot", f.hot, "   and hottest day, \"32 °C\"")->required();
  command->add_option("--edition", f.edition, "Code edition")->capture_default_str();
  command->add_option("-o,--job", o->job, "Write the job behind the slip to this new file");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return counter(*o, out); }; });
}

}  // namespace stringwright::cli
