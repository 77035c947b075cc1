#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::string_circuit; }

/// A conductor behind a device that several strings share sees what the device lets through and what the
/// other strings push, at once.
///
///     I_u ≥ I_n + k_sun · I_shr
///
/// I_n    rating of the shared device [A]
/// I_shr  short-circuit current of the other strings on it [A]
/// I_u    the lesser of terminals and conditions of use [A]
///
/// Source: NFPA 70, 690.8(D). Proved: cases/rules/conductor_shared_device.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.shared_device.known() && f.shared_device->in(units::plain) < 2)
    return not_applicable("The string has its device to itself, or none.");
  if (!f.shared_device.known())
    return cannot_tell("cannot tell: how many strings share its device is not known.");
  const auto i_n = trail.given("I_n", "shared device", f.protected_by);
  const auto k = use(trail, "k_sun", "strong sun", edition.factor("current.irradiance-factor"));
  const auto others = trail.given("I_shr", "others on the device", f.i_sc_others);
  const auto sum = trail.let("I_both", "device and others", i_n + k * others,
                             edition.cite("conductor.shared-device"));
  const auto i_req = conductor_current(f, edition, trail);
  const auto terminal = terminal_ampacity(f, edition, trail, i_req);
  const auto use_now = conditions_of_use(f, edition, trail);
  if (!use_now.all_known || !terminal.i_t.value)
    return cannot_tell("cannot tell: what the conductor may carry is not known.");
  const auto i_u = trail.let("I_u", "what it may carry", trail::lesser(terminal.i_t, use_now.i_z));
  return demand_at_least(trail, i_u, sum, edition.cite("conductor.shared-device"));
}

}  // namespace

extern const Rule conductor_shared_device{
    .id = "conductor.shared-device",
    .title = "Strings that share a device",
    .aliases = "I11",
    .asks =
        "Where several strings share one overcurrent device, does each string's conductor bear "
        "the device and what the other strings add?",
    .applies = applies,
    .check = check,
    .cites = "conductor.shared-device conductor.continuous"};

}  // namespace stringwright::codebook
