// Mass of a panel, part by part. Rules, where a part is not fully described by the project:
//  - skins follow the soffit into a recess: its floor is bottom skin, its sides are bottom skin
//  too;
//  - edge skins stand around the outline and around every opening, from soffit to top;
//  - core is what the laminate leaves of the body;
//  - a scupper body is a laminate box with walls of its stated thickness; its pipe is laminate;
//  - a grate is steel over 0.6 of its plan area (open ratio 0.4: common practice, no source);
//  - a hatch cover covers opening and rebate; an insert is a steel sleeve, outside twice its
//  thread.
#include <cmath>

#include "deck/features.h"
#include "deck/solid.h"

namespace deckquire {
namespace {

constexpr double cubic_mm = 1e-9;  // m3

Density density(const DeckData& deck, const std::string& part) {
  for (const MaterialData& m : deck.materials)
    if (m.part == part) return m.density;
  // A cover without a material of its own is laminate.
  return part == "laminate" ? Density() : density(deck, "laminate");
}

class Scale {
 public:
  Scale(const PanelShape& shape, const DeckData& deck) : shape_(shape), deck_(deck) {}

  Masses total() {
    body();
    curbs();
    surface();
    for (const Feature& f : shape_.features) fitting(f);
    finish();
    return std::move(out_);
  }

 private:
  void add(const std::string& part, const Solid& s, Density d) {
    if (s.v == 0) return;
    const Volume v = Volume::si(s.v * cubic_mm);
    add(part, v, v * d, {s.x / s.v, s.y / s.v}, s.z / s.v);
  }

  void add(const std::string& part, Volume v, Mass m, PanelPoint at, double z) {
    for (MassPart& p : out_.parts) {
      if (p.part != part) continue;
      const double share = m.in_si() / (p.mass + m).in_si();
      p.x += (at.x - p.x) * share;
      p.y += (at.y - p.y) * share;
      p.z += (z - p.z) * share;
      p.volume += v;
      p.mass += m;
      return;
    }
    out_.parts.push_back({part, v, m, at.x, at.y, z});
  }

  /// What of the top a feature opens.
  std::optional<Box<PanelFrame>> opened_top(const Feature& f) const {
    if (f.kind == FeatureKind::scupper) return f.box();
    if (f.kind == FeatureKind::hatch) return footprint(f, deck_);
    return std::nullopt;
  }

  Solid walls(const Ring<PanelFrame>& ring, double t) const {
    Solid sum;
    for (std::size_t i = 0; i < ring.size(); ++i)
      sum += wall_under_top(shape_, ring[i], ring[(i + 1) % ring.size()], t);
    return sum;
  }

  /// Sides of a hollow in the soffit; a side on the panel's boundary is open.
  Solid hollow_sides(const Feature& f, double t) const {
    Solid sum;
    const Ring<PanelFrame> r = f.ring();
    for (std::size_t i = 0; i < r.size(); ++i) {
      const PanelPoint a = r[i], b = r[(i + 1) % r.size()], mid = (a + b) * 0.5;
      if (distance_to_boundary(shape_.outline, mid) < 0.5) continue;
      const double v = std::hypot(b.x - a.x, b.y - a.y) * t * f.depth;
      sum += {v, mid.x * v, mid.y * v, f.depth / 2 * v};
    }
    return sum;
  }

  void body() {
    const SectionData& s = deck_.section;
    const double top = s.top_skin.in_mm(), bottom = s.bottom_skin.in_mm(),
                 edge = s.edge_skin.in_mm();
    Solid whole = under_top(shape_, shape_.outline), laminate;
    TopArea open = top_over(shape_, shape_.outline);
    Solid soffit = slab(shape_.outline, 0, bottom);
    laminate += walls(shape_.outline, edge);
    for (const auto& o : shape_.openings) {
      whole -= under_top(shape_, o);
      soffit -= slab(o, 0, bottom);
      laminate += walls(o, edge);
    }
    out_.top_area = Area::si(open.a * 1e-6);
    for (const auto& o : shape_.openings) out_.top_area -= Area::si(area(o) * 1e-6);
    for (const Feature& f : shape_.features) {
      if (f.kind == FeatureKind::recess) {
        whole -= slab(f.ring(), 0, f.depth);
        soffit -= slab(f.ring(), 0, bottom);
        soffit += slab(f.ring(), f.depth, f.depth + bottom);
        laminate += hollow_sides(f, bottom);
      }
      if (f.kind == FeatureKind::scupper) whole -= scupper_void(f);
      if (f.kind == FeatureKind::hatch) whole -= rebate_void(f);
      if (const auto b = opened_top(f)) open -= top_over(shape_, within(shape_.outline, *b));
      if (f.kind == FeatureKind::sleeve || f.kind == FeatureKind::notch)
        if (f.round) open -= top_over(shape_, circle_ring(f.at, f.length));
    }
    laminate += soffit;
    laminate += layer(open, top, shape_.slope);
    Solid core = whole;
    core -= laminate;
    add("laminate", laminate, density(deck_, "laminate"));
    add("core", core, density(deck_, "core"));
  }

  /// The body's box from the top down, without the pipe's opening, which is out already.
  Solid scupper_void(const Feature& f) const {
    const double z = shape_.top(f.at.y),
                 pipe = pi / 4 * std::pow(deck_.scuppers->outlet.in_mm(), 2);
    Solid s = slab(f.ring(), z - f.depth, z);
    const double v = pipe * f.depth;
    s -= {v, f.at.x * v, f.at.y * v, (z - f.depth / 2) * v};
    return s;
  }

  Solid rebate_void(const Feature& f) const {
    Solid s;
    const double z = shape_.top(f.at.y);
    s += slab(box_ring(footprint(f, deck_)), z - f.depth, z);
    s -= slab(f.ring(), z - f.depth, z);
    return s;
  }

  /// One straight piece of curb between two points of its foot (inner face). The cut is the same
  /// all along: level top, foot on the falling deck, battered inner face.
  Solid curb_piece(Side side, PanelPoint a, PanelPoint b) const {
    const CurbData& c = deck_.section.curb;
    const double w = c.width.in_mm(), h = c.height.in_mm(), t = c.batter.in_mm();
    const double out = side == Side::left ? 1 : -1;
    const PanelPoint mid = (a + b) * 0.5;
    const double z = shape_.top(mid.y), drop = z - shape_.top(mid.y + out * w);
    // Rectangle, wedge below its foot, less the triangle of the batter: area, arm from the foot, z.
    const double box = w * h, wedge = w * drop / 2, lean = t * h / 2;
    const double area = box + wedge - lean, dx = b.x - a.x;
    const double arm = box * w / 2 + wedge * w * 2 / 3 - lean * t / 3;
    const double rise = box * h / 2 - wedge * drop / 3 - lean * h * 2 / 3;
    const double v = area * dx;
    return {v, mid.x * v, mid.y * v + out * arm * dx, z * v + rise * dx};
  }

  void curbs() {
    Solid sum;
    for (const CurbRun& c : shape_.curbs) {
      const auto foot = foot_of(c);
      for (std::size_t i = 1; i < foot.size(); ++i) sum += curb_piece(c.side, foot[i - 1], foot[i]);
    }
    for (const Feature& f : shape_.features)  // the plates take the curb's place
      if (f.kind == FeatureKind::post_plate) sum -= plate(f);
    add("curb", sum, density(deck_, "curb"));
  }

  /// Inner foot line of a curb, x rising.
  static std::vector<PanelPoint> foot_of(const CurbRun& c) {
    const auto half = static_cast<std::ptrdiff_t>(c.plan.size() / 2);
    std::vector<PanelPoint> line = c.side == Side::left
                                       ? std::vector(c.plan.begin(), c.plan.begin() + half)
                                       : std::vector(c.plan.begin() + half, c.plan.end());
    if (line.front().x > line.back().x) line = {line.rbegin(), line.rend()};
    return line;
  }

  Solid plate(const Feature& f) const {
    const PostPlateData& p = deck_.posts->plate;
    const CurbData& c = deck_.section.curb;
    const double out = f.variant == static_cast<int>(Side::left) ? 1 : -1;
    // The plate lies in the middle of the curb's top: half a top's width and the batter to the
    // foot.
    const double foot = f.at.y - out * ((c.width - c.batter) / 2 + c.batter).in_mm();
    const double z = shape_.top(foot) + (c.height - p.cover).in_mm();
    return slab(f.ring(), z - f.depth, z);
  }

  void surface() {
    if (shape_.surface < 0) return;
    const SurfaceData& s = deck_.surfaces[static_cast<std::size_t>(shape_.surface)];
    const Ring<PanelFrame> ring = surface_ring(shape_, deck_);
    if (ring.empty()) return;
    TopArea a = top_over(shape_, ring);
    for (const Feature& f : shape_.features) {
      if (f.kind == FeatureKind::scupper) {
        const double l = deck_.scuppers->grate_length.in_mm() / 2,
                     w = deck_.scuppers->grate_width.in_mm() / 2;
        a -= top_over(shape_, within(ring, {{f.at.x - l, f.at.y - w}, {f.at.x + l, f.at.y + w}}));
      }
      if (f.kind == FeatureKind::hatch) a -= top_over(shape_, within(ring, footprint(f, deck_)));
      const bool hole = f.kind == FeatureKind::sleeve || f.kind == FeatureKind::notch;
      if (hole && f.round) a -= top_over(shape_, circle_ring(f.at, f.length));
      if (hole && !f.round) a -= top_over(shape_, within(ring, f.box()));
    }
    const double k = std::hypot(1.0, shape_.slope);
    out_.surface_area = Area::si(a.a * k * 1e-6);
    add("surface", out_.surface_area * s.thickness, out_.surface_area * s.mass,
        {a.x / a.a, a.y / a.a}, a.z / a.a + s.thickness.in_mm() / 2);
  }

  void fitting(const Feature& f) {
    switch (f.kind) {
      case FeatureKind::post_plate:
        add("post plates", plate(f), density(deck_, "steel"));
        break;
      case FeatureKind::scupper:
        scupper(f);
        break;
      case FeatureKind::hatch:
        cover(f);
        break;
      case FeatureKind::hold_down:
        sleeve("hold-down inserts", f, f.depth / 2);
        break;
      case FeatureKind::lifting_insert:
        sleeve("lifting inserts", f, shape_.top(f.at.y) - f.depth / 2);
        break;
      default:
        break;
    }
  }

  void sleeve(const std::string& part, const Feature& f, double z) {
    const double v = pi / 4 * (f.length * f.length - f.length * f.length / 4) * f.depth;
    add(part, {v, f.at.x * v, f.at.y * v, z * v}, density(deck_, "steel"));
  }

  void scupper(const Feature& f) {
    const ScuppersData& s = *deck_.scuppers;
    const double z = shape_.top(f.at.y), wall = s.wall.in_mm(), cavity = s.cavity.in_mm();
    Solid box = slab(f.ring(), z - f.depth, z);
    box -= slab(box_ring(f.box().grown(-wall)), z - cavity, z);
    const double d = s.outlet.in_mm(), t = s.outlet_wall.in_mm();
    const double length = z - cavity + s.outlet_below.in_mm();
    const double pipe = pi / 4 * (d * d - (d - 2 * t) * (d - 2 * t)) * length;
    const double hole = pi / 4 * d * d * wall;
    const auto at = [&](double v, double level) {
      return Solid{v, f.at.x * v, f.at.y * v, level * v};
    };
    box -= at(hole, z - cavity - wall / 2);
    add("scupper bodies", box, density(deck_, "laminate"));
    add("outlet pipes", at(pipe, (z - cavity) - length / 2), density(deck_, "laminate"));
    constexpr double closed = 0.6;
    const double grate = s.grate_length.in_mm() * s.grate_width.in_mm() * s.grate.in_mm() * closed;
    add("grates", at(grate, z - s.grate.in_mm() / 2), density(deck_, "steel"));
  }

  void cover(const Feature& f) {
    const HatchData& h = deck_.hatches[static_cast<std::size_t>(f.variant)];
    const double z = shape_.top(f.at.y);
    add("hatch covers", slab(box_ring(footprint(f, deck_)), z - h.cover.in_mm(), z),
        density(deck_, "cover"));
  }

  void finish() {
    double x = 0, y = 0, z = 0;
    for (const MassPart& p : out_.parts) {
      out_.total += p.mass;
      x += p.mass.in_si() * p.x;
      y += p.mass.in_si() * p.y;
      z += p.mass.in_si() * p.z;
    }
    const double m = out_.total.in_si();
    if (m <= 0) return;
    out_.x = x / m;
    out_.y = y / m;
    out_.z = z / m;
  }

  const PanelShape& shape_;
  const DeckData& deck_;
  Masses out_;
};

}  // namespace

Masses weigh(const PanelShape& shape, const DeckData& deck) {
  return Scale(shape, deck).total();
}

}  // namespace deckquire
