#pragma once

#include <string>
#include <utility>
#include <variant>

namespace stringwright {

/// Why a computation could not be finished. `id` is a diagnostic id (`room.what-is-wrong`),
/// `message` one sentence for a person, with the numbers that matter.
struct Failure {
  std::string id;
  std::string message;
};

/// A value, or the reason why there is none.
template <class T, class E = Failure>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  Result(E failure) : state_(std::in_place_index<1>, std::move(failure)) {}

  bool ok() const { return state_.index() == 0; }
  explicit operator bool() const { return ok(); }

  const T& value() const& { return std::get<0>(state_); }
  T& value() & { return std::get<0>(state_); }
  T&& value() && { return std::get<0>(std::move(state_)); }
  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  const T* operator->() const { return &std::get<0>(state_); }
  T* operator->() { return &std::get<0>(state_); }

  const E& failure() const { return std::get<1>(state_); }

 private:
  std::variant<T, E> state_;
};

}  // namespace stringwright
