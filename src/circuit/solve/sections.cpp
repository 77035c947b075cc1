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

/// Elements at each node. Most nodes are inside of a chain and have two; only those of the others take a
/// list.
class Incidence {
 public:
  explicit Incidence(const Network& n) : n_(n), at_(n.nodes) {
    for (std::size_t k = 0; k < n.elements.size(); ++k) {
      add(n.elements[k].plus, static_cast<int>(k));
      add(n.elements[k].minus, static_cast<int>(k));
    }
  }
  int degree(int node) const { return at_[node].degree; }
  int other(int node, int than) const {
    return at_[node].two[0] == than ? at_[node].two[1] : at_[node].two[0];
  }
  /// Elements of the knots: those of knot k stand at first[k] ... first[k + 1].
  void list(const std::vector<int>& node, const std::vector<int>& knot, std::vector<int>& first,
            std::vector<int>& element) const {
    first.assign(node.size() + 1, 0);
    for (std::size_t k = 0; k < node.size(); ++k) first[k + 1] = first[k] + degree(node[k]);
    element.resize(first.back());
    std::vector<int> next(first.begin(), first.end() - 1);
    for (std::size_t k = 0; k < n_.elements.size(); ++k) {
      const Element& e = n_.elements[k];
      if (knot[e.plus] >= 0) element[next[knot[e.plus]]++] = static_cast<int>(k);
      if (knot[e.minus] >= 0) element[next[knot[e.minus]]++] = static_cast<int>(k);
    }
  }

 private:
  struct Node {
    int degree = 0;
    int two[2] = {-1, -1};
  };
  void add(int node, int element) {
    Node& x = at_[node];
    if (x.degree < 2) x.two[x.degree] = element;
    ++x.degree;
  }
  const Network& n_;
  std::vector<Node> at_;
};

class Apart {
 public:
  Apart(const Network& network, bool merge) : n_(network), merge_(merge), at_(network) {
    knot_.assign(n_.nodes, -1);
    s_.section_of.assign(n_.elements.size(), -1);
    s_.links.reserve(n_.elements.size());
  }

  Sections run() {
    for (int k = 0; k < n_.nodes; ++k)
      if (at_.degree(k) != 2) add_knot(k);
    std::vector<int> first, element;
    at_.list(s_.node, knot_, first, element);
    for (std::size_t k = 0; k + 1 < first.size(); ++k)
      for (int j = first[k]; j < first[k + 1]; ++j)
        if (s_.section_of[element[j]] < 0) walk(s_.node[k], element[j]);
    // What is left are rings without a branch: any node of one will do as its knot.
    if (s_.links.size() < n_.elements.size()) {
      for (std::size_t e = 0; e < n_.elements.size(); ++e) {
        if (s_.section_of[e] >= 0) continue;
        const int node = n_.elements[e].minus;
        add_knot(node);
        walk(node, static_cast<int>(e));
      }
    }
    find_dead_ends();
    find_parts();
    return std::move(s_);
  }

 private:
  void add_knot(int node) {
    knot_[node] = static_cast<int>(s_.node.size());
    s_.node.push_back(node);
  }

  void walk(int node, int element) {
    Section s;
    s.from = knot_[node];
    s.term = static_cast<int>(s_.terms.size());
    s.link = static_cast<int>(s_.links.size());
    const int index = static_cast<int>(s_.all.size());
    while (true) {
      const Element& e = n_.elements[element];
      const int sign = e.minus == node ? 1 : -1;
      s_.section_of[element] = index;
      s_.links.push_back({element, add_to(s, e, sign), sign});
      node = sign > 0 ? e.plus : e.minus;
      if (knot_[node] >= 0) break;
      element = at_.other(node, element);
    }
    s.to = knot_[node];
    s.terms = static_cast<int>(s_.terms.size()) - s.term;
    s.links = static_cast<int>(s_.links.size()) - s.link;
    s.rigid = s.terms == 0 && s.r == 0;
    s_.all.push_back(s);
  }

  /// Returns the term, or -1 where the law is a straight line.
  int add_to(Section& s, const Element& e, int sign) {
    if (const auto line = linear(n_.laws[e.law])) {
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
    s_.terms.push_back({e.law, static_cast<double>(e.count), static_cast<double>(sign)});
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
    const int knots = static_cast<int>(s_.node.size());
    std::vector<int> root(knots);
    std::iota(root.begin(), root.end(), 0);
    const auto find = [&](int k) {
      while (root[k] != k) k = root[k] = root[root[k]];
      return k;
    };
    for (const Section& x : s_.all) root[find(x.from)] = find(x.to);
    std::vector<int> number(knots, -1);
    s_.part.resize(knots);
    for (int k = 0; k < knots; ++k) {
      int& part = number[find(k)];
      if (part < 0) part = s_.parts++;
      s_.part[k] = part;
    }
  }

  const Network& n_;
  bool merge_;
  Incidence at_;
  std::vector<int> knot_;  // [n_nodes] -1: inside a chain
  Sections s_;
};

}  // namespace

int Sections::sign_of(int element) const {
  const Section& x = all[section_of[element]];
  for (int l = x.link; l < x.link + x.links; ++l)
    if (links[l].element == element) return links[l].sign;
  return 1;
}

Result<Sections> take_apart(const Network& n, bool merge) {
  if (auto f = refuse(n)) return *f;
  return Apart(n, merge).run();
}

}  // namespace stringwright::circuit::solve_detail
