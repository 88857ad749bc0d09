// What a panel weighs. The rules, so that a hand computation can repeat them (R: the outline less
// its openings; sec: 1 / cos of the crossfall):
//  - top skin: over R less the scupper bodies, along the slope; bottom skin: over R, at a recess it
//    follows the hollow's roof, with walls on its sides (none at a panel's end);
//  - edge skins: around the outline and around the hatch and notch openings, between the two skins;
//    sleeves have walls of their own thickness outside their bore; scupper outlets none;
//  - core: what is left of the solid below the top; taken off too: recesses, scupper bodies, hatch
//    rebates (lined by the top skin, at its own level);
//  - curbs: foot on the sloping deck, level top, battered inner face, less the post plates in them;
//  - post plates: full, holes not taken off (as the tapped holes are filled by bolts);
//  - wearing surface: by its area along the slope times mass per area; between the curbs and the
//    ends less the stop, less grates, hatches with their rebates, sleeves and notches;
//  - scupper fittings: body walls and floor of laminate; grate of steel, six tenths of its plan
//  solid
//    (nominal); pipe of laminate from the body's floor to its end, inside its outer diameter;
//  - hatch: cover over opening and rebate; a steel seat of the rebate's width that fills the depth
//    the cover leaves;
//  - inserts: steel sleeves of twice the thread's diameter, bored (nominal);
//  - drip grooves: open; the bottom skin lines their roof and both sides in its own thickness (not
//    beyond the edge skin's inner face), from end to end of every edge but notches and row joints.
//    Not counted: pads, sealant, clips, posts, bolts, tag, resin in joints.
#include <cmath>

#include "deck/features.h"
#include "deck/solids.h"

namespace deckquire {
namespace {

Density density_of(const DeckData& deck, const std::string& part) {
  for (const MaterialData& m : deck.materials)
    if (m.part == part) return m.density;
  // A cover without a material of its own is laminate.
  return part == "laminate" ? Density() : density_of(deck, "laminate");
}

struct Weighing {
  const PanelShape& shape;
  const DeckData& deck;
  Height top;
  double sec;               // length along the slope per length across
  double skin_top, bottom;  // vertical thickness of the top skin; bottom skin
  Masses masses;

  Weighing(const PanelShape& s, const DeckData& d)
      : shape(s),
        deck(d),
        top(top_of(s)),
        sec(std::hypot(1, s.fall == Fall::none ? 0 : s.slope)),
        skin_top(d.section.top_skin.in_mm() * sec),
        bottom(d.section.bottom_skin.in_mm()) {}

  template <class Do>
  void each(FeatureKind kind, Do act) const {
    for (const Feature& f : shape.features)
      if (f.kind == kind) act(f);
  }
  void add(const std::string& part, const Solid& s, Density d) {
    if (s.volume <= 0) return;
    const Volume v = Volume::si(s.volume * 1e-9);
    masses.parts.push_back({part, v, v * d, s.x / s.volume, s.y / s.volume, s.z / s.volume});
  }
  const HatchData& hatch(const Feature& f) const {
    return deck.hatches[static_cast<std::size_t>(f.variant)];
  }
};

/// The outline less its openings, between two heights.
Solid over_plan(const Weighing& w, const Height& low, const Height& high) {
  Solid s = prism(w.shape.outline, low, high);
  for (const auto& ring : w.shape.openings) s = s - prism(ring, low, high);
  return s;
}

/// A scupper's body in plan less its outlet, which is an opening already.
Solid over_body(const Weighing& w, const Feature& f, const Height& low, const Height& high) {
  return prism(f.ring(), low, high) -
         prism(circle_ring(f.at, w.deck.scuppers->outlet.in_mm()), low, high);
}

Solid top_skin(const Weighing& w) {
  const Height under = w.top.raised(-w.skin_top);
  Solid s = over_plan(w, under, w.top);
  w.each(FeatureKind::scupper, [&](const Feature& f) { s = s - over_body(w, f, under, w.top); });
  return s;
}

/// A hollow where it is inside the panel: what reaches beyond an end or a row joint is no panel.
Ring<PanelFrame> hollow_ring(const Weighing& w, const Feature& f) {
  const PanelShape& s = w.shape;
  Ring<PanelFrame> ring = f.ring();
  if (s.square() && !s.left_joint && !s.right_joint) return ring;
  ring = clip<PanelFrame>(ring, {-1, s.back_slope}, 0);
  ring = clip<PanelFrame>(ring, {1, -s.ahead_slope}, s.length);
  const auto edge_cut = [&](double back, double ahead, double side) {
    const PanelPoint a{s.back_x(back), back}, b{s.ahead_x(ahead), ahead};
    const PanelPoint n = PanelPoint{a.y - b.y, b.x - a.x} * side;
    ring = clip<PanelFrame>(ring, n, n.x * a.x + n.y * a.y);
  };
  if (s.left_joint) edge_cut(s.left_back, s.left_ahead, 1);
  if (s.right_joint) edge_cut(s.right_back, s.right_ahead, -1);
  return ring;
}

/// A side of a hollow that lies in an edge of the panel is open.
bool at_panel_edge(const Weighing& w, PanelPoint a, PanelPoint b) {
  const auto& ring = w.shape.outline;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const PanelPoint p = ring[i], d = ring[(i + 1) % ring.size()] - p;
    const double length = std::hypot(d.x, d.y);
    const auto off = [&](PanelPoint q) {
      return std::abs((q.x - p.x) * d.y - (q.y - p.y) * d.x) / length;
    };
    if (length > 0 && off(a) < 1e-5 && off(b) < 1e-5) return true;
  }
  return false;
}

/// A drip groove in plan, and with the laminate at its sides.
struct Groove {
  Ring<PanelFrame> open, lined;
};

/// Under every side of the outline that is the deck's own edge.
std::vector<Groove> grooves_of(const Weighing& w) {
  std::vector<Groove> out;
  if (!w.deck.section.drip) return out;
  const DripData& d = *w.deck.section.drip;
  const PanelShape& s = w.shape;
  const double from = d.inset.in_mm(), to = (d.inset + d.width).in_mm();
  const double outer = std::max(from - w.bottom, w.deck.section.edge_skin.in_mm());
  const auto on = [](double p, double q) { return std::abs(p - q) < 1e-6; };
  for (std::size_t i = 0; i < s.outline.size(); ++i) {
    const PanelPoint a = s.outline[i], b = s.outline[(i + 1) % s.outline.size()], along = b - a;
    const bool back = on(a.x, s.back_x(a.y)) && on(b.x, s.back_x(b.y));
    const bool ahead = on(a.x, s.ahead_x(a.y)) && on(b.x, s.ahead_x(b.y));
    const bool row_joint = along.x < 0 ? s.left_joint : s.right_joint;  // counter-clockwise
    bool notch = a == b;
    w.each(FeatureKind::notch,
           [&](const Feature& f) { notch = notch || f.box().grown(0.01).contains((a + b) * 0.5); });
    if (back || ahead || row_joint || notch) continue;
    const PanelPoint in = PanelPoint{-along.y, along.x} * (1 / std::hypot(along.x, along.y));
    const auto strip = [&](double low, double high) {
      return Ring<PanelFrame>{a + in * low, b + in * low, b + in * high, a + in * high};
    };
    out.push_back({strip(from, to), strip(std::min(outer, from), to + w.bottom)});
  }
  return out;
}

Solid bottom_skin(const Weighing& w) {
  Solid s = over_plan(w, level(0), level(w.bottom));
  w.each(FeatureKind::recess, [&](const Feature& f) {
    const auto ring = hollow_ring(w, f);
    s = s - prism(ring, level(0), level(w.bottom));
    s = s + prism(ring, level(f.depth), level(f.depth + w.bottom));
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const PanelPoint a = ring[i], b = ring[(i + 1) % ring.size()];
      if (!at_panel_edge(w, a, b)) s = s + wall(a, b, w.bottom, level(0), level(f.depth));
    }
  });
  for (const Groove& g : grooves_of(w)) {
    const double depth = w.deck.section.drip->depth.in_mm();
    s = s - prism(g.open, level(0), level(depth));
    s = s + prism(g.lined, level(w.bottom), level(depth + w.bottom));
  }
  return s;
}

Solid edge_skins(const Weighing& w) {
  const Height low = level(w.bottom), high = w.top.raised(-w.skin_top);
  const double t = w.deck.section.edge_skin.in_mm();
  Solid s = wall(w.shape.outline, t, low, high);
  w.each(FeatureKind::recess, [&](const Feature& f) {  // open at the joint below its roof skin
    const auto ring = hollow_ring(w, f);
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const PanelPoint a = ring[i], b = ring[(i + 1) % ring.size()];
      if (at_panel_edge(w, a, b)) s = s - wall(a, b, t, low, level(f.depth + w.bottom));
    }
  });
  const auto around = [&](const Feature& f) {
    for (const auto& ring : w.shape.openings)
      if (contains(ring, f.at)) s = s + wall(ring, t, low, high);
  };
  w.each(FeatureKind::hatch, around);
  w.each(FeatureKind::notch, around);
  w.each(FeatureKind::sleeve, [&](const Feature& f) {
    const double bore = f.length;
    const double tube = w.deck.sleeves[static_cast<std::size_t>(f.variant)].wall.in_mm();
    s = s + prism(circle_ring(f.at, bore + 2 * tube), low, high) -
        prism(circle_ring(f.at, bore), low, high);
  });
  return s;
}

/// What is hollow, or is weighed as another part, in the space of the core.
Solid hollows(const Weighing& w) {
  Solid s;
  w.each(FeatureKind::recess, [&](const Feature& f) {
    const auto ring = hollow_ring(w, f);
    s = s + prism(ring, level(0), level(f.depth));  // its side walls stand inside the hollow
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const PanelPoint a = ring[i], b = ring[(i + 1) % ring.size()];
      if (!at_panel_edge(w, a, b)) s = s - wall(a, b, w.bottom, level(0), level(f.depth));
    }
  });
  for (const Groove& g : grooves_of(w))
    s = s + prism(g.open, level(0), level(w.deck.section.drip->depth.in_mm()));
  w.each(FeatureKind::scupper,
         [&](const Feature& f) { s = s + over_body(w, f, w.top.raised(-f.depth), w.top); });
  w.each(FeatureKind::hatch, [&](const Feature& f) {
    const Height low = w.top.raised(-f.depth);
    s = s + prism(box_ring(f.box().grown(w.hatch(f).rebate.in_mm())), low, w.top) -
        prism(f.ring(), low, w.top);
  });
  return s;
}

void add_structure(Weighing& w) {
  const Solid top = top_skin(w), bottom = bottom_skin(w), edges = edge_skins(w);
  const Density laminate = density_of(w.deck, "laminate");
  w.add("laminate", top + bottom + edges, laminate);
  const Solid all = over_plan(w, level(0), w.top);
  w.add("core", all - top - bottom - edges - hollows(w), density_of(w.deck, "core"));
}

/// A curb's section at a point of the panel's edge, one millimetre along.
Solid curb_section(const Weighing& w, PanelPoint edge, Side side) {
  const CurbData& c = w.deck.section.curb;
  const double s = sign(side), width = c.width.in_mm(), batter = c.batter.in_mm();
  const double foot = edge.y - s * width;  // inner
  const double level_top = w.top.at(foot) + c.height.in_mm();
  const auto strip = [&](double y0, double y1) {
    return box_ring<PanelFrame>({{-0.5, std::min(y0, y1)}, {0.5, std::max(y0, y1)}});
  };
  Solid solid = prism(strip(edge.y, foot), w.top, level(level_top));
  const double h = c.height.in_mm(), cut = batter * h / 2;  // the inner face leans back: a triangle
  solid = solid - lump(cut, {0, foot + s * batter / 3}, level_top - h / 3);
  // Ends parallel to the panel's faces: the middle of the curb leans with them.
  const double lean = (w.shape.back_slope + w.shape.ahead_slope) / 2 * -s * width / 2;
  solid.x += solid.volume * (edge.x + lean);
  return solid;
}

/// A straight run by Simpson's rule over its sections.
Solid curb_piece(const Weighing& w, PanelPoint a, PanelPoint b, Side side) {
  const double length = b.x - a.x;
  return curb_section(w, a, side) * (length / 6) +
         curb_section(w, a + (b - a) * 0.5, side) * (length * 4 / 6) +
         curb_section(w, b, side) * (length / 6);
}

/// The outer edge of a curb's plan, from the back: the first half of a right one's ring, the second
/// half, reversed, of a left one's.
Ring<PanelFrame> outer_edge(const CurbRun& c) {
  const auto half = static_cast<std::ptrdiff_t>(c.plan.size() / 2);
  Ring<PanelFrame> edge(c.plan.begin(), c.plan.begin() + half);
  if (c.side == Side::left) edge.assign(c.plan.rbegin(), c.plan.rbegin() + half);
  if (edge.front().x > edge.back().x) edge = {edge.rbegin(), edge.rend()};
  return edge;
}

double curb_top(const Weighing& w, Side side, double edge_y) {
  const CurbData& c = w.deck.section.curb;
  return w.top.at(edge_y - sign(side) * c.width.in_mm()) + c.height.in_mm();
}

void add_curbs_and_plates(Weighing& w) {
  Solid curbs, plates;
  for (const CurbRun& c : w.shape.curbs) {
    const auto edge = outer_edge(c);
    // Between faces that are not parallel the foot is longer or shorter than the edge.
    const double reach = (edge.back().x - edge.front().x) * w.deck.section.curb.width.in_mm();
    const double mean = w.shape.square() ? 1 : area(c.plan) / reach;
    Solid run;
    for (std::size_t i = 0; i + 1 < edge.size(); ++i)
      run = run + curb_piece(w, edge[i], edge[i + 1], c.side);
    curbs = curbs + run * mean;
  }
  const CurbData& c = w.deck.section.curb;
  w.each(FeatureKind::post_plate, [&](const Feature& f) {
    const Side side = static_cast<Side>(f.variant);
    const double edge = f.at.y + sign(side) * (c.width - c.batter).in_mm() / 2;
    const double z = curb_top(w, side, edge) - w.deck.posts->plate.cover.in_mm() - f.depth / 2;
    plates = plates + lump(f.length * f.width * f.depth, f.at, z);
  });
  w.add("curb", curbs - plates, density_of(w.deck, "curb"));
  w.add("post plates", plates, density_of(w.deck, "steel"));
}

Ring<PanelFrame> clipped(Ring<PanelFrame> ring, const Box<PanelFrame>& b) {
  ring = clip<PanelFrame>(ring, {1, 0}, b.high.x);
  ring = clip<PanelFrame>(ring, {-1, 0}, -b.low.x);
  ring = clip<PanelFrame>(ring, {0, 1}, b.high.y);
  return clip<PanelFrame>(ring, {0, -1}, -b.low.y);
}

void add_surface(Weighing& w) {
  if (w.shape.surface < 0) return;
  const SurfaceData& s = w.deck.surfaces[static_cast<std::size_t>(w.shape.surface)];
  const auto ring = surface_ring(w.shape, w.deck);
  if (ring.size() < 3) return;
  const double t = s.thickness.in_mm() * w.sec;
  const Height high = w.top.raised(t);
  Solid solid = prism(ring, w.top, high);
  const auto take = [&](const Ring<PanelFrame>& hole) { solid = solid - prism(hole, w.top, high); };
  w.each(FeatureKind::scupper, [&](const Feature& f) {
    const ScuppersData& d = *w.deck.scuppers;
    Feature grate = f;
    grate.length = d.grate_length.in_mm();
    grate.width = d.grate_width.in_mm();
    take(grate.ring());
  });
  w.each(FeatureKind::hatch, [&](const Feature& f) { take(box_ring(footprint(f, w.deck))); });
  w.each(FeatureKind::sleeve, [&](const Feature& f) { take(circle_ring(f.at, f.length)); });
  w.each(FeatureKind::notch, [&](const Feature& f) {
    bool inner = false;
    for (const auto& hole : w.shape.openings)
      if (contains(hole, f.at)) {
        take(hole);
        inner = true;
      }
    if (!inner) take(clipped(ring, f.box()));  // an edge notch: only what lies on the surface
  });
  if (solid.volume <= 0) return;
  w.masses.surface_area = Area::si(solid.volume / t * w.sec * 1e-6);
  w.masses.parts.push_back({"surface", w.masses.surface_area * s.thickness,
                            w.masses.surface_area * s.mass, solid.x / solid.volume,
                            solid.y / solid.volume, solid.z / solid.volume});
}

void add_scuppers_mass(Weighing& w) {
  if (!w.deck.scuppers) return;
  const ScuppersData& d = *w.deck.scuppers;
  Solid bodies, grates, pipes;
  w.each(FeatureKind::scupper, [&](const Feature& f) {
    Feature cavity = f;
    cavity.length -= 2 * d.wall.in_mm();
    cavity.width -= 2 * d.wall.in_mm();
    const Height floor = w.top.raised(-d.cavity.in_mm());
    bodies = bodies + over_body(w, f, w.top.raised(-f.depth), w.top) -
             over_body(w, cavity, floor, w.top);
    const double top = w.top.at(f.at.y), bottom = top - f.depth, end = -d.outlet_below.in_mm();
    constexpr double solid_part = 0.6;
    const double plan = d.grate_length.in_mm() * d.grate_width.in_mm() * solid_part;
    grates = grates + lump(plan * d.grate.in_mm(), f.at, top - d.grate.in_mm() / 2);
    const double outer = d.outlet.in_mm(), inner = outer - 2 * d.outlet_wall.in_mm();
    pipes = pipes + lump(pi / 4 * (outer * outer - inner * inner) * (bottom - end), f.at,
                         (bottom + end) / 2);
  });
  w.add("scupper bodies", bodies, density_of(w.deck, "laminate"));
  w.add("grates", grates, density_of(w.deck, "steel"));
  w.add("outlet pipes", pipes, density_of(w.deck, "laminate"));
}

void add_hatches_mass(Weighing& w) {
  Solid covers, seats;
  w.each(FeatureKind::hatch, [&](const Feature& f) {
    const HatchData& h = w.hatch(f);
    const Ring<PanelFrame> all = box_ring(footprint(f, w.deck)), hole = f.ring();
    const Height under = w.top.raised(-h.cover.in_mm()), seat = w.top.raised(-f.depth);
    covers = covers + prism(all, under, w.top);
    if (h.rebate_depth > h.cover)
      seats = seats + prism(all, seat, under) - prism(hole, seat, under);
  });
  w.add("hatch covers", covers, density_of(w.deck, "cover"));
  w.add("hatch seats", seats, density_of(w.deck, "steel"));
}

void add_inserts(Weighing& w) {
  Solid hold_downs, lifting;
  const auto sleeve = [](const Feature& f, double z) {
    const double outer = f.length, bore = f.length / 2;
    return lump(pi / 4 * (outer * outer - bore * bore) * f.depth, f.at, z);
  };
  w.each(FeatureKind::hold_down,
         [&](const Feature& f) { hold_downs = hold_downs + sleeve(f, f.depth / 2); });
  w.each(FeatureKind::lifting_insert,
         [&](const Feature& f) { lifting = lifting + sleeve(f, w.top.at(f.at.y) - f.depth / 2); });
  w.add("hold-down inserts", hold_downs, density_of(w.deck, "steel"));
  w.add("lifting inserts", lifting, density_of(w.deck, "steel"));
}

}  // namespace

Masses weigh(const PanelShape& shape, const DeckData& deck) {
  Weighing w(shape, deck);
  add_structure(w);
  add_curbs_and_plates(w);
  add_surface(w);
  add_scuppers_mass(w);
  add_hatches_mass(w);
  add_inserts(w);
  Masses& m = w.masses;
  double x = 0, y = 0, z = 0;
  for (const MassPart& p : m.parts) {
    m.total += p.mass;
    x += p.mass.in_si() * p.x;
    y += p.mass.in_si() * p.y;
    z += p.mass.in_si() * p.z;
  }
  if (const double total = m.total.in_si(); total > 0) {
    m.x = x / total;
    m.y = y / total;
    m.z = z / total;
  }
  double plan = area(shape.outline);
  for (const auto& ring : shape.openings) plan -= area(ring);
  m.top_area = Area::si(plan * 1e-6);
  return m;
}

}  // namespace deckquire
