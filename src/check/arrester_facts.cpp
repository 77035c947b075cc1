#include <string>

#include "check/common.hpp"
#include "job/find.hpp"

/// Surge arresters in boxes.
namespace stringwright::check {

void add_arresters(const wiring::Wiring& w, std::vector<Judged>& all) {
  using codebook::Fact;
  const auto at = [](int index) { return static_cast<std::size_t>(index); };
  for (std::size_t b = 0; b < w.boxes.size(); ++b) {
    const auto& box = w.boxes[b];
    if (box.arrester < 0) continue;
    const auto& d = w.devices[at(box.arrester)];
    Judged& j = of_thing(all, codebook::Subject::arrester, d.id, d.span);
    codebook::Facts& f = j.facts;
    add_site(w, f);
    const auto strings = strings_reaching(w, box);
    if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, f);
    // A failed arrester takes what every string of the bus gives, those of other boxes included.
    const int input = input_of_box(w, static_cast<int>(b));
    add_parallel(w, input >= 0 ? strings_at(w, w.inputs[at(input)]) : strings, "wiring", f);
    f.arrester.fitted = Fact<bool>(true, "box." + box.id);
    if (const parts::Part* p = w.part_of(box.arrester)) {
      const std::string from = "part." + p->id;
      f.arrester.v_continuous = Fact<units::Voltage>(p->v_dc, from);
      f.arrester.v_protect = Fact<units::Voltage>(p->v_protect, from);
      f.arrester.isc_rating = Fact<units::Current>(p->isc_rating, from);
    }
    if (const job::Box* own = job::find(w.job.box, box.id))
      f.arrester.leads = Fact<units::Length>(own->arrester_leads, "box." + box.id);
    if (input < 0) continue;
    const auto& in = w.inputs[at(input)];
    const job::Equipment* e = job::find(w.job.equipment, in.equipment);
    if (const job::Input* i = e ? job::find(e->input, in.input) : nullptr)
      f.arrester.v_withstand = Fact<units::Voltage>(i->v_impulse, "equipment." + in.id);
  }
}

}  // namespace stringwright::check
