#include "codebook/edition.hpp"

#include <cassert>

#include "base/text.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

const tables::EditionRow& row(int index) {
  return tables::editions()[static_cast<std::size_t>(index)];
}

}  // namespace

std::vector<std::string> Edition::offered() {
  std::vector<std::string> ids;
  for (const auto& edition : tables::editions())
    if (edition.offered) ids.push_back(edition.id);
  return ids;
}

std::vector<std::string> Edition::offered(Family family) {
  std::vector<std::string> ids;
  for (const auto& id : offered())
    if (open(id)->family() == family) ids.push_back(id);
  return ids;
}

std::vector<std::string> Edition::known() {
  std::vector<std::string> ids;
  for (const auto& edition : tables::editions()) ids.push_back(edition.id);
  return ids;
}

Result<Edition> Edition::open(std::string_view id) {
  const int index = tables::edition_index(id);
  if (index >= 0 && row(index).offered) return Edition(index);
  return Failure{"codebook.unknown-edition", "no code edition " + text::quoted(id) +
                                                 "; offered: " + text::join(offered(), ", ")};
}

Result<Edition> Edition::open_any(std::string_view id) {
  const int index = tables::edition_index(id);
  if (index >= 0) return Edition(index);
  return Failure{"codebook.unknown-edition",
                 "no code edition " + text::quoted(id) + "; known: " + text::join(known(), ", ")};
}

std::string_view Edition::id() const { return row(index_).id; }
std::string_view Edition::name() const { return row(index_).name; }
std::string_view Edition::title() const { return row(index_).title; }
int Edition::year() const { return row(index_).year; }
Family Edition::family() const {
  return text::starts_with(id(), "iec_") ? Family::iec : Family::nec;
}

std::string_view print(Family family) { return family == Family::nec ? "NEC" : "IEC"; }

trail::Source Edition::table_source(std::string_view key, std::string_view status) const {
  trail::Source source = cite(key);
  if (source.status == "verified") source.status = std::string(status);
  return source;
}

}  // namespace stringwright::codebook
