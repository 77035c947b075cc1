#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_device && (!f.fitted.known() || *f.fitted);
}

/// A caution, no demand of the code: beside another string a reversed one puts twice the cold voltage
/// across an open device, and at twice the voltage the device may have to open.
///
///     V_dev ≥ k_rev · V_max,    k_rev = 2
///
/// Source: two sources in series across one open device. Proved: cases/rules/ocpd_reversed_string.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.strings.known() && f.strings->in(units::plain) < 2)
    return not_applicable("One string alone: there is none beside it to be reversed against.");
  const auto strings = trail.given("N_p", "number of strings", f.strings);
  if (!strings.value)
    return cannot_tell("cannot tell: how many strings stand together is not known.");
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto twice = use(trail, "k_rev", "a reversed pair", edition.factor("ocpd.reversed-factor"));
  const auto v_rev = trail.let("V_rev2", "reversed pair", twice * v_max);
  const auto poles = trail.given("n_p", "number of poles", f.poles);
  const auto v_pole = trail.given("V_pole", "voltage of a pole", f.v_dc_pole);
  const auto v_dev = trail.let("V_dev", "device opens", poles * v_pole);
  const auto claim = v_dev >= v_rev;
  const auto holds = trail.require(claim, edition.cite("ocpd.reversed"));
  if (!holds) return cannot_tell(words::unknown(trail, claim.missing));
  if (*holds)
    return {Verdict::pass,
            words::plain(*v_dev.value) + " ≥ " + words::plain(*v_rev.value) +
                ": it may open a reversed pair.",
            {},
            {}};
  Outcome outcome{Verdict::caution,
                  words::plain(*v_dev.value) + " < " + words::plain(*v_rev.value) +
                      ": the device must not be relied on to open a reversed pair.",
                  {"Read the polarity of every string before any device is closed. Where strings "
                   "are found reversed, do not open this "
                   "device: wait for dark or cover the array."},
                  {}};
  outcome.margin = trail::Margin{
      *v_dev.value,
      words::plain(*v_dev.value) + " device opens",
      true,
      {{*v_rev.value, words::plain(*v_rev.value) + " reversed pair", trail::Margin::Mark::refused},
       {*v_max.value, words::plain(*v_max.value) + " maximum", trail::Margin::Mark::chosen}}};
  return outcome;
}

}  // namespace

extern const Rule ocpd_reversed_string{
    .id = "ocpd.reversed-string",
    .title = "Device across a reversed string",
    .aliases = "V6 D7",
    .asks =
        "Could the device open, or stand open, across a string that was landed the wrong way round "
        "beside another one? A caution where it could not.",
    .applies = applies,
    .check = check,
    .cites = "ocpd.reversed",
    .family = Asked::both};

}  // namespace stringwright::codebook
