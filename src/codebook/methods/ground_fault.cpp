#include "codebook/methods/ground_fault.hpp"

namespace stringwright::codebook {

Answer may_do_without_ground_fault(const Facts& f, const Edition& edition) {
  if (of_iec(edition)) return {false, "no exemption"};
  const bool solid_alone = edition.year() >= 2017;
  if (solid_alone && f.scheme.known() && *f.scheme != "solid")
    return {false, "no pole is solidly grounded"};
  const double most = edition.factor("ground-fault.strings").value->in(units::plain);
  if (f.strings.known() && f.strings->in(units::plain) > most)
    return {false, "more than two strings stand in parallel"};
  const Answer on = on_a_building(f);
  if (on.holds && *on.holds) return {false, on.why};
  if (solid_alone && !f.scheme.known()) return {{}, "the grounding scheme (grounding.scheme)"};
  if (!f.strings.known()) return {{}, "how many strings stand in parallel"};
  if (!on.holds) return {{}, on.why};
  return {true, "at most two strings, nothing on or in a building" +
                    std::string(solid_alone ? ", one pole solidly grounded" : "")};
}

}  // namespace stringwright::codebook
