#include "codebook/device_response.hpp"
#include "codebook/methods/iec.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::string_circuit; }

/// A string needs overcurrent protection where the others drive more into it than its modules bear, or a
/// battery behind the equipment can.
///
///     needed where  I_oth > I_msf
///
/// The installation rules write it as k_sun · I_oth > 1.35 · I_msf, which lets 8 % more pass: the
/// stricter one decides, the other stands in the trail.
///
/// Source: IEC 62548-1:2023, 6.5 (2016: 6.5.3); IEC 60364-7-712, 712.431.101.
/// Proved: cases/rules/iec_string_device_needed.toml, cases/published/nec_6909.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const Behind source = behind(f);
  const auto i_oth = trail.given("I_oth", "others' I_sc", f.i_sc_others);
  const auto i_msf = trail.given("I_msf", "series fuse limit", f.fuse_max);
  const auto modules_bear = trail.require(i_oth <= i_msf, edition.cite("iec.string-needed"));

  const auto k_sun = use(trail, "k_sun", "strong sun", edition.factor("current.irradiance-factor"));
  const auto test = module_reverse_test();
  const auto k_rt = trail.table("k_rt", "reverse test", std::optional(test.factor),
                                "reverse current overload test", test.source);
  const auto i_rev = trail.let("I_rev", "back-feed", k_sun * i_oth);
  const auto i_rt = trail.let("I_rt", "module bears", k_rt * i_msf);
  const auto by_installation =
      trail.require(i_rev <= i_rt, edition.cite("iec.string-needed-installation"));

  std::optional<bool> needed;
  std::string so;
  if (source == Behind::battery) {
    needed = true;
    so = "The battery behind the equipment can feed the string";
  } else if (i_oth.value && i_oth.value->si() == 0 && source == Behind::nothing) {
    needed = false;
    so = "No other string and no battery can feed this one";
  } else if (modules_bear) {
    so = words::compared(*i_oth.value, *i_msf.value) + " of the modules";
    if (!*modules_bear || source == Behind::nothing) needed = !*modules_bear;
  }
  const bool fitted = f.fitted.known() && *f.fitted;
  if (!needed) {
    if (fitted && source != Behind::not_known)
      return {Verdict::pass, "A device is fitted; whether it is needed is not known.", {}, {}};
    return cannot_tell(source == Behind::not_known
                           ? "cannot tell: whether a battery behind the equipment can feed back is "
                             "not known."
                           : words::unknown(trail, (i_oth <= i_msf).missing));
  }
  if (*needed && !f.fitted.known())
    return cannot_tell("cannot tell: " + so +
                       ", a device is needed; whether one is fitted is not known.");
  Outcome outcome;
  outcome.verdict = !*needed || fitted ? Verdict::pass : Verdict::fail;
  outcome.so = so + (!*needed ? ": no string device is needed."
                     : fitted ? ": a device is needed, and fitted."
                              : ": a device is needed, and none is fitted.");
  if (by_installation && modules_bear && *by_installation != *modules_bear)
    outcome.also.push_back("The installation rules would ask for none (" +
                           words::compared(*i_rev.value, *i_rt.value) +
                           "): two sources disagree, the stricter one counts.");
  return outcome;
}

}  // namespace

extern const Rule iec_string_device_needed{
    .id = "iec.string-device-needed",
    .title = "Whether the string needs a device",
    .aliases = "E1 E1b O1 K5",
    .asks =
        "Can the other strings or a battery drive more into this string than its modules bear, "
        "and is a device fitted where they can?",
    .applies = applies,
    .check = check,
    .cites = "iec.string-needed iec.string-needed-installation",
    .family = Asked::iec};

}  // namespace stringwright::codebook
