#include "check/ampacity.hpp"

#include "check/facts.hpp"
#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/methods/iec.hpp"

namespace stringwright::check {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

std::optional<units::Current> ampacity(const codebook::Facts& f, const codebook::Edition& edition) {
  trail::Trail aside;
  if (edition.family() == codebook::Family::iec) {
    const auto may = codebook::iec::capacity(f, edition, aside);
    return may.all_known ? may.i_u.value : std::nullopt;
  }
  const auto i_req = codebook::conductor_current(f, edition, aside);
  const auto terminals = codebook::terminal_ampacity(f, edition, aside, i_req);
  const auto use = codebook::conditions_of_use(f, edition, aside);
  if (!terminals.i_t.value || !use.i_z.value || !use.all_known) return std::nullopt;
  return units::min(*terminals.i_t.value, *use.i_z.value);
}

}  // namespace

std::vector<std::optional<units::Current>> conductor_ampacities(const wiring::Wiring& w,
                                                                const codebook::Edition& edition) {
  std::vector<std::optional<units::Current>> all(w.conductors.size());
  for (const auto& judged : facts_of(w, edition)) {
    const auto& f = judged.facts;
    if (f.subject == codebook::Subject::string_circuit) {
      for (const auto& s : w.strings) {
        if (s.id != f.thing) continue;
        const auto i = ampacity(f, edition);
        for (const auto* path : {&s.plus_path, &s.minus_path})
          if (path->size() == 1) all[at(path->front())] = i;
      }
    } else if (f.subject == codebook::Subject::output_circuit) {
      for (const auto& b : w.boxes) {
        if (b.out_plus < 0 || b.out_minus < 0 || w.conductors[at(b.out_plus)].run != f.thing)
          continue;
        const auto i = ampacity(f, edition);
        for (const int c : {b.out_plus, b.out_minus}) all[at(c)] = i;
      }
    }
  }
  for (std::size_t c = 0; c < w.conductors.size(); ++c) {
    const auto& x = w.conductors[c];
    if (x.kind == wiring::ConductorKind::equipment_ground && x.wire.known() &&
        edition.family() == codebook::Family::nec) {
      if (const auto one = edition.ampacity(x.wire->size, x.wire->metal, units::celsius(75)).value)
        all[c] = static_cast<double>(x.parallel) * *one;
    }
  }
  return all;
}

}  // namespace stringwright::check
