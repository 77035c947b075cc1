#include "app/papers.hpp"

#include <set>

#include "app/flips.hpp"
#include "base/version.hpp"
#include "sheets/sheet.hpp"
#include "sheets/write/write.hpp"

namespace stringwright::app {
namespace {

sheets::OperatingLine line(const OperatingPoint& p) {
  sheets::OperatingLine l;
  l.thing = p.thing;
  l.condition = p.load + ", " + units::print(p.cell) + " cell, " + units::print(p.sun);
  l.volts = p.v ? units::print(*p.v) : "";
  l.amps = p.i ? units::print(*p.i) : "";
  l.watts = p.p ? units::print(*p.p) : "";
  return l;
}

/// The report with the two nearest changes that flip each finding, as further sentences under it.
check::Report with_flips(const Evaluation& e) {
  check::Report report = e.report;
  // A field of hundreds of strings has thousands of passes that nobody reads one by one.
  constexpr std::size_t few = 400;
  std::set<std::string> wanted;
  for (const auto& f : report.findings)
    if (report.findings.size() <= few || f.outcome.verdict != trail::Verdict::pass)
      wanted.insert(f.id);
  const auto flips = flips_of(e, &wanted);
  for (auto& f : report.findings) {
    const auto known = flips.find(f.id);
    if (known == flips.end()) continue;
    for (std::size_t i = 0; i < known->second.size() && i < 2; ++i)
      f.outcome.also.push_back(known->second[i].sentence);
  }
  return report;
}

}  // namespace

Result<std::vector<File>> papers(const Evaluation& e, double png_dpi, const parts::Library& stock) {
  if (const auto trouble = sheets::write::font_trouble(); !trouble.empty())
    return Failure{"sheets.no-font", trouble};
  const check::Report report = with_flips(e);
  sheets::Material material{e.wiring, report, {}, e.remarks, std::string(base::version)};
  for (const auto& p : e.operating) material.operating.push_back(line(p));
  const auto plan = design::cut_plan(e.wiring, stock);
  material.cuts = &plan;
  const auto set = sheets::papers(material);

  sheets::write::PdfInfo info;
  info.title = e.wiring.job.job.name.value_or("");
  info.subject = e.report.edition;
  info.date = e.wiring.job.job.date.value_or("");
  std::vector<File> files;
  files.push_back({"papers.pdf", sheets::write::pdf(set, info)});
  for (const auto& paper : set) {
    for (std::size_t n = 0; n < paper.pages.size(); ++n) {
      const std::string stem =
          paper.name + (paper.pages.size() > 1 ? "-" + std::to_string(n + 1) : "");
      files.push_back({stem + ".svg", sheets::write::svg(paper.pages[n])});
      if (png_dpi > 0)
        files.push_back({stem + ".png", sheets::write::png(paper.pages[n], png_dpi)});
    }
  }
  return files;
}

}  // namespace stringwright::app
