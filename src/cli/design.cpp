#include <ostream>

#include "app/design.hpp"
#include "base/text.hpp"
#include "cli/columns.hpp"
#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/library.hpp"
#include "units/print.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string job;
  bool json = false, write = false, front = false;
};

std::string counts(const design::Score& s) {
  return std::to_string(s.fail) + " fail, " + std::to_string(s.cannot_tell) + " cannot tell, " +
         std::to_string(s.caution) + " caution";
}

void print(const app::DesignReply& r, const Out& out) {
  const auto& p = r.proposal;
  if (p.chosen.empty() && r.filled.empty() && p.open.empty()) {
    out.out << "The job leaves nothing open: no value says \"choose\".\n";
    return;
  }
  for (const auto& c : p.chosen) {
    out.out << tone(out, Tone::strong, c.key) << " = " << tone(out, Tone::strong, c.value)
            << (c.what.empty() ? "" : "  (" + c.what + ")") << "\n";
    for (const auto& more : c.also_write) out.out << "    with " << more << "\n";
    if (!c.reason.empty()) out.out << paragraph("why not smaller: " + c.reason, 4);
    if (!c.runner_up.empty()) out.out << paragraph("runner-up: " + c.runner_up, 4);
  }
  for (const auto& c : r.filled)
    out.out << tone(out, Tone::strong, c.key) << " = " << tone(out, Tone::strong, c.value) << "\n"
            << paragraph(c.reason, 4);
  for (const auto& o : p.open)
    out.out << tone(out, Tone::doubt, o.key + " stays open") << "\n" << paragraph(o.why, 4);
  out.out << "\nBefore: " << counts(p.before) << ". With these choices: " << counts(p.after)
          << ". Check was asked " << p.asked << " times.\n";
  if (!p.proved)
    out.out << "The search stopped there: this is the best it saw, not proved to be the best there "
               "is.\n";
  if (p.after.fail > 0 && p.proved)
    out.out << paragraph(
        "What still fails does so with every combination of parts in the library: run check on the "
        "written job to see it.",
        0);
}

std::string right(const std::string& s, std::size_t width) {
  const std::size_t n = text::length(s);
  return (n < width ? std::string(width - n, ' ') : "") + s;
}

void print_front(const app::FrontReply& r, const Out& out) {
  if (r.inputs.empty())
    out.out << "No input has strings that are alike and of one module: there is nothing to vary.\n";
  for (const auto& in : r.inputs) {
    out.out << tone(out, Tone::strong, in.input) << ", " << in.modules << " modules " << in.module
            << ": counts in series and parallel that pass every rule about the input\n"
            << "    series  strings     hot   cold V   record    table  margin   Isc all  devices  "
               "spare\n";
    const auto volts = [](const std::optional<units::Voltage>& v) {
      return v ? units::print(units::AnyQuantity(*v)) : std::string("-");
    };
    for (const auto& l : in.fits) {
      const std::string line =
          std::string(l.front ? "  * " : "    ") + right(std::to_string(l.series), 6) +
          right(std::to_string(l.parallel), 9) + right(units::print(l.p_hot), 8) +
          right(volts(l.v_cold), 9) + right(volts(l.v_record), 9) + right(volts(l.v_table), 9) +
          right(volts(l.margin_cold), 8) + right(units::print(l.i_sc), 10) +
          right(!l.needs_devices   ? "not known"
                : *l.needs_devices ? "needed"
                                   : "not",
                9) +
          right(l.spare_slots ? std::to_string(*l.spare_slots) : "-", 7);
      out.out << tone(out, l.front ? Tone::strong : Tone::plain, line)
              << (l.now ? "  as it is" : "")
              << (l.cannot_tell.empty() ? "" : "  cannot tell: " + text::join(l.cannot_tell, ", "))
              << "\n";
    }
    out.out << paragraph(
        "* no other is as good in every way and better in one: power hot (V hot times I_mp), "
        "margin cold "
        "by the method of the job, less current down the way, no string devices needed, slots to "
        "spare.",
        2);
    out.out << "  " << in.refused << " counts are refused by a rule";
    if (!in.first_refused.empty()) out.out << "; " << in.first_refused;
    out.out << "\n";
  }
}

int front(const Options& o, const std::string& text, const parts::Library& library,
          const Out& out) {
  const auto reply = app::front(text, o.job, library);
  if (o.json)
    out.out << app::front_json(reply);
  else
    for (const auto& d : reply.diagnostics) out.err << render(d, text);
  if (!reply.usable) return input;
  if (!o.json) print_front(reply, out);
  return fine;
}

int design(const Options& o, const Out& out) {
  const auto text = read_file(o.job);
  if (!text) {
    out.err << "stringwright: " << text.failure().message << " [" << text.failure().id << "]\n";
    return input;
  }
  const auto library = whole_library(out);
  if (!library) return input;
  if (o.front) return front(o, *text, *library, out);
  const auto reply = app::design_job(*text, o.job, *library);
  if (o.json)
    out.out << app::design_json(reply);
  else
    for (const auto& d : reply.diagnostics) out.err << render(d, *text);
  if (!reply.usable) return input;
  if (!o.json) print(reply, out);
  if (o.write && reply.written != reply.text) {
    if (const auto done = write_file(o.job, reply.written); !done) {
      out.err << "stringwright: " << done.failure().message << " [" << done.failure().id << "]\n";
      return input;
    }
    if (!o.json) out.out << o.job << ": written; all else in it is as it was\n";
  }
  return reply.proposal.after.fail == 0 && reply.proposal.after.cannot_tell == 0 ? fine : findings;
}

}  // namespace

void add_design(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand(
      "design", "Propose parts and sizes for everything that the job leaves to \"choose\"");
  command->add_option("JOB", o->job, "Job file")->required();
  command->add_flag("--write", o->write, "Write the choices into the job; all else stays as it is");
  command->add_flag(
      "--front", o->front,
      "Instead: other counts in series and parallel that fit, and what each is better at");
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return design(*o, out); }; });
}

}  // namespace stringwright::cli
