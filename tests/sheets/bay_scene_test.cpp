// The picture of a typical bay: true to the deck, girders where they are, and on the last erection
// sheet or on one that it names.
#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "sheets/bay_scene.h"
#include "sheets/panel_solid.h"
#include "sheets/trial_set.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

/// Isometric: the vertical distance of two spots one over the other is true.
bool over(PicturePoint high, PicturePoint low, double by) {
  return std::abs(high.x - low.x) < 1e-6 && std::abs(high.y - low.y - by) < 1e-6;
}

const Panel& panel_of(const Deck& deck, const std::string& position) {
  return deck.panels[static_cast<std::size_t>(std::stoi(position) - 1)];
}

}  // namespace

TEST_CASE("typical bay: two bays one after the other, the first seated, all girders under them") {
  for (const char* name : trial_names) {
    CAPTURE(name);
    const TrialSet set(name);
    const auto bay = typical_bay(set.input());
    REQUIRE(bay);
    const Panel& a = panel_of(set.deck, bay->seated.front().position);
    const Panel& b = panel_of(set.deck, bay->lifted.front().position);
    CHECK(b.bay == a.bay + 1);
    CHECK(a.span == b.span);
    CHECK(a.frame.straight);
    CHECK(bay->girders.size() == set.bridge.girders.size());
    // The middle of the lifted panel's top, seated, would lie where the deck has it.
    const double x = b.start.in_mm() - a.start.in_mm() + b.shape.length / 2;
    const double y =
        (b.shape.left_back + b.shape.right_back + b.shape.left_ahead + b.shape.right_ahead) / 4;
    const PicturePoint seat = isometric(true)({x, y, b.shape.top(y)});
    if (b.shape.square())
      CHECK(
          over(bay->lifted.front().at, seat, std::max(2.5 * a.shape.depth, 0.4 * b.shape.length)));
  }
}

TEST_CASE("typical bay: steel is drawn as steel, and what stands before it hides it") {
  const TrialSet set("quickstart");
  const auto bay = typical_bay(set.input());
  REQUIRE(bay);
  const auto count = [&](LineKind kind) {
    return std::count_if(bay->lines.begin(), bay->lines.end(),
                         [&](const PictureLine& l) { return l.kind == kind; });
  };
  CHECK(count(LineKind::others) > 8);
  CHECK(count(LineKind::sunk) >= 3);  // ways down of the corners
  for (const PictureLine& l : bay->lines) {
    CHECK(l.a.x >= bay->low.x - 1e-9);
    CHECK(l.b.x <= bay->high.x + 1e-9);
  }
  // The middle of the seated panel lies on the panel: no steel line passes within 100 mm of it.
  const PicturePoint c = bay->seated.front().at;
  for (const PictureLine& l : bay->lines) {
    if (l.kind != LineKind::others) continue;
    const PicturePoint d = l.b - l.a;
    const double t =
        std::clamp(((c.x - l.a.x) * d.x + (c.y - l.a.y) * d.y) / (d.x * d.x + d.y * d.y), 0., 1.);
    CHECK(std::hypot(l.a.x + d.x * t - c.x, l.a.y + d.y * t - c.y) > 100);
  }
}

TEST_CASE("typical bay: pads lie under the seat, closed solids") {
  const TrialSet set("quickstart");
  const Solid pads = pads_solid(set.deck.panels.front().shape);
  CHECK(closed(pads));
  CHECK(!pads.faces.empty());
  for (const Face& f : pads.faces)
    for (const Spot& s : f.loops.front()) CHECK(s.z <= 0);
}

TEST_CASE("typical bay: on the last erection sheet with strips, or on the one that it names") {
  for (const char* style : {"a1", "a3", "arch-d"}) {
    CAPTURE(style);
    const TrialSet set("quickstart", style);
    int pictures = 0;
    for (const paper::Sheet& s : draw_set(set.input(), 1))
      for (const paper::Item& i : s.items)
        if (const auto* g = std::get_if<paper::GroupStart>(&i))
          if (g->id == "view-bay") {
            CHECK(s.number.front() == 'E');
            ++pictures;
          }
    CHECK(pictures == 1);
  }
}
