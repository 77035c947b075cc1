#include "design/layout.hpp"

#include <algorithm>

#include "check/check.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"
#include "job/find.hpp"

namespace stringwright::design {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using trail::Verdict;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// All strings that reach an input, straight or through boxes.
std::vector<int> strings_of(const wiring::Wiring& w, const wiring::InputCircuit& in) {
  std::vector<int> all = in.strings;
  for (const int b : in.boxes)
    for (const int s : check::strings_reaching(w, w.boxes[at(b)])) all.push_back(s);
  return all;
}

template <class Q>
Fact<Q> times(const Fact<Q>& one, double n, const char* from) {
  return one.known() ? Fact<Q>(Q::from_si(n * one->si()), from) : one;
}

class Finder {
 public:
  Finder(const wiring::Wiring& w, const codebook::Edition& edition)
      : w_(w), edition_(edition), facts_(check::facts_of(w, edition)) {}

  std::vector<Layouts> all() {
    std::vector<Layouts> found;
    for (const auto& in : w_.inputs)
      if (auto one = of(in)) found.push_back(*std::move(one));
    return found;
  }

 private:
  std::optional<Layouts> of(const wiring::InputCircuit& in) {
    const check::Judged* base = nullptr;
    for (const auto& j : facts_)
      if (j.facts.subject == Subject::input && j.facts.thing == in.id) base = &j;
    const auto strings = strings_of(w_, in);
    if (!base || strings.empty() || base->facts.series.size() != 1) return {};
    const check::Judged* string = nullptr;
    for (const auto& j : facts_)
      if (j.facts.subject == Subject::string_circuit &&
          j.facts.thing == w_.strings[at(strings.front())].id)
        string = &j;
    const int now_series = static_cast<int>(w_.strings[at(strings.front())].modules.size());
    const int now_parallel = static_cast<int>(strings.size());
    Layouts all;
    too_long_ = false;
    all.input = in.id;
    for (const int s : strings) all.modules += static_cast<int>(w_.strings[at(s)].modules.size());
    all.module = w_.module_of(w_.strings[at(strings.front())].modules.front()).id;
    for (int n = 1; n <= all.modules; ++n)
      for (int m = 1; n * m <= all.modules; ++m) {
        auto l = try_out(base->facts, string ? &string->facts : nullptr, n, m, all);
        if (!l) continue;
        l->now = n == now_series && m == now_parallel;
        if (in.boxes.size() == 1) {
          const auto* part = job::find(w_.job.part, w_.boxes[at(in.boxes[0])].part);
          if (part && part->slots) l->spare_slots = *part->slots - m;
        }
        all.fits.push_back(std::move(*l));
      }
    mark_front(all.fits);
    std::sort(all.fits.begin(), all.fits.end(), [](const Layout& x, const Layout& y) {
      if (x.front != y.front) return x.front;
      if (x.p_hot != y.p_hot) return x.p_hot > y.p_hot;
      return x.series > y.series;
    });
    return all;
  }

  std::optional<Layout> try_out(Facts f, const Facts* string, int n, int m, Layouts& all) {
    f.series.front().count = Fact<units::Ratio>(units::Ratio(n), "tried");
    f.i_sc_total = times(f.i_sc, m, "tried");
    f.i_mp_total = times(f.i_mp, m, "tried");
    f.strings = Fact<units::Ratio>(units::Ratio(m), "tried");
    f.events.clear();  // of the array as it is, not of this one
    Layout l;
    l.series = n;
    l.parallel = m;
    for (const auto* rule : codebook::all_rules()) {
      if (!rule->applies(f)) continue;
      const auto finding = check::ask(*rule, {f, {}}, edition_);
      switch (finding.outcome.verdict) {
        case Verdict::fail:
          ++all.refused;
          // Of interest is the shortest string that is too long; without any that fits, the first reason.
          if (m == 1 && (all.first_refused.empty() || (!all.fits.empty() && !too_long_))) {
            all.first_refused = std::to_string(n) + " in series: " + finding.outcome.so;
            too_long_ = !all.fits.empty();
          }
          return {};
        case Verdict::cannot_tell:
          l.cannot_tell.push_back(finding.rule);
          break;
        case Verdict::caution:
          l.cautions.push_back(finding.rule);
          break;
        default:
          break;
      }
    }
    trail::Trail aside;
    const auto value = [](const auto& traced) { return traced.value; };
    const auto cold = value(codebook::maximum_voltage(f, edition_, aside));
    const auto hot = value(codebook::hot_voltage(f, aside));
    if (!cold || !hot || !f.i_mp_total.known() || !f.i_sc_total.known()) return {};
    l.v_cold = *cold;
    l.v_hot = *hot;
    l.v_record = value(codebook::cold_at_record(f, edition_, aside));
    l.v_table = value(codebook::cold_by_table(f, edition_, aside));
    l.p_hot = l.v_hot * *f.i_mp_total;
    l.i_sc = *f.i_sc_total;
    if (f.v_max_input.known()) l.margin_cold = *f.v_max_input - l.v_cold;
    if (string && string->fuse_max.known()) {
      Facts s = *string;
      s.i_sc_others = times(s.i_sc, m - 1, "tried");
      const auto back = value(codebook::backfeed_current(s, edition_, aside));
      // A source behind that nothing blocks drives more than any module bears.
      const auto behind = codebook::behind(s);
      if (behind == codebook::Behind::battery) l.needs_devices = true;
      if (behind == codebook::Behind::nothing && back)
        l.needs_devices = !units::at_most(*back, *string->fuse_max);
    }
    return l;
  }

  /// At least as good in every way that both know.
  static bool as_good(const Layout& x, const Layout& y) {
    if (x.p_hot < y.p_hot || y.i_sc < x.i_sc) return false;
    if (x.margin_cold && y.margin_cold && *x.margin_cold < *y.margin_cold) return false;
    if (x.needs_devices.value_or(true) && !y.needs_devices.value_or(true)) return false;
    return !(x.spare_slots && y.spare_slots && *x.spare_slots < *y.spare_slots);
  }

  static void mark_front(std::vector<Layout>& all) {
    for (auto& x : all)
      x.front = std::none_of(all.begin(), all.end(), [&](const Layout& y) {
        return &x != &y && as_good(y, x) && !as_good(x, y);
      });
  }

  const wiring::Wiring& w_;
  const codebook::Edition& edition_;
  std::vector<check::Judged> facts_;
  bool too_long_ = false;
};

}  // namespace

std::vector<Layouts> layouts(const wiring::Wiring& w, const codebook::Edition& edition) {
  return Finder(w, edition).all();
}

}  // namespace stringwright::design
