#include "codebook/methods/iec.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_device && (!f.fitted.known() || *f.fitted);
}

/// Devices stand in both poles of an array without an earthed pole, and in the unearthed pole where one
/// is earthed, by function or solidly.
///
/// Source: IEC 62548-1:2023, 6.5. Proved: cases/rules/iec_device_poles.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto& in = f.parallel.devices_in;
  const auto& earthed = f.parallel.earthed_pole;
  trail.note("Both poles where none is earthed, else the unearthed one.",
             edition.cite("iec.poles"));
  if (!f.scheme.known()) return cannot_tell("cannot tell: how the array is earthed is not known.");
  if (!in.known()) return cannot_tell("cannot tell: which poles carry devices is not known.");
  if (*f.scheme == "ungrounded") {
    if (*in == "both")
      return {Verdict::pass, "No pole is earthed, devices stand in both: passes.", {}, {}};
    return {
        Verdict::fail, "No pole is earthed, devices stand in " + *in + " alone: fails.", {}, {}};
  }
  if (!earthed.known()) return cannot_tell("cannot tell: which pole is earthed is not known.");
  const std::string unearthed = *earthed == "minus" ? "plus" : "minus";
  if (*in == unearthed || *in == "both") {
    Outcome outcome{
        Verdict::pass, "Devices stand in the unearthed pole, " + unearthed + ": passes.", {}, {}};
    if (*in == "both" && *f.scheme == "solid")
      outcome = {
          Verdict::fail,
          "A device alone in the solidly earthed pole would leave the array live and unearthed: "
          "fails.",
          {},
          {}};
    return outcome;
  }
  return {Verdict::fail,
          "Devices stand in the earthed pole, " + *earthed + ", and not in the other: fails.",
          {},
          {}};
}

}  // namespace

extern const Rule iec_device_poles{
    .id = "iec.device-poles",
    .title = "Poles with devices",
    .aliases = "E8 O4",
    .asks =
        "Do string devices stand in both poles where none is earthed, and in the unearthed pole "
        "where one is?",
    .applies = applies,
    .check = check,
    .cites = "iec.poles",
    .family = Asked::iec};

}  // namespace stringwright::codebook
