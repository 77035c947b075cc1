#pragma once

#include <string>
#include <vector>

#include "check/facts.hpp"
#include "codebook/labels.hpp"

namespace stringwright::check {

/// The labels that this design needs in this edition, in the order in which one walks from the array to
/// the equipment and to the building's door; those of which it can't be told whether they are due with
/// them (`LabelAnswer::due` says so).
std::vector<codebook::LabelAnswer> labels_due(const wiring::Wiring& w,
                                              const codebook::Edition& edition);

/// Labels of the same words and values, once, with every place they hang at.
struct LikeLabels {
  codebook::LabelAnswer first;
  std::vector<std::string> places;
};
std::vector<LikeLabels> like_labels(const std::vector<codebook::LabelAnswer>& labels);

/// What the code demands of a label's looks: "capitals, 9.5 mm at least; white on red; reflective".
std::string demands(const codebook::Label& label);
/// Whose words they are: "the code's words", "values by the code, our words", "our words".
std::string whose_words(const codebook::Label& label);

}  // namespace stringwright::check
