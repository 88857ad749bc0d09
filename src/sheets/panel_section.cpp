// The cut across a panel: columns of material between breakpoints, joined to rings.
#include <algorithm>
#include <cmath>
#include <limits>

#include "deck/site.h"
#include "sheets/panel_drawing.h"

namespace deckquire::sheets {
namespace {

constexpr double tiny = 1e-6;  // mm
constexpr double everywhere = std::numeric_limits<double>::infinity();

/// The line of a cut in plan: square across the panel, or along a skewed end face.
struct CutLine {
  double x = 0;      // where y is 0
  double slope = 0;  // dx/dy
  double at(double y) const { return slope == 0 ? x : x + slope * y; }
  PanelPoint sheared(PanelPoint p) const { return {p.x - slope * p.y, p.y}; }
  std::vector<PanelPoint> sheared(std::vector<PanelPoint> points) const {
    if (slope != 0)
      for (PanelPoint& p : points) p = sheared(p);
    return points;
  }
  /// Intervals of y inside a ring along the line.
  std::vector<std::pair<double, double>> across(const Ring<PanelFrame>& ring) const {
    return sheets::across(sheared(ring), x);
  }
};

/// A hollow across [low, high] in y from `bottom` to `top` in z, with its lining of laminate.
struct Hollow {
  double low = 0, high = 0;
  double bottom = -everywhere, top = everywhere;
  double lining = 0;
};

/// A strip between two y with straight lower and upper sides.
struct CutStrip {
  double y0 = 0, y1 = 0;
  double low0 = 0, low1 = 0, high0 = 0, high1 = 0;
};

/// Solid between two y before hollows are taken out: lower side level, upper side below the top.
struct Slab {
  double low = 0, high = 0;
  double bottom = 0, under_top = 0;
};

std::vector<Hollow> scupper_hollows(const Feature& f, const DeckData& deck, const CutLine& line,
                                    double level) {
  const ScuppersData& s = *deck.scuppers;
  // The grate lies on a ledge that takes its bolts in the middle.
  const double ledge = (s.grate_width - s.bolt_width_pitch).in_mm();
  const double seat_x = s.grate_length.in_mm() / 2, seat_y = s.grate_width.in_mm() / 2;
  std::vector<Hollow> out;
  const double off = std::abs(line.at(f.at.y) - f.at.x), lining = s.wall.in_mm();
  if (off < seat_x)
    out.push_back({f.at.y - seat_y, f.at.y + seat_y, level - s.grate.in_mm(), everywhere, lining});
  if (off < seat_x - ledge)
    out.push_back({f.at.y - seat_y + ledge, f.at.y + seat_y - ledge, level - s.cavity.in_mm(),
                   everywhere, lining});
  const double pipe = s.outlet.in_mm() / 2 - s.outlet_wall.in_mm();
  if (off < pipe) {
    const double half = std::sqrt(pipe * pipe - off * off);
    out.push_back({f.at.y - half, f.at.y + half, -everywhere, everywhere, s.outlet_wall.in_mm()});
  }
  return out;
}

void feature_hollows(const PanelShape& shape, const DeckData& deck, const CutLine& line,
                     std::vector<Hollow>& out) {
  for (const Feature& f : shape.features) {
    if (f.kind == FeatureKind::scupper && deck.scuppers)
      for (const Hollow& h : scupper_hollows(f, deck, line, shape.top(f.at.y))) out.push_back(h);
    if (f.kind == FeatureKind::recess)
      for (auto [a, b] : line.across(f.ring()))
        out.push_back({a, b, -everywhere, f.depth, deck.section.bottom_skin.in_mm()});
    if (f.kind == FeatureKind::hatch) {
      const HatchData& h = deck.hatches[static_cast<std::size_t>(f.variant)];
      const double seat = h.rebate.in_mm(), half = h.length.in_mm() / 2 + seat;
      const double wide = h.width.in_mm() / 2 + seat;
      if (std::abs(line.at(f.at.y) - f.at.x) < half)
        out.push_back({f.at.y - wide, f.at.y + wide, shape.top(f.at.y) - h.rebate_depth.in_mm(),
                       everywhere, deck.section.edge_skin.in_mm()});
    }
  }
}

/// The sleeve's own wall lines its opening; other openings have the edge laminate.
double lining_at(const PanelShape& shape, const DeckData& deck, const Ring<PanelFrame>& opening) {
  const PanelPoint c = bounds(opening).centre();
  for (const Feature& f : shape.features) {
    if (std::hypot(f.at.x - c.x, f.at.y - c.y) > 1) continue;
    if (f.kind == FeatureKind::scupper) return deck.scuppers->outlet_wall.in_mm();
    if (f.kind == FeatureKind::sleeve && static_cast<std::size_t>(f.variant) < deck.sleeves.size())
      return deck.sleeves[static_cast<std::size_t>(f.variant)].wall.in_mm();
  }
  return deck.section.edge_skin.in_mm();
}

bool is_scupper_outlet(const PanelShape& shape, const Ring<PanelFrame>& opening) {
  const PanelPoint c = bounds(opening).centre();
  return std::any_of(shape.features.begin(), shape.features.end(), [&](const Feature& f) {
    return f.kind == FeatureKind::scupper && std::hypot(f.at.x - c.x, f.at.y - c.y) < 1;
  });
}

/// Drip grooves near the deck's own edges; none beside a row joint, none where an end face is met.
void drip_hollows(const PanelShape& shape, const DeckData& deck, const CutLine& line,
                  std::vector<Hollow>& out) {
  if (!deck.section.drip) return;
  const DripData& d = *deck.section.drip;
  const double in = d.inset.in_mm(), w = d.width.in_mm(), skin = deck.section.bottom_skin.in_mm();
  const auto at_face = [&](double y) {
    const double x = line.at(y);
    return std::abs(x - shape.back_x(y)) < 1e-3 || std::abs(x - shape.ahead_x(y)) < 1e-3;
  };
  const auto spans = line.across(shape.outline);
  for (std::size_t i = 0; i < spans.size(); ++i) {
    const auto [a, b] = spans[i];
    const bool right_joint = i == 0 && shape.right_joint;
    const bool left_joint = i + 1 == spans.size() && shape.left_joint;
    if (!right_joint && !at_face(a))
      out.push_back({a + in, a + in + w, -everywhere, d.depth.in_mm(), skin});
    if (!left_joint && !at_face(b))
      out.push_back({b - in - w, b - in, -everywhere, d.depth.in_mm(), skin});
  }
}

std::vector<Hollow> hollows_at(const PanelShape& shape, const DeckData& deck, const CutLine& line) {
  std::vector<Hollow> out;
  for (const Ring<PanelFrame>& o : shape.openings) {
    if (is_scupper_outlet(shape, o)) continue;  // the scupper makes its own
    for (auto [a, b] : line.across(o))
      out.push_back({a, b, -everywhere, everywhere, lining_at(shape, deck, o)});
  }
  feature_hollows(shape, deck, line, out);
  drip_hollows(shape, deck, line, out);
  return out;
}

std::vector<double> cuts_of(const PanelShape& shape, const std::vector<Slab>& slabs,
                            const std::vector<Hollow>& hollows, bool with_lining) {
  std::vector<double> at{shape.high_line};
  for (const Slab& s : slabs) at.insert(at.end(), {s.low, s.high});
  for (const Hollow& h : hollows) {
    at.insert(at.end(), {h.low, h.high});
    if (with_lining) at.insert(at.end(), {h.low - h.lining, h.high + h.lining});
  }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < tiny; }),
           at.end());
  return at;
}

/// What is left of a slab between y0 and y1; false when nothing.
bool column(const PanelShape& shape, const std::vector<Slab>& slabs,
            const std::vector<Hollow>& hollows, CutStrip& strip) {
  const double middle = (strip.y0 + strip.y1) / 2;
  const auto slab = std::find_if(slabs.begin(), slabs.end(),
                                 [&](const Slab& s) { return s.low < middle && middle < s.high; });
  if (slab == slabs.end()) return false;
  strip.low0 = strip.low1 = slab->bottom;
  strip.high0 = shape.top(strip.y0) - slab->under_top;
  strip.high1 = shape.top(strip.y1) - slab->under_top;
  for (const Hollow& h : hollows) {
    if (middle < h.low || middle > h.high) continue;
    if (h.bottom == -everywhere && h.top == everywhere) return false;
    if (h.bottom == -everywhere) {
      strip.low0 = std::max(strip.low0, h.top);
      strip.low1 = std::max(strip.low1, h.top);
    } else {
      strip.high0 = std::min(strip.high0, h.bottom);
      strip.high1 = std::min(strip.high1, h.bottom);
    }
  }
  return strip.high0 - strip.low0 > tiny && strip.high1 - strip.low1 > tiny;
}

std::vector<CutStrip> columns(const PanelShape& shape, const std::vector<Slab>& slabs,
                           const std::vector<Hollow>& hollows, const std::vector<double>& at) {
  std::vector<CutStrip> out;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    CutStrip s;
    s.y0 = at[i];
    s.y1 = at[i + 1];
    if (column(shape, slabs, hollows, s)) out.push_back(s);
  }
  return out;
}

bool touch(const CutStrip& a, const CutStrip& b) {
  return std::abs(a.y1 - b.y0) < tiny && a.low1 < b.high0 - tiny && b.low0 < a.high1 - tiny;
}

void add(Ring<SectionFrame>& ring, double y, double z) {
  const SectionPoint p{-y, z};
  if (!ring.empty() && std::hypot(ring.back().x - p.x, ring.back().y - p.y) < tiny) return;
  if (ring.size() > 1) {  // drop the middle one of three in a line
    const SectionPoint a = ring[ring.size() - 2], b = ring.back();
    const double turn = (b.x - a.x) * (p.y - b.y) - (b.y - a.y) * (p.x - b.x);
    const double along = (b.x - a.x) * (p.x - b.x) + (b.y - a.y) * (p.y - b.y);
    if (std::abs(turn) < 1e-9 * (1 + std::abs(along)) && along > 0) ring.pop_back();
  }
  ring.push_back(p);
}

/// One ring round strips [first, last), which touch one another. Section x = -y turns the rising y
/// round, so the lower side is walked against it.
Ring<SectionFrame> ring_round(const std::vector<CutStrip>& s, std::size_t first, std::size_t last) {
  Ring<SectionFrame> ring;
  for (std::size_t i = last; i-- > first;) {
    add(ring, s[i].y1, s[i].low1);
    add(ring, s[i].y0, s[i].low0);
  }
  for (std::size_t i = first; i < last; ++i) {
    add(ring, s[i].y0, s[i].high0);
    add(ring, s[i].y1, s[i].high1);
  }
  return ring;
}

std::vector<Ring<SectionFrame>> rings(const std::vector<CutStrip>& strips) {
  std::vector<Ring<SectionFrame>> out;
  for (std::size_t first = 0, i = 1; i <= strips.size(); ++i)
    if (i == strips.size() || !touch(strips[i - 1], strips[i])) {
      out.push_back(ring_round(strips, first, i));
      first = i;
    }
  return out;
}

/// Body less core, column by column: above, below, or the whole where there is no core.
std::vector<Ring<SectionFrame>> laminate(const std::vector<CutStrip>& body,
                                         const std::vector<CutStrip>& core) {
  std::vector<CutStrip> above, below, whole;
  for (const CutStrip& b : body) {
    const auto c = std::find_if(core.begin(), core.end(),
                                [&](const CutStrip& s) { return std::abs(s.y0 - b.y0) < tiny; });
    if (c == core.end()) {
      whole.push_back(b);
      continue;
    }
    CutStrip up = b, down = b;
    up.low0 = c->high0, up.low1 = c->high1;
    down.high0 = c->low0, down.high1 = c->low1;
    if (up.high0 - up.low0 > tiny) above.push_back(up);
    if (down.high0 - down.low0 > tiny) below.push_back(down);
  }
  std::vector<Ring<SectionFrame>> out = rings(above);
  for (auto& r : rings(below)) out.push_back(std::move(r));
  for (auto& r : rings(whole)) out.push_back(std::move(r));
  return out;
}

void cut_body(PanelSection& out, const PanelShape& shape, const DeckData& deck,
              const CutLine& line) {
  const std::vector<Hollow> hollows = hollows_at(shape, deck, line);
  std::vector<Hollow> lined = hollows;
  for (Hollow& h : lined) {
    h.low -= h.lining, h.high += h.lining;
    if (h.top != everywhere) h.top += h.lining;
    if (h.bottom != -everywhere) h.bottom -= h.lining;
  }
  const SectionData& s = deck.section;
  const double edge = s.edge_skin.in_mm();
  std::vector<Slab> whole, inner;
  for (auto [a, b] : line.across(shape.outline)) {
    whole.push_back({a, b, 0, 0});
    if (b - a > 2 * edge)
      inner.push_back({a + edge, b - edge, s.bottom_skin.in_mm(), s.top_skin.in_mm()});
  }
  std::vector<Slab> both = whole;
  both.insert(both.end(), inner.begin(), inner.end());
  const std::vector<double> at = cuts_of(shape, both, hollows, true);
  const std::vector<CutStrip> body = columns(shape, whole, hollows, at);
  const std::vector<CutStrip> core = columns(shape, inner, lined, at);
  out.body = rings(body);
  out.core = rings(core);
  out.skins = laminate(body, core);
}

std::vector<CurbCut> curbs_on(const PanelShape& shape, const DeckData& deck, const CutLine& line) {
  std::vector<CurbCut> out;
  const CurbData& data = deck.section.curb;
  for (const CurbRun& run : shape.curbs)
    for (auto [a, b] : line.across(run.plan)) {
      CurbCut c;
      c.side = run.side;
      const bool left = run.side == Side::left;
      c.inner = left ? a : b;
      c.outer = left ? b : a;
      // Near a skewed end the cut may meet the end face before the curb's foot.
      const double foot = height_at(line.sheared(inner_foot(run)), line.x);
      const bool whole = std::abs(foot - c.inner) < 0.5;
      c.top = shape.top(whole ? c.inner : foot) + data.height.in_mm();
      c.lean = !whole ? 0 : left ? data.batter.in_mm() : -data.batter.in_mm();
      out.push_back(c);
    }
  return out;
}

/// Where the wearing surface lies along the cut.
std::vector<Slab> surface_slabs(const PanelShape& shape, const DeckData& deck,
                                const CutLine& line) {
  const SurfaceData& data = deck.surfaces[static_cast<std::size_t>(shape.surface)];
  const double stop = data.stop.in_mm(), thick = data.thickness.in_mm();
  std::vector<Slab> slabs;
  if (!shape.square()) {
    const auto limits = line.across(surface_ring(shape, deck));
    for (auto [a, b] : line.across(shape.outline))
      for (auto [low, high] : limits)
        if (std::min(b, high) - std::max(a, low) > tiny)
          slabs.push_back({std::max(a, low), std::min(b, high), 0, -thick});
    return slabs;
  }
  if (line.x < stop || line.x > shape.length - stop) return slabs;
  const std::vector<CurbCut> curbs = curbs_on(shape, deck, line);
  for (auto [a, b] : line.across(shape.outline)) {
    for (const CurbCut& c : curbs) {
      if (c.side == Side::left && c.inner > a && c.inner < b) b = c.inner;
      if (c.side == Side::right && c.inner > a && c.inner < b) a = c.inner;
    }
    if (b - a > 2 * stop) slabs.push_back({a + stop, b - stop, 0, -thick});
  }
  return slabs;
}

void cut_surface(PanelSection& out, const PanelShape& shape, const DeckData& deck,
                 const CutLine& line) {
  if (shape.surface < 0) return;
  const double thick = deck.surfaces[static_cast<std::size_t>(shape.surface)].thickness.in_mm();
  const std::vector<Slab> slabs = surface_slabs(shape, deck, line);
  // Only what opens upwards interrupts it.
  std::vector<Hollow> open;
  for (Hollow h : hollows_at(shape, deck, line))
    if (h.top == everywhere) open.push_back({h.low, h.high, -everywhere, everywhere, 0});
  std::vector<CutStrip> strips = columns(shape, slabs, open, cuts_of(shape, slabs, open, false));
  for (CutStrip& s : strips) s.low0 = s.high0 - thick, s.low1 = s.high1 - thick;
  out.surface = rings(strips);
}

Ring<SectionFrame> upright(double y0, double y1, double low, double high) {
  return {{-y1, low}, {-y0, low}, {-y0, high}, {-y1, high}};
}

void cut_steel(PanelSection& out, const PanelShape& shape, const DeckData& deck,
               const CutLine& line) {
  const std::vector<CurbCut> curbs = curbs_on(shape, deck, line);
  for (const Feature& f : shape.features)
    for (auto [a, b] : line.across(f.ring())) {
      const double top = shape.top(f.at.y);
      if (f.kind == FeatureKind::hold_down) out.steel.push_back(upright(a, b, 0, f.depth));
      if (f.kind == FeatureKind::lifting_insert)
        out.steel.push_back(upright(a, b, top - f.depth, top));
      if (f.kind == FeatureKind::pad && deck.pads)
        out.pads.push_back(upright(a, b, -deck.pads->thickness.in_mm(), 0));
      if (f.kind != FeatureKind::post_plate || !deck.posts) continue;
      for (const CurbCut& c : curbs) {
        if (f.at.y < std::min(c.inner, c.outer) || f.at.y > std::max(c.inner, c.outer)) continue;
        const double high = c.top - deck.posts->plate.cover.in_mm();
        out.steel.push_back(upright(a, b, high - deck.posts->plate.thickness.in_mm(), high));
      }
    }
}

PanelSection cut_on(const PanelShape& shape, const DeckData& deck, const CutLine& line) {
  PanelSection out;
  cut_body(out, shape, deck, line);
  for (const CurbCut& c : curbs_on(shape, deck, line)) {
    Ring<SectionFrame> ring{{-c.inner, shape.top(c.inner)},
                            {-c.outer, shape.top(c.outer)},
                            {-c.outer, c.top},
                            {-(c.inner + c.lean), c.top}};
    if (c.side == Side::left) std::reverse(ring.begin(), ring.end());
    out.curbs.push_back(std::move(ring));
  }
  cut_surface(out, shape, deck, line);
  cut_steel(out, shape, deck, line);
  return out;
}

}  // namespace

std::vector<std::pair<double, double>> across(const Ring<PanelFrame>& ring, double x) {
  std::vector<double> at;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const PanelPoint a = ring[i], b = ring[(i + 1) % ring.size()];
    if ((a.x <= x) == (b.x <= x)) continue;
    at.push_back(a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x));
  }
  std::sort(at.begin(), at.end());
  std::vector<std::pair<double, double>> out;
  for (std::size_t i = 0; i + 1 < at.size(); i += 2)
    if (at[i + 1] - at[i] > tiny) out.emplace_back(at[i], at[i + 1]);
  return out;
}

std::vector<CurbCut> curbs_at(const PanelShape& shape, const DeckData& deck, double x) {
  return curbs_on(shape, deck, {x, 0});
}

PanelSection cut_across(const PanelShape& shape, const DeckData& deck, double x) {
  return cut_on(shape, deck, {x, 0});
}

PanelSection cut_along_face(const PanelShape& shape, const DeckData& deck, bool back) {
  constexpr double just_inside = 1;  // mm
  const double slope = back ? shape.back_slope : shape.ahead_slope;
  PanelSection out = cut_on(shape, deck, {back ? just_inside : shape.length - just_inside, slope});
  const double stretch = std::hypot(1, slope);
  for (auto* rings :
       {&out.body, &out.skins, &out.core, &out.curbs, &out.surface, &out.steel, &out.pads})
    for (Ring<SectionFrame>& ring : *rings)
      for (SectionPoint& p : ring) p.x *= stretch;
  return out;
}

}  // namespace deckquire::sheets
