#include "job/patterns.hpp"

#include <utility>

#include "base/text.hpp"
#include "job/names.hpp"
#include "job/place.hpp"

namespace stringwright::job {
namespace {

constexpr std::string_view counter = "{i}";

std::string at_number(const std::string& pattern, int i) {
  return text::replace_all(pattern, counter, std::to_string(i));
}

void expand_rows(const Rows& pattern, std::vector<Row>& rows, Messages& out) {
  const auto& step = pattern.step;
  const bool step_is_left_out = !step && step.span == pattern.span;
  if (*pattern.rows > 1 && pattern.row.at && step_is_left_out)
    out.error("job.missing", pattern.span,
              "[rows." + pattern.id + "] lacks 'step': its rows would all stand at one place");
  for (int i = 0; i < *pattern.rows; ++i) {
    Row row = pattern.row;
    row.id = pattern.id + std::to_string(i + 1);
    row.span = pattern.span;
    if (row.at && step)
      for (std::size_t k = 0; k < row.at->size(); ++k)
        (*row.at)[k] += static_cast<double>(i) * (*step)[k];
    rows.push_back(std::move(row));
  }
}

Given<units::Length> length_at(const Given<LengthPattern>& pattern, int i) {
  Given<units::Length> length;
  length.span = pattern.span;
  if (!pattern || !pattern->first) return length;
  length.value = *pattern->first;
  if (pattern->step) *length += static_cast<double>(i - 1) * *pattern->step;
  return length;
}

/// Strings of one pattern, from its texts.
class StringExpansion {
 public:
  StringExpansion(const Strings& pattern, Messages& out) : pattern_(pattern), out_(out) {}

  String string(int i, const StringException* except) {
    String s;
    s.id = pattern_.id + std::to_string(i);
    s.span = pattern_.span;
    const auto own = [&](const auto& mine, const auto& common) {
      return mine && mine->known() ? *mine : common;
    };
    s.walk = walk(s.id, own(except ? &except->walk : nullptr, pattern_.walk), i);
    s.lands = lands(s.id, own(except ? &except->lands : nullptr, pattern_.lands), i);
    s.home_run = own(except ? &except->home_run : nullptr, pattern_.home_run);
    s.age = own(except ? &except->age : nullptr, pattern_.age);
    s.inline_fuse = own(except ? &except->inline_fuse : nullptr, pattern_.inline_fuse);
    s.inline_fuse_in = own(except ? &except->inline_fuse_in : nullptr, pattern_.inline_fuse_in);
    s.blocking_diode = own(except ? &except->blocking_diode : nullptr, pattern_.blocking_diode);
    s.electronics = own(except ? &except->electronics : nullptr, pattern_.electronics);
    s.plus_end = end(s.id, except ? &except->plus_end : nullptr, pattern_.plus_end, i);
    s.minus_end = end(s.id, except ? &except->minus_end : nullptr, pattern_.minus_end, i);
    return s;
  }

 private:
  Given<std::vector<ModulePlace>> walk(const std::string& id, const Given<std::string>& pattern,
                                       int i) {
    Given<std::vector<ModulePlace>> walk;
    walk.span = pattern.span;
    if (!pattern) return walk;
    auto read = read_walk(at_number(*pattern, i));
    if (read)
      walk.value = *std::move(read);
    else
      out_.error("job.bad-walk", out_.inside(pattern.span, read.failure().part),
                 "walk of string " + id + ": " + read.failure().message);
    return walk;
  }

  Given<Landing> lands(const std::string& id, const Given<std::string>& pattern, int i) {
    Given<Landing> lands;
    lands.span = pattern.span;
    if (!pattern) return lands;
    const std::string text = at_number(*pattern, i);
    auto read = read_landing(text);
    if (read)
      lands.value = *std::move(read);
    else
      out_.error(
          "job.bad-landing", pattern.span,
          "landing of string " + id + " is " + text::quoted(text) + "; " + read.failure().message);
    return lands;
  }

  Given<units::Length> end(const std::string& id, const Given<units::Length>* own,
                           const Given<LengthPattern>& pattern, int i) {
    if (own && own->known()) return *own;
    Given<units::Length> length = length_at(pattern, i);
    if (length && length->si() < 0) {
      out_.error("job.out-of-range", length.span,
                 "an end of string " + id + " would be " + text::fixed(length->si(), 2) +
                     " m long; allowed: at least 0 m");
      length.value.reset();
    }
    return length;
  }

  const Strings& pattern_;
  Messages& out_;
};

void expand_strings(const Strings& pattern, std::vector<String>& strings, Messages& out) {
  const int count = *pattern.count;
  std::vector<const StringException*> exceptions(static_cast<std::size_t>(count), nullptr);
  for (const auto& e : pattern.except) {
    const auto number = read_count(e.id);
    if (!number || *number < 1 || *number > count)
      out.error("job.out-of-range", e.span,
                "strings." + pattern.id + " excepts string " + text::quoted(e.id) +
                    ", but has strings 1 to " + std::to_string(count));
    else
      exceptions[static_cast<std::size_t>(*number - 1)] = &e;
  }
  if (count > 1 && pattern.walk && pattern.walk->find(counter) == std::string::npos) {
    out.error("job.bad-walk", pattern.walk.span,
              "walk of strings." + pattern.id + " is the same for all " + std::to_string(count) +
                  " strings",
              "write {i} where the number of the string stands, as in RN{i}.1-RN{i}.17");
    return;
  }
  StringExpansion expansion(pattern, out);
  for (int i = 1; i <= count; ++i)
    strings.push_back(expansion.string(i, exceptions[static_cast<std::size_t>(i - 1)]));
}

}  // namespace

BrokenPatterns expand(JobFile& file, Messages& out) {
  constexpr std::size_t most = 20000;
  BrokenPatterns broken;
  const auto fits = [&](std::size_t so_far, const Given<int>& more, const std::string& id,
                        std::string_view what) {
    if (!more) return false;
    if (so_far + static_cast<std::size_t>(*more) <= most) return true;
    out.error("job.out-of-range", more.span,
              "with '" + id + "' the job has more than " + std::to_string(most) + " " +
                  std::string(what));
    return false;
  };
  for (const auto& pattern : file.rows) {
    if (fits(file.job.row.size(), pattern.rows, pattern.id, "rows"))
      expand_rows(pattern, file.job.row, out);
    else
      broken.rows.push_back(pattern.id);
  }
  for (const auto& pattern : file.strings) {
    const std::size_t before = file.job.string.size();
    if (fits(before, pattern.count, pattern.id, "strings"))
      expand_strings(pattern, file.job.string, out);
    if (file.job.string.size() == before) broken.strings.push_back(pattern.id);
  }
  if (!file.rows.empty()) sort_by_place(file.job.row);
  if (!file.strings.empty()) sort_by_place(file.job.string);
  return broken;
}

}  // namespace stringwright::job
