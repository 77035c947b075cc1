// What is written reads back as the same job.
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include "base/text.hpp"
#include "job/flat.hpp"
#include "job/read.hpp"
#include "units/print.hpp"

namespace stringwright::job {
namespace {

std::string messages(const Reading& reading, const std::string& text) {
  std::string all;
  for (const auto& d : reading.diagnostics)
    if (d.severity == Severity::error) all += render(d, text);
  return all;
}

std::string example() {
  std::ifstream in(std::string(STRINGWRIGHT_SOURCE_DIR) + "/examples/north-cabin.toml");
  std::stringstream all;
  all << in.rdbuf();
  return all.str();
}

TEST(Write, ExampleAndStarterReadBack) {
  for (const auto& text : {example(), starter()}) {
    const auto first = read(text, "first");
    ASSERT_TRUE(first.job) << messages(first, text);
    const std::string written = write(*first.job);
    const auto second = read(written, "second");
    ASSERT_TRUE(second.job) << messages(second, written);
    EXPECT_EQ(Flat::of(*first.job), Flat::of(*second.job));
    EXPECT_EQ(write(*second.job), written);
  }
}

TEST(Write, TextsAreEscaped) {
  Job job;
  job.format = 1;
  job.job.name = std::string("a \"b\" \\ c\n\td − ü");
  job.job.edition = std::string("nec_2023");
  job.job.note = std::string("choose");
  const auto back = read(write(job), "f");
  ASSERT_TRUE(back.job);
  EXPECT_EQ(*back.job->job.name, *job.job.name);
}

/// Fills fields at random: a decimal in the unit that is shown, inside the field's range. Names and
/// references are the caller's.
class FillAtRandom {
 public:
  explicit FillAtRandom(std::string_view kind = {}) : kind_(kind) {}

  template <class T>
  void operator()(std::string_view key, Given<T>& member, const About& about) {
    if (member.known() || is_name(key) || !fits_kind(about)) return;
    const int chance = *rc::gen::inRange(0, 10);
    if (about.may_choose && chance == 0)
      member.choose = true;
    else if (about.required || chance < 6)
      member.value = value(static_cast<T*>(nullptr), about);
  }
  template <Record R>
  void operator()(std::string_view, R& member, const About& about) {
    if (fits_kind(about)) describe(*this, member);
  }
  template <Record R>
  void operator()(std::string_view, std::optional<R>& member, const About&) {
    if (*rc::gen::inRange(0, 2) == 0) return;
    member.emplace();
    describe(*this, *member);
  }
  template <Record R>
  void operator()(std::string_view, std::vector<R>& member, const About&) {
    for (auto& record : member) {
      FillAtRandom inner;
      if constexpr (std::is_same_v<R, parts::Part>) inner.kind_ = kind_name(*record.kind);
      describe(inner, record);
    }
  }

 private:
  static bool is_name(std::string_view key) {
    for (const std::string_view name : {"format",
                                        "edition",
                                        "date",
                                        "pole",
                                        "bond",
                                        "kind",
                                        "on",
                                        "module",
                                        "count",
                                        "in",
                                        "junction",
                                        "from",
                                        "to",
                                        "walk",
                                        "lands",
                                        "home_run",
                                        "part",
                                        "device",
                                        "out",
                                        "arrester",
                                        "slots",
                                        "end",
                                        "finding",
                                        "load_centre",
                                        "raceways",
                                        "inline_fuse",
                                        "inline_fuse_in",
                                        "blocking_diode",
                                        "electronics",
                                        "method",
                                        "price",
                                        "price_date",
                                        "clamp_min"})
      if (key == name) return true;
    return false;
  }
  bool fits_kind(const About& about) const {
    if (about.only.empty()) return true;
    for (const auto kind : text::split(about.only, ' '))
      if (kind == kind_) return true;
    return false;
  }
  static std::string_view kind_name(parts::PartKind kind) {
    return names(static_cast<parts::PartKind*>(nullptr), static_cast<int>(kind)).first;
  }

  /// A decimal number of the shown unit, as a person would write it.
  static double decimal(double low, double high) {
    const int decimals = *rc::gen::inRange(0, 4);
    const double scale = std::pow(10.0, decimals);
    const auto from = static_cast<int>(std::ceil(low * scale));
    const auto to = static_cast<int>(std::floor(high * scale));
    return from <= to ? *rc::gen::inRange(from, to + 1) / scale : low;
  }
  static double si(const About& about, units::Dimension dimension, bool point) {
    const double low = std::isfinite(about.min) ? about.min : point ? 250 : -50;
    const double high = std::isfinite(about.max) ? std::fmin(about.max, 2000) : point ? 330 : 50;
    if (point) return units::celsius(decimal(low - 273.15, high - 273.15)).kelvin();
    units::AnyQuantity q;
    q.si = high;
    q.dimension = dimension;
    const double factor = units::shown(q).factor;
    return decimal(low / factor, high / factor) * factor;
  }

  template <units::Dimension D>
  static units::Quantity<D> value(units::Quantity<D>*, const About& about) {
    return units::Quantity<D>::from_si(si(about, D, false));
  }
  static units::Temperature value(units::Temperature*, const About& about) {
    return units::Temperature::from_kelvin(si(about, units::dim::kelvin, true));
  }
  template <units::Dimension D>
  static parts::Coefficient<D> value(parts::Coefficient<D>*, const About& about) {
    parts::Coefficient<D> c;
    if (*rc::gen::inRange(0, 2) == 0)
      c.relative = units::PerKelvin::from_si(si(about, units::dim::per_kelvin, false));
    else
      c.absolute = units::Quantity<D - units::dim::kelvin>::from_si(
          si(about, D - units::dim::kelvin, false));
    return c;
  }
  static int value(int*, const About& about) {
    return *rc::gen::inRange(static_cast<int>(about.min), static_cast<int>(about.max) + 1);
  }
  static bool value(bool*, const About&) { return *rc::gen::inRange(0, 2) == 1; }
  static std::string value(std::string*, const About&) {
    return *rc::gen::element<std::string>("plain", "with \"quotes\"", "back\\slash", "two\nlines",
                                          "ümläut − …", "");
  }
  static units::Wire value(units::Wire*, const About&) {
    return *units::Wire::read(*rc::gen::element<std::string>("10 AWG Cu PV", "6 AWG bare Cu",
                                                             "500 kcmil Al XHHW-2", "6 mm² Cu"));
  }
  static units::WireSize value(units::WireSize*, const About&) {
    return *units::WireSize::read(
        *rc::gen::element<std::string>("14 AWG", "4/0 AWG", "250 kcmil", "35 mm²"));
  }
  static parts::Price value(parts::Price*, const About&) { return {1250, "EUR"}; }
  static units::TradeSize value(units::TradeSize*, const About&) {
    return *units::TradeSize::read(*rc::gen::element<std::string>("1/2 in", "1-1/4 in", "6 in"));
  }
  template <class E>
    requires std::is_enum_v<E>
  static E value(E*, const About&) {
    int count = 0;
    while (!names(static_cast<E*>(nullptr), count).first.empty()) ++count;
    return names(static_cast<E*>(nullptr), *rc::gen::inRange(0, count)).second;
  }
  template <class T>
  static std::vector<T> value(std::vector<T>*, const About& about) {
    const int size = about.items > 0 ? about.items : *rc::gen::inRange(0, 4);
    std::vector<T> list;
    for (int i = 0; i < size; ++i) list.push_back(value(static_cast<T*>(nullptr), about));
    return list;
  }
  static std::vector<ModulePlace> value(std::vector<ModulePlace>*, const About&) { return {}; }
  static Landing value(Landing*, const About&) { return {}; }

  std::string_view kind_;
};

template <class T>
T& add(std::vector<T>& records, const std::string& id) {
  auto& record = records.emplace_back();
  record.id = id;
  return record;
}

Landing landing(const std::string& text) { return *read_landing(text); }

Job random_job() {
  Job job;
  job.format = 1;
  job.job.edition = *rc::gen::element<std::string>("nec_2017", "nec_2020", "nec_2023");
  job.grounding.scheme = *rc::gen::element(Scheme::functional, Scheme::solid);
  job.site.on_building = true;  // a roof is no place off a building
  add(job.module, "M");
  add(job.module, "M-2");
  for (int i = 0; !names(static_cast<parts::PartKind*>(nullptr), i).first.empty(); ++i) {
    const auto [name, kind] = names(static_cast<parts::PartKind*>(nullptr), i);
    auto& part = add(job.part, "part-" + std::string(name));
    part.kind = kind;
    if (kind == parts::PartKind::box) part.slots = 48;
    if (kind == parts::PartKind::fuse) {
      part.curve = {{{}, units::Ratio(1.35), units::hours(1)}, {{}, units::Ratio(2.1), {}}};
      part.curve.back().within = units::seconds(120);
      part.derating = {{{}, units::celsius(60), units::Ratio(0.86)}};
    }
  }
  add(job.surface, "F");
  auto& equipment = add(job.equipment, "INV");
  equipment.kind = EquipmentKind::inverter;
  equipment.load_centre = std::string("LC");
  add(equipment.input, "PV1").device = std::string("part-disconnect");
  add(equipment.input, "2");

  const int boxes = *rc::gen::inRange(0, 3);
  for (int b = 0; b < boxes; ++b) {
    auto& box = add(job.box, "B" + std::to_string(b));
    box.part = std::string("part-box");
    box.at.on = std::string("F");
    box.slot.device = std::string("part-fuse");
    if (b == 0 && *rc::gen::inRange(0, 2) == 0)  // string S1 lands there
      add(box.slot.except, "1").device = std::string("part-breaker");
    box.arrester = std::string("part-arrester");
    box.out = "OUT" + std::to_string(b);
    box.lands = landing(b == 0 ? "INV.PV1" : "B0." + std::to_string(40 + b));
    auto& run = add(job.run, *box.out);
    run.from = box.id;
    run.to = box.lands->text;
    run.segment.resize(static_cast<std::size_t>(*rc::gen::inRange(0, 3)));
    run.wire.parallel = 2;
    if (!run.segment.empty()) run.segment.front().raceways = 2;
    for (auto& s : run.segment) s.in = *rc::gen::element<std::string>("EMT", "buried", "PVC40");
  }
  const int rows = *rc::gen::inRange(1, 5);
  for (int r = 1; r <= rows; ++r) {
    auto& row = add(job.row, "R" + std::to_string(r));
    row.module = *rc::gen::element<std::string>("M", "M-2");
    row.count = *rc::gen::inRange(1, 20);
    row.on = std::string("F");
    auto& string = add(job.string, "S" + std::to_string(r));
    const std::string first = row.id + ".1", last = row.id + "." + std::to_string(*row.count);
    string.walk =
        *read_walk(*rc::gen::inRange(0, 2) == 0 ? first + "-" + last : last + "-" + first);
    if (*rc::gen::inRange(0, 2) == 0) {
      string.inline_fuse = std::string("part-fuse");
      string.inline_fuse_in = *rc::gen::element(DevicesIn::plus, DevicesIn::minus, DevicesIn::both);
      string.blocking_diode = std::string("part-diode");
      string.electronics = std::string("part-electronics");
    }
    string.lands = landing(boxes > 0 ? "B0." + std::to_string(r) : "INV.PV1");
  }
  add(job.run, "HX").segment.resize(1);
  job.run.back().segment[0].junction = std::string("JB");
  job.string[0].home_run = std::string("HX");
  auto& found = job.as_built.emplace_back();
  found.end = std::string("S1-");
  found.lands = landing("INV.PV1");
  auto& waiver = job.waive.emplace_back();
  waiver.finding = std::string("rule@S1");
  waiver.date = std::string("2031-05-02");
  waiver.reason = "r" + waiver.reason.value_or("");  // a blank one is refused
  waiver.by = "b" + waiver.by.value_or("");

  FillAtRandom fill;
  describe(fill, job);
  return job;
}

/// What later stages see of a segment with a junction is not what a stretch may hold.
void keep_rules(Job& job) {
  for (auto& run : job.run)
    for (auto& s : run.segment) {
      if (s.junction) {
        const auto junction = s.junction;
        const auto wire = s.wire;
        s = {};
        s.junction = junction;
        s.wire = wire;
      } else {
        s.wire = {};
        s.pull_box = {};
        s.box_size = {};
        s.pull = {};
      }
    }
}

RC_GTEST_PROP(Write, AnyJobReadsBackAsItIs, ()) {
  Job job = random_job();
  keep_rules(job);
  const std::string text = write(job);
  const auto back = read(text, "written");
  if (!back.job) RC_FAIL(messages(back, text) + text);
  RC_ASSERT(Flat::of(*back.job) == Flat::of(job));
}

}  // namespace
}  // namespace stringwright::job
