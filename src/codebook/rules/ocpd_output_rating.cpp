#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::output_device && (!f.fitted.known() || *f.fitted);
}

/// The device or switch of an output carries all strings in strong sun all day.
///
///     I_n ≥ I_req,    I_req = k_dty · k_sun · ΣI_sc
///
/// From above it is bound by the conductor it protects: see conductor_protected_by_device.cpp.
///
/// Source: NFPA 70, 690.9(B). Proved: cases/rules/ocpd_output_rating.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_req = device_current(f, edition, trail);
  const auto i_n = trail.given("I_n", "device rating", f.rating);
  Outcome outcome = demand_at_least(trail, i_n, i_req, edition.cite("ocpd.rating"));
  if (i_req.value)
    if (const auto next = edition.standard_rating_at_least(*i_req.value); next.value)
      outcome.also.push_back("The smallest standard rating that carries it is " +
                             words::plain(*next.value) + ".");
  if (i_req.value && i_n.value)
    outcome.margin = trail::Margin{
        *i_req.value,
        words::plain(*i_req.value) + " must carry",
        false,
        {{*i_n.value, words::plain(*i_n.value) + " device", trail::Margin::Mark::chosen}}};
  return outcome;
}

}  // namespace

extern const Rule ocpd_output_rating{
    .id = "ocpd.output-rating",
    .title = "Rating of the output device",
    .aliases = "O2 D7 I7",
    .asks = "Can the device or switch of the output carry all strings in strong sun all day?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.rating current.output table.standard"};

}  // namespace stringwright::codebook
