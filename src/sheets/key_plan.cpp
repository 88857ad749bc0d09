#include "sheets/key_plan.h"

#include <algorithm>
#include <cmath>

#include "paper/view.h"
#include "sheets/deck_lines.h"
#include "sheets/furniture.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::Ink;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;

constexpr double arrow_room = 18;   // for the north arrow at the right
constexpr double arrow_radius = 5;

/// The north arrow as far right as its N allows, whichever way it points.
void draw_north(Board& board, double right, double y, double towards) {
  const double letter = 1.6 * board.text_height(LetterUse::heading);
  const double reach = std::cos(towards) * (arrow_radius + (std::cos(towards) > 0 ? letter : 0));
  north_arrow(board, {right - std::max(std::abs(reach), 2.0), y}, arrow_radius, towards);
}
constexpr double least_height = 6;  // of the deck on paper

PlanFrame frame_in(const Bridge& bridge, const PaperBox& space, double top) {
  const Length from = bridge.alignment.from(), to = bridge.alignment.to();
  const Reach reach = deck_reach(bridge);
  PlanFrame f;
  f.from = from.in_mm();
  f.along = (space.width() - arrow_room) / std::max(1.0, (to - from).in_mm());
  const double wide = std::max(1.0, reach.left + reach.right);
  f.across = std::clamp(f.along, least_height / wide, 14 / wide);
  f.x = space.low.x;
  f.y = top - reach.left * f.across;
  return f;
}

void supports(Board& board, const Bridge& bridge, const PlanFrame& f) {
  const Reach reach = deck_reach(bridge);
  for (const Support& s : bridge.supports) {
    const double at = s.station.in_mm();
    const PaperPoint over = across_at(f, at) * 1.5;
    board.line(PenUse::steel, f({at, reach.left}) + over, f({at, -reach.right}) - over);
  }
}

void solid_part(Board& board, const SetInput& input, const PlanFrame& f, int first, int count) {
  if (count <= 0) return;
  Path part;
  part.polygon(f(part_outline(input, first, count)));
  board.fill(Ink::accent, part);
}

std::vector<PlacedName> support_names(const Bridge& bridge, const PlanFrame& f) {
  std::vector<PlacedName> names;
  for (const Support& s : bridge.supports) names.push_back({f({s.station.in_mm(), 0}).x, s.name});
  return names;
}

bool is_plain(const SetInput& input) {
  return input.bridge.alignment.straight() && skew_reach(input) == 0;
}

/// One row: the first, the last, and what has room between.
std::vector<PlacedName> thinned(const Board& board, LetterUse use,
                                const std::vector<PlacedName>& names) {
  const auto half = [&](const PlacedName& n) { return board.text_width(use, n.text) / 2 + 1.5; };
  std::vector<PlacedName> out;
  const PlacedName& last = names.back();
  for (const PlacedName& n : names) {
    const bool after = out.empty() || n.x - half(n) >= out.back().x + half(out.back());
    if (&n == &last || (after && n.x + half(n) <= last.x - half(last))) out.push_back(n);
  }
  return out;
}

double turn_of(const Alignment& a) {
  const GroundPoint from = a.ground(a.from().in_mm(), 0), to = a.ground(a.to().in_mm(), 0);
  const GroundPoint chord = to - from;
  // A line that comes back to its beginning has no chord to lay level.
  if (std::hypot(chord.x, chord.y) < 0.3 * (a.to() - a.from()).in_mm())
    return -a.heading(a.from().in_mm());
  return -std::atan2(chord.y, chord.x);
}

/// Names of supports beside a bent key plan; returns the y below it.
double bent_words(Board& board, const SetInput& input, const PlanFrame& f, const PaperBox& space) {
  const Bridge& bridge = input.bridge;
  const Reach reach = deck_reach(bridge);
  const auto ring = f(whole_outline(input));
  double low = space.high.y;
  for (PaperPoint p : ring) low = std::min(low, p.y);
  low -= board.pitch(LetterUse::note) + 4;
  NamesBeside names(board, {{space.low.x, low}, {space.high.x - 2, space.high.y + 4}});
  names.keep_off(ring);
  names.keep_off({ring.back(), ring.front()});
  for (const Support& s : bridge.supports) {
    const double at = s.station.in_mm();
    const PaperPoint across = across_at(f, at);
    const PaperPoint right = f({at, -reach.right}) - across * 2;
    if (!names.put(LetterUse::note, {s.name}, right, across * -1.0, 3))
      names.put(LetterUse::note, {s.name}, f({at, reach.left}) + across * 2, across, 3);
  }
  return low;
}

double bent_key_plan(Board& board, const PaperBox& space, const SetInput& input, int first,
                     int count) {
  const Bridge& bridge = input.bridge;
  const Alignment& a = bridge.alignment;
  const double air = board.pitch(LetterUse::note) + 4;  // names above and beside
  PaperBox room{{space.low.x + air, space.high.y - air - 60},
                {space.high.x - arrow_room - air, space.high.y - air}};
  const PlanFrame f = bent_frame(input, room, 0, 3);
  solid_part(board, input, f, first, count);
  Path outline;
  outline.polygon(f(whole_outline(input)));
  board.stroke(PenUse::thin, outline);
  supports(board, bridge, f);
  const double low = bent_words(board, input, f, space);
  const UnitSystem u = input.project.units;
  const std::string range = print_station(a.from(), u) + " to " + print_station(a.to(), u);
  const auto box = board.text(LetterUse::note, {space.low.x, low}, range, Align::left, Stand::top);
  paper::arrow(board, PenUse::dimension, {box.high.x + 4, box.centre().y},
               {box.high.x + 18, box.centre().y}, 2.5);
  draw_north(board, space.high.x, space.high.y - 8, north_on_paper(bridge));
  return std::min(box.low.y, space.high.y - 16) - board.style().gap;
}

}  // namespace

PaperPoint PlanFrame::operator()(BridgePoint p) const {
  if (bent == nullptr) return {x + (p.x - from) * along, y + p.y * across};
  const GroundPoint d = bent->ground(p.x, p.y * across / along) - bent->ground(from, 0);
  const double c = std::cos(turn), s = std::sin(turn);
  return {x + (d.x * c - d.y * s) * along, y + (d.x * s + d.y * c) * along};
}

std::vector<PaperPoint> PlanFrame::operator()(const std::vector<BridgePoint>& line) const {
  std::vector<PaperPoint> out;
  for (auto p : line) out.push_back((*this)(p));
  return out;
}

namespace {

PaperBox box_of(const std::vector<PaperPoint>& points) {
  PaperBox b{points.front(), points.front()};
  for (PaperPoint p : points) {
    b.low = {std::min(b.low.x, p.x), std::min(b.low.y, p.y)};
    b.high = {std::max(b.high.x, p.x), std::max(b.high.y, p.y)};
  }
  return b;
}

PlanFrame true_frame(const SetInput& input) {
  PlanFrame f;
  f.bent = &input.bridge.alignment;
  f.from = f.bent->from().in_mm();
  f.turn = turn_of(*f.bent);
  return f;
}

}  // namespace

PaperPoint bent_size(const SetInput& input) {
  const PaperBox b = box_of(true_frame(input)(whole_outline(input)));
  return {b.width(), b.height()};
}

PlanFrame bent_frame(const SetInput& input, const PaperBox& room, int ratio, double least) {
  PlanFrame f = true_frame(input);
  const PaperPoint size = bent_size(input);
  f.along = ratio > 0 ? 1.0 / ratio : std::min(room.width() / size.x, room.height() / size.y);
  const Reach reach = deck_reach(input.bridge);
  f.across = std::max(f.along, least / (reach.left + reach.right));
  const PaperBox b = box_of(f(whole_outline(input)));
  f.x = room.low.x - b.low.x;
  f.y = room.high.y - b.high.y;
  return f;
}

PaperPoint across_at(const PlanFrame& f, double station) {
  const PaperPoint d = f({station, 1000}) - f({station, 0});
  return d * (1 / std::hypot(d.x, d.y));
}

Ring<BridgeFrame> whole_outline(const SetInput& input) {
  const Alignment& a = input.bridge.alignment;
  if (is_plain(input)) return deck_outline(input.bridge, a.from(), a.to());
  return deck_between(input, input.deck.joints.front(), input.deck.joints.back());
}

Ring<BridgeFrame> part_outline(const SetInput& input, int first, int count) {
  const auto& panels = input.deck.panels;
  const Panel& a = panels[static_cast<std::size_t>(first)];
  const Panel& b = panels[static_cast<std::size_t>(first + count - 1)];
  if (is_plain(input)) return deck_outline(input.bridge, a.start, b.end);
  const auto& joints = input.deck.joints;
  return deck_between(input, joints[static_cast<std::size_t>(a.joint_back)],
                      joints[static_cast<std::size_t>(b.joint_ahead)]);
}

bool NamesBeside::is_free(const PaperBox& box) const {
  if (!within_.contains(box.low) || !within_.contains(box.high)) return false;
  return std::none_of(taken_.begin(), taken_.end(),
                      [&](const PaperBox& t) { return t.overlaps(box.grown(0.8)); });
}

void NamesBeside::keep_off(const std::vector<PaperPoint>& line) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const PaperPoint a = line[i], d = line[i + 1] - line[i];
    const int n = std::max(1, static_cast<int>(std::hypot(d.x, d.y) / 2));
    for (int k = 0; k < n; ++k)
      taken_.push_back(box_of({a + d * (static_cast<double>(k) / n),
                               a + d * (static_cast<double>(k + 1) / n)}));
  }
}

bool NamesBeside::put(LetterUse use, const std::vector<std::string>& lines, PaperPoint foot,
                      PaperPoint away, double most) {
  const double pitch = board_.pitch(use), h = board_.text_height(use);
  PaperPoint size{0, h + static_cast<double>(lines.size() - 1) * pitch};
  for (const std::string& s : lines) size.x = std::max(size.x, board_.text_width(use, s));
  const double reach = std::abs(away.x) * size.x / 2 + std::abs(away.y) * size.y / 2;
  for (double more = 0; more <= most; more += 1) {
    const PaperPoint c = foot + away * (reach + more);
    const PaperBox box{c - size * 0.5, c + size * 0.5};
    if (!is_free(box)) continue;
    for (std::size_t i = 0; i < lines.size(); ++i)
      board_.text(use, {c.x, box.high.y - static_cast<double>(i) * pitch}, lines[i], Align::centre,
                  Stand::top);
    taken_.push_back(box);
    return true;
  }
  return false;
}

Ring<BridgeFrame> deck_outline(const Bridge& bridge, Length from, Length to) {
  std::vector<Length> stations{from};
  for (Length b : bridge.edges.breaks())
    if (from < b && b < to && b != stations.back()) stations.push_back(b);
  stations.push_back(to);
  Ring<BridgeFrame> right, left;
  for (Length s : stations)
    for (bool ahead : {false, true}) {
      if ((s == from && !ahead) || (s == to && ahead)) continue;
      right.push_back({s.in_mm(), -bridge.edges.right(s, ahead).in_mm()});
      left.push_back({s.in_mm(), bridge.edges.left(s, ahead).in_mm()});
    }
  right.insert(right.end(), left.rbegin(), left.rend());
  right.erase(std::unique(right.begin(), right.end()), right.end());
  return right;
}

Reach deck_reach(const Bridge& bridge) {
  Reach r;
  for (const EdgeData& e : bridge.edges.data()) {
    r.left = std::max(r.left, e.left.in_mm());
    r.right = std::max(r.right, e.right.in_mm());
  }
  return r;
}

double north_on_paper(const Bridge& bridge) {
  const Alignment& a = bridge.alignment;
  return a.straight() ? a.bearing().in_si() : pi / 2 + turn_of(a);
}

double names_below(Board& board, LetterUse use, double y, const std::vector<PlacedName>& names,
                   const PaperBox& within, int rows) {
  std::vector<double> ends;  // of the last name in each row
  std::vector<std::pair<PaperPoint, std::string>> texts;
  const double row = board.pitch(use);
  for (const PlacedName& n : names) {
    const double width = board.text_width(use, n.text);
    const double low = std::clamp(n.x - width / 2, within.low.x, within.high.x - width);
    std::size_t i = 0;
    while (i < ends.size() && low < ends[i] + 1.5) ++i;
    if (i == ends.size()) ends.push_back(0);
    if (static_cast<int>(i) == rows && names.size() > 2)
      return names_below(board, use, y, thinned(board, use, names), within, 99);
    ends[i] = low + width;
    texts.push_back({{low, y - static_cast<double>(i) * row}, n.text});
  }
  for (const auto& [at, text] : texts) board.text(use, at, text, Align::left, Stand::top);
  return y - static_cast<double>(ends.size()) * row;
}

double key_plan(Board& board, const PaperBox& space, double top, const SetInput& input, int first,
                int count) {
  paper::Group group(board, "key-plan", "key-plan");
  const auto heading =
      board.text(LetterUse::heading, {space.low.x, top}, "KEY PLAN", Align::left, Stand::top);
  board.text(LetterUse::note, {heading.high.x + 4, heading.low.y}, "not to scale");
  const double below = top - board.pitch(LetterUse::heading) - 2.5;
  if (!input.bridge.alignment.straight())
    return bent_key_plan(board, {space.low, {space.high.x, below}}, input, first, count);
  const PlanFrame f = frame_in(input.bridge, space, below);
  const Bridge& bridge = input.bridge;
  const Reach reach = deck_reach(bridge);
  solid_part(board, input, f, first, count);
  Path outline;
  outline.polygon(f(whole_outline(input)));
  board.stroke(PenUse::thin, outline);
  supports(board, bridge, f);
  const double foot = f.y - reach.right * f.across - 3;
  const PaperBox within{{space.low.x, 0}, {space.high.x - arrow_room, 0}};
  double y = names_below(board, LetterUse::note, foot, support_names(bridge, f), within);
  const auto& a = bridge.alignment;
  const UnitSystem u = input.project.units;
  y = names_below(
      board, LetterUse::note, y,
      {{within.low.x, print_station(a.from(), u)}, {within.high.x, print_station(a.to(), u)}},
      within);
  paper::arrow(board, PenUse::dimension, {space.low.x + space.width() * 0.36, y + 2.8},
               {space.low.x + space.width() * 0.52, y + 2.8}, 2.5);
  draw_north(board, space.high.x, (below + foot) / 2, north_on_paper(bridge));
  return std::min(y, (below + foot) / 2 - 8) - board.style().gap;
}

}  // namespace deckquire::sheets
