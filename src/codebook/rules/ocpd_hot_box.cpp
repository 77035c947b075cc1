#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return (f.subject == Subject::string_device || f.subject == Subject::output_device) &&
         (!f.fitted.known() || *f.fitted);
}

/// The maker's factor takes a share of the rating in hot air.
///
///     I_der = k_box · I_n,    I_der ≥ I_req
///
/// k_box  the maker's factor at the air inside the box on the hottest day [-]
///
/// Source: NFPA 70, 110.3(B), 690.9: the maker's factors. Proved: cases/rules/ocpd_hot_box.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.place.stands.known() && *f.place.stands == "indoors" && !f.t_inside.known())
    return not_applicable("It stands indoors, in no box of the array.");
  const auto source = edition.cite("ocpd.ambient");
  const auto t_in = trail.given("T_in", "air inside the box", f.t_inside);
  const auto k = trail.given("k_box", "maker's factor in that air", f.derating);
  if (!t_in.value || !k.value) {
    std::vector<std::string> missing = t_in.missing;
    missing.insert(missing.end(), k.missing.begin(), k.missing.end());
    Outcome o = cannot_tell(words::unknown(trail, missing));
    o.also.push_back(
        "A box in the sun is 10 K to 25 K hotter inside than the air (common practice); "
        "the device's data sheet gives the factor. Say them as t_inside of the box and "
        "derating of the part.");
    return o;
  }
  const auto i_n = trail.given("I_n", "device rating", f.rating);
  const auto i_der = trail.let("I_der", "rating in the box", k * i_n, source);
  const auto i_req = device_current(f, edition, trail);
  Outcome o = demand_at_least(trail, i_der, i_req, source);
  if (o.verdict == Verdict::fail)
    o.also.push_back(
        "It opens on a hot bright day with nothing wrong: shade the box, or take a larger "
        "device within the modules' limit.");
  return o;
}

}  // namespace

extern const Rule ocpd_hot_box{
    .id = "ocpd.hot-box",
    .title = "Device in a hot box",
    .aliases = "O11",
    .asks = "Does the device still carry its circuit at the temperature inside the box?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.ambient ocpd.rating"};

}  // namespace stringwright::codebook
