#include <algorithm>
#include <cmath>

#include "base/order.hpp"
#include "events/table.hpp"
#include "units/print.hpp"

namespace stringwright::events {
namespace {

/// Currents closer than this share of the larger are the same to a table.
constexpr double alike_within = 0.03;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// The smallest rating of a string's modules; none where one of them does not say.
template <class Field>
std::optional<units::Current> least_of(const Site& s, int string, Field field) {
  std::optional<units::Current> least;
  for (const int m : s.w.strings[at(string)].modules) {
    const auto& value = s.w.module_of(m).*field;
    if (!value) return std::nullopt;
    least = least ? units::min(*least, *value) : *value;
  }
  return least;
}

void add_module(const Site& s, const Series& all, int string, Row& r) {
  const std::string& id = s.w.strings[at(string)].id;
  const Most m = most(all, [&](const Reading& x) { return x.reverse[at(string)]; });
  if (m.i.si() <= 0.05) return;
  Bears b{Bears::What::module_reverse, id, {id}, m.i, {}, "", m.sky};
  if (const auto fuse = least_of(s, string, &parts::Module::fuse_max)) {
    const auto test = codebook::module_reverse_test();
    b.limit = test.factor * *fuse;
    b.limit_words =
        units::print(test.factor) + " × " + units::print(*fuse, 0) + " maximum series fuse";
  }
  r.bears.push_back(std::move(b));
}

/// A part of the module with a rating of its own; where its maker gives none, what it was proved to carry.
void add_part(const Site& s, Bears::What what, const Most& m, int string,
              Given<units::Current> parts::Module::* rating, units::Ratio proved,
              const std::string& proved_by, Row& r) {
  const std::string& id = s.w.strings[at(string)].id;
  Bears b{what, id, {id}, m.i, {}, "", m.sky};
  if (const auto least = least_of(s, string, rating)) {
    b.limit = *least;
    b.limit_words = "rating by the maker";
  } else if (const auto i_sc = least_of(s, string, &parts::Module::i_sc);
             i_sc && units::at_most(m.i, proved * *i_sc)) {
    b.limit = proved * *i_sc;
    b.limit_words = proved_by;
  }
  r.bears.push_back(std::move(b));
}

/// The largest through a string's connectors of what the others drive: more than the string gives by itself
/// under the same sky, its short-circuit current with a little for heat and rounding.
Most beyond_its_own(const Site& s, const std::vector<Sky>& skies, const Series& all, int string) {
  constexpr double heat = 1.05;
  const auto& x = s.w.strings[at(string)];
  const auto i_sc = least_of(s, string, &parts::Module::i_sc);
  Most m;
  for (std::size_t k = 0; k < all.at.size(); ++k) {
    const Reading& reading = all.at[k];
    units::Current i = reading.through[at(string)];
    for (const int c : {x.plus, x.minus})
      if (c >= 0) i = units::max(i, units::abs(reading.conductors[at(c)]));
    const units::Current own = skies[k].sun.si() / 1000 * heat * i_sc.value_or(units::Current{});
    const bool backwards = reading.reverse[at(string)].si() > 0.05;
    if ((backwards || i > own) && i > m.i) m = {i, static_cast<int>(k)};
  }
  return m;
}

void add_strings(const Site& s, const std::vector<Sky>& skies, const Series& all, Row& r) {
  const auto test = codebook::bypass_diode_test();
  for (const auto& like : s.likes) {
    for (const int string : like.strings) {
      add_module(s, all, string, r);
      if (const Most m = most(all, [&](const Reading& x) { return x.bypass[at(string)]; });
          m.i.si() > 0.5)
        add_part(s, Bears::What::bypass_diode, m, string, &parts::Module::bypass_rating,
                 test.factor, units::print(test.factor) + " × Isc, the module's own diode test", r);
      if (const Most m = beyond_its_own(s, skies, all, string); m.i.si() > 0.05)
        add_part(s, Bears::What::connector, m, string, &parts::Module::connector_rating, 1.25,
                 "1.25 × Isc, what it carries in service", r);
    }
  }
}

void add_conductors(const Site& s, const Series& all,
                    const std::vector<std::optional<units::Current>>& ampacity, Row& r) {
  if (ampacity.size() != s.w.conductors.size()) return;
  const auto add = [&](const std::string& thing, const std::vector<int>& conductors) {
    Most worst;
    std::optional<units::Current> limit;
    bool known = true;
    for (const int c : conductors) {
      const Most m = most(all, [&](const Reading& x) { return x.conductors[at(c)]; });
      if (m.i > worst.i) worst = m;
      known = known && ampacity[at(c)].has_value();
      if (ampacity[at(c)]) limit = limit ? units::min(*limit, *ampacity[at(c)]) : *ampacity[at(c)];
    }
    if (worst.i.si() < 0.05) return;
    Bears b{Bears::What::conductor, thing, {thing}, worst.i, {}, "ampacity", worst.sky};
    if (known) b.limit = limit;
    r.bears.push_back(std::move(b));
  };
  for (const auto& string : s.w.strings) {
    std::vector<int> both = string.plus_path;
    both.insert(both.end(), string.minus_path.begin(), string.minus_path.end());
    add(string.id, both);
  }
  for (const auto& box : s.w.boxes) {
    if (box.out_plus < 0 || box.out_minus < 0) continue;
    add(s.w.conductors[at(box.out_plus)].run, {box.out_plus, box.out_minus});
    if (box.out_ground >= 0) add(s.w.conductors[at(box.out_ground)].id, {box.out_ground});
  }
}

/// Like things that bear alike stand together; the worst of them is named.
void join_alike(std::vector<Bears>& all) {
  const auto share = [](const Bears& b) {
    return b.limit && b.limit->si() > 0 ? (b.i / *b.limit).si() : 0.0;
  };
  std::vector<Bears> joined;
  for (auto& b : all) {
    const auto same = std::find_if(joined.begin(), joined.end(), [&](const Bears& o) {
      return o.what == b.what && o.limit == b.limit &&
             std::fabs(o.i.si() - b.i.si()) <= alike_within * std::fmax(o.i.si(), b.i.si());
    });
    if (same == joined.end()) {
      joined.push_back(std::move(b));
      continue;
    }
    same->like.push_back(b.thing);
    if (b.i > same->i) same->thing = b.thing, same->i = b.i, same->sky = b.sky;
  }
  sort_keeping_order(joined, [&](const Bears& x, const Bears& y) { return share(x) > share(y); });
  all = std::move(joined);
}

}  // namespace

void add_bears(const Site& s, const std::vector<Sky>& skies, const Series& all,
               const std::vector<std::optional<units::Current>>& ampacity, bool joined, Row& r) {
  add_strings(s, skies, all, r);
  add_conductors(s, all, ampacity, r);
  if (joined) join_alike(r.bears);
}

}  // namespace stringwright::events
