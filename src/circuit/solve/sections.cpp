#include "circuit/solve/sections.hpp"

#include <algorithm>
#include <numeric>
#include <string>

namespace stringwright::circuit::solve_detail {
namespace {

std::optional<Failure> refuse(const Network& n) {
  const auto node = [&](int k) { return k >= 0 && k < n.nodes; };
  for (std::size_t k = 0; k < n.elements.size(); ++k) {
    const Element& e = n.elements[k];
    if (!node(e.plus) || !node(e.minus) || e.law < 0 || e.law >= static_cast<int>(n.laws.size()) ||
        e.count < 1) {
      return Failure{"circuit.bad-network",
                     "element " + std::to_string(k) + " names a node or a law that is not there"};
    }
  }
  for (const int k : n.references) {
    if (!node(k))
      return Failure{"circuit.bad-network", "a reference names a node that is not there"};
  }
  return std::nullopt;
}

/// Elements at each node: those of node k stand at first[k] ... first[k + 1].
struct Incidence {
  std::vector<int> first, element;

  explicit Incidence(const Network& n) : first(n.nodes + 1, 0), element(2 * n.elements.size()) {
    for (const Element& e : n.elements) ++first[e.plus + 1], ++first[e.minus + 1];
    std::partial_sum(first.begin(), first.end(), first.begin());
    std::vector<int> next(first.begin(), first.end() - 1);
    for (std::size_t k = 0; k < n.elements.size(); ++k) {
      element[next[n.elements[k].plus]++] = static_cast<int>(k);
      element[next[n.elements[k].minus]++] = static_cast<int>(k);
    }
  }
  int degree(int node) const { return first[node + 1] - first[node]; }
  int other(int node, int than) const {
    return element[first[node]] == than ? element[first[node] + 1] : element[first[node]];
  }
};

class Apart {
 public:
  Apart(const Network& network, const std::vector<std::optional<Linear>>& straight, bool merge)
      : n_(network), straight_(straight), merge_(merge), at_(network) {
    s_.knot.assign(n_.nodes, -1);
    s_.section_of.assign(n_.elements.size(), -1);
    s_.sign_of.assign(n_.elements.size(), 1);
    s_.links.reserve(n_.elements.size());
  }

  Sections run() {
    for (int k = 0; k < n_.nodes; ++k)
      if (at_.degree(k) != 2) add_knot(k);
    for (std::size_t k = 0; k < s_.node.size();
         ++k) {  // knots of rings come last and have no start here
      const int node = s_.node[k];
      for (int j = at_.first[node]; j < at_.first[node + 1]; ++j)
        if (s_.section_of[at_.element[j]] < 0) walk(node, at_.element[j]);
    }
    // What is left are rings without a branch: any node of one will do as its knot.
    for (std::size_t e = 0; e < n_.elements.size(); ++e) {
      if (s_.section_of[e] >= 0) continue;
      const int node = n_.elements[e].minus;
      add_knot(node);
      walk(node, static_cast<int>(e));
    }
    find_dead_ends();
    find_parts();
    return std::move(s_);
  }

 private:
  void add_knot(int node) {
    s_.knot[node] = static_cast<int>(s_.node.size());
    s_.node.push_back(node);
  }

  void walk(int node, int element) {
    Section s;
    s.from = s_.knot[node];
    s.term = static_cast<int>(s_.terms.size());
    s.link = static_cast<int>(s_.links.size());
    const int index = static_cast<int>(s_.all.size());
    while (true) {
      const Element& e = n_.elements[element];
      const double sign = e.minus == node ? 1 : -1;
      s_.section_of[element] = index;
      s_.sign_of[element] = sign;
      s_.links.push_back({element, sign, add_to(s, e, sign)});
      node = sign > 0 ? e.plus : e.minus;
      if (s_.knot[node] >= 0) break;
      element = at_.other(node, element);
    }
    s.to = s_.knot[node];
    s.terms = static_cast<int>(s_.terms.size()) - s.term;
    s.links = static_cast<int>(s_.links.size()) - s.link;
    s.rigid = s.terms == 0 && s.r == 0;
    s_.all.push_back(s);
  }

  /// Returns the term, or -1 where the law is a straight line.
  int add_to(Section& s, const Element& e, double sign) {
    if (const auto& line = straight_[e.law]) {
      s.e += sign * e.count * line->e.si();
      s.r += e.count * line->r.si();
      return -1;
    }
    const int end = static_cast<int>(s_.terms.size());
    if (merge_) {
      // Few laws differ within a chain; where many do, finding the last ones is enough.
      for (int t = end - 1; t >= std::max(s.term, end - 16); --t) {
        Term& term = s_.terms[t];
        if (term.law == e.law && term.sign == sign) {
          term.count += e.count;
          return t;
        }
      }
    }
    s_.terms.push_back({e.law, static_cast<double>(e.count), sign});
    return end;
  }

  void find_dead_ends() {
    std::vector<std::vector<int>> at(s_.node.size());
    std::vector<int> degree(s_.node.size(), 0);
    for (std::size_t k = 0; k < s_.all.size(); ++k) {
      for (const int knot : {s_.all[k].from, s_.all[k].to}) {
        at[knot].push_back(static_cast<int>(k));
        ++degree[knot];
      }
    }
    std::vector<int> loose;
    for (std::size_t k = 0; k < degree.size(); ++k)
      if (degree[k] == 1) loose.push_back(static_cast<int>(k));
    while (!loose.empty()) {
      const int knot = loose.back();
      loose.pop_back();
      if (degree[knot] != 1) continue;
      for (const int k : at[knot]) {
        Section& s = s_.all[k];
        if (!s.live) continue;
        s.live = false;
        s_.dead_ends.push_back({k, knot});
        const int far = s.from == knot ? s.to : s.from;
        --degree[knot];
        if (--degree[far] == 1) loose.push_back(far);
      }
    }
  }

  void find_parts() {
    std::vector<int> root(n_.nodes);
    std::iota(root.begin(), root.end(), 0);
    const auto find = [&](int k) {
      while (root[k] != k) k = root[k] = root[root[k]];
      return k;
    };
    for (const Element& e : n_.elements) root[find(e.plus)] = find(e.minus);
    std::vector<int> number(n_.nodes, -1);
    s_.part.resize(n_.nodes);
    for (int k = 0; k < n_.nodes; ++k) {
      int& part = number[find(k)];
      if (part < 0) part = s_.parts++;
      s_.part[k] = part;
    }
  }

  const Network& n_;
  const std::vector<std::optional<Linear>>& straight_;
  bool merge_;
  Incidence at_;
  Sections s_;
};

}  // namespace

std::vector<std::optional<Linear>> straight_lines(const Network& n) {
  std::vector<std::optional<Linear>> all;
  all.reserve(n.laws.size());
  for (const Law& law : n.laws) all.push_back(linear(law));
  return all;
}

Result<Sections> take_apart(const Network& n, const std::vector<std::optional<Linear>>& straight,
                            bool merge) {
  if (auto f = refuse(n)) return *f;
  return Apart(n, straight, merge).run();
}

}  // namespace stringwright::circuit::solve_detail
