#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace stringwright::job {

/// JSON text in the order it was put together; just enough for the schema.
class Json {
 public:
  static Json text(std::string_view s);
  static Json raw(std::string s);  ///< a number, true, or JSON text from elsewhere
  static Json object();
  static Json list();

  Json& set(std::string_view key, Json value);
  Json& add(Json value);
  Json& take_members(const Json& other);  ///< behind its own
  bool empty() const { return members_.empty(); }

  /// Two blanks a level; what is short stays on one line.
  std::string print(int level = 0) const;

 private:
  enum class Shape { scalar, object, list };
  std::string on_one_line() const;

  Shape shape_ = Shape::scalar;
  std::string scalar_;
  std::vector<std::pair<std::string, Json>> members_;  ///< of a list with empty keys
};

}  // namespace stringwright::job
