#include <cmath>

#include "job/find.hpp"
#include "wiring/builder.hpp"

namespace stringwright::wiring {

std::optional<units::Length> end_from_geometry(const job::Job& j, const job::ModulePlace& end,
                                               const job::Box& box) {
  const job::Row* row = job::find(j.row, end.row);
  if (!row || !row->on || !row->at || row->at->size() != 2) return {};
  if (!box.at.on || !box.at.x || !box.at.y || *box.at.on != *row->on) return {};
  const parts::Module* module = row->module ? job::find(j.module, *row->module) : nullptr;

  std::optional<units::Length> width;
  if (module && module->size && module->size->size() == 2) {
    const auto& size = *module->size;
    const auto long_side = units::max(size[0], size[1]);
    const auto short_side = units::min(size[0], size[1]);
    width = row->set && *row->set == job::Setting::landscape ? long_side : short_side;
  }
  if (!width) return {};
  // Without a pitch the modules are taken to stand edge to edge.
  const units::Length pitch = row->pitch.value_or(*width);
  const units::Length x = (*row->at)[0] + (end.number - 1) * pitch + 0.5 * *width;
  const units::Length y = (*row->at)[1];
  return units::abs(x - *box.at.x) + units::abs(y - *box.at.y);
}

}  // namespace stringwright::wiring
