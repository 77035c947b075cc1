#pragma once

#include <string>
#include <vector>

#include "check/finding.hpp"
#include "sheets/draw/symbols.hpp"

namespace stringwright::sheets::report {

/// Findings of one rule with one verdict: one calculation, printed once, for all things of which it is
/// true word by word; below it, as a table, the things for which the same steps gave other numbers.
struct Entry {
  int number = 0;                               ///< F1, F2, ... in the order of the report
  std::vector<const check::Finding*> findings;  ///< at least one; all as the first
  struct Variant {
    std::vector<const check::Finding*> findings;
  };
  std::vector<Variant> variants;

  const check::Finding& first() const { return *findings.front(); }
  draw::Mark mark() const;
  std::string things() const;      ///< "S1 to S12", variants included
  std::string own_things() const;  ///< of the calculation that is printed
};

/// In the order of the report; alike ones together.
std::vector<Entry> entries(const check::Report& r);

/// What has to be read first: fails, cannot-tells, waived fails, cautions.
std::vector<const Entry*> open_points(const std::vector<Entry>& all);
/// What has to be looked at on site, in order.
std::vector<const Entry*> site_points(const std::vector<Entry>& all);

/// Symbols as papers print them: no underscores ("I_sc" -> "Isc"; nothing is set below 10 pt).
std::string flat(std::string_view symbols);

/// A place in the code without the name of the code, which stands at the head of the page.
std::string short_cite(std::string_view cite);
/// The name that `short_cite` leaves away: "NFPA 70-2023"; empty where no step cites one.
std::string code_title(const check::Report& r);

/// How many steps cite a place, and how many of these nobody has seen in print.
struct Cites {
  int all = 0, from_memory = 0;
};
Cites cites(const check::Report& r);

/// What findings are about.
std::vector<std::string> names(const std::vector<const check::Finding*>& findings);

}  // namespace stringwright::sheets::report
