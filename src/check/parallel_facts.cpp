#include "check/parallel_facts.hpp"

#include <algorithm>
#include <string>

namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using wiring::Wiring;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// The overcurrent device in which an output ends: in the slot of the next box, or at the input.
int device_at_end(const Wiring& w, const wiring::BoxCircuit& box) {
  if (box.out_plus < 0) return -1;
  for (const int c : {box.out_plus, box.out_minus}) {
    const int device = w.terminals[at(w.conductors[at(c)].to)].device;
    if (w.devices[at(device)].kind == wiring::DeviceKind::protector) return device;
  }
  return -1;
}

std::optional<units::Current> rating_of(const Wiring& w, int device) {
  const parts::Part* p = w.part_of(device);
  if (!p || !p->rating) return std::nullopt;
  return *p->rating;
}

/// Empty where the light on the rear side of one of its modules is not known.
std::optional<units::Current> i_sc_of(const Wiring& w, int string) {
  units::Current most;
  for (const int d : w.strings[at(string)].modules) {
    const auto& gain = w.devices[at(d)].rear_gain;
    if (!gain) return std::nullopt;
    most = units::max(most, *gain * *w.module_of(d).i_sc);
  }
  return most;
}

int box_of_run(const Wiring& w, const std::string& run) {
  for (std::size_t b = 0; b < w.boxes.size(); ++b)
    if (w.boxes[b].out_plus >= 0 && w.conductors[at(w.boxes[b].out_plus)].run == run)
      return static_cast<int>(b);
  return -1;
}

/// Towards the input from a string's box: the first device, and what else feeds back through it.
void add_below(const Wiring& w, const wiring::StringCircuit& s, int string, Facts& f) {
  if (s.box < 0) {
    f.parallel.device_below_fitted = Fact<bool>(false, "wiring");
    return;
  }
  const auto& box = w.boxes[at(s.box)];
  const int device = device_at_end(w, box);
  f.parallel.device_below_fitted = Fact<bool>(device >= 0, "wiring");
  if (device < 0) return;
  if (const auto rating = rating_of(w, device))
    f.parallel.device_below = Fact<units::Current>(*rating, w.devices[at(device)].id);
  units::Current others;
  for (const int o : strings_reaching(w, box)) {
    if (o == string) continue;
    const auto i_sc = i_sc_of(w, o);
    if (!i_sc) return;
    others += *i_sc;
  }
  f.parallel.i_sc_below = Fact<units::Current>(others, "box." + box.id);
}

void add_poles(const Wiring& w, Facts& f) {
  const auto& g = w.job.grounding;
  if (g.devices_in)
    f.parallel.devices_in = Fact<std::string>(*g.devices_in == job::DevicesIn::plus    ? "plus"
                                              : *g.devices_in == job::DevicesIn::minus ? "minus"
                                                                                       : "both",
                                              "grounding", g.devices_in.span);
  if (g.pole)
    f.parallel.earthed_pole =
        Fact<std::string>(*g.pole == job::Pole::plus ? "plus" : "minus", "grounding", g.pole.span);
}

void add_output(const Wiring& w, int b, Facts& f) {
  const auto& box = w.boxes[at(b)];
  const bool on_input = box.lands_box < 0;
  f.parallel.lands_on_input = Fact<bool>(on_input, "wiring");
  if (on_input) return;
  const auto& next = w.boxes[at(box.lands_box)];
  f.parallel.sub_arrays =
      Fact<units::Ratio>(static_cast<double>(next.feeders.size()), "box." + next.id);
  const int device = device_at_end(w, next);
  if (const auto rating = rating_of(w, device))
    f.parallel.array_device = Fact<units::Current>(*rating, w.devices[at(device)].id);
}

}  // namespace

void add_parallel_facts(const Wiring& w, std::vector<Judged>& all) {
  for (auto& judged : all) {
    Facts& f = judged.facts;
    switch (f.subject) {
      case Subject::string_circuit:
        for (std::size_t s = 0; s < w.strings.size(); ++s)
          if (f.thing == w.strings[s].id || f.thing.starts_with(w.strings[s].id + "/"))
            add_below(w, w.strings[s], static_cast<int>(s), f);
        break;
      case Subject::string_device:
        f.parallel.strings_on_device = Fact<units::Ratio>(1.0, "a slot takes one string");
        add_poles(w, f);
        break;
      case Subject::output_circuit:
        if (const int b = box_of_run(w, f.thing); b >= 0) add_output(w, b, f);
        break;
      default:
        break;
    }
  }
}

}  // namespace stringwright::check
