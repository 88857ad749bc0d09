// Masses against computations by other ways: closed formulas written out, strips, GEOS.
#include <geos_c.h>

#include <cmath>

#include "deck/trial.h"

using namespace deckquire;
using doctest::Approx;

namespace {

const MassPart& part(const Masses& m, const std::string& name) {
  for (const MassPart& p : m.parts)
    if (p.part == name) return p;
  FAIL("no part " << name);
  return m.parts.front();
}

void set_density(DeckData& d, const std::string& part, double density) {
  for (MaterialData& m : d.materials)
    if (m.part == part) m.density = Density::si(density);
}

/// A rectangle or trapezium in an otherwise empty shape, by its corners.
PanelShape bare(Ring<PanelFrame> outline, double length) {
  PanelShape s;
  s.length = length;
  s.outline = std::move(outline);
  s.surface = -1;
  s.depth = 150;
  return s;
}

}  // namespace

TEST_CASE("mass: a plain panel of the main example, by hand") {
  const auto b = trial::build(trial::example("saltmarsh"));
  const Mark& m = trial::mark_at(b.deck, 14);
  // 2488 x 3000, 150 deep at the crown, 1.5 % each way: 127.5 at the edges, 138.75 on the mean.
  const double L = 2.488, B = 3.0, sec = std::sqrt(1 + 0.015 * 0.015);
  const double skins = L * B * sec * 0.008 + L * B * 0.008;
  const double end = B * (0.13875 - 0.008 * sec - 0.008), side = L * (0.1275 - 0.008 * sec - 0.008);
  const double edges = 2 * (end + side) * 0.006;
  // Two drip grooves, 12 wide and 8 deep, the soffit's 8 of laminate around them: its sides are
  // more laminate, and the groove with its sides is less core.
  const double linings = 2 * (2 * 0.008 * 0.008) * L, grooves = 2 * (0.012 * 0.008) * L;
  const double laminate = (skins + edges + linings) * 1850;
  const double core = (L * B * 0.13875 - skins - edges - linings - grooves) * 80;
  // Curb: 150 wide, 100 above the deck at its foot, which falls 2.25 to the edge; batter 15.
  const double section = 0.150 * 0.100 + 0.150 * 0.00225 / 2 - 0.015 * 0.100 / 2;
  const double plates = 4 * 0.200 * 0.085 * 0.016;
  const double curbs = (2 * section * L - plates) * 1200;
  const double surface = (L - 0.030) * (2.700 - 0.030) * sec * 7.2;
  const auto sleeve = [](double d, double depth) { return pi / 4 * (4 * d * d - d * d) * depth; };
  const double inserts = 4 * (sleeve(0.020, 0.090) + sleeve(0.012, 0.060)) * 7850;
  const double total = laminate + core + curbs + plates * 7850 + surface + inserts;
  CHECK(part(m.masses, "laminate").mass.in_si() == Approx(laminate).epsilon(1e-6));
  CHECK(part(m.masses, "core").mass.in_si() == Approx(core).epsilon(1e-6));
  CHECK(part(m.masses, "curb").mass.in_si() == Approx(curbs).epsilon(1e-6));
  CHECK(part(m.masses, "surface").mass.in_si() == Approx(surface).epsilon(1e-6));
  CHECK(m.masses.total.in_si() == Approx(total).epsilon(1e-6));
  CHECK(m.masses.x == Approx(1244).epsilon(1e-6));  // symmetrical both ways
  CHECK(std::abs(m.masses.y) < 1e-6);
}

TEST_CASE("mass: a tapered panel, by ten thousand strips across") {
  const auto b = trial::build(trial::example("saltmarsh"));
  const Mark& m = trial::mark_at(b.deck, 5);
  const double sec = std::sqrt(1 + 0.015 * 0.015), t = 8 * sec;
  const auto left = [](double x) { return 1500 + 900 * (x + 6) / 2500; };
  const int n = 10000;
  const double dx = 2488.0 / n;
  double top = 0, body = 0, moment = 0, curb = 0, surface = 0;
  for (int i = 0; i < n; ++i) {
    const double x = (i + 0.5) * dx, l = left(x), r = 1500;
    top += (l + r) * dx;
    const double under = 150 * (l + r) - 0.015 * (l * l + r * r) / 2;  // area under a roof
    body += under * dx;
    moment += under * x * dx;
    curb += 2 * (150 * 100 + 150 * 2.25 / 2 - 15 * 100 / 2.0) * dx;
    if (x > 15 && x < 2473) surface += (l + r - 330) * dx;
  }
  // Edge skins: mean depth of each side times its length; the ends have a roof each.
  const double slant = std::hypot(2488, left(2488) - left(0));
  const auto depth = [&](double y) { return 150 - 0.015 * y - t - 8; };
  const auto end = [&](double l) {
    return (150 - t - 8) * (l + 1500) - 0.015 * (l * l + 1500.0 * 1500) / 2;
  };
  const double edges = 6 * (slant * (depth(left(0)) + depth(left(2488))) / 2 + 2488 * depth(1500) +
                            end(left(0)) + end(left(2488)));
  const double skins = top * (t + 8), plates = 4 * 200 * 85 * 16.0;
  const double along = 2488 + slant, linings = 2 * 8 * 8 * along, grooves = 12 * 8 * along;
  const double laminate = (skins + edges + linings) * 1850e-9;
  const double core = (body - skins - edges - linings - grooves) * 80e-9;
  CHECK(part(m.masses, "laminate").mass.in_si() == Approx(laminate).epsilon(1e-5));
  CHECK(part(m.masses, "core").mass.in_si() == Approx(core).epsilon(1e-5));
  CHECK(part(m.masses, "curb").mass.in_si() == Approx((curb - plates) * 1200e-9).epsilon(1e-5));
  CHECK(part(m.masses, "surface").mass.in_si() == Approx(surface * sec * 7.2e-6).epsilon(1e-3));
  const auto sleeve = [](double d, double h) { return pi / 4 * 3 * d * d * h; };
  const double others = plates * 7850e-9 + 4 * (sleeve(20, 90) + sleeve(12, 60)) * 7850e-9;
  const double total =
      laminate + core + (curb - plates) * 1200e-9 + surface * sec * 7.2e-6 + others;
  CHECK(m.masses.total.in_si() == Approx(total).epsilon(1e-3));  // 0.1 %
  CHECK(moment / body > 1244);
  CHECK(m.masses.x > 1244);
  CHECK(m.masses.y > 0);
}

TEST_CASE(
    "mass: trapezium with hatch and scupper, areas and centroid (strength reference, case 16)") {
  DeckData deck = trial::example("saltmarsh").deck;
  const Ring<PanelFrame> outline{{0, 0}, {3000, 0}, {3000, 2400}, {0, 1900}};
  const Ring<PanelFrame> hatch = box_ring<PanelFrame>({{1800, 700}, {2400, 1300}});
  PanelShape s = bare(outline, 3000);
  s.fall = Fall::none;
  CHECK(area(outline) * 1e-6 == Approx(6.450));
  CHECK(centroid(outline).x == Approx(1558).epsilon(1e-3));
  CHECK(centroid(outline).y == Approx(1080).epsilon(1e-3));
  s.openings = {hatch, circle_ring<PanelFrame>({300, 250}, 150)};
  deck.section.top_skin = deck.section.edge_skin = Length();
  deck.section.drip.reset();
  set_density(deck, "laminate", 62.0 / 0.008);  // the bottom skin alone: 62 kg/m2
  set_density(deck, "core", 0);
  const Masses m = weigh(s, deck);
  CHECK(m.top_area.in_si() == Approx(6.072).epsilon(1e-3));
  CHECK(m.total.in_si() == Approx(376.5).epsilon(1e-3));
  CHECK(m.x == Approx(1530).epsilon(1e-3));
  CHECK(m.y == Approx(1087).epsilon(1e-3));
}

TEST_CASE("mass: crowned panel with curbs, part by part (strength reference, case 17)") {
  // Its webs are not ours: webs and core together are our core's volume. Its curbs stand on a mean
  // seat and are not reduced for the plates.
  DeckData deck = trial::example("saltmarsh").deck;
  deck.section.curb.width = mm(150);
  deck.section.curb.height = mm(118.5);  // 221.5 - (130 - 0.02 x 1350): the top of a 120 curb
  deck.section.curb.batter = Length();
  deck.section.edge_skin = Length();
  deck.section.drip.reset();
  deck.surfaces[0].stop = Length();
  deck.surfaces[0].thickness = mm(6);
  deck.surfaces[0].mass = AreaDensity::si(0.006 * 1900);
  PanelShape s = bare({{0, -1500}, {2400, -1500}, {2400, 1500}, {0, 1500}}, 2400);
  s.depth = 130;
  s.slope = 0.02;
  s.surface = 0;
  s.left_back = s.left_ahead = 1500;
  s.right_back = s.right_ahead = -1500;
  s.curbs = {{Side::left, {{0, 1350}, {2400, 1350}, {2400, 1500}, {0, 1500}}},
             {Side::right, {{0, -1500}, {2400, -1500}, {2400, -1350}, {0, -1350}}}};
  const Masses m = weigh(s, deck);
  CHECK(part(m, "laminate").mass.in_si() == Approx(106.6 + 106.6).epsilon(1e-3));
  CHECK(part(m, "laminate").z == Approx((4.000 + 111.0) / 2).epsilon(1e-3));
  const double webs_and_core = 56.04 / 1850 + 54.60 / 80;
  CHECK(part(m, "core").volume.in_si() == Approx(webs_and_core).epsilon(1e-3));
  CHECK(part(m, "core").z == Approx(57.88).epsilon(1e-3));
  CHECK(part(m, "curb").mass.in_si() == Approx(103.7).epsilon(1e-3));
  CHECK(part(m, "curb").z == Approx(161.5).epsilon(1e-3));
  CHECK(part(m, "surface").mass.in_si() == Approx(73.89).epsilon(1e-3));
  // The case takes the overlay at the mean height of the whole panel, 119.5 - 0.02 x 75 too low.
  CHECK(part(m, "surface").z == Approx(130 - 0.02 * 675 + 3).epsilon(1e-3));
  CHECK(m.surface_area.in_si() == Approx(2.7005 * 2.4).epsilon(1e-3));
}

TEST_CASE("mass: what a recess, a scupper and a hatch change, by hand") {
  const auto b = trial::build(trial::example("saltmarsh"));
  const Masses& plain = trial::mark_at(b.deck, 14).masses;
  // Two hollows 800 x 300 x 44: roofs move up, walls of 8 all round; core goes.
  const Masses& recess = trial::mark_at(b.deck, 4).masses;
  const double walls = 2 * 2 * (800 + 300) * 8 * 44e-9, hollow = 2 * 800 * 300 * 44e-9;
  CHECK((recess.total - plain.total).in_si() == Approx(walls * 1850 - hollow * 80).epsilon(1e-4));
  // Hatch 600 x 600 with a rebate of 40 x 30, cover 28.
  const Masses& hatch = trial::mark_at(b.deck, 2).masses;
  CHECK(part(hatch, "hatch covers").mass.in_si() ==
        Approx(0.68 * 0.68 * 0.028 * 1850).epsilon(1e-6));
  CHECK(part(hatch, "hatch seats").mass.in_si() ==
        Approx((0.68 * 0.68 - 0.6 * 0.6) * 0.002 * 7850).epsilon(1e-6));
  CHECK((plain.top_area - hatch.top_area).in_si() == Approx(0.36));
  const Masses& scupper = trial::mark_at(b.deck, 3).masses;
  CHECK(part(scupper, "grates").mass.in_si() ==
        Approx(2 * 0.32 * 0.2 * 0.025 * 0.6 * 7850).epsilon(1e-6));
  const double body = 0.36 * 0.26 * 0.098 - 0.344 * 0.244 * 0.09 - pi / 4 * 0.11 * 0.11 * 0.008;
  CHECK(part(scupper, "scupper bodies").mass.in_si() == Approx(2 * body * 1850).epsilon(1e-3));
}

// ---- GEOS as a second opinion on plan geometry

namespace {

GEOSGeometry* polygon(const Ring<PanelFrame>& ring) {
  const auto n = static_cast<unsigned>(ring.size());
  GEOSCoordSequence* c = GEOSCoordSeq_create(n + 1, 2);
  for (unsigned i = 0; i <= n; ++i) {
    GEOSCoordSeq_setX(c, i, ring[i % n].x);
    GEOSCoordSeq_setY(c, i, ring[i % n].y);
  }
  return GEOSGeom_createPolygon(GEOSGeom_createLinearRing(c), nullptr, 0);
}

struct Opinion {
  double area = 0, x = 0, y = 0;
  bool valid = false;
};

Opinion geos(const PanelShape& s) {
  GEOSGeometry* g = polygon(s.outline);
  Opinion o;
  o.valid = GEOSisValid(g) == 1;
  for (const auto& ring : s.openings) {
    GEOSGeometry* hole = polygon(ring);
    GEOSGeometry* rest = GEOSDifference(g, hole);
    GEOSGeom_destroy(hole);
    GEOSGeom_destroy(g);
    g = rest;
  }
  GEOSArea(g, &o.area);
  GEOSGeometry* c = GEOSGetCentroid(g);
  GEOSGeomGetX(c, &o.x);
  GEOSGeomGetY(c, &o.y);
  GEOSGeom_destroy(c);
  GEOSGeom_destroy(g);
  return o;
}

void compare(const PanelShape& s, DeckData deck) {
  deck.section.top_skin = deck.section.edge_skin = Length();
  set_density(deck, "core", 0);
  PanelShape plan = s;  // its bottom skin alone: mass and centre are those of the plan
  plan.features.clear();
  plan.curbs.clear();
  plan.surface = -1;
  deck.section.drip.reset();
  const Masses m = weigh(plan, deck);
  const Opinion o = geos(s);
  CHECK(o.valid);
  CHECK(m.top_area.in_si() * 1e6 == Approx(o.area).epsilon(1e-9));
  CHECK(m.x == Approx(o.x).epsilon(1e-9));
  CHECK(std::abs(m.y - o.y) < 1e-6);
}

}  // namespace

TEST_CASE("plan: area and centre of every example panel and of random polygons, as GEOS has them") {
  initGEOS(nullptr, nullptr);
  for (const char* name : {"saltmarsh", "quickstart", "orchard"}) {
    const Project p = trial::example(name);
    const auto b = trial::build(p);
    for (const Panel& panel : b.deck.panels) compare(panel.shape, p.deck);
  }
  const DeckData deck = trial::example("saltmarsh").deck;
  trial::Dice dice{7};
  for (int k = 0; k < 200; ++k) {
    Ring<PanelFrame> ring;  // star-shaped about its middle, so never crossing itself
    const int n = 3 + dice.upto(12);
    for (int i = 0; i < n; ++i) {
      const double a = 2 * pi * (i + 0.8 * dice.next()) / n, r = 400 + 1100 * dice.next();
      ring.push_back({1500 + r * std::cos(a), r * std::sin(a)});
    }
    PanelShape s = bare(ring, 3000);
    if (area(ring) > 0 && contains(ring, PanelPoint{1500, 0}) && n > 6)
      s.openings.push_back(circle_ring<PanelFrame>({1500, 0}, 50));
    if (area(ring) > 0) compare(s, deck);
  }
  finishGEOS();
}
