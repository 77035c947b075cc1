#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

/// Reference cases as data (cases/README.md says their form), and the sheet on which a kind answers.
namespace stringwright::run_cases {

/// A named value of a case: numbers (a flag is 0 or 1) or texts; one of them, or a list.
struct Entry {
  std::string name;
  std::string unit;  ///< as written: "V", "%/degC", "AWG", "flag"
  bool is_list = false;
  std::vector<double> numbers;
  std::vector<std::string> texts;
};

/// What the publication prints, and what an independent calculation of it gives.
struct Expected {
  Entry printed;
  double resolution = 0;  ///< last printed digit; 0: exact
  bool reproduces = true;
  std::optional<Entry> recomputed;  ///< the value to test against where the printed one is off
};

struct Case {
  std::string file, id, kind, title, edition;
  std::string status;  ///< verified, memory, computed: who has seen its figures
  std::vector<Entry> inputs;
  std::vector<Expected> expected;
};

/// The cases of one file in the published form. A file without `[[case]]` has none.
Result<std::vector<Case>> read_published(const std::string& path, std::string_view text);

/// A number in another unit of the same quantity ("ft" to "m", "degF" to "degC"); temperatures count as
/// points on the scale unless `difference`. Nothing where the two do not belong together.
std::optional<double> convert(double number, std::string_view from, std::string_view to,
                              bool difference = false);

/// The sheet of one case: a kind reads inputs from it and writes down every output that it can.
///
/// Reading an input marks it as used; an input never asked for, one in a unit that does not fit, and an
/// expected output without an answer are failures. Answers that nobody expects are ignored.
class Answers {
 public:
  explicit Answers(const Case& c) : case_(&c) {}

  const Case& of() const { return *case_; }
  bool gives(std::string_view name) const;           ///< the case has this input (does not use it)
  bool expects(std::string_view name) const;         ///< the case asks for this output
  std::string unit_of(std::string_view name) const;  ///< of an input as written; "" where absent

  /// `value` rounded as the publication prints that output; as it is where nothing says so. For sources
  /// that go on with a rounded figure.
  double as_printed(std::string_view output, double value) const;

  /// An input in the unit asked for; empty where the case does not give it. A list of one is one.
  std::optional<double> number(std::string_view name, std::string_view unit);
  std::vector<double> numbers(std::string_view name, std::string_view unit);
  /// The same for a temperature difference (a rise, an adder), in kelvin.
  std::optional<double> difference(std::string_view name);
  std::optional<std::string> text(std::string_view name);
  std::vector<std::string> texts(std::string_view name);

  void answer(std::string_view name, double value, std::string_view unit);
  void answer(std::string_view name, std::vector<double> values, std::string_view unit);
  void answer_difference(std::string_view name, double value, std::string_view unit = "K");
  void answer_text(std::string_view name, std::string value);
  void answer_texts(std::string_view name, std::vector<std::string> values);
  void answer_flag(std::string_view name, bool value);
  void answer_flags(std::string_view name, const std::vector<bool>& values);

  /// Works the case element by element where inputs are lists of one length, and answers lists; `whole`
  /// names inputs that a kind reads as lists itself. An answer that is the same for every element stays
  /// one where one is expected.
  void for_each_element(void (*check)(Answers&), const std::vector<std::string_view>& whole = {});

  /// Says why the case can't be worked; it then fails with these words.
  void fail(std::string why);
  /// Says why nobody can work the case from what its source prints: it is neither passed nor failed.
  void skip(std::string why) { skipped_ = std::move(why); }
  const std::string& skipped() const { return skipped_; }

  /// One line for each miss, with both numbers; empty: the case holds.
  std::vector<std::string> misses() const;

  /// How far an answer is from what is expected, as a share of it (of the larger of both); the largest
  /// of a list. Flags, texts and sizes have no difference and are not in it.
  struct Difference {
    std::string output;
    double share = 0;
  };
  std::vector<Difference> differences() const;

 private:
  struct Answer {
    Entry value;
    bool difference = false;
  };
  const Entry* input(std::string_view name);
  std::string judge(const Expected& expected, const Answer& answer) const;

  const Case* case_;
  std::vector<std::string> used_;
  std::vector<Answer> answers_;
  std::vector<std::string> failures_;
  std::string skipped_;
};

}  // namespace stringwright::run_cases
