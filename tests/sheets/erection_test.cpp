// Erection sheets of every example on every paper, held against the contents checklist of
// drawing practice (common practice, no single source): each panel once, labels in pairs,
// chains that close, north as surveyed.
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "erection_cases.h"

using namespace deckquire;
using namespace deckquire::sheets;

TEST_CASE("erection sheets: every panel drawn once, each mark's text as often as its quantity") {
  for_every_case([](const Case& c) {
    const std::vector<paper::Sheet>& sheets = c.sheets;
    std::multiset<std::string> groups;
    for_items<paper::GroupStart>(sheets, [&](const auto&, const paper::GroupStart& g) {
      if (g.kind == "panel") groups.insert(g.id);
    });
    CHECK(groups.size() == c.deck.panels.size());
    for (const Panel& p : c.deck.panels)
      CHECK(groups.count("panel-" + std::to_string(p.position)) == 1);
    for (const Mark& mark : c.deck.marks) {
      int seen = 0;
      for_items<paper::Text>(sheets, [&](const auto&, const paper::Text& t) {
        for (std::size_t at = t.text.find(mark.name); at != std::string::npos;
             at = t.text.find(mark.name, at + 1))
          ++seen;
      });
      CHECK_MESSAGE(seen == mark.quantity, mark.name);
    }
  });
}

TEST_CASE("erection sheets: strips follow one another without gap, every sheet of the plan used") {
  for_every_case([](const Case& c) {
    const SetPlan& plan = c.plan;
    int next = 0;
    for (const Strip& s : plan.strips) {
      CHECK(s.first == next);
      CHECK(s.count > 0);
      next += s.count;
      // Cut at a joint, never between panels side by side.
      const auto end = static_cast<std::size_t>(next);
      if (end < c.deck.panels.size()) CHECK(c.deck.panels[end].bay != c.deck.panels[end - 1].bay);
    }
    CHECK(next == static_cast<int>(c.deck.panels.size()));
    for (std::size_t i = 1; i < plan.strips.size(); ++i)
      CHECK(plan.strips[i].from == plan.strips[i - 1].to);
  });
}

TEST_CASE("match lines: each joint's label twice, naming the other's sheet or strip") {
  for_every_case([](const Case& c) {
    const SetInput input = c.input();
    const SetPlan& plan = c.plan;
    const std::vector<paper::Sheet>& sheets = c.sheets;
    CHECK(match_label(input, plan, 0, false).empty());
    CHECK(match_label(input, plan, plan.strips.size() - 1, true).empty());
    std::multiset<std::string> drawn;
    for_items<paper::Text>(sheets, [&](const paper::Sheet& sheet, const paper::Text& t) {
      if (t.text.starts_with("MATCH LINE")) drawn.insert(sheet.number + " " + t.text);
    });
    CHECK(drawn.size() == 2 * (plan.strips.size() - 1));
    for (std::size_t i = 0; i + 1 < plan.strips.size(); ++i) {
      const std::string here = plan.erection_sheet(plan.strips[i].first);
      const std::string there = plan.erection_sheet(plan.strips[i + 1].first);
      const std::string ahead = match_label(input, plan, i, true);
      const std::string back = match_label(input, plan, i + 1, false);
      CHECK(ahead.substr(0, ahead.find("SEE")) == back.substr(0, back.find("SEE")));
      CHECK(ahead.ends_with(here == there ? "SEE STRIP " + std::to_string(i + 2) + " BELOW"
                                          : "SEE " + there));
      CHECK(back.ends_with(here == there ? "SEE STRIP " + std::to_string(i + 1) + " ABOVE"
                                         : "SEE " + here));
      CHECK(drawn.count(here + " " + ahead) == 1);
      CHECK(drawn.count(there + " " + back) == 1);
    }
  });
}

TEST_CASE("chain of panels: closes on every strip, and the strips sum to the deck") {
  for_every_case([](const Case& c) {
    const SetInput input = c.input();
    const SetPlan& plan = c.plan;
    const Length unit = print_unit(c.project.units);
    std::int64_t all = 0;
    for (const Strip& strip : plan.strips) {
      const PanelChain chain = panel_chain(input, strip);
      CHECK(chain.gaps.size() == chain.panels.size() + 1);
      const auto sum = [](const std::vector<std::int64_t>& v) {
        return std::accumulate(v.begin(), v.end(), std::int64_t{0});
      };
      CHECK(sum(chain.gaps) + sum(chain.panels) == chain.total);
      const std::vector<Bay> bays = bays_of(c.deck, strip.first, strip.count);
      REQUIRE(bays.size() == chain.panels.size());
      for (std::size_t i = 0; i < bays.size(); ++i)
        for (int k = 0; k < bays[i].count; ++k) {
          const Panel& p = c.deck.panels[static_cast<std::size_t>(bays[i].first + k)];
          const double off =
              (p.end - p.start).in_mm() - static_cast<double>(chain.panels[i]) * unit.in_mm();
          CHECK(std::abs(off) <= unit.in_mm());
        }
      all += chain.total;
    }
    const Length deck = c.deck.spans.back().to - c.deck.spans.front().from;
    CHECK(std::abs(static_cast<double>(all) * unit.in_mm() - deck.in_mm()) <= unit.in_mm());
  });
}

TEST_CASE("north arrow of an erection sheet: points where the survey has north") {
  for_every_case([](const Case& c) {
    const auto survey = [&](Length station) {
      return c.bridge.alignment.survey(station, Length());
    };
    const auto north_of = [&](Length from, Length to) {  // of the line between, laid level
      const SurveyPoint a = survey(from), b = survey(to);
      return pi / 2 - std::atan2(b.northing - a.northing, b.easting - a.easting);
    };
    const Length from = c.bridge.alignment.from(), to = c.bridge.alignment.to();
    const double north = north_of(from, to);
    for (int k = 0; k < c.plan.strip_sheets(); ++k) {
      const paper::Sheet& sheet = c.sheets[static_cast<std::size_t>(k)];
      int found = 0;
      for (std::size_t i = 0; i + 1 < sheet.items.size(); ++i) {
        const auto* g = std::get_if<paper::GroupStart>(&sheet.items[i]);
        if (g == nullptr || g->kind != "north") continue;
        // Its first stroke is the shaft, from tail to waist.
        const auto* shaft = std::get_if<paper::Stroke>(&sheet.items[i + 1]);
        REQUIRE(shaft != nullptr);
        const paper::PaperPoint d = shaft->path.points[1] - shaft->path.points[0];
        const auto is = [&](double angle) {
          return std::abs(std::remainder(std::atan2(d.y, d.x) - angle, 2 * pi)) < 0.1 * pi / 180;
        };
        // The key plan's, turned with the bridge; on a strip that of its own tangent.
        CHECK((is(north) || (!c.bridge.alignment.straight() && is(north_of(from, from + mm(1))))));
        ++found;
      }
      CHECK(found >= (c.bridge.alignment.straight() ? 2 : 1));
    }
  });
}

TEST_CASE("strips of an erection plan: no panel overflows its sheet, one scale for all") {
  for_every_case([](const Case& c) {
    const SetPlan& plan = c.plan;
    const StripFrame frame = strip_frame(c.input(), plan.erection_ratio, 0);
    for (const Strip& s : plan.strips) {
      const double length = (s.to - s.from).in_mm() / plan.erection_ratio;
      CHECK(frame.left + length + frame.right <=
            c.style.drawing_space().width() - 2 * c.style.gap + 0.1);
    }
    CHECK(frame.height <= plan.strip_height);
    std::map<int, int> rows;
    for (const Strip& s : plan.strips) CHECK(s.row == rows[s.sheet]++);
  });
}

TEST_CASE("row joints: named on every strip that they cross, widths of the rows and gaps printed") {
  for_every_case([](const Case& c) {
    const SetPlan& plan = c.plan;
    const std::vector<paper::Sheet>& sheets = c.sheets;
    const UnitSystem units = c.project.units;
    for (const RowJoint& r : c.deck.row_joints) {
      int named = 0, across = 0;
      for_items<paper::Text>(sheets, [&](const auto&, const paper::Text& t) {
        named += t.text == row_joint_label(r, units) ? 1 : 0;
      });
      for (const Strip& s : plan.strips) across += s.to > r.from && s.from < r.to ? 1 : 0;
      CHECK_MESSAGE(named == across, r.name);
      // On every strip: from the left edge to the joint's face, and the gap.
      const Strip& s = plan.strips.front();
      const Length left = c.bridge.edges.left(s.from);
      std::multiset<std::string> texts;
      for_items<paper::Text>(sheets, [&](const auto&, const paper::Text& t) {
        if (t.angle != 0) texts.insert(t.text);
      });
      CHECK(texts.count(print_length(left - r.offset - r.gap / 2, units)) >= plan.strips.size());
      CHECK(texts.count(print_length(r.gap, units)) >= plan.strips.size());
    }
  });
}

TEST_CASE("skewed joints: their lines drawn at the skew, the angle once a strip") {
  for_every_case([](const Case& c) {
    const SetPlan& plan = c.plan;
    const std::vector<paper::Sheet>& sheets = c.sheets;
    std::multiset<std::string> texts;
    for_items<paper::Text>(sheets,
                           [&](const auto&, const paper::Text& t) { texts.insert(t.text); });
    std::map<std::string, std::size_t> wanted;
    for (const Strip& s : plan.strips) {
      std::set<std::string> skews;
      const Panel& last = c.deck.panels[static_cast<std::size_t>(s.first + s.count - 1)];
      for (int j = c.deck.panels[static_cast<std::size_t>(s.first)].joint_back;
           j <= last.joint_ahead; ++j)
        if (const double skew = c.deck.joints[static_cast<std::size_t>(j)].skew; skew != 0)
          skews.insert(skew_text(skew));
      for (const std::string& text : skews) ++wanted[text];
    }
    for (const auto& [text, n] : wanted) CHECK_MESSAGE(texts.count(text) == n, text);
    for (const Joint& j : c.deck.joints) {
      const BridgePoint left = joint_end(c.bridge, j, Side::left);
      const BridgePoint right = joint_end(c.bridge, j, Side::right);
      // On the ground the line is straight, at the skew to the square at the joint's station.
      const GroundPoint a = c.bridge.alignment.ground(right.x, right.y);
      const GroundPoint b = c.bridge.alignment.ground(left.x, left.y);
      const double square = c.bridge.alignment.heading(j.station.in_mm()) + pi / 2;
      const double angle = std::atan2(b.y - a.y, b.x - a.x);
      CHECK(std::abs(std::remainder(square - j.skew - angle, 2 * pi)) < 1e-6);
    }
  });
}

TEST_CASE("datum corner of a panel in place: the corner that its shop sheet measures from") {
  // Seen from the centre of gravity of the outline, with the panel turned back to its drawing.
  const auto seen = [](const PanelShape& s, bool turned) {
    const PanelPoint c = centroid(s.outline), d = datum_corner(s, turned);
    return turned ? PanelPoint{c.x - d.x, c.y - d.y} : PanelPoint{d.x - c.x, d.y - c.y};
  };
  std::size_t turned = 0, skewed = 0;
  for_every_case([&](const Case& c) {
    for (const Panel& p : c.deck.panels) {
      const Mark& mark = c.deck.marks[static_cast<std::size_t>(p.mark)];
      const PanelPoint drawn = seen(mark.shape, false), placed = seen(p.shape, p.turned);
      CHECK(std::hypot(drawn.x - placed.x, drawn.y - placed.y) < 2);  // types are alike so far
      turned += p.turned ? 1 : 0;
      skewed += p.shape.square() ? 0 : 1;
    }
  });
  CHECK(turned > 0);
  CHECK(skewed > 0);
}

TEST_CASE("panels on an unrolled strip: corners at their stations and offsets") {
  const std::string file = DECKQUIRE_SOURCE "/projects/heron.xml";
  const Case c(file, read_file(file), "a1");
  for (const Panel& p : c.deck.panels)
    for (PanelPoint corner : p.shape.outline) {
      const BridgePoint b = p.frame.bridge(c.bridge.alignment, corner);
      // Back from station and offset to the ground: the same place.
      const GroundPoint g = c.bridge.alignment.ground(b.x, b.y), h = p.frame.ground(corner);
      CHECK(std::hypot(g.x - h.x, g.y - h.y) < 1e-3);
    }
}
