#include <cmath>
#include <string>
#include <string_view>
#include <unordered_map>

#include "base/text.hpp"
#include "job/checks.hpp"
#include "job/find.hpp"
#include "job/kinds.hpp"
#include "units/print.hpp"

namespace stringwright::job {
namespace {

using units::print;

std::string percent(double share, int decimals = 1) {
  return text::fixed(100 * share, decimals) + " %";
}

std::string print_coefficient(units::PerKelvin c) {
  return print_short(c.si(), units::dim::per_kelvin, false);
}

class ModuleQuestions {
 public:
  ModuleQuestions(const parts::Module& m, Messages& out) : m_(m), out_(out) {}

  void all() {
    voltages();
    currents();
    power();
    coefficients();
    label();
    cells();
    size();
  }

 private:
  void ask(Span span, const std::string& message, std::string help = {}) {
    out_.question(span, "module " + m_.id + ": " + message, std::move(help));
  }

  void voltages() {
    if (!m_.v_oc || !m_.v_mp) return;
    const double share = *m_.v_mp / *m_.v_oc;
    if (share > 1)
      ask(m_.v_mp.span,
          "V_mp " + print(*m_.v_mp) + " is above V_oc " + print(*m_.v_oc) + "; are they swapped?");
    else if (share < 0.70 || share > 0.90)
      ask(m_.v_mp.span, "V_mp " + print(*m_.v_mp) + " is " + percent(share) + " of V_oc " +
                            print(*m_.v_oc) +
                            ", where 70 % to 90 % is usual; is one of them wrong?");
  }

  /// Never true of a module, but a later stage can still reckon with it: asked, not refused.
  void currents() {
    if (m_.i_sc && m_.i_mp && *m_.i_mp >= *m_.i_sc)
      ask(m_.i_mp.span, "I_mp " + print(*m_.i_mp) + " is not below I_sc " + print(*m_.i_sc) +
                            "; are they swapped?");
  }

  void power() {
    if (!m_.p_max || !m_.v_mp || !m_.i_mp) return;
    const units::Power product = *m_.v_mp * *m_.i_mp;
    const double off = *m_.p_max / product - 1;
    if (std::fabs(off) > 0.03)
      ask(m_.p_max.span, "P_max " + print(*m_.p_max) + " is " + percent(std::fabs(off)) +
                             (off > 0 ? " above" : " below") + " V_mp · I_mp = " + print(product) +
                             "; is one of the three wrong?");
  }

  void coefficients() {
    if (m_.b_voc && m_.v_oc)
      falling(m_.b_voc.span, "V_oc", m_.b_voc->per_kelvin(*m_.v_oc), -0.6, -0.15, "in V/K or mV/K");
    if (m_.b_vmp && m_.v_mp)
      falling(m_.b_vmp.span, "V_mp", m_.b_vmp->per_kelvin(*m_.v_mp), -0.8, -0.15, "in V/K or mV/K");
    if (m_.g_pmp && m_.v_mp && m_.i_mp)
      falling(m_.g_pmp.span, "the maximum power",
              m_.g_pmp->per_kelvin(m_.p_max ? *m_.p_max : *m_.v_mp * *m_.i_mp), -0.8, -0.15,
              "in W/K");
    if (m_.a_isc && m_.i_sc) {
      const auto a = m_.a_isc->per_kelvin(*m_.i_sc);
      if (a < units::percent_per_kelvin(-0.02) || a > units::percent_per_kelvin(0.2))
        ask(m_.a_isc.span, "the coefficient of I_sc is " + print_coefficient(a) +
                               ", where −0.02 %/K to 0.2 %/K is usual; is it in A/K or mA/K?");
    }
  }

  /// A coefficient of what falls as a module warms up; usual values `low` to `high` in %/K.
  void falling(Span span, const std::string& what, units::PerKelvin c, double low, double high,
               const std::string& other_unit) {
    const std::string found = "the coefficient of " + what + " is " + print_coefficient(c);
    const auto from = units::percent_per_kelvin(low);
    const auto to = units::percent_per_kelvin(high);
    if (c.si() > 0)
      ask(span, found + ", but it falls when a module warms up; is the minus sign missing?");
    else if (c < from || c > to)
      ask(span, found + ", where " + print_coefficient(to) + " to " + print_coefficient(from) +
                    " is usual; is it " + other_unit + "?");
  }

  void label() {
    if (m_.fuse_max && m_.i_sc && !units::at_least(*m_.fuse_max, 1.25 * *m_.i_sc))
      ask(m_.fuse_max.span, "the maximum series fuse " + print(*m_.fuse_max) +
                                " is below 1.25 · I_sc = " + print(1.25 * *m_.i_sc) +
                                "; is it the fuse on the label?");
    if (m_.noct) {
      const double c = m_.noct->celsius();
      if (c < 40 || c > 55)
        ask(m_.noct.span, "the nominal operating cell temperature is " + print(*m_.noct) +
                              ", where 40 °C to 55 °C is usual; is it another temperature?");
    }
    if (m_.v_sys && m_.v_oc && *m_.v_sys < *m_.v_oc)
      ask(m_.v_sys.span, "the maximum system voltage " + print(*m_.v_sys) +
                             " is below the module's own V_oc " + print(*m_.v_oc) +
                             "; is it right?");
  }

  void cells() {
    if (!m_.cells || !m_.v_oc) return;
    const units::Voltage each = *m_.v_oc / static_cast<double>(*m_.cells);
    if (each.in(units::volts) >= 0.5 && each.in(units::volts) <= 0.8) return;
    const double doubled = 2 * each.in(units::volts);
    const std::string reason = doubled >= 0.5 && doubled <= 0.8
                                   ? "are half-cut cells counted twice?"
                                   : "is the number of cells in series right?";
    ask(m_.cells.span, std::to_string(*m_.cells) + " cells make " +
                           text::fixed(each.in(units::volts), 2) +
                           " V of V_oc each, where 0.5 V to 0.8 V is usual; " + reason);
  }

  void size() {
    if (m_.size && m_.size->size() == 2 && (*m_.size)[0] < (*m_.size)[1])
      ask(m_.size.span, "the first of 'size' is the long side, but " + print((*m_.size)[0]) +
                            " is shorter than " + print((*m_.size)[1]) + "; are they swapped?");
  }

  const parts::Module& m_;
  Messages& out_;
};

void ask_of_site(const Site& site, Messages& out) {
  if (site.t_min && site.t_record && *site.t_record > *site.t_min)
    out.question(site.t_record.span, "the record low " + print(*site.t_record) +
                                         " is warmer than the design low " + print(*site.t_min) +
                                         "; are they swapped?");
  if (site.t_min && site.t_hot && *site.t_hot <= *site.t_min)
    out.question(site.t_hot.span, "the hot design temperature " + print(*site.t_hot) +
                                      " is not above the low one, " + print(*site.t_min) +
                                      "; are they swapped?");
}

/// Modules of one string carry one current.
void ask_of_mixed_strings(const Job& job, Messages& out) {
  std::unordered_map<std::string_view, const parts::Module*> module_of;
  for (const auto& row : job.row)
    module_of.emplace(row.id, row.module ? find(job.module, *row.module) : nullptr);
  for (const auto& string : job.string) {
    if (!string.walk) continue;
    const parts::Module* low = nullptr;
    const parts::Module* high = nullptr;
    std::string_view last;
    for (const auto& place : *string.walk) {
      if (place.row == last) continue;
      last = place.row;
      const auto known = module_of.find(place.row);
      const auto* module = known == module_of.end() ? nullptr : known->second;
      if (!module || !module->i_mp) continue;
      if (!low || *module->i_mp < *low->i_mp) low = module;
      if (!high || *module->i_mp > *high->i_mp) high = module;
    }
    if (!low || low == high) continue;
    const double off = *high->i_mp / *low->i_mp - 1;
    if (off > 0.05)
      out.question(string.walk.span,
                   "string " + string.id + " mixes modules of I_mp " + print(*low->i_mp) + " (" +
                       low->id + ") and " + print(*high->i_mp) + " (" + high->id + "), " +
                       percent(off) +
                       " apart; the weaker one holds the string back: is that meant?");
  }
}

void ask_of_input(const Equipment& equipment, const Input& input, Messages& out) {
  const std::string who = "input " + equipment.id + "." + input.id + ": ";
  if (input.v_max && input.v_operating_max && *input.v_operating_max > *input.v_max)
    out.question(input.v_operating_max.span, who + "the highest operating voltage " +
                                                 print(*input.v_operating_max) +
                                                 " is above the maximum voltage " +
                                                 print(*input.v_max) + "; are they swapped?");
  if (input.v_operating_min && input.v_operating_max &&
      *input.v_operating_min >= *input.v_operating_max)
    out.question(input.v_operating_min.span,
                 who + "the tracking window begins at " + print(*input.v_operating_min) +
                     " and ends at " + print(*input.v_operating_max) + "; are they swapped?");
}

}  // namespace

void ask_of_module(const parts::Module& module, Messages& out) {
  ModuleQuestions(module, out).all();
}

void ask(const Job& job, Messages& out) {
  for (const auto& module : job.module)
    if (module.span.known()) ask_of_module(module, out);
  ask_of_site(job.site, out);
  ask_of_mixed_strings(job, out);
  for (const auto& equipment : job.equipment)
    for (const auto& input : equipment.input) ask_of_input(equipment, input, out);
}

}  // namespace stringwright::job
