#include "wiring/builder.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::wiring {

Wiring build(const job::Job& design, Diagnostics& diagnostics) {
  Wiring w;
  w.job = design;
  Builder b(w, diagnostics);
  add_strings(b);
  add_inputs(b);
  add_boxes(b);
  add_home_runs(b);
  add_outputs(b);
  add_bonds(b);
  return w;
}

}  // namespace stringwright::wiring
