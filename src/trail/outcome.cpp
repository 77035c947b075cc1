#include "trail/outcome.hpp"

namespace stringwright::trail {

std::string_view word(Verdict v) {
  switch (v) {
    case Verdict::pass:
      return "PASS";
    case Verdict::caution:
      return "CAUTION";
    case Verdict::fail:
      return "FAIL";
    case Verdict::cannot_tell:
      return "CANNOT TELL";
    case Verdict::on_site:
      return "CHECK ON SITE";
    case Verdict::not_applicable:
      return "NOT APPLICABLE";
  }
  return "?";
}

std::string_view key(Verdict v) {
  switch (v) {
    case Verdict::pass:
      return "pass";
    case Verdict::caution:
      return "caution";
    case Verdict::fail:
      return "fail";
    case Verdict::cannot_tell:
      return "cannot-tell";
    case Verdict::on_site:
      return "on-site";
    case Verdict::not_applicable:
      return "not-applicable";
  }
  return "?";
}

Verdict verdict_of(std::optional<bool> holds) {
  if (!holds) return Verdict::cannot_tell;
  return *holds ? Verdict::pass : Verdict::fail;
}

}  // namespace stringwright::trail
