#include "design/cuts/cut_plan.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "base/order.hpp"
#include "design/cuts/assignment.hpp"
#include "job/find.hpp"
#include "units/print.hpp"

namespace stringwright::design {
namespace {

using wiring::Pole;
using wiring::Wiring;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// Needs are rounded up and stock down to a whole millimetre: what is planned always reaches.
std::int64_t up(units::Length l) {
  return static_cast<std::int64_t>(std::ceil(l.in(units::millimetres)-1e-6));
}
std::int64_t down(units::Length l) {
  return static_cast<std::int64_t>(std::floor(l.in(units::millimetres) + 1e-6));
}

std::string sign(Pole p) { return p == Pole::plus ? "+" : "−"; }

/// "A1 L1", "R1.3 −": where a person finds an end.
std::string place(const Wiring& w, int terminal) {
  if (terminal < 0) return "its landing";
  const auto& t = w.terminals[at(terminal)];
  const auto& d = w.devices[at(t.device)];
  if (d.kind == wiring::DeviceKind::module) return d.place + " " + sign(t.pole);
  if (d.kind == wiring::DeviceKind::input) return d.id + " " + sign(t.pole);
  return d.owner + " " + t.label;
}

struct Stock {
  const parts::Part* part = nullptr;
  std::int64_t length = 0, money = 0;
};

/// Pieces that may share a cable: alike in family and wire.
struct Group {
  std::string family;
  units::Wire wire;
  std::vector<CutPiece> plus, minus;
};

/// Cables of a family and wire, short to long.
std::vector<Stock> stock_for(const Group& g, const Wiring& w, const parts::Library& library) {
  std::vector<Stock> all;
  const auto take = [&](const std::vector<parts::Part>& from) {
    for (const auto& p : from)
      if (p.kind && *p.kind == parts::PartKind::cable && p.family && *p.family == g.family &&
          p.wire && *p.wire == g.wire && p.length)
        all.push_back({&p, down(*p.length), p.price ? p.price->hundredths : 0});
  };
  take(w.job.part);
  if (all.empty()) take(library.parts);
  std::sort(all.begin(), all.end(), [](const Stock& x, const Stock& y) {
    return std::tie(x.length, x.money, x.part->id) < std::tie(y.length, y.money, y.part->id);
  });
  return all;
}

bool all_priced(const std::vector<Stock>& stock) {
  return !stock.empty() && std::all_of(stock.begin(), stock.end(), [&](const Stock& s) {
    return s.part->price && s.part->price->currency == stock.front().part->price->currency;
  });
}

class Planner {
 public:
  Planner(const Wiring& w, const parts::Library& library, const CutOptions& options)
      : w_(w), library_(library), options_(options) {}

  CutPlan plan() {
    collect();
    plan_.by_price = !groups_.empty();
    plan_.proved = true;
    for (const auto& g : groups_)
      plan_.by_price = plan_.by_price && all_priced(stock_for(g, w_, library_));
    for (auto& g : groups_) solve(g);
    finish();
    return std::move(plan_);
  }

 private:
  void collect() {
    for (std::size_t i = 0; i < w_.strings.size(); ++i) {
      const auto& s = w_.strings[i];
      for (const Pole pole : {Pole::plus, Pole::minus}) {
        const int c = pole == Pole::plus ? s.plus : s.minus;
        if (c < 0 || s.modules.empty()) continue;
        piece(static_cast<int>(i), pole, c,
              pole == Pole::plus ? s.modules.back() : s.modules.front());
      }
    }
  }

  void piece(int string, Pole pole, int conductor, int module) {
    const auto& c = w_.conductors[at(conductor)];
    const auto& m = w_.module_of(module);
    const std::string who = w_.strings[at(string)].id + sign(pole);
    if (!c.length)
      return cannot(who + ": nothing says how long its way to the box is (" +
                    (pole == Pole::plus ? "plus_end" : "minus_end") +
                    " of its string, or the geometry)");
    if (!c.wire)
      return cannot(who + ": the conductor of its home run is " +
                    (c.wire.choose ? "still to be chosen" : "not known"));
    if (!m.family)
      return cannot(who + ": the connector family of module " + m.id +
                    " is not known; read it off the plug, never guess");
    CutPiece p;
    p.string = string;
    p.pole = pole;
    p.conductor = conductor;
    p.tag = c.tag;
    p.need = units::millimetres(static_cast<double>(up(*c.length)));
    p.length = p.need;
    const auto& circuit = w_.strings[at(string)];
    const auto& path = pole == Pole::plus ? circuit.plus_path : circuit.minus_path;
    if (circuit.box >= 0 && path.size() == 1)
      if (const auto* box = job::find(w_.job.box, w_.boxes[at(circuit.box)].id))
        p.tail = box->home_run.tail.value_or({});
    p.at_string = c.tag + " to " + place(w_, c.to);
    p.at_box = c.tag + " from " + place(w_, c.from);
    auto g = std::find_if(groups_.begin(), groups_.end(), [&](const Group& x) {
      return x.family == *m.family && x.wire == *c.wire;
    });
    if (g == groups_.end()) g = groups_.insert(groups_.end(), {*m.family, *c.wire, {}, {}});
    (pole == Pole::plus ? g->plus : g->minus).push_back(std::move(p));
  }

  void cannot(std::string why) { plan_.cannot_tell.push_back(std::move(why)); }

  void solve(Group& g) {
    const auto stock = stock_for(g, w_, library_);
    std::optional<units::Length> longest;
    if (!stock.empty()) longest = *stock.back().part->length;
    // What no cable reaches even alone comes off a reel.
    const auto reaches = [&](const CutPiece& p) {
      return !stock.empty() && up(p.need) <= stock.back().length;
    };
    for (auto* side : {&g.plus, &g.minus}) {
      for (const auto& p : *side)
        if (!reaches(p)) plan_.reel.push_back({p, g.family, g.wire, longest});
      side->erase(std::remove_if(side->begin(), side->end(),
                                 [&](const CutPiece& p) { return !reaches(p); }),
                  side->end());
    }
    if (g.plus.empty() && g.minus.empty()) return;

    const auto chosen = matched(g, stock, options_.share);
    plan_.proved = plan_.proved && chosen.proved;
    if (options_.share) say_what_sharing_saves(g, stock, chosen);
    for (const auto& [plus, minus] : chosen.pairs)
      cable(g, stock, plus < 0 ? nullptr : &g.plus[at(plus)],
            minus < 0 ? nullptr : &g.minus[at(minus)]);
  }

  struct Matched {
    std::vector<std::pair<int, int>> pairs;  ///< indices into plus and minus; −1 = none
    Cost total;
    bool proved = false;
  };

  /// The cheapest stock that holds `length`, or null.
  const Stock* cheapest(const std::vector<Stock>& stock, std::int64_t length) const {
    const Stock* best = nullptr;
    for (const auto& s : stock) {
      if (s.length < length) continue;
      if (!best || cost_of(s) < cost_of(*best)) best = &s;
    }
    return best;
  }
  Cost cost_of(const Stock& s) const { return {plan_.by_price ? s.money : 0, 1, s.length, 0}; }

  Matched matched(const Group& g, const std::vector<Stock>& stock, bool share) const {
    const int n = static_cast<int>(g.plus.size()), m = static_cast<int>(g.minus.size());
    constexpr std::int64_t never = std::int64_t{1} << 50;
    const auto price = [&](const CutPiece* p, const CutPiece* q) {
      if (!p && !q) return Cost{};
      const bool mixed = p && q && p->string != q->string;
      const Stock* s = mixed && !share
                           ? nullptr
                           : cheapest(stock, (p ? up(p->need) : 0) + (q ? up(q->need) : 0));
      if (!s) return Cost{never, never, never, 0};
      Cost c = cost_of(*s);
      c.shared = mixed ? 1 : 0;
      return c;
    };
    // Rows: plus pieces, then one "nothing" for each minus piece; columns the other way round.
    const auto answer = assign(n + m, [&](int i, int j) {
      return price(i < n ? &g.plus[at(i)] : nullptr, j < m ? &g.minus[at(j)] : nullptr);
    });
    Matched found;
    found.total = answer.total;
    found.proved = answer.proved;
    for (int i = 0; i < n + m; ++i) {
      const int j = answer.column_of[at(i)];
      if (i < n || j < m) found.pairs.emplace_back(i < n ? i : -1, j < m ? j : -1);
    }
    // In the order of strings, by the plus piece where there is one.
    std::sort(found.pairs.begin(), found.pairs.end(), [&](const auto& x, const auto& y) {
      const auto key = [&](const auto& p) {
        return p.first >= 0 ? std::pair(g.plus[at(p.first)].string, 0)
                            : std::pair(g.minus[at(p.second)].string, 1);
      };
      return key(x) < key(y);
    });
    return found;
  }

  void say_what_sharing_saves(const Group& g, const std::vector<Stock>& stock,
                              const Matched& best) {
    if (best.total.shared == 0) return;
    const Matched own = matched(g, stock, false);
    const double less = static_cast<double>(own.total.length - best.total.length) / 1000;
    std::string saved = text_of_length(units::metres(less)) + " of cable";
    if (plan_.by_price && own.total.money > best.total.money)
      saved = parts::Price{own.total.money - best.total.money, currency(stock)}.print();
    plan_.advice.push_back(std::to_string(best.total.shared) + " " +
                           (best.total.shared == 1 ? "cable serves" : "cables serve") +
                           " two strings, which saves " + saved +
                           "; --own-cables keeps every string to its own cable.");
  }

  static std::string currency(const std::vector<Stock>& stock) {
    return stock.front().part->price ? stock.front().part->price->currency : "";
  }
  static std::string text_of_length(units::Length l) { return units::print(l); }

  void cable(const Group& g, const std::vector<Stock>& stock, const CutPiece* plus,
             const CutPiece* minus) {
    const std::int64_t p = plus ? up(plus->need) : 0, q = minus ? up(minus->need) : 0;
    const Stock* s = cheapest(stock, p + q);
    CutCable c;
    c.part = s->part->id;
    c.family = g.family;
    c.wire = g.wire;
    c.stock = units::millimetres(static_cast<double>(s->length));
    const std::int64_t spare = s->length - p - q;
    if (plus && minus) {
      // The spare is shared: both ends can be trimmed at the box.
      const std::int64_t cut = p + spare / 2;
      c.cut = units::millimetres(static_cast<double>(cut));
      c.plus = *plus;
      c.minus = *minus;
      c.plus->length = c.cut;
      c.minus->length = c.stock - c.cut;
      const double middle = static_cast<double>(s->length) / 2;
      const double longer = static_cast<double>(std::max(p, q));
      c.half_holds = longer <= middle;
      if (!*c.half_holds) {
        c.half_short = units::millimetres(longer - middle);
        c.half_short_tag = p > q ? plus->tag : minus->tag;
      }
    } else {
      const CutPiece& only = plus ? *plus : *minus;
      // Room for a drip loop; the other plug's piece is left over whole and may serve another day.
      const units::Length cut = units::min(only.need + drip_loop, c.stock);
      c.cut = plus ? cut : c.stock - cut;
      auto& piece = plus ? c.plus : c.minus;
      piece = only;
      piece->length = cut;
      c.flags.push_back("one piece only: " + text_of_length(c.stock - cut) +
                        " with the other plug are left over");
    }
    flags(c);
    near_miss(c, stock, p + q);
    plan_.cables.push_back(std::move(c));
  }

  void flags(CutCable& c) const {
    if (c.shared())
      c.flags.push_back("two strings share this cable: " + c.plus->tag + " and " + c.minus->tag +
                        "; tag both sides of the cut at once");
    if (c.half_holds && !*c.half_holds)
      c.flags.push_back("cut in half, " + c.half_short_tag + " would be short by " +
                        text_of_length(c.half_short));
    const auto loop = [&](const std::optional<CutPiece>& p) {
      if (p && !units::at_least(p->spare(), drip_loop))
        c.flags.push_back(p->tag + " has " + text_of_length(p->spare()) +
                          " to spare: no room for a drip loop");
    };
    loop(c.plus);
    loop(c.minus);
  }

  /// What would save a size: the next shorter cable, missed by little.
  void near_miss(const CutCable& c, const std::vector<Stock>& stock, std::int64_t need) {
    if (!c.plus || !c.minus || c.shared()) return;
    const Stock* shorter = nullptr;
    for (const auto& s : stock)
      if (s.length < need && (!shorter || s.length > shorter->length)) shorter = &s;
    if (!shorter) return;
    constexpr std::int64_t little = 1500;
    const std::int64_t lack = need - shorter->length;
    if (lack > little) return;
    const auto m = [](double mm) { return text_of_length(units::millimetres(mm)); };
    const auto d = static_cast<double>(lack);
    plan_.advice.push_back(w_.strings[at(c.plus->string)].id + " misses the " +
                           m(static_cast<double>(shorter->length)) + " cable by " + m(d) +
                           ". With the box at least " + m(std::ceil(d / 2)) +
                           " nearer to both its ends (or " + m(d) +
                           " to one) it would do instead of " + text_of_length(c.stock) +
                           "; look at the other strings first.");
  }

  void outruns() {
    // Strings that one cable of the longest kind can't serve.
    std::map<int, units::Length> need;
    std::map<int, bool> reel;
    const auto add = [&](const std::optional<CutPiece>& p) {
      if (p) need[p->string] += p->need;
    };
    for (const auto& c : plan_.cables) add(c.plus), add(c.minus);
    for (const auto& r : plan_.reel)
      need[r.piece.string] += r.piece.need, reel[r.piece.string] = true;
    for (const auto& [string, length] : need) {
      const auto own =
          std::any_of(plan_.cables.begin(), plan_.cables.end(), [&](const CutCable& c) {
            return c.plus && c.minus && c.plus->string == string && c.minus->string == string;
          });
      if (own) continue;
      std::optional<units::Length> longest;
      for (const auto& g : groups_) {
        const bool mine = std::any_of(g.plus.begin(), g.plus.end(),
                                      [&](const CutPiece& p) { return p.string == string; });
        const auto stock = stock_for(g, w_, library_);
        if (mine && !stock.empty()) longest = *stock.back().part->length;
      }
      if (!longest || length <= *longest || reel.count(string)) continue;
      plan_.advice.push_back(w_.strings[at(string)].id + " needs " + text_of_length(length) +
                             ", more than the longest cable of " + text_of_length(*longest) +
                             ": its ends come from two cables here. The other way: reel cable with "
                             "connectors of the same "
                             "family, crimped with their maker's own tool.");
    }
  }

  void finish() {
    sort_keeping_order(plan_.cables, [](const CutCable& x, const CutCable& y) {
      const auto string = [](const CutCable& c) {
        return c.plus ? c.plus->string : c.minus->string;
      };
      return string(x) < string(y);
    });
    int number = 0;
    std::map<std::string, int> counts;
    std::int64_t money = 0;
    std::string currency;
    for (auto& c : plan_.cables) {
      c.number = ++number;
      ++counts[c.part];
      plan_.bought += c.stock;
      if (c.plus) plan_.needed += c.plus->need;
      if (c.minus) plan_.needed += c.minus->need;
    }
    for (const auto& [id, count] : counts) {
      const parts::Part* p = job::find(w_.job.part, id);
      if (!p) p = job::find(library_.parts, id);
      plan_.buy.push_back({count, id, p ? p->title.value_or("") : "",
                           p && p->length ? *p->length : units::Length{}});
      if (!plan_.by_price || !p || !p->price) continue;
      money += count * p->price->hundredths;
      currency = p->price->currency;
      const std::string date = p->price_date.value_or("");
      if (plan_.price_date.empty() || date < plan_.price_date) plan_.price_date = date;
    }
    if (plan_.by_price && !currency.empty()) plan_.price = parts::Price{money, currency};
    std::sort(plan_.buy.begin(), plan_.buy.end(), [](const BuyLine& x, const BuyLine& y) {
      return std::tie(x.length, x.part) < std::tie(y.length, y.part);
    });
    reel_lines();
    outruns();
  }

  void reel_lines() {
    std::vector<std::pair<const ReelPiece*, BuyLine>> lines;
    for (const auto& r : plan_.reel) {
      auto it = std::find_if(lines.begin(), lines.end(), [&](const auto& l) {
        return l.first->family == r.family && l.first->wire == r.wire;
      });
      if (it == lines.end()) {
        BuyLine line;
        for (const auto* from : {&w_.job.part, &library_.parts})
          for (const auto& p : *from)
            if (line.part.empty() && p.kind && *p.kind == parts::PartKind::wire && p.wire &&
                *p.wire == r.wire)
              line.part = p.id, line.title = p.title.value_or("");
        if (line.title.empty()) line.title = r.wire.print() + ", off a reel";
        it = lines.insert(lines.end(), {&r, line});
      }
      ++it->second.count;
      it->second.length += r.piece.need;
    }
    for (auto& [first, line] : lines) {
      line.title += ", with " + std::to_string(line.count) + " fitted " +
                    (line.count == 1 ? "connector" : "connectors") + " of family " + first->family;
      line.count = 1;
      plan_.buy.push_back(line);
    }
  }

  const Wiring& w_;
  const parts::Library& library_;
  CutOptions options_;
  std::vector<Group> groups_;
  CutPlan plan_;
};

}  // namespace

CutPlan cut_plan(const Wiring& w, const parts::Library& stock, const CutOptions& options) {
  return Planner(w, stock, options).plan();
}

}  // namespace stringwright::design
