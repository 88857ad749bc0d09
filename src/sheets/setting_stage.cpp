// One small plan of the whole deck: what stands, what is set in this stage, with which cranes.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "sheets/key_plan.h"
#include "sheets/setting_plan.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::Ink;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;
using paper::Stand;

constexpr double crane_radius = 1.8, crane_room = 10, deck_least = 6;  // paper mm
constexpr double hatch_pitch = 1.5, dark_inset = 0.35, arrow_off = 3.2, arrow_most = 26, fine_bay = 2.5;

/// The deck on paper, and the rooms above and below it.
struct StageFrame {
  PlanFrame plan;
  PaperBox deck;     // around the whole deck
  double head = 0;   // of the two lines of its title
  double above = 0, below = 0;
  double height() const { return head + above + deck.height() + below; }
};

std::string end_name(const SetInput& in, bool last) {
  const auto& s = in.bridge.supports;
  return s.empty() ? "" : last ? s.back().name : s.front().name;
}

bool any_crane(const SetInput& in, const SettingPlan& s, bool left) {
  return std::any_of(s.picks.begin(), s.picks.end(), [&](const Pick& p) {
    return p.crane && (in.project.conditions.erection.cranes[static_cast<std::size_t>(p.crane->crane)].offset >=
                       Length()) == left;
  });
}

StageFrame frame_of_stage(const Board& board, const SetInput& in, const SettingPlan& s, PaperPoint corner,
                          double width) {
  StageFrame f;
  const bool straight = in.bridge.alignment.straight();
  const double letters = board.text_height(LetterUse::heading);
  const auto beside = [&](bool last) { return board.text_width(LetterUse::note, end_name(in, last)) + 3; };
  f.head = board.pitch(LetterUse::heading) + board.pitch(LetterUse::note) + 0.5;
  f.above = letters + 2.5 + std::max(board.pitch(LetterUse::heading), any_crane(in, s, true) ? crane_room : 0);
  const bool rows = !in.deck.row_joints.empty();
  f.below = arrow_off + 1.5 + (rows ? letters + 3 + board.pitch(LetterUse::heading) : 0) + (any_crane(in, s, false) ? crane_room : 0);
  if (!straight) f.above = f.below = std::max(f.above, f.below);
  const PaperPoint low{corner.x + beside(false), corner.y - f.head - f.above};
  const double room = width - beside(false) - beside(true);
  if (straight) {
    const Reach reach = deck_reach(in.bridge);
    const double from = in.bridge.alignment.from().in_mm(), to = in.bridge.alignment.to().in_mm();
    double skewed = 0;  // corners beyond the ends
    for (const auto& ring : s.outlines)
      for (const BridgePoint& p : ring) skewed = std::max({skewed, from - p.x, p.x - to});
    const double wide = reach.left + reach.right;
    f.plan.from = from;
    f.plan.along = room / (to - from + 2 * skewed);
    f.plan.across = std::clamp(f.plan.along, deck_least / wide, s.deck_high / wide);
    f.plan.x = low.x + skewed * f.plan.along;
    f.plan.y = low.y - reach.left * f.plan.across;
  } else {
    f.plan = bent_frame(in, {{low.x, low.y - 0.5 * width}, {low.x + room, low.y}}, 0, deck_least);
  }
  bool first = true;
  for (const auto& ring : s.outlines)
    for (const BridgePoint& b : ring) {
      const PaperPoint p = f.plan(b);
      if (first) f.deck = {p, p};
      first = false;
      f.deck.low = {std::min(f.deck.low.x, p.x), std::min(f.deck.low.y, p.y)};
      f.deck.high = {std::max(f.deck.high.x, p.x), std::max(f.deck.high.y, p.y)};
    }
  return f;
}

PaperPoint middle_of(const std::vector<PaperPoint>& ring) {
  PaperPoint sum;
  for (PaperPoint p : ring) sum = sum + p;
  return sum * (1.0 / static_cast<double>(ring.size()));
}

class StageDrawing {
 public:
  StageDrawing(Board& board, const SetInput& in, const SettingPlan& s, std::size_t stage, PaperPoint corner)
      : board_(board),
        in_(in),
        s_(s),
        stage_(s.stages[stage]),
        number_(stage + 1),
        corner_(corner),
        f_(frame_of_stage(board, in, s, corner, s.stage_width)),
        names_(board, {{corner.x, corner.y - f_.height()}, {corner.x + s.stage_width, corner.y - f_.head}}) {
    for (const auto& ring : s.outlines) rings_.push_back(f_.plan(ring));
  }

  void draw() {
    const paper::Group group(board_, fmt::format("stage-{}", number_), "stage");
    title();
    deck();
    ends();
    directions();
    steps();
    cranes();
  }

 private:
  Board& board_;
  const SetInput& in_;
  const SettingPlan& s_;
  const SettingStage& stage_;
  std::size_t number_;
  PaperPoint corner_;
  StageFrame f_;
  NamesBeside names_;
  std::vector<std::vector<PaperPoint>> rings_;  // by panel

  const Panel& panel(int i) const { return in_.deck.panels[static_cast<std::size_t>(i)]; }
  int step(int i) const { return s_.step[static_cast<std::size_t>(i)]; }
  bool set_now(int i) const { return step(i) > stage_.first && step(i) <= stage_.first + stage_.count; }

  void title() {
    double mass = 0;
    for (int k = stage_.first; k < stage_.first + stage_.count; ++k)
      mass += in_.deck.marks[static_cast<std::size_t>(panel(s_.order[static_cast<std::size_t>(k)]).mark)]
                  .masses.total.in_si();
    const UnitSystem u = in_.project.units;
    std::string name = fmt::format("STAGE {}", number_);
    for (char c : stage_.name.empty() ? "" : ", " + stage_.name) name += static_cast<char>(std::toupper(c));
    board_.text(LetterUse::heading, corner_, name, Align::left, Stand::top);
    board_.text(LetterUse::note, {corner_.x, corner_.y - board_.pitch(LetterUse::heading)},
                fmt::format("steps {} to {}: {} panels, {} {}", stage_.first + 1, stage_.first + stage_.count,
                            stage_.count, print_mass(Mass::si(mass), u), column_unit(Measure::mass, u)),
                Align::left, Stand::top);
  }

  void deck() {
    paper::Path outlines, light, dark;
    if (fine())
      for (const SpanRun& span : in_.deck.spans)
        outlines.polygon(f_.plan(part_outline(in_, span.first, span.count)));
    for (std::size_t i = 0; i < rings_.size(); ++i) {
      if (!fine()) outlines.polygon(rings_[i]);
      const int panel = static_cast<int>(i);
      if (set_now(panel)) dark.polygon(inset(rings_[i]));
      else if (step(panel) <= stage_.first) hatch_lightly(light, rings_[i]);
      std::vector<PaperPoint> closed = rings_[i];
      closed.push_back(closed.front());
      names_.keep_off(closed);
    }
    board_.fill(Ink::black, std::move(dark));
    if (!light.empty()) board_.stroke(PenUse::hatch, std::move(light));
    board_.stroke(PenUse::thin, std::move(outlines));
  }

  /// Panels so short on paper that their joints would hide what is hatched and what is not.
  bool fine() const {
    const Alignment& line = in_.bridge.alignment;
    const int bays = in_.deck.panels.back().bay + 1;
    return (line.to() - line.from()).in_mm() * f_.plan.along / bays < fine_bay;
  }

  /// So far in that neighbours stay apart.
  static std::vector<PaperPoint> inset(std::vector<PaperPoint> ring) {
    const PaperPoint c = middle_of(ring);
    for (PaperPoint& p : ring) {
      const PaperPoint d = p - c;
      const double far = std::hypot(d.x, d.y);
      if (far > 3 * dark_inset) p = p - d * (dark_inset / far);
    }
    return ring;
  }

  void ends() {
    const Alignment& line = in_.bridge.alignment;
    const auto beyond = [&](bool last) {
      const double at = (last ? line.to() : line.from()).in_mm();
      const PaperPoint end = f_.plan({at, 0}), back = f_.plan({last ? at - 100 : at + 100, 0});
      const PaperPoint d = end - back;
      const PaperPoint away = d * (1 / std::hypot(d.x, d.y));
      names_.put(LetterUse::note, {end_name(in_, last)}, end + away * 1.2, away, 6);
    };
    if (!in_.bridge.supports.empty()) beyond(false), beyond(true);
  }

  /// Panels of this stage that stand beside each other, as bays from the back.
  std::vector<std::vector<int>> runs() const {
    std::vector<std::vector<int>> out;
    int bay = -2;
    for (int i = 0; i < static_cast<int>(rings_.size()); ++i) {
      if (!set_now(i) || panel(i).row > 0) continue;
      if (panel(i).bay != bay + 1) out.emplace_back();
      bay = panel(i).bay;
      out.back().push_back(i);
    }
    return out;
  }

  /// A point beside the right edge in the middle between two panels.
  void directions() {
    const double right = -deck_reach(in_.bridge).right;
    for (const std::vector<int>& run : runs()) {
      if (run.size() < 2) continue;
      const bool ahead = std::is_sorted(run.begin(), run.end(), [&](int a, int b) { return step(a) < step(b); });
      const bool back = std::is_sorted(run.begin(), run.end(), [&](int a, int b) { return step(a) > step(b); });
      if (!ahead && !back) continue;  // to and fro: the numbers say it
      const double a = panel(run.front()).start.in_mm(), b = panel(run.back()).end.in_mm();
      const double middle = (a + b) / 2, half = std::min((b - a) / 2, arrow_most / f_.plan.along / 2);
      const auto at = [&](double station) {
        return f_.plan({station, right}) - across_at(f_.plan, station) * arrow_off;
      };
      const PaperPoint from = at(middle - half), to = at(middle + half);
      paper::arrow(board_, PenUse::mark, ahead ? from : to, ahead ? to : from, 3.5);
      names_.keep_off({from, to});
    }
  }

  /// First what ends a run and what closes the deck, then as many between as have room.
  void steps() {
    std::vector<int> wanted;
    const int closing = s_.order.back();
    if (set_now(closing)) wanted.push_back(closing);
    for (const auto& run : runs()) wanted.insert(wanted.end(), {run.front(), run.back()});
    const std::size_t ends = wanted.size();
    for (int i = 0; i < static_cast<int>(rings_.size()); ++i)
      if (set_now(i) && !fine()) wanted.push_back(i);
    std::vector<char> done(rings_.size(), 0);
    std::size_t count = 0;
    for (int i : wanted) {
      const bool first_of_all = ++count <= ends;  // what ends a run may stand higher
      if (std::exchange(done[static_cast<std::size_t>(i)], 1)) continue;
      const Panel& p = panel(i);
      const bool inner = p.row > 0 && p.shape.right_joint;  // between two rows
      if (inner) continue;
      const auto& ring = s_.outlines[static_cast<std::size_t>(i)];
      const std::size_t half = p.right_edge.size();
      const std::size_t a = p.row > 0 ? 0 : half, b = p.row > 0 ? half - 1 : ring.size() - 1;
      const PaperPoint foot = (f_.plan(ring[a]) + f_.plan(ring[b])) * 0.5;
      const PaperPoint away = across_at(f_.plan, (ring[a].x + ring[b].x) / 2) * (p.row > 0 ? -1.0 : 1.0);
      const double off = p.row > 0 ? arrow_off + 2 : 1;
      const PaperPoint face = f_.plan(ring[a]) - f_.plan(ring[b]);
      const bool wide = std::hypot(face.x, face.y) > board_.text_width(LetterUse::heading, "000") + 1;
      const auto letters = wide ? LetterUse::heading : LetterUse::dimension;
      // Beside a taper it stands higher; over a panel that is no wider it would stand over its neighbour.
      const double most = wide ? 4 : 0.6;
      std::vector<std::string> lines{std::to_string(step(i))};
      if (i == closing) lines.insert(p.row > 0 ? lines.end() : lines.begin(), "closes");
      names_.put(letters, lines, foot + away * off, away, first_of_all ? 4 : most);
    }
  }

  void cranes() {
    struct Use {
      double radius = 0;
      bool beyond = false;
    };
    std::map<int, Use> uses;
    for (int k = stage_.first; k < stage_.first + stage_.count; ++k)
      if (const auto& c = s_.picks[static_cast<std::size_t>(k)].crane) {
        Use& use = uses[c->crane];
        use.radius = std::max(use.radius, c->radius);
        use.beyond = use.beyond || !c->holds();
      }
    for (const auto& [index, use] : uses) crane(index, use.radius, use.beyond);
  }

  void crane(int index, double radius, bool beyond) {
    const CraneData& c = in_.project.conditions.erection.cranes[static_cast<std::size_t>(index)];
    const Alignment& line = in_.bridge.alignment;
    const bool left = c.offset >= Length();
    const double side = left ? deck_reach(in_.bridge).left : -deck_reach(in_.bridge).right;
    const double at = std::clamp(c.station, line.from(), line.to()).in_mm();
    const PaperPoint away = across_at(f_.plan, at) * (left ? 1.0 : -1.0);
    const double room = left ? board_.text_height(LetterUse::heading) + 2.5 : arrow_off + 1.5;
    const PaperPoint foot = f_.plan({at, side});
    const PaperPoint centre = foot + away * (room + crane_radius + 0.5);
    paper::Path sign;
    sign.circle(centre, crane_radius);
    sign.segment(centre - PaperPoint{crane_radius, 0}, centre + PaperPoint{crane_radius, 0});
    sign.segment(centre - PaperPoint{0, crane_radius}, centre + PaperPoint{0, crane_radius});
    board_.stroke(PenUse::mark, std::move(sign));
    const double r = crane_radius;
    names_.keep_off({centre + PaperPoint{-r, -r}, centre + PaperPoint{r, -r}, centre + PaperPoint{r, r},
                     centre + PaperPoint{-r, r}, centre + PaperPoint{-r, -r}});
    const UnitSystem u = in_.project.units;
    const std::string text = fmt::format("{} to {} {}{}", c.name, print_cell(radius / 1e3, Measure::reach, u),
                                         column_unit(Measure::reach, u), beyond ? ": BEYOND CHART" : "");
    for (const PaperPoint way : {PaperPoint{1, 0}, PaperPoint{-1, 0}, away})
      if (names_.put(LetterUse::note, {text}, centre + way * (crane_radius + 1.4), way, 4)) break;
  }
};

}  // namespace

double stage_height(const Board& board, const SetInput& input, const SettingPlan& setting, double width) {
  return frame_of_stage(board, input, setting, {0, 0}, width).height();
}

void draw_stage(Board& board, const SetInput& input, const SettingPlan& setting, std::size_t stage,
                PaperPoint corner) {
  StageDrawing(board, input, setting, stage, corner).draw();
}

void hatch_lightly(paper::Path& path, const std::vector<PaperPoint>& ring) {
  double low = 1e300, high = -1e300;
  for (PaperPoint p : ring) low = std::min(low, p.x - p.y), high = std::max(high, p.x - p.y);
  for (double c = std::ceil(low / hatch_pitch) * hatch_pitch; c < high; c += hatch_pitch) {
    std::vector<double> at;  // x of crossings with the line x - y = c
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const PaperPoint a = ring[i], b = ring[(i + 1) % ring.size()];
      const double da = a.x - a.y - c, db = b.x - b.y - c;
      if ((da < 0) != (db < 0)) at.push_back(a.x + (b.x - a.x) * da / (da - db));
    }
    std::sort(at.begin(), at.end());
    for (std::size_t i = 0; i + 1 < at.size(); i += 2) path.segment({at[i], at[i] - c}, {at[i + 1], at[i + 1] - c});
  }
}

}  // namespace deckquire::sheets
