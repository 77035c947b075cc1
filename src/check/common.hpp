#pragma once

#include <string>
#include <vector>

#include "check/facts.hpp"

/// Pieces of facts that several things share: each fills what a wiring tells of one concern.
namespace stringwright::check {

/// Temperatures, place, method and grounding.
void add_site(const wiring::Wiring& w, codebook::Facts& f);
/// Voltages and currents of one string (index into w.strings).
void add_string(const wiring::Wiring& w, int string, codebook::Facts& f);
/// Sums over strings that stand in parallel.
void add_parallel(const wiring::Wiring& w, const std::vector<int>& strings, const std::string& from,
                  codebook::Facts& f);
/// Input limits, battery and what is documented of the equipment; `input` -1: nothing.
void add_equipment(const wiring::Wiring& w, int input, codebook::Facts& f);
/// Rating, poles and marks of a device (index into w.devices; -1: none is fitted).
void add_device(const wiring::Wiring& w, int device, codebook::Facts& f);

/// Every string that stands in parallel with others at an input, through any number of boxes.
std::vector<int> strings_at(const wiring::Wiring& w, const wiring::InputCircuit& in);
/// The input that a box, or a string, feeds through any number of boxes; -1: none.
int input_of_box(const wiring::Wiring& w, int box);
int input_of_string(const wiring::Wiring& w, int string);
/// The string of a set with the highest open-circuit voltage at STC: it decides what parts must bear.
int highest_string(const wiring::Wiring& w, const std::vector<int>& strings);
/// Short-circuit current of a string: its largest module's, rear side included.
units::Current i_sc_of(const wiring::Wiring& w, int string);

/// Things with a concern of their own, appended to `all`.
void add_parts(const wiring::Wiring& w, std::vector<Judged>& all);        // part_facts.cpp
void add_boxes(const wiring::Wiring& w, std::vector<Judged>& all);        // box_facts.cpp
void add_disconnects(const wiring::Wiring& w, std::vector<Judged>& all);  // disconnect_facts.cpp
void add_connectors(const wiring::Wiring& w, std::vector<Judged>& all);   // connector_facts.cpp
void add_what_stands_behind(const wiring::Wiring& w,
                            std::vector<Judged>& all);  // behind_facts.cpp
/// The facts of a thing of that subject and name: those that stand in `all`, or new ones at its end.
Judged& of_thing(std::vector<Judged>& all, codebook::Subject subject, const std::string& thing,
                 Span span);

/// Things with a concern of their own, added to `all`.
void add_grounding(const wiring::Wiring& w, std::vector<Judged>& all);   // grounding_facts.cpp
void add_protection(const wiring::Wiring& w, std::vector<Judged>& all);  // protection_facts.cpp
void add_arresters(const wiring::Wiring& w, std::vector<Judged>& all);   // arrester_facts.cpp
void add_labels(const wiring::Wiring& w, const codebook::Edition& edition,
                std::vector<Judged>& all);  // label_facts.cpp

/// Where the array stands and how near its circuits come to a building.
void add_place(const wiring::Wiring& w, codebook::Facts& f);  // protection_facts.cpp

/// The name of a choice as the job writes it, as a fact.
template <class E>
trail::Fact<std::string> choice(const Given<E>& given, const std::string& from) {
  trail::Fact<std::string> fact;
  fact.from = from;
  fact.span = given.span;
  if (!given) return fact;
  for (int i = 0; !names(static_cast<E*>(nullptr), i).first.empty(); ++i)
    if (names(static_cast<E*>(nullptr), i).second == *given)
      fact.value = std::string(names(static_cast<E*>(nullptr), i).first);
  return fact;
}

}  // namespace stringwright::check
