#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::string_circuit; }

/// The values of the module's marking that decide are in the job: without them nothing can be judged.
///
/// Source: NFPA 70, 690.51; IEC 61730-1, marking, from memory. Proved: cases/rules/label_module.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  std::vector<std::string> open;
  bool volts = !f.series.empty();
  for (const auto& g : f.series) volts = volts && g.v_oc.known() && g.v_mp.known();
  if (!volts) open.push_back("open-circuit voltage and voltage at maximum power");
  if (!f.i_sc.known() || !f.i_mp.known())
    open.push_back("short-circuit current and current at maximum power");
  if (!f.fuse_max.known()) open.push_back("maximum series fuse (module.fuse_max)");
  if (!f.v_sys.known()) open.push_back("maximum system voltage (module.v_sys)");
  trail.note("The marking gives these values.", edition.cite("label.module"));
  if (!open.empty())
    return cannot_tell("cannot tell: not known from the module's label: " + words::list(open) +
                       ". Read it on the back of a module.");
  bool crossed = units::at_least(*f.i_mp.value, *f.i_sc.value);
  for (const auto& g : f.series) crossed = crossed || units::at_least(*g.v_mp.value, *g.v_oc.value);
  if (crossed)
    return {Verdict::fail,
            "At maximum power a module gives less than its open-circuit voltage and its "
            "short-circuit current; the values given say otherwise: fails.",
            {"Two of them are swapped, or read from different labels."},
            {}};
  return {Verdict::pass, "The values of the module's label are in the job.", {}, {}};
}

}  // namespace

extern const Rule label_module{.id = "label.module",
                               .title = "Values of the module's label",
                               .aliases = "L15",
                               .asks = "Are the values of the module's marking that decide known?",
                               .applies = applies,
                               .check = check,
                               .cites = "label.module",
                               .family = Asked::both};

}  // namespace stringwright::codebook
