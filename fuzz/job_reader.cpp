// Any bytes read as a job file: no crash, and no job together with an error. Seeds: cases/job.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "job/read.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto reading = stringwright::job::read(text, "fuzz.toml");
  if (reading.job.has_value() == stringwright::any_error(reading.diagnostics)) std::abort();
  for (const auto& d : reading.diagnostics) stringwright::render(d, text);
  return 0;
}
