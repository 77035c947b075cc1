#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::string_circuit; }

/// Whether the back-feed passes what modules and conductor bear; nothing where it is not known.
struct Need {
  std::optional<bool> needed;
  std::string so;  ///< the comparison, or what is missing
};

/// The same without what stands behind the equipment: by the other strings alone.
Need need_by_strings(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_rev = backfeed_current(f, edition, trail);
  if (i_rev.value && i_rev.value->si() == 0)
    return {false, "No other string and no battery can feed this one"};
  const auto i_msf = trail.given("I_msf", "series fuse limit", f.fuse_max);
  const auto modules = i_rev <= i_msf;
  const auto modules_bear = trail.require(modules, edition.cite("ocpd.needed"));
  if (modules_bear && !*modules_bear)
    return {true, words::compared(*i_rev.value, *i_msf.value) + " of the modules"};

  const auto along = conditions_of_use(f, edition, trail);
  const auto conductor = i_rev <= along.i_z;
  const auto conductor_bears = trail.require(conductor, edition.cite("ocpd.needed"));
  if (conductor_bears && !*conductor_bears)
    return {true, words::compared(*i_rev.value, *along.i_z.value) + " of the conductor"};
  if (!modules_bear) return {std::nullopt, words::unknown(trail, modules.missing)};
  if (!conductor_bears) return {std::nullopt, words::unknown(trail, conductor.missing)};
  if (!along.all_known)
    return {std::nullopt,
            "cannot tell: what the conductor may carry is not known along its whole way."};
  return {false, words::compared(*i_rev.value, *i_msf.value) + " of the modules, " +
                     words::plain(*along.i_z.value) + " of the conductor"};
}

Need need_of(const Facts& f, const Edition& edition, Trail& trail) {
  switch (behind(f)) {
    case Behind::nothing:
      if (!f.battery.known() || *f.battery)
        trail.note(
            "The equipment is documented to block reverse current: what stands behind it does not "
            "count.");
      return need_by_strings(f, edition, trail);
    case Behind::battery:
      trail.note(
          "Nothing blocks the battery behind the equipment: it can feed a string far above any "
          "limit.");
      return {true, "The battery behind the equipment can feed the string"};
    case Behind::not_known:
      break;
  }
  Need strings = need_by_strings(f, edition, trail);
  if (strings.needed && *strings.needed && f.fitted.known() && !*f.fitted) return strings;
  const std::string what = f.battery.known()
                               ? "whether the equipment blocks reverse current from its battery"
                               : "whether a battery stands behind the equipment";
  return {std::nullopt, "cannot tell: " + what + " is not known."};
}

/// A string needs a device of its own where other strings or a battery can drive more current backwards
/// into it than its modules or its conductor bear.
///
///     needed where  I_rev > I_msf  or  I_rev > I_z,    I_rev = k_sun · I_oth + battery
///
/// A battery counts unless the equipment is documented to block it; where that is not known, neither is
/// the answer. A device that is fitted though not needed is kept as an isolator.
///
/// Source: NFPA 70, 690.9(A). Proved: cases/rules/ocpd_string_needed.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const Need need = need_of(f, edition, trail);
  if (!need.needed) {
    // Once every source is known, a device that is there meets the demand whatever the string bears.
    if (f.fitted.known() && *f.fitted && behind(f) != Behind::not_known && f.i_sc_others.known())
      return {Verdict::pass, "A device is fitted; whether it is needed: " + need.so, {}, {}};
    return cannot_tell(need.so);
  }
  if (!*need.needed) {
    if (f.fitted.known() && *f.fitted)
      return {Verdict::pass, need.so + ": kept as isolators although not needed.", {}, {}};
    return {Verdict::pass, need.so + ": no string device is needed.", {}, {}};
  }
  if (!f.fitted.known())
    return cannot_tell("cannot tell: " + need.so +
                       ", a device is needed; whether one is fitted is not known.");
  if (*f.fitted) return {Verdict::pass, need.so + ": a device is needed, and fitted.", {}, {}};
  return {Verdict::fail, need.so + ": a device is needed, and none is fitted.", {}, {}};
}

}  // namespace

extern const Rule ocpd_string_needed{
    .id = "ocpd.string-needed",
    .title = "Whether the string needs a device",
    .aliases = "O1 K5",
    .asks =
        "Can other strings or a battery drive more current backwards into this string than its "
        "modules and its conductor bear, and is a device fitted where they can?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.needed current.string"};

}  // namespace stringwright::codebook
