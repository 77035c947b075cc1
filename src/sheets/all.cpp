#include <algorithm>

#include "base/text.hpp"
#include "codebook/edition.hpp"
#include "sheets/draw/frame.hpp"
#include "sheets/sheet.hpp"
#include "sheets/words.hpp"

namespace stringwright::sheets {

extern const Sheet box_sheet;
extern const Sheet cut_list_sheet;
extern const Sheet report_sheet;
extern const Sheet schedule_sheet;

const std::vector<Sheet>& all_sheets() {
  static const std::vector<Sheet> all{cut_list_sheet, box_sheet, schedule_sheet, report_sheet};
  return all;
}

namespace {

draw::Strip strip(const Material& m) {
  const job::Header& h = m.wiring.job.job;
  draw::Strip s;
  s.program = m.program;
  s.job = draw::plain(h.name.value_or("(no name)"));
  const auto about = [&](const Given<std::string>& fact, const char* before) {
    if (fact && !fact->empty()) s.about.push_back(before + draw::plain(*fact));
  };
  about(h.id, "");
  about(h.place, "");
  about(h.customer, "for ");
  about(h.designer, "by ");
  about(h.licence, "licence ");
  about(h.authority, "");
  s.counts = wiring::counts_line(m.wiring);
  s.edition = m.report.edition;
  s.basis = basis_words(m.wiring.job);
  const check::Tally t = check::tally(m.report);
  s.checks = {std::to_string(t.fail) + " fail", std::to_string(t.cannot_tell) + " cannot tell"};
  if (t.waived > 0) s.checks.push_back(std::to_string(t.waived) + " waived");
  s.checks.push_back(std::to_string(t.caution) + " caution");
  if (t.on_site > 0) s.checks.push_back(std::to_string(t.on_site) + " to check on site");
  s.checks.push_back(std::to_string(t.pass) + " pass");
  s.not_looked_at = std::to_string(t.not_looked_at) + " rules NOT LOOKED AT";
  s.caution = {"Live whenever there is light.", "Treat every conductor as live until proven dead.",
               "Figures are computed, not measured."};
  s.revision = draw::plain(h.revision.value_or(""));
  s.date = draw::plain(h.date.value_or(""));
  return s;
}

}  // namespace

std::vector<draw::Paper> papers(const Material& m) {
  std::vector<draw::Paper> set;
  for (const auto& sheet : all_sheets())
    for (auto& paper : sheet.make(m)) set.push_back(std::move(paper));
  int total = 0, number = 0;
  for (const auto& paper : set) total += static_cast<int>(paper.pages.size());
  const draw::Strip facts = strip(m);
  for (auto& paper : set)
    for (auto& page : paper.pages) draw::add_frame(page, facts, ++number, total);
  return set;
}

}  // namespace stringwright::sheets
