// Erection sheets of every example on every paper, held against the contents checklist of
// drawing practice (common practice, no single source): each panel once, labels in pairs,
// chains that close, north as surveyed.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <deque>
#include <filesystem>
#include <map>
#include <numeric>
#include <set>

#include "base/files.h"
#include "bridge/bridge.h"
#include "checks/fit.h"
#include "project/reader.h"
#include "schedules/schedules.h"
#include "sheets/erection_parts.h"

using namespace deckquire;
using namespace deckquire::sheets;

namespace {

/// A project with everything that sheets are drawn from.
struct Case {
  std::string name;
  Findings findings;
  Project project;
  Bridge bridge;
  Deck deck;
  std::vector<Table> tables;
  CheckScope scope;
  std::vector<Finding> list;
  paper::Style style;
  paper::Lettering lettering;
  SetPlan plan;
  std::vector<paper::Sheet> sheets;  // of series E

  Case(const std::string& file, const std::string& xml, const std::string& style_name)
      : name(file + " on " + style_name),
        project(*read_project(xml, file, findings)),
        bridge(build_bridge(project, findings)),
        deck(build_deck(project, bridge, findings)),
        tables(make_schedules(project, bridge, deck)),
        scope(check_scope(project)),
        style(paper::read_style(style_name, DECKQUIRE_SOURCE "/styles", findings)),
        lettering(style.fonts) {
    if (findings.has_errors()) return;
    plan = plan_set(input());
    for (std::size_t i = 0; i < plan.sheets.size(); ++i)
      if (plan.sheets[i].series == 'E') sheets.push_back(draw_erection(input(), plan, i));
  }
  SetInput input() const { return {project, bridge, deck, tables, scope, list, style, lettering}; }
};

/// All but the one of a thousand panels, which has the same sheets a hundred times over.
std::vector<std::string> example_files() {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(DECKQUIRE_SOURCE "/projects"))
    if (entry.path().extension() == ".xml" && entry.path().stem() != "causeway")
      files.push_back(entry.path().string());
  std::sort(files.begin(), files.end());
  return files;
}

/// The smallest example with skewed joints, and a row joint over a third girder.
std::string skewed_in_rows(const std::string& skew) {
  std::string xml = read_file(DECKQUIRE_SOURCE "/projects/quickstart.xml");
  const auto add_before = [&](const std::string& element, const std::string& more) {
    xml.insert(xml.find(element), more);
  };
  add_before("<splice ", "<girder name=\"G3\" offset=\"200\" flange=\"250\"/>");
  add_before("<posts ", "<joints skew=\"" + skew + "\"/><row-joint name=\"L1\" offset=\"200\"/>");
  return xml;
}

/// Every case with its sheets; drawn once for all tests.
const std::deque<Case>& cases() {
  static const std::deque<Case> all = [] {
    std::deque<Case> list;
    for (const std::string& file : example_files())
      for (const char* style : {"a1", "a3", "arch-d"})
        list.emplace_back(file, read_file(file), style);
    for (const char* skew : {"15 deg", "-20 deg"})
      for (const char* style : {"a1", "a3"})
        list.emplace_back("skewed", skewed_in_rows(skew), style);
    return list;
  }();
  return all;
}

template <class Visit>
void for_every_case(Visit visit) {
  for (const Case& c : cases()) {
    CAPTURE(c.name);
    REQUIRE(!c.findings.has_errors());
    visit(c);
  }
}

template <class T, class Visit>
void for_items(const std::vector<paper::Sheet>& sheets, Visit visit) {
  for (const paper::Sheet& sheet : sheets)
    for (const paper::Item& item : sheet.items)
      if (const T* t = std::get_if<T>(&item)) visit(sheet, *t);
}

}  // namespace

TEST_CASE("erection sheets of every example on every paper: nothing unfit to print") {
  for_every_case([](const Case& c) {
    for (const paper::Sheet& sheet : c.sheets)
      for (const std::string& fault :
           paper::faults(sheet, c.style.least_height, c.style.frame().grown(0.5)))
        FAIL_CHECK(fault);
  });
}

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

TEST_CASE("hardware and picks of the erection sheets: sum to the deck") {
  for_every_case([](const Case& c) {
    const SetInput input = c.input();
    const SetPlan& plan = c.plan;
    int panels = 0, picked = 0;
    for (int sheet = 0; sheet <= plan.strips.back().sheet; ++sheet) {
      const PanelRange range = panels_on(plan, sheet);
      panels += range.count;
      CHECK(hardware(input, range).rows.at(0).at(1) == std::to_string(range.count));
      for (const auto& row : picks(input, range).rows) {
        const std::size_t to = row[0].find(" to ");
        picked += to == std::string::npos
                      ? 1
                      : std::stoi(row[0].substr(to + 4)) - std::stoi(row[0].substr(0, to)) + 1;
      }
    }
    CHECK(panels == static_cast<int>(c.deck.panels.size()));
    CHECK(picked == panels);
  });
}

TEST_CASE(
    "erection sheets: the typical section once, a scale bar on every sheet, the details named") {
  for_every_case([](const Case& c) {
    const SetPlan& plan = c.plan;
    const std::vector<paper::Sheet>& sheets = c.sheets;
    int sections = 0;
    std::map<std::string, int> bars;
    for_items<paper::GroupStart>(sheets, [&](const paper::Sheet& sheet, const auto& g) {
      sections += g.id == "typical-section" ? 1 : 0;
      bars[sheet.number] += g.kind == "scale-bar" ? 1 : 0;
    });
    CHECK(sections == 1);
    for (int i = 0; i < plan.strip_sheets(); ++i)
      CHECK(bars[sheets[static_cast<std::size_t>(i)].number] >= 1);
    for (Detail d : {Detail::joint, Detail::end_joint, Detail::recess, Detail::scupper}) {
      const DetailRef* ref = plan.find(d);
      if (ref == nullptr) continue;
      std::string words;  // of a sentence that may be broken into lines
      bool named = false;
      for_items<paper::Text>(sheets, [&](const auto&, const paper::Text& t) {
        named = named || t.text == ref->sheet;
        words += t.text + " ";
      });
      CHECK_MESSAGE((named || words.find("on " + ref->sheet) != std::string::npos), ref->title);
    }
  });
}

TEST_CASE("erection sheets: all that they say stands on them, or on a sheet that they refer to") {
  const std::pair<ErectionWords, std::string> headings[] = {
      {ErectionWords::order, "ORDER"},
      {ErectionWords::setting, "SETTING"},
      {ErectionWords::picks, "PICKS"},
      {ErectionWords::hardware, "HARDWARE FOR THE PANELS OF THIS SHEET"},
      {ErectionWords::signs, "ON THIS SHEET"}};
  int moved_in_all = 0;
  for_every_case([&](const Case& c) {
    const auto count = [](const paper::Sheet& sheet, const std::string& text) {
      int seen = 0;
      for_items<paper::Text>({sheet},
                             [&](const auto&, const paper::Text& t) { seen += t.text == text; });
      return seen;
    };
    const auto elsewhere = [&](const std::string& text) {
      int seen = 0;
      for (std::size_t i = c.plan.strip_sheets(); i < c.sheets.size(); ++i)
        seen += count(c.sheets[i], text);
      return seen;
    };
    for (int i = 0; i < c.plan.strip_sheets(); ++i) {
      const paper::Sheet& sheet = c.sheets[static_cast<std::size_t>(i)];
      std::string all;
      for_items<paper::Text>({sheet},
                             [&](const auto&, const paper::Text& t) { all += t.text + " "; });
      for (const auto& [words, heading] : headings) {
        const bool moved = std::any_of(
            c.plan.moved.begin(), c.plan.moved.end(),
            [&, w = words](const MovedWords& m) { return m.sheet == i && m.words == w; });
        moved_in_all += moved ? 1 : 0;
        // A long table may be parted, its heading repeated.
        CHECK_MESSAGE((count(sheet, heading) == 0) == moved, sheet.number << " " << heading);
        if (!moved) continue;
        const std::size_t at = all.find("Read with E");
        REQUIRE(at != std::string::npos);
        CHECK(all.find(words_name(words), at) != std::string::npos);
        const std::string there = words == ErectionWords::setting ? "SETTING"
                                  : words == ErectionWords::signs ? "SIGNS OF THE ERECTION SHEETS"
                                  : words == ErectionWords::hardware
                                      ? "HARDWARE FOR THE PANELS OF " + sheet.number
                                      : heading + ", " + sheet.number;
        CHECK_MESSAGE(elsewhere(there) > 0, there);
      }
    }
  });
  CHECK(moved_in_all > 0);
}

TEST_CASE("cover of every example on every paper: nothing unfit to print") {
  for_every_case([](const Case& c) {
    const SetPlan& plan = c.plan;
    for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
      if (plan.sheets[i].series != 'G') continue;
      const paper::Sheet sheet = draw_cover(c.input(), plan, i);
      for (const std::string& fault :
           paper::faults(sheet, c.style.least_height, c.style.frame().grown(0.5)))
        FAIL_CHECK(fault);
    }
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

TEST_CASE("unrolled strips: say so, and show every element of the alignment with its figures") {
  for_every_case([](const Case& c) {
    const SetPlan& plan = c.plan;
    const std::vector<paper::Sheet>& sheets = c.sheets;
    std::size_t said = 0;
    std::set<std::string> texts;
    for_items<paper::Text>(sheets, [&](const auto&, const paper::Text& t) {
      said += t.text.find("UNROLLED ALONG THE ALIGNMENT") != std::string::npos ? 1 : 0;
      texts.insert(t.text);
    });
    if (c.bridge.alignment.straight()) {
      CHECK(said == 0);
      return;
    }
    CHECK(said == plan.strips.size());
    for (const ElementData& e : element_data(c.bridge.alignment)) {
      CHECK(texts.count(element_text(e, c.project.units)) == 1);
      CHECK(texts.count(print_station(mm(e.from), c.project.units)) +
                (e.from <= c.bridge.alignment.from().in_mm() ? 1 : 0) >=
            1);
    }
  });
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

TEST_CASE(
    "a thousand panels: cover and erection sheets fit to print, every strip between two joints") {
  const std::string file = DECKQUIRE_SOURCE "/projects/causeway.xml";
  const Case c(file, read_file(file), "a1");
  const SetPlan& plan = c.plan;
  const auto check = [&](const paper::Sheet& sheet) {
    for (const std::string& fault :
         paper::faults(sheet, c.style.least_height, c.style.frame().grown(0.5)))
      FAIL_CHECK(fault);
  };
  for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
    if (plan.sheets[i].series == 'G') check(draw_cover(c.input(), plan, i));
    const bool some = plan.sheets[i].subject % 10 == 0;
    if (plan.sheets[i].series == 'E' && some) check(draw_erection(c.input(), plan, i));
  }
  int panels = 0;
  for (const Strip& s : plan.strips) panels += s.count;
  CHECK(panels == static_cast<int>(c.deck.panels.size()));
}
