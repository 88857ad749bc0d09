// Panels in space, and their axonometric views on the sheets.
#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include <doctest/doctest.h>

#include "example.h"
#include "sheets/panel_solid.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

Spot cross(Spot a, Spot b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

/// Twice the area of a loop as a vector (sum of triangles from the first corner).
Spot area_of(const std::vector<Spot>& l) {
  Spot sum;
  for (std::size_t i = 1; i + 1 < l.size(); ++i) {
    const Spot a{l[i].x - l[0].x, l[i].y - l[0].y, l[i].z - l[0].z};
    const Spot b{l[i + 1].x - l[0].x, l[i + 1].y - l[0].y, l[i + 1].z - l[0].z};
    const Spot c = cross(a, b);
    sum = {sum.x + c.x, sum.y + c.y, sum.z + c.z};
  }
  return sum;
}

/// The volume inside the faces (divergence theorem): the first loop of a face less the others.
double volume(const Solid& s) {
  double sum = 0;
  for (const Face& f : s.faces) {
    const Spot n = area_of(f.loops[0]), p = f.loops[0][0];
    const double whole = std::sqrt(n.x * n.x + n.y * n.y + n.z * n.z);
    double left = whole;
    for (std::size_t i = 1; i < f.loops.size(); ++i) {
      const Spot m = area_of(f.loops[i]);
      left -= std::sqrt(m.x * m.x + m.y * m.y + m.z * m.z);
    }
    sum += (n.x * p.x + n.y * p.y + n.z * p.z) * left / whole / 6;
  }
  return sum;
}

/// The numbers in the pills inside the groups of a kind and id.
std::set<std::string> numbers_in(const paper::Sheet& sheet, const std::string& id) {
  std::set<std::string> out;
  std::vector<std::string> open;
  for (const auto& item : sheet.items) {
    if (const auto* g = std::get_if<paper::GroupStart>(&item))
      open.push_back(g->kind == "callout" ? "callout" : g->id);
    if (std::holds_alternative<paper::GroupEnd>(item)) open.pop_back();
    const auto* t = std::get_if<paper::Text>(&item);
    if (t && std::count(open.begin(), open.end(), id) &&
        std::count(open.begin(), open.end(), "callout"))
      out.insert(t->text);
  }
  return out;
}

bool has_text(const paper::Sheet& sheet, const std::string& text) {
  return std::any_of(sheet.items.begin(), sheet.items.end(), [&](const paper::Item& item) {
    const auto* t = std::get_if<paper::Text>(&item);
    return t && t->text == text;
  });
}

}  // namespace

TEST_CASE("panel pictures, the solid of every mark, is closed") {
  for (const std::string& name : examples) {
    const Example e(name, "a1");
    for (const Mark& m : e.deck.marks) {
      INFO(name << " " << m.name);
      CHECK(closed(panel_solid(m.shape, e.project.deck, 0)));
    }
  }
}

// Weighing integrates prisms over the plan (deck/solids.h); here the faces are summed. What
// weighing has as other parts: pads are taken off here; panels with scuppers and hatches are left
// to the eye. Weighing has the side walls of a recess inside its hollow, by their middle surface.
TEST_CASE("panel pictures, the solid of every plain mark, has the volume that is weighed") {
  int plain = 0;
  for (const std::string& name : examples) {
    const Example e(name, "a1");
    const DeckData& deck = e.project.deck;
    for (const Mark& m : e.deck.marks) {
      const auto& fs = m.shape.features;
      if (std::any_of(fs.begin(), fs.end(), [](const Feature& f) {
            return f.kind == FeatureKind::scupper || f.kind == FeatureKind::hatch ||
                   (f.kind == FeatureKind::pad && f.angle != 0);
          }))
        continue;
      ++plain;
      double pads = 0, weighed = 0, grooves = 0;
      for (const Feature& f : fs) {
        if (f.kind == FeatureKind::pad) pads += f.length * f.width * f.depth;
        if (f.kind == FeatureKind::recess)
          weighed -= perimeter(f.ring()) * f.depth * deck.section.bottom_skin.in_mm();
      }
      for (const MassPart& p : m.masses.parts)
        if (p.part == "laminate" || p.part == "core" || p.part == "curb" || p.part == "post plates")
          weighed += p.volume.in_si() * 1e9;
      if (deck.section.drip)
        grooves = 2 * m.shape.length * deck.section.drip->width.in_mm() *
                  deck.section.drip->depth.in_mm();
      INFO(name << " " << m.name);
      const double drawn = volume(panel_solid(m.shape, deck, 0)) - pads;
      CHECK(std::abs(drawn - weighed) < 1e-3 * weighed + grooves);
      if (!deck.section.drip) CHECK(std::abs(drawn - weighed) < 3e-4 * weighed);
    }
  }
  CHECK(plain > (thorough ? 15 : 10));
}

TEST_CASE("panel pictures, every line of every mark, lies within the outline of its corners") {
  const Example e("heron.xml", "a1");
  for (const Mark& m : e.deck.marks)
    for (const bool above : {true, false}) {
      const Solid s = panel_solid(m.shape, e.project.deck, 20);
      const Projection p = isometric(above);
      const auto lines = visible_lines(s, p);
      CHECK(lines.size() > 20);
      for (int k = 0; k < 32; ++k) {
        const double c = std::cos(k * pi / 16), d = std::sin(k * pi / 16);
        double most = -1e9;
        for (const Face& f : s.faces)
          for (const auto& loop : f.loops)
            for (Spot q : loop) most = std::max(most, p(q).x * c + p(q).y * d);
        for (const PictureLine& l : lines)
          for (const PicturePoint& q : {l.a, l.b}) CHECK(q.x * c + q.y * d < most + 1e-6);
      }
    }
}

TEST_CASE("panel pictures, every number of the table of features, is in one of the two views") {
  for (const std::string& name : examples)
    for (const std::string style : {"a1", "a3"}) {
      const Example e(name, style);
      const bool second = second_panel_sheet(e.style);
      for (std::size_t i = 0; i < e.plan.sheets.size(); ++i) {
        const SheetPlan& own = e.plan.sheets[i];
        if (own.series != 'P' || own.second != second) continue;
        const paper::Sheet sheet = draw_panel(e.input, e.plan, i);
        INFO(name << " " << style << " " << sheet.number);
        if (has_text(sheet, "views from above and from below: no room for them on this sheet"))
          continue;
        const Mark& mark = e.deck.marks[static_cast<std::size_t>(own.subject)];
        std::set<std::string> shown = numbers_in(sheet, "view-above"), all;
        shown.merge(numbers_in(sheet, "view-below"));
        for (const PanelItem& item : number_items(mark.shape))
          all.insert(std::to_string(item.number));
        CHECK(shown == all);
      }
    }
}

TEST_CASE("panel pictures, on A1 sheets, are left off nowhere") {
  if (!thorough) return;
  for (const std::string& name : examples) {
    const Example e(name, "a1");
    for (std::size_t i = 0; i < e.plan.sheets.size(); ++i)
      if (e.plan.sheets[i].series == 'P') {
        const paper::Sheet sheet = draw_panel(e.input, e.plan, i);
        INFO(name << " " << sheet.number);
        CHECK(has_text(sheet, "VIEW FROM ABOVE"));
        CHECK(has_text(sheet, "VIEW FROM BELOW"));
      }
  }
}
