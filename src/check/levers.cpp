#include "check/levers.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/text.hpp"
#include "codebook/methods/words.hpp"

namespace stringwright::check {
namespace {

using codebook::Edition;
using codebook::Fact;
using codebook::Facts;
using codebook::StretchFacts;
using trail::Verdict;

std::string number(double x, double step) {
  int decimals = 0;
  for (double s = step; s < 0.999 && decimals < 3; s *= 10) ++decimals;
  std::string shown = text::fixed(x, decimals);
  if (text::starts_with(shown, "-")) shown = "−" + shown.substr(1);
  return shown;
}

std::string passes(Verdict to) {
  return to == Verdict::pass ? "Passes" : "Is no more than a caution";
}
std::string turns(Verdict to) { return to == Verdict::fail ? "fails" : "is a caution"; }

/// A lever on one fact that is a quantity with a unit.
template <class Q, class Unit>
Lever on(std::string key, Fact<Q> Facts::* fact, Unit unit, std::string symbol,
         std::pair<double, double> range, double step, double effort, std::string what) {
  Lever l;
  l.key = std::move(key);
  l.low = range.first;
  l.high = range.second;
  l.step = step;
  l.effort = effort;
  l.get = [fact, unit](const Facts& f) -> std::optional<double> {
    const auto& it = f.*fact;
    if (!it.known()) return std::nullopt;
    return it->in(unit);
  };
  l.set = [fact, unit](Facts& f, double x) { (f.*fact).value = unit(x); };
  l.say = [what, symbol, step](double at, double to, bool better, Verdict v) {
    const std::string shown = number(to, step) + " " + symbol;
    if (better) return passes(v) + " with " + what + " of " + shown + ".";
    return "Holds with " + what + (to >= at ? " up to " : " down to ") + shown + ".";
  };
  return l;
}

Lever on(std::string key, Fact<units::Temperature> Facts::* fact, std::pair<double, double> range,
         double effort, std::string what) {
  Lever l;
  l.key = std::move(key);
  l.low = range.first;
  l.high = range.second;
  l.step = 0.1;
  l.effort = effort;
  l.get = [fact](const Facts& f) -> std::optional<double> {
    const auto& it = f.*fact;
    if (!it.known()) return std::nullopt;
    return it->celsius();
  };
  l.set = [fact](Facts& f, double x) { (f.*fact).value = units::celsius(x); };
  l.say = [what](double at, double to, bool better, Verdict v) {
    const std::string shown = number(to, 0.1) + " °C";
    if (better)
      return passes(v) + " where " + what + " is " + shown +
             (to > at ? " or warmer." : " or cooler.");
    return "Holds " + std::string(to > at ? "up to " : "down to ") + shown + " as " + what + ".";
  };
  return l;
}

std::string name_of(const StretchFacts& s, std::size_t i) {
  const std::string method = s.method.value.value_or("");
  return "stretch " + std::to_string(i + 1) + (method.empty() ? "" : " (" + method + ")");
}

std::string metres(double m) { return number(m, 0.1) + " m"; }

Lever length_of_circuit() {
  Lever l;
  l.key = "length";
  l.low = 0.1;
  l.high = 2000;
  l.step = 0.1;
  l.effort = 2;
  l.get = [](const Facts& f) -> std::optional<double> {
    if (!f.length.known()) return std::nullopt;
    return f.length->in(units::metres);
  };
  l.set = [](Facts& f, double x) { f.length.value = units::metres(x); };
  l.say = [](double at, double to, bool better, Verdict v) {
    if (better)
      return passes(v) + " when " + metres(at - to) + " shorter, " + metres(to) + " in all.";
    return "Holds up to " + metres(to - at) + " more length, " + metres(to) + " in all.";
  };
  return l;
}

Lever height_of(const StretchFacts& s, std::size_t i) {
  Lever l;
  const std::string name = name_of(s, i);
  l.key = "stretches." + std::to_string(i + 1) + ".above_roof";
  l.low = 0;
  l.high = 1000;
  l.step = 1;
  l.effort = 1;
  l.get = [i](const Facts& f) -> std::optional<double> {
    if (!f.stretches[i].above_roof) return std::nullopt;
    return f.stretches[i].above_roof->in(units::millimetres);
  };
  l.set = [i](Facts& f, double x) { f.stretches[i].above_roof = units::millimetres(x); };
  l.say = [name](double at, double to, bool better, Verdict v) {
    const std::string by = number(std::fabs(to - at), std::fmod(at, 1) == 0 ? 1 : 0.1) + " mm";
    const std::string to_mm = number(to, 1) + " mm above the roof";
    if (better) return passes(v) + " with " + name + " raised by " + by + ", to " + to_mm + ".";
    if (to == at) return "Holds at this height of " + name + " over the roof, and not lower.";
    return "Holds with " + name + (to < at ? " down to " : " up to ") + to_mm + ".";
  };
  return l;
}

Lever ambient_of(const StretchFacts& s, std::size_t i) {
  Lever l;
  const std::string name = name_of(s, i);
  l.key = "stretches." + std::to_string(i + 1) + ".ambient";
  l.low = -40;
  l.high = 120;
  l.step = 1;
  l.effort = 6;
  l.get = [i](const Facts& f) -> std::optional<double> {
    if (!f.stretches[i].ambient.known()) return std::nullopt;
    return f.stretches[i].ambient->celsius();
  };
  l.set = [i](Facts& f, double x) { f.stretches[i].ambient.value = units::celsius(x); };
  l.say = [name](double, double to, bool better, Verdict v) {
    const std::string shown = number(to, 1) + " °C";
    if (better) return passes(v) + " where " + name + " is no hotter than " + shown + ".";
    return "Holds up to " + shown + " around " + name + ".";
  };
  return l;
}

/// A series of whole numbers from 1 on.
Series count(std::string key, double effort, int most,
             std::function<std::optional<int>(const Facts&)> get,
             std::function<void(Facts&, int)> set, std::string what) {
  Series s;
  s.key = std::move(key);
  s.size = most;
  s.effort = effort;
  s.now = [get, most](const Facts& f) -> std::optional<int> {
    const auto n = get(f);
    if (!n || *n < 1 || *n > most) return std::nullopt;
    return *n - 1;
  };
  s.set = [set](Facts& f, int i) { set(f, i + 1); };
  s.say = [what](int held, int flipped, bool better, Verdict v) {
    const auto shown = [&](int i) {  // "1 string in parallel", "2 strings in parallel"
      std::string named = what;
      const auto plural = named.find("s ");
      if (i == 0 && plural != std::string::npos) named.erase(plural, 1);
      return std::to_string(i + 1) + " " + named;
    };
    if (better) return passes(v) + " with " + shown(flipped) + ".";
    return "Holds with " + std::string(flipped > held ? "up to " : "down to ") + shown(held) +
           "; with " + std::to_string(flipped + 1) + " it " + turns(v) + ".";
  };
  return s;
}

Fact<units::Ratio> whole(const Fact<units::Ratio>& old, int n) {
  Fact<units::Ratio> f = old;
  f.value = units::Ratio(static_cast<double>(n));
  return f;
}

std::optional<int> whole(const Fact<units::Ratio>& f) {
  if (!f.known()) return std::nullopt;
  return static_cast<int>(std::lround(f->in(units::plain)));
}

/// A rating out of the edition's standard ones; one that is not standard stands among them.
Series rating(const Facts& facts, const Edition& edition, std::string key,
              Fact<units::Current> Facts::* fact, std::string what) {
  std::vector<units::Current> all;
  auto next = edition.standard_rating_at_least(units::amps(1));
  while (next.value) {
    all.push_back(*next.value);
    next = edition.standard_rating_at_least(*next.value * (1 + 1e-6));
  }
  const units::Current own = *(facts.*fact);
  if (std::none_of(all.begin(), all.end(),
                   [&](auto i) { return units::at_most(i, own) && units::at_least(i, own); })) {
    all.push_back(own);
    std::sort(all.begin(), all.end());
  }
  Series s;
  s.key = std::move(key);
  s.size = static_cast<int>(all.size());
  s.effort = 2.5;
  s.now = [all, fact](const Facts& f) -> std::optional<int> {
    for (std::size_t i = 0; i < all.size(); ++i)
      if (units::at_least(all[i], *(f.*fact))) return static_cast<int>(i);
    return std::nullopt;
  };
  s.set = [all, fact](Facts& f, int i) { (f.*fact).value = all[static_cast<std::size_t>(i)]; };
  s.say = [all, what](int held, int flipped, bool better, Verdict v) {
    const auto shown = [&](int i) {
      return codebook::words::plain(all[static_cast<std::size_t>(i)]);
    };
    if (better) return passes(v) + " with " + what + " of " + shown(flipped) + ".";
    return "Holds with " + what + (flipped > held ? " up to " : " down to ") + shown(held) + "; " +
           shown(flipped) + " " + turns(v) + ".";
  };
  return s;
}

Series wire(const Facts& facts) {
  const auto& sizes =
      facts.wire->size.metric() ? units::WireSize::metric_series() : units::WireSize::american();
  Series s;
  s.key = "wire";
  s.size = static_cast<int>(sizes.size());
  s.effort = 3;
  s.now = [&sizes](const Facts& f) -> std::optional<int> {
    const auto at = std::find(sizes.begin(), sizes.end(), f.wire->size);
    if (at == sizes.end()) return std::nullopt;
    return static_cast<int>(at - sizes.begin());
  };
  s.set = [&sizes](Facts& f, int i) { f.wire.value->size = sizes[static_cast<std::size_t>(i)]; };
  s.say = [&sizes](int held, int flipped, bool better, Verdict v) {
    const auto shown = [&](int i) { return sizes[static_cast<std::size_t>(i)].print(); };
    if (better) return passes(v) + " with " + shown(flipped) + ".";
    return "Holds " + std::string(flipped > held ? "up" : "down") + " to " + shown(held) + "; " +
           shown(flipped) + " " + turns(v) + ".";
  };
  return s;
}

/// Marks of terminals, °C: those of the family.
Series terminals(const Edition& edition) {
  const std::array<double, 3> marks = edition.family() == codebook::Family::iec
                                          ? std::array<double, 3>{70, 85, 90}
                                          : std::array<double, 3>{60, 75, 90};
  Series s;
  s.key = "terminals";
  s.size = 3;
  s.effort = 4;
  s.now = [marks](const Facts& f) -> std::optional<int> {
    for (int i = 0; i < 3; ++i)
      if (std::fabs(f.terminals->celsius() - marks[static_cast<std::size_t>(i)]) < 1e-6) return i;
    return std::nullopt;
  };
  s.set = [marks](Facts& f, int i) {
    f.terminals.value = units::celsius(marks[static_cast<std::size_t>(i)]);
  };
  s.say = [marks](int held, int flipped, bool better, Verdict v) {
    const auto shown = [&](int i) { return number(marks[static_cast<std::size_t>(i)], 1) + " °C"; };
    if (better) return passes(v) + " with terminals marked " + shown(flipped) + ".";
    return "Holds with terminals marked " + shown(held) + "; marked " + shown(flipped) + " it " +
           turns(v) + ".";
  };
  return s;
}

/// One more string like those there are: currents of all, and of the others, grow with it.
Series strings(const Facts& facts) {
  const int n = whole(facts.strings).value_or(0);
  const auto scaled = [n](const Fact<units::Current>& f, double from, double to) {
    Fact<units::Current> g = f;
    if (g.value && from > 0 && n > 0) g.value = *f * (to / from);
    return g;
  };
  return count(
      "strings", 4.5, 60, [](const Facts& f) { return whole(f.strings); },
      [facts, n, scaled](Facts& f, int to) {
        f.strings = whole(facts.strings, to);
        f.i_sc_total = scaled(facts.i_sc_total, n, to);
        f.i_mp_total = scaled(facts.i_mp_total, n, to);
        if (facts.subject == codebook::Subject::string_circuit && facts.i_sc.known())
          f.i_sc_others.value = *facts.i_sc * static_cast<double>(to - 1);
      },
      "strings in parallel");
}

}  // namespace

std::vector<Lever> levers(const Facts& facts) {
  std::vector<Lever> all;
  for (std::size_t i = 0; i < facts.stretches.size(); ++i) {
    if (facts.stretches[i].above_roof) all.push_back(height_of(facts.stretches[i], i));
    all.push_back(ambient_of(facts.stretches[i], i));
  }
  all.push_back(length_of_circuit());
  all.push_back(on("v_max_input", &Facts::v_max_input, units::volts, "V", {10, 2000}, 1, 5,
                   "an input limit"));
  all.push_back(on("isc_max_input", &Facts::isc_max_input, units::amps, "A", {0.5, 3000}, 0.1, 5,
                   "an input limit"));
  all.push_back(on("v_operating_min", &Facts::v_operating_min, units::volts, "V", {1, 1500}, 1, 5.5,
                   "a lower end of the input's window"));
  all.push_back(on("v_battery_max", &Facts::v_battery_max, units::volts, "V", {5, 900}, 0.1, 6,
                   "a highest charge voltage"));
  all.push_back(on("v_dc_pole", &Facts::v_dc_pole, units::volts, "V", {10, 2000}, 1, 5,
                   "a d.c. voltage per pole"));
  all.push_back(on("interrupt", &Facts::interrupt, units::kiloamps, "kA", {0.1, 200}, 0.1, 5,
                   "an interrupting rating"));
  all.push_back(on("t_min", &Facts::t_min, {-60, 24.9}, 7, "the lowest ambient"));
  all.push_back(on("t_hot", &Facts::t_hot, {0, 60}, 7, "the hot ambient"));
  std::erase_if(all, [&](const Lever& l) { return !l.get(facts); });
  return all;
}

std::vector<Series> series_of(const Facts& facts, const Edition& edition) {
  using codebook::Subject;
  std::vector<Series> all;
  if (facts.wire.known()) all.push_back(wire(facts));
  const bool device =
      facts.subject == Subject::string_device || facts.subject == Subject::output_device;
  if (device && facts.rating.known())
    all.push_back(rating(facts, edition, "rating", &Facts::rating, "a device"));
  if (!device && facts.protected_by.known())
    all.push_back(rating(facts, edition, "protected_by", &Facts::protected_by, "a device ahead"));
  if (facts.device_ahead.known())
    all.push_back(rating(facts, edition, "device_ahead", &Facts::device_ahead, "a device ahead"));
  if (facts.terminals.known()) all.push_back(terminals(edition));
  if (device && facts.poles.known())
    all.push_back(count(
        "poles", 4, 4, [](const Facts& f) { return whole(f.poles); },
        [](Facts& f, int n) { f.poles = whole(f.poles, n); }, "poles in series"));
  if (facts.series.size() == 1)
    all.push_back(count(
        "series.count", 4, 60, [](const Facts& f) { return whole(f.series[0].count); },
        [](Facts& f, int n) { f.series[0].count = whole(f.series[0].count, n); },
        "modules in series"));
  if (facts.strings.known()) all.push_back(strings(facts));
  for (std::size_t i = 0; i < facts.stretches.size(); ++i)
    if (facts.stretches[i].wires.known())
      all.push_back(count(
          "stretches." + std::to_string(i + 1) + ".wires", 2.2, 60,
          [i](const Facts& f) { return whole(f.stretches[i].wires); },
          [i](Facts& f, int n) { f.stretches[i].wires = whole(f.stretches[i].wires, n); },
          "current-carrying wires in " + name_of(facts.stretches[i], i)));
  return all;
}

}  // namespace stringwright::check
