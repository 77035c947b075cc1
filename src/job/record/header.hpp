#pragma once

#include <array>
#include <string>
#include <string_view>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"

namespace stringwright::job {

/// Code editions that a job may name.
inline constexpr std::array<std::string_view, 5> editions{"nec_2014", "nec_2017", "nec_2020",
                                                          "nec_2023", "iec_2023"};

enum class UnitSystem { metric, us };
constexpr Name<UnitSystem> names(UnitSystem*, int i) {
  constexpr Name<UnitSystem> all[] = {{"metric", UnitSystem::metric}, {"us", UnitSystem::us}};
  return i < 2 ? all[i] : Name<UnitSystem>{};
}

enum class VoltageMethod { coefficient, table };
constexpr Name<VoltageMethod> names(VoltageMethod*, int i) {
  constexpr Name<VoltageMethod> all[] = {{"coefficient", VoltageMethod::coefficient},
                                         {"table", VoltageMethod::table}};
  return i < 2 ? all[i] : Name<VoltageMethod>{};
}

/// `[job]`: what the title block and the rules need to know of the whole.
struct Header {
  Span span;
  Given<std::string> name, edition;
  Given<UnitSystem> units;
  Given<std::string> date;
  Given<VoltageMethod> voltage_by;
  Given<std::string> id, customer, place, authority, designer, licence, revision, note;
};
template <class V>
void describe(V& visit, Header& h) {
  visit(
      "name", h.name,
      About{.doc = "Name of the job, on every sheet.", .required = true, .example = "North cabin"});
  visit("edition", h.edition,
        About{.doc = "Code edition adopted where the array stands: nec_2014, nec_2017, nec_2020, "
                     "nec_2023; or iec_2023 (IEC 62548-1:2023 with 60364-7-712, 60364-5-52, "
                     "60228, 60269-6).",
              .required = true,
              .example = "nec_2023"});
  visit("units", h.units, About{.doc = "Units shown first on papers.", .example = "metric"});
  visit("date", h.date,
        About{.doc = "Date of the papers, year-month-day. Nothing reads a clock.",
              .example = "2031-05-02"});
  visit("voltage_by", h.voltage_by,
        About{.doc = "Method for the cold voltage that judges; the other is shown beside it.",
              .example = "coefficient"});
  visit("id", h.id, About{.doc = "Your own number of the job.", .example = "N-01"});
  visit("customer", h.customer, About{.doc = "Title block: customer."});
  visit("place", h.place,
        About{.doc = "Title block: place.", .example = "ground rack beside the woodpile"});
  visit("authority", h.authority, About{.doc = "Title block: authority having jurisdiction."});
  visit("designer", h.designer, About{.doc = "Title block: designer."});
  visit("licence", h.licence, About{.doc = "Title block: licence."});
  visit("revision", h.revision, About{.doc = "Title block: revision.", .example = "A"});
  visit("note", h.note, About{.doc = "Free text, kept, never read."});
}

}  // namespace stringwright::job
