#include "design/cuts/cutting_stock.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "design/milp.hpp"

namespace stringwright::design {
namespace {

constexpr double eps = 1e-7;
constexpr std::size_t few_patterns = 3'000, most_patterns = 200'000;
constexpr int few_nodes = 2'000, most_nodes = 200'000;

struct Cut {
  int stock = 0;
  std::vector<int> count;
};

class Solver {
 public:
  Solver(const std::vector<StockLength>& stock, const std::vector<CutDemand>& demand)
      : stock_(stock), demand_(demand) {
    order_.resize(demand.size());
    std::iota(order_.begin(), order_.end(), 0);
  }

  CuttingPlan solve() {
    for (const auto& d : demand_)
      if (std::none_of(stock_.begin(), stock_.end(),
                       [&](const StockLength& s) { return s.length >= d.length; })) {
        CuttingPlan none;
        none.possible = false;
        return none;
      }
    for (const auto& s : stock_) step_ = std::gcd(step_, s.cost);
    fit_decreasing();
    best_.first_fit = best_.cost;
    relax();
    // Where few patterns can lead to a cheaper plan, all of them decide at once.
    if (best_.cost > best_.bound && over_all_patterns(few_patterns)) return best_;
    if (best_.cost > best_.bound) over_known_patterns();
    if (best_.cost > best_.bound) over_all_patterns(most_patterns);
    return best_;
  }

 private:
  std::int64_t round_up(double value) const {
    const auto steps =
        static_cast<std::int64_t>(std::ceil(value / static_cast<double>(step_) - eps));
    return steps * step_;
  }

  /// The longest pieces first, each into the first open stock piece that holds it; a new one is the cheapest
  /// that does, and each stock is also tried as the only one.
  void fit_decreasing() {
    std::vector<int> by_length = order_;
    std::sort(by_length.begin(), by_length.end(), [&](int x, int y) {
      return demand_[at(x)].length > demand_[at(y)].length ||
             (demand_[at(x)].length == demand_[at(y)].length && x < y);
    });
    for (int only = -1; only < static_cast<int>(stock_.size()); ++only) {
      std::vector<Cut> open;
      std::vector<std::int64_t> left;
      bool fits = true;
      for (const int d : by_length) {
        for (int k = 0; k < demand_[at(d)].count && fits; ++k) {
          int into = -1;
          for (std::size_t b = 0; b < open.size() && into < 0; ++b)
            if (left[b] >= demand_[at(d)].length) into = static_cast<int>(b);
          if (into < 0) {
            int pick = -1;
            for (std::size_t s = 0; s < stock_.size(); ++s) {
              if (only >= 0 && static_cast<int>(s) != only) continue;
              if (stock_[s].length < demand_[at(d)].length) continue;
              if (pick < 0 || stock_[s].cost < stock_[at(pick)].cost) pick = static_cast<int>(s);
            }
            fits = pick >= 0;
            if (!fits) break;
            into = static_cast<int>(open.size());
            open.push_back({pick, std::vector<int>(demand_.size())});
            left.push_back(stock_[at(pick)].length);
          }
          ++open[at(into)].count[at(d)];
          left[at(into)] -= demand_[at(d)].length;
        }
      }
      if (!fits) continue;
      std::vector<int> once(open.size(), 1);
      offer(open, once);
    }
  }

  /// Keep a plan if it is the best so far.
  void offer(const std::vector<Cut>& cuts, const std::vector<int>& times) {
    std::int64_t cost = 0;
    for (std::size_t i = 0; i < cuts.size(); ++i) cost += times[i] * stock_[at(cuts[i].stock)].cost;
    if (!best_.patterns.empty() && cost >= best_.cost) return;
    best_.cost = cost;
    best_.patterns.clear();
    for (std::size_t i = 0; i < cuts.size(); ++i) {
      if (times[i] == 0) continue;
      const auto same = std::find_if(
          best_.patterns.begin(), best_.patterns.end(),
          [&](const Pattern& p) { return p.stock == cuts[i].stock && p.count == cuts[i].count; });
      if (same != best_.patterns.end())
        same->times += times[i];
      else
        best_.patterns.push_back({cuts[i].stock, cuts[i].count, times[i]});
    }
  }

  Program program(const std::vector<Cut>& cuts) const {
    Program p;
    for (const auto& d : demand_) p.at_least.push_back(d.count);
    for (const auto& c : cuts) {
      Program::Column column;
      column.cost = static_cast<double>(stock_[at(c.stock)].cost);
      for (std::size_t d = 0; d < demand_.size(); ++d)
        if (c.count[d] > 0) column.entries.emplace_back(static_cast<int>(d), c.count[d]);
      p.columns.push_back(std::move(column));
    }
    return p;
  }

  void relax() {
    for (const auto& p : best_.patterns) known_.push_back({p.stock, p.count});
    double worst = 1;
    constexpr int rounds = 2000;
    for (int round = 0; round < rounds; ++round) {
      const auto found = solve_linear(program(known_));
      if (!found) return;
      relaxed_ = *found;
      bool better = false;
      worst = 1;
      for (std::size_t s = 0; s < stock_.size(); ++s) {
        const auto [value, count] = best_pattern(s);
        const auto cost = static_cast<double>(stock_[s].cost);
        worst = std::max(worst, value / cost);
        if (value > cost * (1 + 1e-9) + 1e-9) {
          known_.push_back({static_cast<int>(s), count});
          better = true;
        }
      }
      if (!better) break;
    }
    best_.relaxed = relaxed_.value;
    best_.bound = std::min(best_.cost, round_up(relaxed_.value / worst));
  }

  /// The pattern of one stock length that is worth most at the prices of the relaxation: a bounded
  /// knapsack, by search over pieces in the order of their price per length.
  std::pair<double, std::vector<int>> best_pattern(std::size_t s) {
    sort_by_worth();
    worth_best_ = 0;
    pattern_.assign(demand_.size(), 0);
    found_ = pattern_;
    fill(0, stock_[s].length, 0);
    return {worth_best_, found_};
  }

  double price(int d) const { return std::max(0.0, relaxed_.price[at(d)]); }

  void sort_by_worth() {
    std::sort(order_.begin(), order_.end(), [&](int x, int y) {
      const double wx = price(x) / static_cast<double>(demand_[at(x)].length);
      const double wy = price(y) / static_cast<double>(demand_[at(y)].length);
      return wx > wy || (wx == wy && x < y);
    });
  }

  int fits(int d, std::int64_t room) const {
    return static_cast<int>(
        std::min<std::int64_t>(demand_[at(d)].count, room / demand_[at(d)].length));
  }

  void fill(std::size_t k, std::int64_t room, double worth) {
    if (worth > worth_best_ + 1e-12) {
      worth_best_ = worth;
      found_ = pattern_;
    }
    if (k == order_.size()) return;
    const int d = order_[k];
    const double most = price(d) / static_cast<double>(demand_[at(d)].length);
    if (worth + most * static_cast<double>(room) <= worth_best_ + 1e-12) return;
    for (int n = fits(d, room); n >= 0; --n) {
      pattern_[at(d)] = n;
      fill(k + 1, room - n * demand_[at(d)].length, worth + n * price(d));
    }
    pattern_[at(d)] = 0;
  }

  void over_known_patterns() {
    const auto answer =
        solve_integer(program(known_), static_cast<double>(best_.cost) - 0.5, few_nodes);
    if (answer.best) offer_solution(known_, *answer.best);
  }

  /// A plan cheaper than the best uses only patterns whose reduced cost is within the gap; with all of
  /// them in the program, its answer is final.
  /// @returns  whether they were no more than `most`
  bool over_all_patterns(std::size_t most) {
    const double gap = static_cast<double>(best_.cost - step_) - relaxed_.value;
    std::vector<Cut> all;
    sort_by_worth();
    for (std::size_t s = 0; s < stock_.size(); ++s) {
      pattern_.assign(demand_.size(), 0);
      const double least = static_cast<double>(stock_[s].cost) - gap - eps;
      if (!list(0, static_cast<int>(s), stock_[s].length, 0, least, most, all)) return false;
    }
    const auto answer =
        solve_integer(program(all), static_cast<double>(best_.cost) - 0.5, most_nodes);
    if (answer.best) offer_solution(all, *answer.best);
    if (answer.proved) best_.bound = best_.cost;
    return true;
  }

  bool list(std::size_t k, int s, std::int64_t room, double worth, double least, std::size_t cap,
            std::vector<Cut>& all) {
    if (k == order_.size()) {
      if (worth < least) return true;
      if (all.size() >= cap) return false;
      all.push_back({s, pattern_});
      return true;
    }
    const int d = order_[k];
    const double most = price(d) / static_cast<double>(demand_[at(d)].length);
    if (worth + most * static_cast<double>(room) < least) return true;
    for (int n = fits(d, room); n >= 0; --n) {
      pattern_[at(d)] = n;
      if (!list(k + 1, s, room - n * demand_[at(d)].length, worth + n * price(d), least, cap, all))
        return false;
    }
    pattern_[at(d)] = 0;
    return true;
  }

  void offer_solution(const std::vector<Cut>& cuts, const Solution& solution) {
    std::vector<int> times;
    times.reserve(cuts.size());
    for (const double x : solution.x) times.push_back(static_cast<int>(std::lround(x)));
    // Trusted only when it really cuts every piece.
    for (std::size_t d = 0; d < demand_.size(); ++d) {
      std::int64_t cut = 0;
      for (std::size_t i = 0; i < cuts.size(); ++i)
        cut += static_cast<std::int64_t>(times[i]) * cuts[i].count[d];
      if (cut < demand_[d].count) return;
    }
    offer(cuts, times);
  }

  static std::size_t at(int i) { return static_cast<std::size_t>(i); }

  const std::vector<StockLength>& stock_;
  const std::vector<CutDemand>& demand_;
  std::int64_t step_ = 0;
  std::vector<int> order_;
  std::vector<Cut> known_;
  Solution relaxed_;
  CuttingPlan best_;
  double worth_best_ = 0;
  std::vector<int> pattern_, found_;
};

}  // namespace

CuttingPlan cut_stock(const std::vector<StockLength>& stock, const std::vector<CutDemand>& demand) {
  std::vector<CutDemand> asked;
  for (const auto& d : demand)
    if (d.count > 0 && d.length > 0) asked.push_back(d);
  if (asked.empty()) return {};
  if (asked.size() == demand.size()) return Solver(stock, demand).solve();
  // Patterns are told by the caller's own list.
  auto plan = Solver(stock, asked).solve();
  for (auto& p : plan.patterns) {
    std::vector<int> whole;
    std::size_t k = 0;
    for (const auto& d : demand) whole.push_back(d.count > 0 && d.length > 0 ? p.count[k++] : 0);
    p.count = whole;
  }
  return plan;
}

}  // namespace stringwright::design
