#include "base/text.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::surface; }

/// Leads behind the modules: clear of the roof and of edges, bent no tighter than they bear, plugs made
/// with their maker's tool, open ends capped. Only the eye sees it.
///
/// Source: NFPA 70, 690.31(C), 690.33; bend radius of a PV wire: common practice, 5 times its diameter.
/// Proved: cases/rules/array_leads.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("Leads supported, protected, plugs fitted by their instructions.",
             edition.cite("leads.work"));
  std::string bend = "no bend tighter than 5 times the cable's diameter";
  if (f.marks.od.known()) {
    const auto k = use(trail, "k_bend", "bend radius", edition.factor("pv-wire.bend"));
    const auto d = trail.given("d_w", "outside of the wire", f.marks.od);
    const auto r = trail.let("r_bend", "least radius", k * d);
    bend = "no bend tighter than " + text::fixed(r.value->in(units::millimetres), 0) + " mm";
  }
  std::string plugs = "plugs made with their maker's tool";
  if (f.marks.plugs.known())
    plugs = words::plain(*f.marks.plugs) + " plugs fitted on site, each made with its maker's tool";
  return on_site("Leads off the roof and clear of edges, clips that stand the sun, " + bend + "; " +
                 plugs + ", pulled to prove it; open ends capped until they are mated.");
}

}  // namespace

extern const Rule array_leads{.id = "array.leads",
                              .title = "Leads, clips and plugs",
                              .aliases = "M6",
                              .asks =
                                  "Are the leads behind the modules held, bent and plugged as "
                                  "they should be?",
                              .applies = applies,
                              .check = check,
                              .cites = "leads.work leads.bend"};

}  // namespace stringwright::codebook
