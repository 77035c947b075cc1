#pragma once

#include <string>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/landing.hpp"

namespace stringwright::job {

/// Where the built thing differs from the drawn one.
struct AsBuilt {
  Span span;
  Given<std::string> end;
  Given<Landing> lands;
  Given<std::string> note;
};
template <class V>
void describe(V& visit, AsBuilt& a) {
  visit("end", a.end,
        About{.doc = "Conductor end, string and pole.", .required = true, .example = "A7-"});
  visit("lands", a.lands,
        About{.doc = "Where it was found.", .required = true, .example = "BB.minus.7"});
  visit("note", a.note, About{.doc = "Remark."});
}

struct Waiver {
  Span span;
  Given<std::string> finding, reason, by, date;
};
template <class V>
void describe(V& visit, Waiver& w) {
  visit("finding", w.finding,
        About{.doc = "Id of the finding, rule@thing.",
              .required = true,
              .example = "conductor.voltage-drop@OUT"});
  visit("reason", w.reason, About{.doc = "Why it is accepted.", .required = true});
  visit("by", w.by, About{.doc = "Who accepts it.", .required = true});
  visit("date", w.date,
        About{.doc = "When, year-month-day.", .required = true, .example = "2031-05-02"});
}

}  // namespace stringwright::job
