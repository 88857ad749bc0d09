#include <algorithm>
#include <cmath>

#include "bridge/bridge.h"

namespace deckquire {
namespace {

using Member = Length EdgeData::*;

Length between(const EdgeData& a, const EdgeData& b, Member m, Length station) {
  if (a.station == b.station || station == b.station) return b.*m;
  return a.*m + (b.*m - a.*m) * ((station - a.station) / (b.station - a.station));
}

Length side_at(const std::vector<EdgeData>& e, Member m, Length station, bool ahead) {
  if (e.empty()) return Length();
  // The first point that lies ahead of the station; or, seen from behind, that is not behind it.
  const auto next = std::partition_point(e.begin(), e.end(), [&](const EdgeData& p) {
    return ahead ? p.station <= station : p.station < station;
  });
  if (next == e.begin() || next == e.end()) return (next == e.begin() ? e.front() : e.back()).*m;
  const EdgeData& before = *(next - 1);
  return ahead && before.station == station ? before.*m : between(before, *next, m, station);
}

/// Slope of one side on the piece of the law that ends (or begins) at edge i; 0 outside the law.
double slope(const std::vector<EdgeData>& e, Member m, std::size_t from) {
  if (from + 1 >= e.size() || e[from].station == e[from + 1].station) return 0;
  return (e[from + 1].*m - e[from].*m) / (e[from + 1].station - e[from].station);
}

std::vector<Length> steps_of(const std::vector<EdgeData>& edges) {
  std::vector<Length> found;
  for (std::size_t i = 1; i < edges.size(); ++i)
    if (edges[i].station == edges[i - 1].station) found.push_back(edges[i].station);
  return found;
}

std::vector<Length> breaks_of(const std::vector<EdgeData>& edges) {
  std::vector<Length> found;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const Length s = edges[i].station;
    if (!found.empty() && found.back() == s) continue;
    bool corner = false;
    for (Member m : {&EdgeData::left, &EdgeData::right}) {
      const bool step = i + 1 < edges.size() && edges[i + 1].station == s;
      const std::size_t last = step ? i + 1 : i;
      const double before = i == 0 ? 0 : slope(edges, m, i - 1);
      corner |= edges[i].*m != edges[last].*m || std::abs(before - slope(edges, m, last)) > 1e-12;
    }
    if (corner) found.push_back(s);
  }
  return found;
}

}  // namespace

DeckEdges::DeckEdges(std::vector<EdgeData> edges)
    : edges_(std::move(edges)), breaks_(breaks_of(edges_)), steps_(steps_of(edges_)) {
  for (const EdgeData& e : edges_) {
    most_left_ = std::max(most_left_, e.left);
    most_right_ = std::max(most_right_, e.right);
  }
}

Length DeckEdges::left(Length station, bool ahead) const {
  return side_at(edges_, &EdgeData::left, station, ahead);
}

Length DeckEdges::right(Length station, bool ahead) const {
  return side_at(edges_, &EdgeData::right, station, ahead);
}

}  // namespace deckquire
