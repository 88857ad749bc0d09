// Panels in their places, and the sums of every span.
#include <cmath>

#include "schedules/parts.h"
#include "schedules/schedules.h"

namespace deckquire {
namespace {

double chain_length(const std::vector<PanelPoint>& chain) {
  double sum = 0;
  for (std::size_t i = 1; i < chain.size(); ++i)
    sum += std::hypot(chain[i].x - chain[i - 1].x, chain[i].y - chain[i - 1].y);
  return sum;
}

/// Between the corners of one end.
double end_width(PanelPoint left, PanelPoint right) {
  return std::hypot(left.x - right.x, left.y - right.y);
}

const std::string& joint_at(const Deck& deck, int joint) {
  return deck.joints[static_cast<std::size_t>(joint)].name;
}

std::vector<Cell> panel_row(const Bridge& bridge, const Deck& deck, const Panel& p) {
  const Mark& m = deck.marks[static_cast<std::size_t>(p.mark)];
  return {std::int64_t{p.position},
          p.serial,
          m.name,
          std::string(p.turned ? "yes" : "no"),
          deck.spans[static_cast<std::size_t>(p.span)].name,
          p.start,
          p.end,
          chain_length(p.left_edge),
          chain_length(p.right_edge),
          end_width(p.left_edge.front(), p.right_edge.front()),
          end_width(p.left_edge.back(), p.right_edge.back()),
          m.masses.top_area.in_si(),
          m.masses.total.in_si(),
          joint_at(deck, p.joint_back),
          joint_at(deck, p.joint_ahead),
          bridge.alignment.level(p.start),
          bridge.alignment.level(p.end),
          panel_sheet_number(p.mark)};
}

struct SpanSums {
  Length panels, gaps;
};

SpanSums sums(const Deck& deck, const SpanRun& s) {
  SpanSums out;
  const Panel* before = nullptr;
  for (int i = s.first; i < s.first + s.count; ++i) {
    const Panel& p = deck.panels[static_cast<std::size_t>(i)];
    if (p.row > 0) continue;  // beside the first row: the same lengths along the alignment
    out.panels += p.end - p.start;
    if (before) out.gaps += p.start - before->end;
    before = &p;
  }
  return out;
}

}  // namespace

Length slope_excess(const Alignment& alignment, Length from, Length to) {
  std::vector<Length> stations{from};
  for (Length s : alignment.level_breaks(from, to)) stations.push_back(s);
  stations.push_back(to);
  double sum = 0;
  for (std::size_t i = 0; i + 1 < stations.size(); ++i)
    sum += std::hypot((stations[i + 1] - stations[i]).in_mm(),
                      (alignment.level(stations[i + 1]) - alignment.level(stations[i])).in_mm());
  return mm(sum - (to - from).in_mm());
}

Table panels_table(const Bridge& bridge, const Deck& deck) {
  Table t{
      "panels",
      "PANELS IN POSITION",
      "Positions run ahead along the bridge. Stations are those of the "
      "panel's own end faces; left and right are seen looking ahead; levels are those of the "
      "moulded top at the high line, without the wearing surface.",
      {},
      {},
      {},
      true};
  t.columns = {{"position", "Position", Measure::count},
               {"serial", "Serial", Measure::text},
               {"mark", "Mark", Measure::text},
               {"turned", "Turned", Measure::text},
               {"span", "Span", Measure::text},
               {"start_station_m", "Start station", Measure::station},
               {"end_station_m", "End station", Measure::station},
               {"length_left_mm", "Length left", Measure::length},
               {"length_right_mm", "Length right", Measure::length},
               {"width_start_mm", "Width at start", Measure::length},
               {"width_end_mm", "Width at end", Measure::length},
               {"area_m2", "Area", Measure::area},
               {"mass_kg", "Mass", Measure::mass},
               {"joint_back", "Joint back", Measure::text},
               {"joint_ahead", "Joint ahead", Measure::text},
               {"level_start_m", "Level at start", Measure::level},
               {"level_end_m", "Level at end", Measure::level},
               {"sheet", "Sheet", Measure::text}};
  double area = 0, mass = 0;
  for (const Panel& p : deck.panels) {
    const Masses& m = deck.marks[static_cast<std::size_t>(p.mark)].masses;
    t.rows.push_back(panel_row(bridge, deck, p));
    area += m.top_area.in_si();
    mass += m.total.in_si();
  }
  t.total.assign(t.columns.size(), {});
  t.total[0] = static_cast<std::int64_t>(deck.panels.size());
  t.total[1] = std::string("panels");
  t.total[11] = area;
  t.total[12] = mass;
  return t;
}

Table spans_table(const Bridge& bridge, const Deck& deck) {
  Table t{"spans",
          "SUMS OF THE SPANS",
          "Panels, joint gaps and the span's share of the end gaps make up the span; what is left "
          "over is the closure. Along the grade the deck is longer than its plan by the slope "
          "excess, which the joint gaps take up.",
          {},
          {},
          {},
          true};
  t.columns = {{"span", "Span", Measure::text},
               {"from_m", "From", Measure::station},
               {"to_m", "To", Measure::station},
               {"length_mm", "Length", Measure::length},
               {"panels", "Panels", Measure::count},
               {"panel_lengths_mm", "Panel lengths", Measure::length},
               {"gaps_mm", "Joint gaps", Measure::length},
               {"end_gaps_mm", "End gaps", Measure::length},
               {"closure_mm", "Closure", Measure::length},
               {"slope_excess_mm", "Slope excess", Measure::length}};
  Length length, panels, gaps, ends, closure, excess;
  std::int64_t count = 0;
  for (const SpanRun& s : deck.spans) {
    const auto sum = sums(deck, s);
    const Length end_gaps = s.end_gap_back + s.end_gap_ahead;
    const Length left = s.to - s.from - sum.panels - sum.gaps - end_gaps;
    const Length slope = slope_excess(bridge.alignment, s.from, s.to);
    t.rows.push_back({s.name, s.from, s.to, s.to - s.from, std::int64_t{s.count}, sum.panels,
                      sum.gaps, end_gaps, left, slope});
    length += s.to - s.from;
    panels += sum.panels;
    gaps += sum.gaps;
    ends += end_gaps;
    closure += left;
    excess += slope;
    count += s.count;
  }
  t.total = {std::string("Total"), {}, {}, length, count, panels, gaps, ends, closure, excess};
  return t;
}

}  // namespace deckquire
