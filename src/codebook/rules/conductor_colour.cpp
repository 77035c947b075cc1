#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_circuit || f.subject == Subject::output_circuit ||
         f.subject == Subject::equipment_ground;
}

bool white(const std::string& c) { return c == "white" || c == "grey" || c == "white-striped"; }
bool green(const std::string& c) { return c == "green" || c == "green-yellow" || c == "bare"; }

/// The pole that takes white or grey: of a solidly grounded array; in 2014 also of one grounded through
/// its ground-fault device. "": none. Empty: not known.
std::optional<std::string> white_pole(const Facts& f, const Edition& edition) {
  if (!f.scheme.known()) return std::nullopt;
  const bool counts = *f.scheme == "solid" || (*f.scheme == "functional" && edition.year() < 2017);
  if (!counts) return "";
  if (!f.marks.pole.known()) return std::nullopt;
  return *f.marks.pole;
}

/// What is wrong with one pole's colour; "" where nothing is.
std::string fault(const std::string& pole, const std::string& colour, const std::string& white_one,
                  const Edition& edition) {
  if (green(colour)) return colour + " is for grounding alone, not for the " + pole + " wire";
  if (pole == white_one)
    return white(colour)
               ? ""
               : "the solidly grounded " + pole + " wire has to be white or grey, not " + colour;
  if (white(colour))
    return colour + " is for a solidly grounded conductor, which the " + pole + " wire is not";
  if (pole == "minus" && colour == "red" && edition.year() >= 2017)
    return "red insulation may not carry a minus mark";
  return "";
}

/// White and grey for a solidly grounded conductor alone, green or bare for grounding alone; from 2017 no
/// minus on red. What "grounded" means changed in 2017: a pole grounded through a fuse was white before.
///
/// Source: NFPA 70, 690.31(B)(1), 200.6, 250.119. Proved: cases/rules/conductor_colour.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("White and grey: solidly grounded conductors. Green and bare: grounding.",
             edition.cite("wiring.colour"));
  if (f.subject == Subject::equipment_ground) {
    if (!f.marks.ground.known())
      return on_site("The ground wire is green, green with yellow, or bare.");
    return green(*f.marks.ground)
               ? Outcome{Verdict::pass, *f.marks.ground + " for the ground: passes.", {}, {}}
               : Outcome{Verdict::fail,
                         *f.marks.ground + " for the ground: it has to be green or bare, fails.",
                         {},
                         {}};
  }
  const auto white_one = white_pole(f, edition);
  if (!white_one)
    return cannot_tell(
        "cannot tell: which pole is grounded, and how, decides where white or grey "
        "belongs; grounding is not known.");
  const auto& plus = f.marks.plus;
  const auto& minus = f.marks.minus;
  if (!plus.known() || !minus.known()) {
    const auto usual = [&](const std::string& pole, const char* colour) {
      return pole == *white_one ? std::string("white or grey") : std::string(colour);
    };
    return on_site(
        "Plus " + usual("plus", "red") + ", minus " + usual("minus", "black") +
        " (or another colour, but " +
        (white_one->empty() ? "never white, grey or green" : "no other white, grey or green") +
        (edition.year() >= 2017 ? ", and no red minus)." : ")."));
  }
  for (const auto& [pole, colour] : {std::pair{std::string("plus"), *plus}, {"minus", *minus}})
    if (const auto wrong = fault(pole, colour, *white_one, edition); !wrong.empty())
      return {Verdict::fail, wrong + ": fails.", {}, {}};
  Outcome outcome{Verdict::pass, *plus + " for plus, " + *minus + " for minus: passes.", {}, {}};
  if (*plus == *minus) {
    outcome.verdict = Verdict::caution;
    outcome.so = "Plus and minus are both " + *plus + ".";
    outcome.also.push_back(
        "Like colours are how strings get reversed: tag both ends before the first "
        "plug is mated.");
  }
  return outcome;
}

}  // namespace

extern const Rule conductor_colour{
    .id = "conductor.colour",
    .title = "Colours of the conductors",
    .aliases = "X7",
    .asks =
        "Do the colours say what the conductors are: white or grey only where solidly grounded, "
        "green only for grounding?",
    .applies = applies,
    .check = check,
    .cites = "wiring.colour"};

}  // namespace stringwright::codebook
