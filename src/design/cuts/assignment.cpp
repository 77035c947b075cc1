#include "design/cuts/assignment.hpp"

#include <limits>

namespace stringwright::design {
namespace {

constexpr std::int64_t far_away = std::numeric_limits<std::int64_t>::max() / 4;

}  // namespace

Assignment assign(int n, const std::function<Cost(int, int)>& cost) {
  const auto size = static_cast<std::size_t>(n);
  std::vector<Cost> matrix(size * size);
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t j = 0; j < size; ++j)
      matrix[i * size + j] = cost(static_cast<int>(i), static_cast<int>(j));

  // Row 0 and column 0 stand for "none"; row_of[j] is the row that column j serves.
  std::vector<Cost> u(size + 1), v(size + 1);
  std::vector<std::size_t> row_of(size + 1), way(size + 1);
  for (std::size_t i = 1; i <= size; ++i) {
    row_of[0] = i;
    std::size_t j0 = 0;
    std::vector<Cost> least(size + 1, Cost{far_away, far_away, far_away, far_away});
    std::vector<bool> used(size + 1);
    do {
      used[j0] = true;
      const std::size_t i0 = row_of[j0];
      const Cost* row = &matrix[(i0 - 1) * size];
      Cost delta{far_away, far_away, far_away, far_away};
      std::size_t j1 = 0;
      for (std::size_t j = 1; j <= size; ++j) {
        if (used[j]) continue;
        const Cost reduced = row[j - 1] - u[i0] - v[j];
        if (reduced < least[j]) least[j] = reduced, way[j] = j0;
        if (least[j] < delta) delta = least[j], j1 = j;
      }
      for (std::size_t j = 0; j <= size; ++j) {
        if (used[j]) {
          u[row_of[j]] = u[row_of[j]] + delta;
          v[j] = v[j] - delta;
        } else {
          least[j] = least[j] - delta;
        }
      }
      j0 = j1;
    } while (row_of[j0] != 0);
    do {
      const std::size_t j1 = way[j0];
      row_of[j0] = row_of[j1];
      j0 = j1;
    } while (j0 != 0);
  }

  Assignment a;
  a.column_of.assign(size, -1);
  Cost bound;
  for (std::size_t j = 1; j <= size; ++j) {
    a.column_of[row_of[j] - 1] = static_cast<int>(j - 1);
    a.total = a.total + matrix[(row_of[j] - 1) * size + j - 1];
    bound = bound + u[j] + v[j];
  }
  a.proved = bound == a.total;
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t j = 0; j < size; ++j)
      a.proved = a.proved && u[i + 1] + v[j + 1] <= matrix[i * size + j];
  return a;
}

}  // namespace stringwright::design
