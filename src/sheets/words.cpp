#include "sheets/words.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "base/text.hpp"
#include "units/print.hpp"

namespace stringwright::sheets {
namespace {

/// Split "Q12" into "Q" and 12; number −1 where the name does not end in one.
std::pair<std::string, int> numbered(const std::string& name) {
  std::size_t digits = name.size();
  while (digits > 0 && std::isdigit(static_cast<unsigned char>(name[digits - 1]))) --digits;
  if (digits == name.size() || name.size() - digits > 6) return {name, -1};
  return {name.substr(0, digits), std::stoi(name.substr(digits))};
}

}  // namespace

draw::Look look(const wiring::Wiring& w, const wiring::Conductor& c) {
  using draw::Pattern;
  const bool output = c.kind == wiring::ConductorKind::output;
  if (c.pole == wiring::Pole::ground) return {Pattern::ground, false};
  const auto& g = w.job.grounding;
  const bool solid = g.scheme && *g.scheme == job::Scheme::solid;
  const bool plus = c.pole == wiring::Pole::plus;
  const bool grounded = solid && g.pole && (*g.pole == job::Pole::plus) == plus;
  if (plus) return {grounded ? Pattern::plus_grounded : Pattern::plus, output};
  return {grounded ? Pattern::minus_grounded : Pattern::minus, output};
}

std::string wire_words(const Given<units::Wire>& wire) {
  if (!wire) return wire.choose ? "to be chosen" : "not known";
  std::string s = wire->size.print();
  if (wire->metal == units::Metal::aluminium) s += " Al";
  if (!wire->insulation.empty()) s += " " + wire->insulation;
  return s;
}

std::string wire_words(const wiring::Conductor& c) {
  return (c.parallel > 1 ? std::to_string(c.parallel) + " × " : "") + wire_words(c.wire);
}

std::optional<TorqueWords> torque(const std::optional<parts::TerminalSpec>& spec) {
  if (!spec || !spec->torque) return std::nullopt;
  const double inches = spec->torque->in(units::pound_force_inches);
  return TorqueWords{text::fixed(spec->torque->in(units::newton_metres), 1),
                     text::fixed(inches, inches < 10 ? 1 : 0)};
}

std::string length_words(const job::Job& job, std::optional<units::Length> length) {
  if (!length) return "not known";
  const std::string metres = text::fixed(length->in(units::metres), 2) + " m";
  const std::string feet = text::fixed(length->in(units::feet), 1) + " ft";
  const bool us = job.job.units && *job.job.units == job::UnitSystem::us;
  return us ? feet + " (" + metres + ")" : metres + " (" + feet + ")";
}

std::string basis_words(const job::Job& job) {
  const auto& g = job.grounding;
  std::string s;
  if (!g.scheme)
    s = "grounding not known";
  else if (*g.scheme == job::Scheme::ungrounded)
    s = "ungrounded, no bond";
  else {
    s = *g.scheme == job::Scheme::solid ? "solid ground" : "functional ground";
    s += !g.pole ? ", pole not known" : *g.pole == job::Pole::plus ? ", plus pole" : ", minus pole";
    s += "; one bond, " + (g.bond ? "in " + draw::plain(*g.bond) : std::string("place not known"));
  }
  return s;
}

std::string stretch_words(const wiring::Stretch& s) {
  std::string words = s.in.empty() ? "method not known" : s.in;
  if (s.size)
    words += " " + s.size->print();
  else if (s.size.choose)
    words += ", size to be chosen";
  const auto short_length = [](units::Length l) {
    return l.in(units::metres) < 0.1 ? text::shortest(l.in(units::millimetres), 3) + " mm"
                                     : text::shortest(l.in(units::metres), 3) + " m";
  };
  if (s.buried) words += ", buried " + short_length(*s.buried);
  if (s.above_roof) words += ", " + short_length(*s.above_roof) + " above roof";
  if (s.ambient) words += ", " + units::print(*s.ambient);
  if (s.raceways > 1) words = std::to_string(s.raceways) + " × " + words;
  if (s.wires)
    words +=
        ", " + std::to_string(*s.wires) + " current-carrying" + (s.raceways > 1 ? " in each" : "");
  return words;
}

std::string listed(const std::vector<std::string>& names) {
  std::string s;
  for (std::size_t i = 0; i < names.size();) {
    const auto [stem, first] = numbered(names[i]);
    std::size_t j = i + 1;
    while (first >= 0 && j < names.size() &&
           numbered(names[j]) == std::pair{stem, first + static_cast<int>(j - i)})
      ++j;
    if (!s.empty()) s += ", ";
    if (j - i >= 3) {
      s += names[i] + " to " + names[j - 1];
      i = j;
    } else {
      s += names[i++];
    }
  }
  return s;
}

std::string device_word(const parts::Part* part) {
  if (!part || !part->kind) return "device";
  switch (*part->kind) {
    case parts::PartKind::breaker:
      return "breaker";
    case parts::PartKind::fuse:
      return "fuse";
    case parts::PartKind::disconnect:
      return "disconnect";
    case parts::PartKind::arrester:
      return "arrester";
    case parts::PartKind::box:
      return "box";
    case parts::PartKind::diode:
      return "blocking diode";
    case parts::PartKind::electronics:
      return "module electronics";
    case parts::PartKind::branch:
      return "branch connectors";
    default:  // nothing else sits in a slot
      break;
  }
  return "device";
}

std::vector<std::string> rating(const parts::Part* part) {
  std::vector<std::string> words;
  if (part && part->rating)
    words.push_back(text::shortest(part->rating->in(units::amps), 4) + " A");
  const auto& volts = part && part->v_dc_pole ? part->v_dc_pole
                      : part                  ? part->v_dc
                                              : Given<units::Voltage>{};
  if (volts) words.push_back(text::shortest(volts->in(units::volts), 4) + " V");
  if (words.empty()) words.push_back("not known");
  return words;
}

}  // namespace stringwright::sheets
