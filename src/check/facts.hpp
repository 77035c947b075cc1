#pragma once

#include <string>
#include <vector>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::check {

/// Facts of one thing with the place in the job file that a finding about it points at.
struct Judged {
  codebook::Facts facts;
  Span span;
};

/// The facts of a wiring, thing by thing: strings, their devices, outputs, devices at inputs, inputs,
/// equipment grounds. What the job does not say is not known in the facts either.
///
/// An input on which strings of unlike make-up land is judged once per make-up, named
/// "CC1.PV1/S5" after the first string of that make-up. A home run that changes its wire in junction
/// boxes is judged part by part: "X1/1", "X1/2" ... from the string on, the last one as "X1".
std::vector<Judged> facts_of(const wiring::Wiring& w, const codebook::Edition& edition);

/// Facts of the equipment ground that leaves box `box`; the search asks the same question with other
/// wires in it.
Judged equipment_ground_facts(const wiring::Wiring& w, const wiring::BoxCircuit& box);

/// All strings that reach a box, its feeders' included (indices into w.strings).
std::vector<int> strings_reaching(const wiring::Wiring& w, const wiring::BoxCircuit& box);

/// Site, worst string and sums of currents of these strings: what facts of anything begin with.
codebook::Facts basis_of(const wiring::Wiring& w, const std::vector<int>& strings,
                         const std::string& from);

/// The highest short-circuit current a string's modules are said to give, rear side included.
units::Current highest_i_sc(const wiring::Wiring& w, int string);

/// Resistance of every conductor [n_conductors], at the 75 °C of the code's resistance table, the
/// cautious base that the voltage drop rule uses too. Unknown where wire or length is not known; leads
/// and fingers have none of their own (a data sheet's values hold at the ends of the leads).
std::vector<std::optional<units::Resistance>> conductor_resistances(
    const wiring::Wiring& w, const codebook::Edition& edition);

}  // namespace stringwright::check
