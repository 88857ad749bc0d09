// Points of the panels as they lie, and distances to check them by.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "schedules/parts.h"

namespace deckquire {
namespace {

/// What a point of a panel's end is: left edge, left gutter, high line, right gutter, right edge.
enum class Spot { left, left_gutter, high, right_gutter, right };

struct SpotWords {
  const char* letters;
  const char* words;
};

SpotWords words(Spot s) {
  switch (s) {
    case Spot::left:
      return {"L", "left edge"};
    case Spot::left_gutter:
      return {"LG", "left gutter"};
    case Spot::high:
      return {"C", "high line"};
    case Spot::right_gutter:
      return {"RG", "right gutter"};
    case Spot::right:
      return {"R", "right edge"};
  }
  return {"", ""};
}

/// A named point of a panel's end: "7BL" is position 7, back end, left edge.
struct EndPoint {
  std::string name;
  Length station, offset, level;
};

/// The line where the foot of a curb meets the deck, from back to ahead.
std::vector<PanelPoint> foot(const CurbRun& c) {
  const auto half = static_cast<std::ptrdiff_t>(c.plan.size() / 2);
  if (c.side == Side::left) return {c.plan.begin(), c.plan.begin() + half};
  return {c.plan.rbegin(), c.plan.rbegin() + half};
}

/// Nothing where no curb reaches that end.
std::optional<PanelPoint> gutter(const PanelShape& s, bool ahead, Side side) {
  for (const CurbRun& c : s.curbs) {
    if (c.side != side) continue;
    const auto line = foot(c);
    const PanelPoint p = ahead ? line.back() : line.front();
    const double face = ahead ? s.ahead_x(p.y) : s.back_x(p.y);
    if (std::abs(p.x - face) < 1e-3) return p;
  }
  return std::nullopt;
}

/// Nothing where the high line of the deck does not run over the panel.
std::optional<PanelPoint> high_point(const Panel& p, bool ahead) {
  const PanelShape& s = p.shape;
  const double y = s.fall == Fall::crown ? s.high_line : 0;
  const double left = (ahead ? p.left_edge.back() : p.left_edge.front()).y;
  const double right = (ahead ? p.right_edge.back() : p.right_edge.front()).y;
  if (y > left || y < right) return std::nullopt;
  return PanelPoint{ahead ? s.ahead_x(y) : s.back_x(y), y};
}

std::optional<PanelPoint> spot_at(const Panel& p, bool ahead, Spot spot) {
  switch (spot) {
    case Spot::left:
      return ahead ? p.left_edge.back() : p.left_edge.front();
    case Spot::right:
      return ahead ? p.right_edge.back() : p.right_edge.front();
    case Spot::left_gutter:
      return gutter(p.shape, ahead, Side::left);
    case Spot::right_gutter:
      return gutter(p.shape, ahead, Side::right);
    case Spot::high:
      return high_point(p, ahead);
  }
  return std::nullopt;
}

/// Level of the moulded top: the panel lies straight from the level of the alignment at its back
/// face to that at its ahead face, and level across its chord.
Length top_level(const Alignment& line, const Panel& p, PanelPoint at) {
  const Length back = line.level(p.start), rise = line.level(p.end) - back;
  return back + rise * (at.x / p.shape.length) - mm(p.shape.depth - p.shape.top(at.y));
}

std::optional<EndPoint> end_point(const Bridge& bridge, const Panel& p, bool ahead, Spot spot) {
  const auto at = spot_at(p, ahead, spot);
  if (!at) return std::nullopt;
  const BridgePoint b = p.frame.bridge(bridge.alignment, *at);
  return EndPoint{fmt::format("{}{}{}", p.position, ahead ? 'A' : 'B', words(spot).letters),
                  mm(b.x), mm(b.y), top_level(bridge.alignment, p, *at)};
}

double plan_distance(const Bridge& bridge, const EndPoint& a, const EndPoint& b) {
  const auto p = bridge.alignment.survey(a.station, a.offset);
  const auto q = bridge.alignment.survey(b.station, b.offset);
  return 1000 * std::hypot(q.easting - p.easting, q.northing - p.northing);
}

double tape_distance(const Bridge& bridge, const EndPoint& a, const EndPoint& b) {
  return std::hypot(plan_distance(bridge, a, b), (b.level - a.level).in_mm());
}

/// A corner at a joint, and how far the tape has come.
struct TapeMark {
  int joint = 0;
  std::string point;
  double from = 0;
};
struct EdgeTape {
  std::vector<TapeMark> marks;  // of all joints, along the bridge
  double total = 0;
};

/// The outermost panel of every bay on that side.
std::vector<const Panel*> outer_panels(const Deck& deck, Spot side) {
  std::vector<const Panel*> out;
  for (const Panel& p : deck.panels) {
    if (out.empty() || out.back()->bay != p.bay) out.push_back(&p);
    else if (side == Spot::left ? p.row < out.back()->row : p.row > out.back()->row) out.back() = &p;
  }
  std::stable_sort(out.begin(), out.end(), [](const Panel* a, const Panel* b) { return a->bay < b->bay; });
  return out;
}

/// A gap at the deck's outer end, along the edge.
double end_gap(const Deck& deck, int joint) {
  const Joint& j = deck.joints[static_cast<std::size_t>(joint)];
  return j.gap.in_mm() / std::cos(j.skew);
}

EdgeTape tape_along(const Bridge& bridge, const Deck& deck, Spot side) {
  EdgeTape tape;
  std::optional<EndPoint> before;
  for (const Panel* p : outer_panels(deck, side)) {
    const EndPoint back = *end_point(bridge, *p, false, side), ahead = *end_point(bridge, *p, true, side);
    tape.total += before ? tape_distance(bridge, *before, back) : end_gap(deck, p->joint_back);
    tape.marks.push_back({p->joint_back, back.name, tape.total});
    tape.total += tape_distance(bridge, back, ahead);
    before = ahead;
  }
  if (!before) return tape;
  const Panel& last = *outer_panels(deck, side).back();
  tape.marks.push_back({last.joint_ahead, before->name, tape.total});
  tape.total += end_gap(deck, last.joint_ahead);
  return tape;
}

/// The panel at an outer corner of a span: in its first or last bay, on its left or right.
const Panel& corner_panel(const Deck& deck, const SpanRun& s, bool ahead, Spot side) {
  const auto first = deck.panels.begin() + s.first, end = first + s.count;
  const int bay = (ahead ? *(end - 1) : *first).bay;
  const Panel* found = nullptr;
  for (auto p = first; p != end; ++p) {
    if (p->bay != bay) continue;
    if (!found || (side == Spot::left ? p->row < found->row : p->row > found->row)) found = &*p;
  }
  return *found;
}

const char* const where_levels_are =
    "Offsets are positive to the left, looking ahead. Levels are those of the moulded top, its "
    "fall carried on below the curb, without the wearing surface. Coordinates and levels are in "
    "the project's own system, as the alignment gives them.";

}  // namespace

Table setting_out_table(const Project&, const Bridge& bridge, const Deck& deck) {
  Table t{"setting-out",
          "SETTING OUT",
          std::string("Points are the corners and the high line of every panel end: 7BL is "
                      "position 7, back end, left edge; A is the end ahead, R the right edge, C "
                      "the high line. ") +
              where_levels_are,
          {},
          {},
          {},
          true};
  t.columns = {{"point", "Point", Measure::text},
               {"station_m", "Station", Measure::station},
               {"offset_mm", "Offset", Measure::length},
               {"easting_m", "Easting", Measure::coordinate},
               {"northing_m", "Northing", Measure::coordinate},
               {"level_m", "Level", Measure::level},
               {"serial", "Panel", Measure::text}};
  for (const Panel& p : deck.panels)
    for (bool ahead : {false, true})
      for (Spot spot : {Spot::left, Spot::high, Spot::right}) {
        const auto e = end_point(bridge, p, ahead, spot);
        if (!e) continue;
        const auto s = bridge.alignment.survey(e->station, e->offset);
        t.rows.push_back(
            {e->name, e->station, e->offset, s.easting, s.northing, e->level, p.serial});
      }
  return t;
}

Table corners_table(const Bridge& bridge, const Deck& deck) {
  Table t{"corners",
          "CORNERS, GUTTERS AND HIGH LINE",
          std::string("The points of the setting out, and the gutters: 7BLG is position 7, back "
                      "end, foot of the left curb. ") +
              where_levels_are,
          {},
          {},
          {},
          false};
  t.columns = {{"point", "Point", Measure::text},
               {"position", "Position", Measure::count},
               {"end", "End", Measure::text},
               {"place", "Place", Measure::text},
               {"station_m", "Station", Measure::station},
               {"offset_mm", "Offset", Measure::length},
               {"easting_m", "Easting", Measure::coordinate},
               {"northing_m", "Northing", Measure::coordinate},
               {"level_m", "Level", Measure::level},
               {"serial", "Panel", Measure::text}};
  for (const Panel& p : deck.panels)
    for (bool ahead : {false, true})
      for (int i = 0; i <= static_cast<int>(Spot::right); ++i) {
        const auto e = end_point(bridge, p, ahead, static_cast<Spot>(i));
        if (!e) continue;
        const auto s = bridge.alignment.survey(e->station, e->offset);
        t.rows.push_back({e->name, std::int64_t{p.position}, std::string(ahead ? "ahead" : "back"),
                          std::string(words(static_cast<Spot>(i)).words), e->station, e->offset,
                          s.easting, s.northing, e->level, p.serial});
      }
  return t;
}

Table diagonals_table(const Bridge& bridge, const Deck& deck) {
  Table t{"diagonals",
          "CHECK DISTANCES OF THE SPANS",
          "Between setting-out points, in plan, and as a tape lies on the slope: both diagonals and the "
          "four sides of each span, straight from corner to corner.",
          {},
          {},
          {},
          true};
  t.columns = {{"span", "Span", Measure::text},
               {"of", "Of", Measure::text},
               {"from", "From", Measure::text},
               {"to", "To", Measure::text},
               {"distance_mm", "In plan", Measure::length},
               {"rise_mm", "Rise", Measure::length},
               {"tape_mm", "Along the slope", Measure::length}};
  for (const SpanRun& s : deck.spans) {
    if (s.count < 1) continue;
    const auto corner = [&](bool ahead, Spot side) {
      return *end_point(bridge, corner_panel(deck, s, ahead, side), ahead, side);
    };
    const EndPoint bl = corner(false, Spot::left), br = corner(false, Spot::right),
                   al = corner(true, Spot::left), ar = corner(true, Spot::right);
    const auto add = [&](const char* of, const EndPoint& a, const EndPoint& b) {
      const double rise = (b.level - a.level).in_mm();
      t.rows.push_back({s.name, std::string(of), a.name, b.name, plan_distance(bridge, a, b), rise,
                        tape_distance(bridge, a, b)});
    };
    add("diagonal", bl, ar), add("diagonal", br, al);
    add("left edge", bl, al), add("right edge", br, ar);
    add("back end", bl, br), add("ahead end", al, ar);
  }
  return t;
}

Table ties_table(const Bridge& bridge, const Deck& deck) {
  Table t{"ties",
          "TAPE FROM THE ABUTMENTS",
          "Along each edge of the deck from the end of the deck's room at the back abutment, as a tape lies "
          "from corner to corner; the end gap is in it. Points are the corners ahead of each joint, at the "
          "last joint those behind it. Taped from both ends, the sums must meet.",
          {},
          {},
          {},
          true};
  t.columns = {{"joint", "Joint", Measure::text},
               {"station_m", "Station", Measure::station},
               {"left", "Left corner", Measure::text},
               {"left_from_mm", "from back abutment", Measure::length},
               {"left_to_mm", "from ahead abutment", Measure::length},
               {"right", "Right corner", Measure::text},
               {"right_from_mm", "from back abutment", Measure::length},
               {"right_to_mm", "from ahead abutment", Measure::length}};
  const EdgeTape left = tape_along(bridge, deck, Spot::left), right = tape_along(bridge, deck, Spot::right);
  for (std::size_t i = 0; i < left.marks.size(); ++i) {
    const TapeMark &l = left.marks[i], &r = right.marks[i];
    const Joint& j = deck.joints[static_cast<std::size_t>(l.joint)];
    t.rows.push_back({j.name, j.station, l.point, l.from, left.total - l.from, r.point, r.from,
                      right.total - r.from});
  }
  return t;
}

}  // namespace deckquire
