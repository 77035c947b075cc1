#pragma once

#include <optional>
#include <string>
#include <vector>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/building.hpp"
#include "codebook/methods/words.hpp"

namespace stringwright::codebook {

/// A value that stands on a label: computed once, by the methods that the rules use.
struct LabelValue {
  std::string words;                        ///< "maximum voltage"
  std::optional<units::AnyQuantity> value;  ///< absent: not known, a blank on the label
  std::string printed;                      ///< "141.9 V"; a blank line where not known
  bool nameplate = false;                   ///< stands on a nameplate: may be written in on site
};

/// One label as it has to hang, in the words and numbers of this job.
struct Label {
  std::string id, title;           ///< "dc-values", "Values of the d.c. side"
  std::string thing, place;        ///< "CC1.PV1", "at the disconnect CC1.PV1.Q"
  std::vector<std::string> lines;  ///< what stands on it, values filled in
  std::vector<LabelValue> values;
  std::string prescribed;  ///< "yes": the code's words; "values": its values, our words; "no": ours
  std::optional<units::Length> letters;  ///< least height of capitals where the code gives one
  std::string colours;                   ///< letters on ground; "" = the code gives none
  std::string asks;                      ///< further demands on it
  trail::Source source;
};

/// Whether the edition has such a label (data/codebook/labels.csv).
bool has_label(std::string_view id, const Edition& edition);

/// Whether it is due here, and the label itself. Subject of the facts: label.
struct LabelAnswer {
  Answer due;
  Label label;
};
LabelAnswer label_of(const Facts& facts, const Edition& edition, Trail& trail);

/// What a rule says of one label: due until the job says that its labels are on.
Outcome judge_label(const Facts& facts, const Edition& edition, Trail& trail);

/// The facts are about one of these labels (blank separated).
bool is_label(const Facts& facts, std::string_view ids);

}  // namespace stringwright::codebook
