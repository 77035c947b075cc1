#include <algorithm>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <utility>

#include "check/common.hpp"
#include "job/find.hpp"

/// Connector families of the job, and the pairs of them that mate: each once.
namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Subject;
using wiring::Wiring;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

std::string family_of(const Wiring& w, int module) {
  return w.module_of(module).family.value_or("");
}

/// Whether the record of one of both names the other.
bool documented(const Wiring& w, const std::string& a, const std::string& b) {
  const auto names = [&](const std::string& one, const std::string& other) {
    const job::Connector* c = job::find(w.job.connector, one);
    std::istringstream mates(c ? c->mates.value_or("") : "");
    for (std::string m; mates >> m;)
      if (m == other) return true;
    return false;
  };
  return names(a, b) || names(b, a);
}

}  // namespace

void add_connectors(const Wiring& w, std::vector<Judged>& all) {
  // Pairs by name, "" for a half that the job does not tell; each with a string in which it stands.
  std::map<std::pair<std::string, std::string>, int> pairs;
  std::map<std::string, int> families;
  const auto mate = [&](std::string a, std::string b, int string) {
    for (const auto& f : {a, b})
      if (!f.empty()) families.emplace(f, string);
    if (b < a) std::swap(a, b);
    pairs.emplace(std::pair(a, b), string);
  };
  for (std::size_t i = 0; i < w.strings.size(); ++i) {
    const auto& s = w.strings[i];
    if (s.modules.empty()) continue;
    const int n = static_cast<int>(i);
    for (std::size_t m = 1; m < s.modules.size(); ++m)
      mate(family_of(w, s.modules[m - 1]), family_of(w, s.modules[m]), n);
    const job::Box* box = s.box >= 0 ? job::find(w.job.box, w.boxes[at(s.box)].id) : nullptr;
    const std::string home = box ? box->home_run.family.value_or("") : "";
    mate(family_of(w, s.modules.front()), home, n);
    mate(family_of(w, s.modules.back()), home, n);
  }
  for (const auto& [pair, string] : pairs) {
    Judged j{{}, w.strings[at(string)].span};
    auto& f = j.facts;
    f.subject = Subject::connector_pair;
    const auto word = [](const std::string& s) { return s.empty() ? std::string("unknown") : s; };
    // "" sorts first: what is known leads.
    const std::string& a = pair.first.empty() ? pair.second : pair.first;
    const std::string& b = pair.first.empty() ? pair.first : pair.second;
    f.thing = word(a) + "+" + word(b);
    if (!a.empty()) f.connector.family = Fact<std::string>(a, "module");
    if (!b.empty()) f.connector.other = Fact<std::string>(b, "job");
    if (!a.empty() && !b.empty())
      f.connector.documented = Fact<bool>(documented(w, a, b), "connector");
    all.push_back(std::move(j));
  }
  for (const auto& [family, string] : families) {
    const job::Connector* c = job::find(w.job.connector, family);
    Judged j{{}, c ? c->span : w.strings[at(string)].span};
    auto& f = j.facts;
    f.subject = Subject::connector;
    f.thing = family;
    add_site(w, f);
    // The highest string that has the family decides; its current is the largest module's.
    std::vector<int> with;
    for (std::size_t i = 0; i < w.strings.size(); ++i)
      if (std::any_of(w.strings[i].modules.begin(), w.strings[i].modules.end(),
                      [&](int m) { return family_of(w, m) == family; }))
        with.push_back(static_cast<int>(i));
    if (with.empty()) with.push_back(string);
    add_string(w, highest_string(w, with), f);
    units::Current most;
    for (int s : with) most = units::max(most, i_sc_of(w, s));
    f.i_sc = Fact<units::Current>(most, "strings with " + family);
    // The least rating that a module of the family prints; one that prints none leaves it open.
    std::optional<units::Current> rated;
    bool all_rated = true;
    for (int s : with)
      for (int m : w.strings[at(s)].modules) {
        const auto& module = w.module_of(m);
        if (family_of(w, m) != family) continue;
        all_rated = all_rated && module.connector_rating.known();
        if (module.connector_rating)
          rated = rated ? units::min(*rated, *module.connector_rating) : *module.connector_rating;
      }
    if (rated && all_rated) f.connector.i_max = Fact<units::Current>(*rated, "module");
    const std::string from = "connector." + family;
    f.connector.family = Fact<std::string>(family, from);
    f.connector.described = Fact<bool>(c != nullptr, "job");
    f.place.access = choice(w.job.site.access, "site");
    if (c) {
      f.v_rated = Fact<units::Voltage>(c->v_dc, from);
      f.connector.polarised = Fact<bool>(c->polarised, from);
      f.connector.covered = Fact<bool>(c->covered, from);
      f.connector.load_break = Fact<bool>(c->load_break, from);
      f.connector.not_under_load = Fact<bool>(c->not_under_load, from);
      f.connector.grounding_pin = Fact<bool>(c->grounding_pin, from);
      f.connector.pin_first = Fact<bool>(c->pin_first, from);
      f.connector.lock = choice(c->lock, from);
    }
    all.push_back(std::move(j));
  }
}

}  // namespace stringwright::check
