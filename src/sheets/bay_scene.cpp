#include "sheets/bay_scene.h"

#include <algorithm>
#include <cmath>

#include "sheets/deck_lines.h"
#include "sheets/panel_drawing.h"
#include "sheets/panel_solid.h"

namespace deckquire::sheets {
namespace {

constexpr double flange_thickness = 20, web_thickness = 16, web_part = 220;  // mm, of the picture

const Panel& panel_at(const Deck& deck, int i) {
  return deck.panels[static_cast<std::size_t>(i)];
}

/// The better, the more often its marks are used; straight ones before all bent ones.
int score_of(const Deck& deck, const Bay& bay) {
  int score = 0;
  for (int i = bay.first; i < bay.first + bay.count; ++i) {
    const Panel& p = panel_at(deck, i);
    score += deck.marks[static_cast<std::size_t>(p.mark)].quantity;
    if (!p.frame.straight) score -= 1000000;
  }
  return score / bay.count;
}

/// Index of the first of the two bays, or -1.
int choose_bays(const Deck& deck, const std::vector<Bay>& bays) {
  int best = -1, most = 0;
  for (std::size_t i = 0; i + 1 < bays.size(); ++i) {
    if (panel_at(deck, bays[i].first).span != panel_at(deck, bays[i + 1].first).span) continue;
    const int score = score_of(deck, bays[i]) + score_of(deck, bays[i + 1]);
    if (best < 0 || score > most) best = static_cast<int>(i), most = score;
  }
  return best;
}

/// Everything in the frame of the first panel, z from the soffit.
class SceneMaker {
 public:
  SceneMaker(const SetInput& input, const Bay& seated, const Bay& lifted)
      : input_(input),
        seated_(seated),
        lifted_(lifted),
        base_(panel_at(input.deck, seated.first).frame) {}

  BayScene make() {
    const Panel &a = panel_at(input_.deck, seated_.first),
                &b = panel_at(input_.deck, lifted_.first);
    const double lift = std::max(2.5 * a.shape.depth, 0.4 * b.shape.length);
    add_panels(seated_, 0);
    add_panels(lifted_, lift);
    add_girders(a.start.in_mm() - 0.25 * a.shape.length, b.end.in_mm() + 0.3 * b.shape.length);
    scene_.lines = visible_lines(solid_, view_);
    scene_.low = scene_.high = scene_.lines.front().a;
    for (const PictureLine& l : scene_.lines)
      for (PicturePoint p : {l.a, l.b}) {
        scene_.low = {std::min(scene_.low.x, p.x), std::min(scene_.low.y, p.y)};
        scene_.high = {std::max(scene_.high.x, p.x), std::max(scene_.high.y, p.y)};
      }
    if (has(FeatureKind::post_plate)) scene_.left_out.push_back("rails");
    if (has(FeatureKind::scupper)) scene_.left_out.push_back("grates");
    if (has(FeatureKind::hatch)) scene_.left_out.push_back("covers");
    add_ahead();
    return std::move(scene_);
  }

 private:
  const Panel& last_seated() const {
    return panel_at(input_.deck, seated_.first + seated_.count - 1);
  }
  bool has(FeatureKind kind) const {
    for (const Bay* bay : {&seated_, &lifted_})
      for (int i = bay->first; i < bay->first + bay->count; ++i)
        for (const Feature& f : panel_at(input_.deck, i).shape.features)
          if (f.kind == kind) return true;
    return false;
  }
  Spot moved(const Panel& p, Spot s, double lift) const {
    if (p.frame.straight && base_.straight)
      return {s.x + p.frame.start - base_.start, s.y, s.z + lift};
    const PanelPoint q = base_.panel(p.frame.ground({s.x, s.y}));
    return {q.x, q.y, s.z + lift};
  }
  /// Adds a solid of a panel, its parts and round surfaces kept apart from those of others.
  void add(const Panel& p, Solid solid, double lift) {
    ++things_;
    for (Face& f : solid.faces) {
      f.part += 10 * things_;
      if (f.smooth > 0) f.smooth += 1000 * things_;
      for (auto& loop : f.loops)
        for (Spot& s : loop) s = moved(p, s, lift);
      solid_.faces.push_back(std::move(f));
    }
    for (Trace& t : solid.traces) {
      for (Spot& s : t.points) s = moved(p, s, lift);
      solid_.traces.push_back(std::move(t));
    }
  }

  void add_panels(const Bay& bay, double lift) {
    for (int i = bay.first; i < bay.first + bay.count; ++i) {
      const Panel& p = panel_at(input_.deck, i);
      PanelShape shape = p.shape;
      std::erase_if(shape.features, [](const Feature& f) { return f.kind == FeatureKind::pad; });
      add(p, panel_solid(shape, input_.project.deck, 0), lift);
      add(p, pads_solid(p.shape), 0);
      const Corners c = corners_of(p.shape);
      const PanelPoint middle = (c.back_left + c.back_right + c.ahead_left + c.ahead_right) * 0.25;
      (lift > 0 ? scene_.lifted : scene_.seated)
          .push_back({std::to_string(p.position),
                      view_(moved(p, {middle.x, middle.y, p.shape.top(middle.y)}, lift))});
      if (lift > 0)  // the ways down of its corners
        for (PanelPoint q : {c.back_left, c.back_right, c.ahead_left, c.ahead_right})
          solid_.traces.push_back(
              {{moved(p, {q.x, q.y, 0}, lift), moved(p, {q.x, q.y, 0}, 0)}, LineKind::sunk});
      else
        add_water(p);
    }
  }

  void add_water(const Panel& p) {
    const PanelShape& s = p.shape;
    if (s.slope == 0 || s.fall == Fall::none) return;
    const double x = 0.78 * s.length, left = (s.left_back + s.left_ahead) / 2,
                 right = (s.right_back + s.right_ahead) / 2;
    const double curb = s.curbs.empty() ? 0 : input_.project.deck.section.curb.width.in_mm();
    for (const double edge : {left - curb, right + curb}) {
      const double from = std::clamp(s.high_line, right, left);
      if (std::abs(edge - from) < 300 || s.top(edge) >= s.top(from)) continue;
      const double y0 = from + (edge - from) * 0.45, y1 = from + (edge - from) * 0.85;
      scene_.water.emplace_back(view_(moved(p, {x, y0, s.top(y0)}, 0)),
                                view_(moved(p, {x, y1, s.top(y1)}, 0)));
    }
  }

  PanelPoint at(double station, double offset) const {
    return base_.panel(input_.bridge.alignment, {station, offset});
  }
  void add_girders(double from, double to) {
    const double pad = input_.project.deck.pads ? input_.project.deck.pads->thickness.in_mm() : 0;
    for (const Girder& g : input_.bridge.girders) {
      const double a = std::max(from, g.from.in_mm()), b = std::min(to, g.to.in_mm());
      if (b - a < 100) continue;
      const auto strip = [&](double half) {
        const int pieces = base_.straight ? 1 : 8;
        Ring<PanelFrame> right, left;
        for (int i = 0; i <= pieces; ++i) {
          const double s = a + (b - a) * i / pieces, o = girder_offset(input_.bridge, g, s);
          right.push_back(at(s, o - half)), left.push_back(at(s, o + half));
        }
        right.insert(right.end(), left.rbegin(), left.rend());
        return right;
      };
      const std::size_t first = solid_.faces.size();
      ++things_;
      add_prism(solid_, strip(g.flange.in_mm() / 2), -pad - flange_thickness, -pad, 10 * things_);
      add_prism(solid_, strip(web_thickness / 2), -pad - flange_thickness - web_part,
                -pad - flange_thickness, 10 * things_ + 1);
      for (std::size_t i = first; i < solid_.faces.size(); ++i) solid_.faces[i].others = true;
      const PanelPoint end = at(a, girder_offset(input_.bridge, g, a));
      scene_.girders.push_back({g.name, view_({end.x, end.y, -pad - flange_thickness - web_part})});
    }
  }

  void add_ahead() {
    const Panel& p = last_seated();
    const Corners c = corners_of(p.shape);
    scene_.ahead_from = view_(moved(p, {c.back_right.x, c.back_right.y, 0}, 0));
    scene_.ahead_to = view_(moved(p, {c.ahead_right.x, c.ahead_right.y, 0}, 0));
  }

  const SetInput& input_;
  const Bay &seated_, &lifted_;
  const PanelPlacing& base_;
  const Projection view_ = isometric(true);
  Solid solid_;
  BayScene scene_;
  int things_ = 0;
};

}  // namespace

std::shared_ptr<const BayScene> typical_bay(const SetInput& input) {
  const std::vector<Bay> bays = bays_of(input.deck, 0, static_cast<int>(input.deck.panels.size()));
  const int best = choose_bays(input.deck, bays);
  if (best < 0 || input.bridge.girders.empty()) return nullptr;
  const std::size_t i = static_cast<std::size_t>(best);
  return std::make_shared<const BayScene>(SceneMaker(input, bays[i], bays[i + 1]).make());
}

}  // namespace deckquire::sheets
