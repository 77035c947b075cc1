#include <algorithm>
#include <string>
#include <vector>

#include "check/common.hpp"
#include "job/find.hpp"

/// What the markings of parts and equipment say: once for each kind of part, not once for each device.
namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Subject;
using wiring::Wiring;

void add_part(const Wiring& w, const std::string& id, std::vector<std::string>& seen,
              std::vector<Judged>& all) {
  if (id.empty() || std::find(seen.begin(), seen.end(), id) != seen.end()) return;
  seen.push_back(id);
  const parts::Part* p = job::find(w.job.part, id);
  if (!p) return;
  const std::string from = "part." + p->id;
  Judged j{{}, p->span};
  j.facts.subject = Subject::part;
  j.facts.thing = p->id;
  j.facts.part_kind = choice(p->kind, from);
  j.facts.listed = choice(p->listed, from);
  j.facts.rating = Fact<units::Current>(p->rating, from);
  j.facts.v_dc_pole = Fact<units::Voltage>(p->v_dc_pole, from);
  j.facts.interrupt = Fact<units::Current>(p->interrupt, from);
  all.push_back(std::move(j));
}

}  // namespace

void add_parts(const Wiring& w, std::vector<Judged>& all) {
  std::vector<std::string> seen;
  for (const auto& box : w.boxes) add_part(w, box.part, seen, all);
  for (const auto& d : w.devices)
    if (d.kind == wiring::DeviceKind::protector) add_part(w, d.part, seen, all);
  const auto of = [&](const std::optional<job::Disconnect>& d) {
    if (d && d->part) add_part(w, *d->part, seen, all);
  };
  for (const auto& box : w.job.box) of(box.disconnect);
  for (const auto& e : w.job.equipment) {
    for (const auto& in : e.input) of(in.disconnect);
    of(e.system_disconnect);
    Judged j{{}, e.span};
    j.facts.subject = Subject::part;
    j.facts.thing = e.id;
    j.facts.part_kind = Fact<std::string>("equipment", "equipment." + e.id);
    j.facts.listed = choice(e.listed, "equipment." + e.id);
    all.push_back(std::move(j));
  }
}

}  // namespace stringwright::check
