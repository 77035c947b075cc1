#pragma once

#include <string>
#include <string_view>

#include "job/read.hpp"

namespace stringwright::job {

/// A table of parts: one record a row, one field a column. The first line names the columns: `kind`
/// ("module", or a kind of part), `id`, then keys of the record as in the job file, those of a terminal
/// with a dot ("line.torque"). Cells hold what stands between the quotes in a job file; items of a list
/// are separated by semicolons; an empty cell leaves the field out. Tables within a record (`curve`,
/// `derating`) have no column: they go by TOML.
///
/// The cells go through the same reader as a job file, so the same is allowed and refused, with the cell
/// as the place of each message.
LibraryReading read_library_csv(std::string_view text, std::string_view file);

/// The records as such a table, with the columns that any of them fills.
std::string write_library_csv(const parts::Library& library);

}  // namespace stringwright::job
