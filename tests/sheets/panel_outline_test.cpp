// Figures that a shop sets a panel out by, against the panel's own polygon, found here by other
// means: corners are the outline's points nearest to the four extremes of a turned frame, angles by
// the law of cosines from straight distances (plane geometry, no further source).
#include <cmath>
#include <cstdlib>
#include <set>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "example.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

std::set<std::string> texts(const paper::Sheet& sheet) {
  std::set<std::string> out;
  for (const auto& item : sheet.items)
    if (const auto* t = std::get_if<paper::Text>(&item)) out.insert(t->text);
  return out;
}

double apart(PanelPoint a, PanelPoint b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// The vertex of the outline that lies furthest along a direction.
PanelPoint furthest(const PanelShape& s, double dx, double dy) {
  PanelPoint best = s.outline.front();
  for (const PanelPoint& p : s.outline)
    if (p.x * dx + p.y * dy > best.x * dx + best.y * dy) best = p;
  return best;
}

bool has_edge_notch(const PanelShape& s) {
  for (const Feature& f : s.features)
    if (f.kind == FeatureKind::notch) return true;
  return false;
}

/// A chain as it is drawn: its dimension line, and the printed figures in mm or 1/16 inch.
struct Drawn {
  bool level = true;
  double across = 0, from = 0, to = 0;
  std::vector<long> values;
};

/// "2488", "(2400)", "2488 AT ROW JOINT L1"; 8'-0 1/4".
long figure(const std::string& text) {
  long feet = 0, inches = 0, over = 0, under = 1, n = 0;
  bool imperial = false;
  for (std::size_t i = text.find_first_of("0123456789"); i < text.size(); ++i) {
    const char ch = text[i];
    if (ch >= '0' && ch <= '9') {
      n = n * 10 + (ch - '0');
    } else if (ch == '\'') {
      feet = n, n = 0, imperial = true;
    } else if (ch == '/') {
      over = n, n = 0;
    } else if (ch == '"') {
      (over > 0 ? under : inches) = n, imperial = true;
      break;
    } else if (ch == ' ' && i + 1 < text.size() && text[i + 1] >= '0' && text[i + 1] <= '9') {
      inches = n, n = 0;
    } else if (ch != '-') {
      break;
    }
  }
  return imperial ? feet * 192 + inches * 16 + over * 16 / under : n;
}

/// A level or upright straight stroke; else of no length.
Drawn straight(const paper::Path& path) {
  Drawn d;
  if (path.points.size() != 2) return d;
  const auto a = path.points[0], b = path.points[1];
  d.level = a.y == b.y;
  if (!d.level && a.x != b.x) return d;
  d.across = d.level ? a.y : a.x;
  d.from = d.level ? std::min(a.x, b.x) : std::min(a.y, b.y);
  d.to = d.level ? std::max(a.x, b.x) : std::max(a.y, b.y);
  return d;
}

/// The chains of a sheet; running dimensions, which have an origin circle, are not among them.
std::vector<Drawn> chains_of(const paper::Sheet& sheet) {
  std::vector<Drawn> out;
  for (std::size_t i = 0; i < sheet.items.size(); ++i) {
    const auto* g = std::get_if<paper::GroupStart>(&sheet.items[i]);
    if (!g || g->kind != "chain") continue;
    Drawn chain;
    bool running = false;
    std::vector<Drawn> strokes;
    for (++i; !std::holds_alternative<paper::GroupEnd>(sheet.items[i]); ++i) {
      if (const auto* s = std::get_if<paper::Stroke>(&sheet.items[i])) {
        running = running || s->path.points.size() > 4;
        strokes.push_back(straight(s->path));
      } else if (const auto* t = std::get_if<paper::Text>(&sheet.items[i])) {
        chain.values.push_back(figure(t->text));
        chain.level = t->angle == 0;
      }
    }
    for (const Drawn& s : strokes)  // extension lines stand across the chain
      if (s.level == chain.level && s.to - s.from > chain.to - chain.from)
        chain.across = s.across, chain.from = s.from, chain.to = s.to;
    if (!running && !chain.values.empty()) out.push_back(chain);
  }
  return out;
}

/// True where one value spans the whole of a chain, on a line beside it.
bool is_overall(const Drawn& overall, const Drawn& chain) {
  return overall.values.size() == 1 && overall.level == chain.level &&
         std::abs(overall.across - chain.across) < 60 &&
         std::abs(overall.from - chain.from) < 0.02 && std::abs(overall.to - chain.to) < 0.02;
}

}  // namespace

TEST_CASE("panel sheets, every chain of every example, its figures sum to the overall beside it") {
  int compared = 0;
  for (const std::string& name : examples) {
    const Example set(name);
    for (std::size_t i = 0; i < set.plan.sheets.size(); ++i) {
      const SheetPlan& own = set.plan.sheets[i];
      if (own.series != 'P' || own.second) continue;
      const std::vector<Drawn> chains = chains_of(draw_panel(set.input, set.plan, i));
      for (const Drawn& c : chains) {
        if (c.values.size() < 2) continue;
        long sum = 0;
        for (long v : c.values) sum += v;
        for (const Drawn& overall : chains) {
          if (!is_overall(overall, c)) continue;
          ++compared;
          INFO(name, " ", own.number, " at ", c.from, " to ", c.to);
          CHECK(sum == overall.values.front());
        }
      }
    }
  }
  CHECK(compared > 20);
}

TEST_CASE("panel outline, every mark of every example, corners are those of its polygon") {
  for (const std::string& name : examples) {
    const Example set(name);
    for (const Mark& m : set.deck.marks) {
      const PanelShape& s = m.shape;
      if (has_edge_notch(s)) continue;  // a notch may take a corner away
      const Corners c = corners_of(s);
      INFO(name, " ", m.name);
      CHECK(apart(c.back_right, furthest(s, -1, -2)) < 1e-6);
      CHECK(apart(c.ahead_right, furthest(s, 1, -2)) < 1e-6);
      CHECK(apart(c.ahead_left, furthest(s, 1, 2)) < 1e-6);
      CHECK(apart(c.back_left, furthest(s, -1, 2)) < 1e-6);
    }
  }
}

TEST_CASE(
    "panel sheets, every mark of every example, diagonals and widths as the polygon has them") {
  for (const std::string& name : examples) {
    const Example set(name);
    for (std::size_t i = 0; i < set.plan.sheets.size(); ++i) {
      const SheetPlan& own = set.plan.sheets[i];
      if (own.series != 'P' || own.second) continue;
      const Mark& m = set.deck.marks[static_cast<std::size_t>(own.subject)];
      if (has_edge_notch(m.shape)) continue;
      const PanelJob job{set.input, set.plan, own, m, set.project.deck, number_items(m.shape)};
      const PanelPoint br = furthest(m.shape, -1, -2), ar = furthest(m.shape, 1, -2);
      const PanelPoint al = furthest(m.shape, 1, 2), bl = furthest(m.shape, -1, 2);
      std::string all;
      for (const std::string& t : texts(draw_panel(set.input, set.plan, i))) all += t + "\n";
      INFO(name, " ", own.number);
      CHECK(all.find("(" + job.print(apart(br, al)) + ")") != std::string::npos);
      CHECK(all.find("(" + job.print(apart(bl, ar)) + ")") != std::string::npos);
      CHECK(all.find(job.print(apart(br, bl))) != std::string::npos);
      CHECK(all.find(job.print(apart(ar, al))) != std::string::npos);
      CHECK(all.find(job.print(m.shape.length)) != std::string::npos);
    }
  }
}

TEST_CASE("panel outline, table of every skewed mark, closes and its angles sum to 360 degrees") {
  int seen = 0;
  for (const std::string& name : examples) {
    const Example set(name);
    for (std::size_t i = 0; i < set.plan.sheets.size(); ++i) {
      const SheetPlan& own = set.plan.sheets[i];
      if (own.series != 'P' || own.second) continue;
      const Mark& m = set.deck.marks[static_cast<std::size_t>(own.subject)];
      if (!outline_by_table(m.shape)) continue;
      ++seen;
      const PanelJob job{set.input, set.plan, own, m, set.project.deck, number_items(m.shape)};
      const auto rows = outline_table(job).rows;
      INFO(name, " ", own.number);
      REQUIRE(rows.size() >= 4);
      CHECK(std::atof(rows[0][1].c_str()) == doctest::Approx(0));
      CHECK(std::atof(rows[0][2].c_str()) == doctest::Approx(0));
      double angles = 0;
      for (std::size_t r = 0; r < rows.size(); ++r) {
        const auto& a = rows[r];
        const auto& b = rows[(r + 1) % rows.size()];
        const double dx = std::atof(b[1].c_str()) - std::atof(a[1].c_str());
        const double dy = std::atof(b[2].c_str()) - std::atof(a[2].c_str());
        CHECK(std::abs(std::hypot(dx, dy) - std::atof(a[3].c_str())) < 0.2);  // printed to 0.1 mm
        CHECK(std::atof(a[1].c_str()) > -0.06);  // nothing lies behind the datum
        angles += std::atof(a[4].c_str());
      }
      CHECK(angles == doctest::Approx(180.0 * double(rows.size() - 2)).epsilon(0.0003));
    }
  }
  CHECK(seen > 0);
}
