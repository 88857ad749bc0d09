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
  if (ahead) {
    std::size_t n = 0;  // edges at or before the station
    while (n < e.size() && e[n].station <= station) ++n;
    if (n == 0 || n == e.size()) return (n == 0 ? e.front() : e.back()).*m;
    return e[n - 1].station == station ? e[n - 1].*m : between(e[n - 1], e[n], m, station);
  }
  std::size_t i = 0;  // first edge at or after the station
  while (i < e.size() && e[i].station < station) ++i;
  if (i == 0 || i == e.size()) return (i == 0 ? e.front() : e.back()).*m;
  return between(e[i - 1], e[i], m, station);
}

/// Slope of one side on the piece of the law that ends (or begins) at edge i; 0 outside the law.
double slope(const std::vector<EdgeData>& e, Member m, std::size_t from) {
  if (from + 1 >= e.size() || e[from].station == e[from + 1].station) return 0;
  return (e[from + 1].*m - e[from].*m) / (e[from + 1].station - e[from].station);
}

}  // namespace

Length DeckEdges::left(Length station, bool ahead) const {
  return side_at(edges_, &EdgeData::left, station, ahead);
}

Length DeckEdges::right(Length station, bool ahead) const {
  return side_at(edges_, &EdgeData::right, station, ahead);
}

std::vector<Length> DeckEdges::steps() const {
  std::vector<Length> found;
  for (std::size_t i = 1; i < edges_.size(); ++i)
    if (edges_[i].station == edges_[i - 1].station) found.push_back(edges_[i].station);
  return found;
}

std::vector<Length> DeckEdges::breaks() const {
  std::vector<Length> found;
  for (std::size_t i = 0; i < edges_.size(); ++i) {
    const Length s = edges_[i].station;
    if (!found.empty() && found.back() == s) continue;
    bool corner = false;
    for (Member m : {&EdgeData::left, &EdgeData::right}) {
      const bool step = i + 1 < edges_.size() && edges_[i + 1].station == s;
      const std::size_t last = step ? i + 1 : i;
      const double before = i == 0 ? 0 : slope(edges_, m, i - 1);
      corner |=
          edges_[i].*m != edges_[last].*m || std::abs(before - slope(edges_, m, last)) > 1e-12;
    }
    if (corner) found.push_back(s);
  }
  return found;
}

}  // namespace deckquire
