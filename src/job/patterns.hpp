#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "job/messages.hpp"

/// `rows` and `strings`: one record that stands for many, regular in `{i}`. The reader turns them into
/// plain rows and strings; later stages see only those.
namespace stringwright::job {

/// `rows.RN`: rows RN1, RN2 ... , each `step` from the one before.
struct Rows {
  std::string id;
  Span span;
  Given<int> rows;
  Given<std::vector<units::Length>> step;
  Row row;  ///< what they have in common; `at` is the first one's
};
template <class V>
void describe(V& visit, Rows& r) {
  visit("rows", r.rows,
        About{.doc = "How many rows: id 1, id 2 and so on.",
              .required = true,
              .example = "12",
              .min = 1,
              .max = 10000});
  describe(visit, r.row);
  visit("step", r.step,
        About{.doc = "From one row's `at` to the next one's.",
              .example = "[\"0 m\", \"6.2 m\"]",
              .items = 2});
}

/// A length that grows regularly from string to string: `{ first = ..., step = ... }`, or one text for
/// all of them.
struct LengthPattern {
  Span span;
  Given<units::Length> first, step;
};
template <class V>
void describe(V& visit, LengthPattern& p) {
  visit("first", p.first,
        About{.doc = "Of string 1.", .required = true, .example = "4.0 m", .min = 0, .max = 2000});
  visit("step", p.step,
        About{.doc = "Added from one string to the next.",
              .required = true,
              .example = "3.1 m",
              .min = -2000,
              .max = 2000});
}

/// `strings.A.except.7`: what is different at string 7.
struct StringException {
  std::string id;
  Span span;
  Given<std::string> walk, lands, home_run;
  Given<units::Length> plus_end, minus_end;
  Given<units::Ratio> age;
  Given<std::string> inline_fuse, blocking_diode, electronics;
  Given<DevicesIn> inline_fuse_in;
};
template <class V>
void describe(V& visit, StringException& e) {
  visit("walk", e.walk, About{.doc = "Its own walk.", .example = "RN7.1-RN7.16"});
  visit("lands", e.lands, About{.doc = "Its own landing.", .example = "BA.13"});
  visit("plus_end", e.plus_end,
        About{.doc = "Its own plus end.", .example = "28.0 m", .min = 0, .max = 2000});
  visit("minus_end", e.minus_end,
        About{.doc = "Its own minus end.", .example = "28.0 m", .min = 0, .max = 2000});
  visit("home_run", e.home_run, About{.doc = "Its own home run.", .example = "HX"});
  visit("age", e.age, About{.doc = "Its own age.", .example = "0.92", .min = 0.05, .max = 1.2});
  visit("inline_fuse", e.inline_fuse,
        About{.doc = "Fuse in the lead at the string's end, a part of kind fuse.",
              .example = "fuse-15A"});
  visit("inline_fuse_in", e.inline_fuse_in,
        About{.doc = "Poles that carry it; left out: those that carry the string devices.",
              .example = "plus"});
  visit("blocking_diode", e.blocking_diode,
        About{.doc = "Diode in the plus lead that lets no current back, a part of kind diode.",
              .example = "diode-30A"});
  visit("electronics", e.electronics,
        About{.doc = "Unit at every module, a part of kind electronics.", .example = "RSD1"});
}

/// `strings.A`: strings A1, A2 ... ; `{i}` in walk and lands counts them from 1.
struct Strings {
  std::string id;
  Span span;
  Given<int> count;
  Given<std::string> walk, lands;
  Given<LengthPattern> plus_end, minus_end;
  Given<std::string> home_run;
  Given<units::Ratio> age;
  Given<std::string> inline_fuse, blocking_diode, electronics;
  Given<DevicesIn> inline_fuse_in;
  std::vector<StringException> except;
};
template <class V>
void describe(V& visit, Strings& s) {
  visit("count", s.count,
        About{.doc = "How many strings: id 1, id 2 and so on.",
              .required = true,
              .example = "12",
              .min = 1,
              .max = 10000});
  visit("walk", s.walk,
        About{.doc = "Walk of string {i}.", .required = true, .example = "RN{i}.1-RN{i}.17"});
  visit("lands", s.lands,
        About{.doc = "Landing of string {i}.", .required = true, .example = "BA.{i}"});
  visit("plus_end", s.plus_end,
        About{.doc = "Plus end, one for all or { first, step }.",
              .example = "{ first = \"4.0 m\", step = \"3.1 m\" }",
              .min = 0,
              .max = 2000});
  visit("minus_end", s.minus_end,
        About{.doc = "Minus end, one for all or { first, step }.",
              .example = "{ first = \"5.4 m\", step = \"3.1 m\" }",
              .min = 0,
              .max = 2000});
  visit("home_run", s.home_run,
        About{.doc = "A run that the ends take instead of the box's home_run.", .example = "HX"});
  visit("age", s.age,
        About{.doc = "Share of its current that an old string still gives.",
              .example = "0.92",
              .min = 0.05,
              .max = 1.2});
  visit("inline_fuse", s.inline_fuse,
        About{.doc = "Fuse in the lead at the string's end, a part of kind fuse.",
              .example = "fuse-15A"});
  visit("inline_fuse_in", s.inline_fuse_in,
        About{.doc = "Poles that carry it; left out: those that carry the string devices.",
              .example = "plus"});
  visit("blocking_diode", s.blocking_diode,
        About{.doc = "Diode in the plus lead that lets no current back, a part of kind diode.",
              .example = "diode-30A"});
  visit("electronics", s.electronics,
        About{.doc = "Unit at every module, a part of kind electronics.", .example = "RSD1"});
  visit("except", s.except, About{.doc = "Strings that differ, by number."});
}

/// The whole file: what later stages see, and the patterns that are written out into it.
struct JobFile {
  Job job;
  std::vector<Rows> rows;
  std::vector<Strings> strings;
};
template <class V>
void describe(V& visit, JobFile& f) {
  describe(visit, f.job);
  visit("rows", f.rows, About{.doc = "Many like rows in one record."});
  visit("strings", f.strings, About{.doc = "Many like strings in one record."});
}

/// Rows and strings whose number is not known because their pattern is broken: what refers to them is
/// not called dangling.
struct BrokenPatterns {
  std::vector<std::string> rows, strings;
};

/// Writes the patterns out into `file.job`, in the order of the text.
BrokenPatterns expand(JobFile& file, Messages& out);

}  // namespace stringwright::job
