// Joint labels, match lines and dimensions of a strip.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sheets/erection_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::LetterUse;
using paper::PenUse;
using paper::Stand;

void tick(const StripDrawing& s, double x, double y) {
  const double r = s.board.style().terminator_size / 2 / std::sqrt(2.0);
  s.board.line(PenUse::dimension, {x - r, y - r}, {x + r, y + r});
}

/// The value over its part of the line; turned, and under it, when the part is too short.
void panel_value(const StripDrawing& s, double a, double b, std::int64_t value) {
  const std::string text = print_whole_units(value, s.input.project.units);
  const double y = s.y(s.frame.panels), width = s.board.text_width(LetterUse::dimension, text);
  if (width <= b - a - 2)
    s.board.text(LetterUse::dimension, {(a + b) / 2, y + 1}, text, Align::centre);
  else
    s.board.masked_text(LetterUse::dimension, {(a + b) / 2, y + 1 + width / 2}, text, Align::centre,
                        Stand::middle, false);
}

/// Where the work line or the face lies from which the chain of a strip runs.
std::string start_name(const SetInput& input, Length station) {
  for (const Support& support : input.bridge.supports)
    if (support.station == station) return support.name;
  return "work line";
}

void gap_values(const StripDrawing& s, const PanelChain& chain) {
  const double y = s.y(s.frame.gaps) + 0.6;
  const UnitSystem units = s.input.project.units;
  for (std::size_t i = 0; i < chain.gaps.size(); ++i) {
    if (i == 0 && !s.first()) continue;
    const std::string text = print_whole_units(chain.gaps[i], units);
    const Joint& joint = s.joint(s.first_joint() + static_cast<int>(i));
    double x = s.x(joint.station);
    Align align = Align::centre;
    std::string shown = text;
    if (i == 0) {
      shown = "set " + text + " from " + start_name(s.input, chain.from);
      align = Align::right;
      x += s.board.text_width(LetterUse::dimension, text) / 2;
    }
    s.board.text(LetterUse::dimension, {x, y}, shown, align);
  }
  s.board.text(LetterUse::dimension, {s.from() - s.frame.left, s.y(s.frame.panels) - 0.4}, "Panels",
               Align::left);
  if (!s.first())
    s.board.text(LetterUse::dimension, {s.from() - s.frame.left, y}, "Gaps", Align::left);
}

void panel_line(const StripDrawing& s, const PanelChain& chain) {
  const double y = s.y(s.frame.panels), least = 1.0;
  s.board.line(PenUse::dimension, {s.x(chain.from) - 1, y}, {s.x(chain.to) + 1, y});
  tick(s, s.x(chain.from), y);
  double last = s.x(chain.from);
  const std::vector<Bay> bays = s.bays();
  for (std::size_t i = 0; i < bays.size(); ++i) {
    const Panel& p = s.at(bays[i].first);
    const double a = s.x(p.start), b = s.x(p.end);
    if (a - last > least) tick(s, a, y);
    tick(s, b, y);
    last = b;
    panel_value(s, a, b, chain.panels[i]);
  }
  if (s.x(chain.to) - last > least) tick(s, s.x(chain.to), y);
}

/// Quiet lines from the deck's edge to the chain, so that a figure finds its joint. From the end of
/// a skewed joint they turn to its station on the alignment.
void stems(const StripDrawing& s) {
  for (int j = s.first_joint(); j <= s.last_joint(); ++j) {
    const double x = s.x(s.joint(j).station);
    const paper::PaperPoint end = s.view(joint_end(s.input.bridge, s.joint(j), Side::right));
    paper::Path path;
    path.move({end.x, end.y - s.board.style().extension_gap});
    if (s.joint(j).skew != 0) {
      path.line({end.x, s.y(s.frame.deck_bottom) - 2.5});
      path.line({x, s.y(s.frame.edge_rows)});
    }
    path.line({x, s.y(s.frame.panels)});
    s.board.stroke(PenUse::dimension, std::move(path));
  }
}

void long_chains(const StripDrawing& s, const PanelChain& chain) {
  std::vector<Length> stations{chain.from};
  for (const Support& support : s.input.bridge.supports)
    if (support.station > chain.from && support.station < chain.to)
      stations.push_back(support.station);
  stations.push_back(chain.to);
  std::vector<paper::ChainPoint> points;
  const Length zero = s.input.deck.spans.front().from;
  for (Length station : stations)
    points.push_back({s.x(station), station - zero, s.y(s.frame.gaps) - 0.5});
  paper::ChainLine line;
  line.units = s.input.project.units;
  line.merge = false;
  const double left = s.from() - s.frame.left;
  line.across = s.y(s.frame.overall);
  paper::dimension(s.board, line, points.front(), points.back());
  s.board.text(LetterUse::dimension, {left, s.y(s.frame.overall)}, "Strip");
  if (points.size() <= 2) return;
  line.across = s.y(s.frame.spans);  // after the outer one, whose lines break around its figures
  paper::chain(s.board, line, points);
  s.board.text(LetterUse::dimension, {left, s.y(s.frame.spans)}, "To supports");
}

std::string sheet_of(const SetPlan& plan, const Strip& strip) {
  return plan.erection_sheet(strip.first);
}

std::string continues(const SetPlan& plan, std::size_t from, std::size_t to) {
  if (plan.strips[from].sheet != plan.strips[to].sheet)
    return "SEE " + sheet_of(plan, plan.strips[to]);
  return fmt::format("SEE STRIP {} {}", to + 1, to > from ? "BELOW" : "ABOVE");
}

/// The match line, broken where the joint's own figures stand.
void match_line(const StripDrawing& s, bool ahead) {
  const std::string label = match_label(s.input, s.plan, s.number, ahead);
  if (label.empty()) return;
  const std::size_t neighbour = ahead ? s.number + 1 : s.number - 1;
  const Joint& joint = s.joint(ahead ? s.last_joint() : s.first_joint());
  const paper::Group group(s.board, fmt::format("match-{}-{}", s.number + 1, joint.name),
                           "match-line", "", sheet_of(s.plan, s.plan.strips[neighbour]));
  const double x = s.x(joint.station);
  s.board.line(PenUse::match, {x, s.y(s.frame.profile_top) + 1.5},
               {x, s.y(s.frame.profile_bottom)});
  std::vector<paper::PaperPoint> line = joint_on_strip(s, joint);
  line.insert(line.begin(), {line.front().x, s.y(s.frame.deck_bottom) - 2});
  line.push_back({line.back().x, s.y(s.frame.deck_top) + 2});
  if (joint.skew == 0) line = {line.back(), line.front()};
  paper::Path across;
  for (paper::PaperPoint p : line) across.empty() ? across.move(p) : across.line(p);
  s.board.stroke(PenUse::match, std::move(across));
  s.board.text(LetterUse::heading, {ahead ? x + s.frame.right : x - s.frame.left, s.top}, label,
               ahead ? Align::right : Align::left, Stand::top);
}

// ---- edge rows

struct EdgeStop {
  Length station;
  bool start, end;  // of the strip
};

std::vector<EdgeStop> edge_stops(const StripDrawing& s) {
  std::vector<EdgeStop> stops{{s.strip().from, true, false}};
  for (Length at : s.input.bridge.edges.breaks())
    if (at > s.strip().from + mm(1) && at < s.strip().to - mm(1))
      stops.push_back({at, false, false});
  stops.push_back({s.strip().to, false, true});
  return stops;
}

Length edge_value(const StripDrawing& s, int row, Length at, bool ahead) {
  const DeckEdges& e = s.input.bridge.edges;
  if (row == 0) return e.left(at, ahead);
  if (row == 1) return e.right(at, ahead);
  return e.left(at, ahead) + e.right(at, ahead);
}

void edge_row(const StripDrawing& s, int row, double base) {
  const UnitSystem units = s.input.project.units;
  double used = -1e9;
  for (const EdgeStop& stop : edge_stops(s)) {
    const Length back = edge_value(s, row, stop.station, stop.start);
    const Length ahead = edge_value(s, row, stop.station, !stop.end);
    std::string text = print_length(back, units);
    if (back != ahead) text += " | " + print_length(ahead, units);
    const double width = s.board.text_width(LetterUse::dimension, text);
    const double x = s.x(stop.station);
    if (x - width / 2 < used) continue;
    used = x + width / 2 + 1;
    s.board.masked_text(LetterUse::dimension, {x, base}, text, Align::centre, Stand::base);
  }
}

/// Edges and faces of the row joints where the strip begins: widths of the rows and their gaps.
std::vector<Length> row_stops(const StripDrawing& s) {
  std::vector<Length> out;
  for (const RowJoint& r : s.input.deck.row_joints) {
    if (r.from > s.strip().from || r.to <= s.strip().from) continue;
    out.push_back(r.offset - r.gap / 2);
    out.push_back(r.offset + r.gap / 2);
  }
  if (out.empty()) return out;
  out.push_back(-s.input.bridge.edges.right(s.strip().from));
  out.push_back(s.input.bridge.edges.left(s.strip().from));
  return out;
}

}  // namespace

bool StripDrawing::holds(Length station) const {
  const Length low = first() ? input.deck.spans.front().from : strip().from;
  const Length high = last() ? input.deck.spans.back().to : strip().to;
  return station >= low && station <= high;
}

PanelChain panel_chain(const SetInput& input, const Strip& strip) {
  const Deck& deck = input.deck;
  const Length unit = print_unit(input.project.units), zero = deck.spans.front().from;
  const std::size_t first = static_cast<std::size_t>(strip.first);
  const std::size_t end = first + static_cast<std::size_t>(strip.count);
  PanelChain chain;
  chain.from = first == 0 ? zero : deck.panels[first].start;
  chain.to = end == deck.panels.size() ? deck.spans.back().to : deck.panels[end].start;
  std::int64_t at = whole_units(chain.from - zero, unit);
  const std::int64_t begin = at;
  const auto next = [&](Length station) {
    const std::int64_t here = whole_units(station - zero, unit);
    const std::int64_t value = here - at;
    at = here;
    return value;
  };
  for (const Bay& bay : bays_of(deck, strip.first, strip.count)) {
    const Panel& p = deck.panels[static_cast<std::size_t>(bay.first)];
    chain.gaps.push_back(next(p.start));
    chain.panels.push_back(next(p.end));
  }
  chain.gaps.push_back(next(chain.to));
  chain.total = at - begin;
  return chain;
}

std::string match_label(const SetInput& input, const SetPlan& plan, std::size_t strip, bool ahead) {
  if (ahead ? strip + 1 == plan.strips.size() : strip == 0) return "";
  const Strip& own = plan.strips[strip];
  const Deck& deck = input.deck;
  const int panel = ahead ? own.first + own.count - 1 : own.first;
  const Panel& p = deck.panels[static_cast<std::size_t>(panel)];
  const Joint& joint = deck.joints[static_cast<std::size_t>(ahead ? p.joint_ahead : p.joint_back)];
  return fmt::format("MATCH LINE {}  {}  {}", joint.name,
                     print_station(joint.station, input.project.units),
                     continues(plan, strip, ahead ? strip + 1 : strip - 1));
}

void draw_match_lines(const StripDrawing& s) {
  match_line(s, false);
  match_line(s, true);
}

void draw_joint_labels(const StripDrawing& s) {
  const double bar = s.y(s.frame.joint_bar), d = s.letters(LetterUse::dimension);
  for (int j = s.first_joint(); j <= s.last_joint(); ++j) {
    const Joint& joint = s.joint(j);
    const std::string station = print_station(joint.station, s.input.project.units);
    const paper::Group group(s.board, fmt::format("joint-{}-{}", s.number + 1, joint.name), "joint",
                             fmt::format("{} at {}, gap {}", joint.name, station,
                                         print_length(joint.gap, s.input.project.units)));
    const paper::PaperPoint end = s.view(joint_end(s.input.bridge, joint, Side::left));
    const double x = end.x, edge = end.y, half = s.frame.upright ? 5 : d / 2 + 0.8;
    s.board.line(PenUse::mark, {x - half, bar}, {x + half, bar});
    s.board.line(PenUse::dimension, {x, bar}, {x, edge + 1});
    if (s.frame.upright) {
      s.labels.text(s.board.text(LetterUse::dimension, {x, bar + 1}, station, Align::centre));
      s.labels.text(
          s.board.text(LetterUse::serial, {x, bar + 1 + d + 1.4}, joint.name, Align::centre));
    } else {
      s.labels.text(s.board.text(LetterUse::dimension, {x, bar + 1.2}, joint.name + "  " + station,
                                 Align::left, Stand::middle, false));
    }
  }
}

void draw_edge_rows(const StripDrawing& s) {
  const double row = s.letters(LetterUse::dimension) + 1.6;
  const std::array<const char*, 3> names{"Left edge", "Right edge", "Deck width"};
  const double left = s.from() - s.frame.left;
  for (int i = 0; i < 3; ++i) {
    const double base = s.y(s.frame.edge_rows) - (i + 1) * row + 0.8;
    s.board.line(PenUse::grid, {left, base - 0.8}, {s.to() + 4, base - 0.8});
    s.board.text(LetterUse::dimension, {left, base}, names[static_cast<std::size_t>(i)]);
    edge_row(s, i, base);
  }
}

void draw_chains(const StripDrawing& s) {
  const paper::Group group(s.board, fmt::format("chains-{}", s.number + 1), "dimensions",
                           "panel lengths, gaps, distances to the supports");
  const PanelChain chain = panel_chain(s.input, s.strip());
  stems(s);
  panel_line(s, chain);
  long_chains(s, chain);
  gap_values(s, chain);
}

void draw_offsets(const StripDrawing& s) {
  const double start = s.strip().from.in_mm() + 1;
  const auto y = [&](Length offset) { return s.view(start, offset.in_mm()).y; };
  const DeckEdges& edges = s.input.bridge.edges;
  const Length right = -edges.right(s.strip().from), left = edges.left(s.strip().from);
  std::vector<Length> at{right, Length(), left};
  for (const Girder& g : s.input.bridge.girders)
    if (g.from <= s.strip().from && g.to > s.strip().from)
      at.push_back(mm(girder_offset(s.input.bridge, g, s.strip().from.in_mm())));
  const double x = s.from() - s.frame.skew - s.frame.tail - 2;
  std::vector<std::vector<Length>> tiers{at};
  if (const std::vector<Length> rows = row_stops(s); !rows.empty()) tiers.push_back(rows);
  tiers.push_back({right, left});
  // From outside in, so that lines of the outer ones break around the figures of the inner ones.
  for (std::size_t i = tiers.size(); i-- > 0;) {
    std::vector<Length>& stops = tiers[i];
    std::sort(stops.begin(), stops.end());
    stops.erase(std::unique(stops.begin(), stops.end()), stops.end());
    std::vector<paper::ChainPoint> points;
    for (Length offset : stops) points.push_back({y(offset), offset - stops.front(), x});
    paper::ChainLine line;
    line.heading = paper::Heading::vertical;
    line.units = s.input.project.units;
    line.merge = false;
    // Short bays put their figures outside the chain: the next tier lies beyond them.
    line.across =
        x - s.board.style().next_dimension -
        static_cast<double>(i) * (s.board.style().next_dimension + s.letters(LetterUse::dimension));
    paper::chain(s.board, line, points);
  }
}

}  // namespace deckquire::sheets
