#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_circuit || f.subject == Subject::output_circuit;
}

/// True where no device stands ahead and none is needed: nothing to ask.
std::optional<bool> nothing_ahead(const Facts& f, const Edition& edition) {
  if (f.protected_needed.known() && !*f.protected_needed) return true;
  if (!f.fitted.known() || *f.fitted) return false;
  if (behind(f) == Behind::battery) return false;
  Trail aside;
  const auto i_rev = backfeed_current(f, edition, aside);
  const auto i_z = conditions_of_use(f, edition, aside);
  if (behind(f) == Behind::not_known || !i_rev.value || !i_z.i_z.value || !i_z.all_known)
    return std::nullopt;
  return units::at_most(*i_rev.value, *i_z.i_z.value);
}

/// The device ahead protects the conductor: it is not larger than what the conductor may carry, or than
/// the next standard rating above that; small conductors have a limit of their own.
///
///     I_n ≤ I_dev,    I_dev = min(next standard rating not below I_u, I_small),    I_u = min(I_z, I_t)
///
/// Source: NFPA 70, 240.4, 240.4(B), 240.4(D), 240.6(A). Proved: cases/rules/conductor_protected_by_device.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.protected_by.known()) {
    const auto nothing = nothing_ahead(f, edition);
    if (nothing && *nothing)
      return not_applicable("No device stands ahead of this conductor, and none is needed.");
    if (!nothing)
      return cannot_tell(
          "cannot tell: no device stands ahead, and whether one is needed is not known.");
  }
  Trail aside;
  const auto i_req = conductor_current(f, edition, aside);
  const auto i_n = trail.given("I_n", "device ahead", f.protected_by);
  const auto use = conditions_of_use(f, edition, trail);
  const auto terminal = terminal_ampacity(f, edition, trail, i_req);
  const auto i_u = trail.let("I_u", "may carry", lesser(use.i_z, terminal.i_t));
  const auto i_dev = largest_device(f, edition, trail, i_u);
  Outcome outcome = demand_at_most(trail, i_n, i_dev, edition.cite("conductor.protection"));
  if (use.worst >= 0 && !use.stretches[static_cast<std::size_t>(use.worst)].forbidden.empty()) {
    const auto& worst = use.stretches[static_cast<std::size_t>(use.worst)];
    return {Verdict::fail, worst.label + ": " + worst.forbidden + ".", {}, {}};
  }
  if (outcome.verdict == Verdict::pass && !use.all_known)
    outcome = cannot_tell(
        "cannot tell: another stretch of the conductor may carry less; not all its facts are "
        "known.");
  if (outcome.verdict == Verdict::pass && i_u.value && !units::at_most(*i_n.value, *i_u.value))
    outcome.also.push_back("The conductor may carry " + words::plain(*i_u.value) +
                           "; the next standard rating is permitted.");
  if (i_n.value && i_dev.value)
    outcome.margin = trail::Margin{
        *i_dev.value,
        words::plain(*i_dev.value) + " largest device",
        true,
        {{*i_n.value, words::plain(*i_n.value) + " device", trail::Margin::Mark::chosen}}};
  return outcome;
}

}  // namespace

extern const Rule conductor_protected_by_device{
    .id = "conductor.protected-by-device",
    .title = "Conductor protected by its device",
    .aliases = "I10 O7",
    .asks =
        "Is the device ahead of the conductor small enough to protect it, counting heat, bundling, "
        "terminals and the next standard size up?",
    .applies = applies,
    .check = check,
    .cites = "conductor.protection conductor.next-size table.small table.standard"};

}  // namespace stringwright::codebook
