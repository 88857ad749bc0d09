// What random decks have found, each made small: see random_test.cpp.
#include <fmt/format.h>

#include "deck/trial.h"
#include "support/geos.h"

using namespace deckquire;

namespace {

struct Words {
  std::string alignment, steel;  // inside <alignment>, beside it
  std::string edges = R"(<edge at="0 m" left="1.5 m" right="1.5 m"/>)";
  std::string curb = R"(<curb/>)";
  std::string panels = R"(<panels count="2"/>)";
  std::string joints = R"(<joints/>)";
  std::string fittings;
  double to = 5;  // m, of the span
};

/// Two girders, one span from 0+000; the alignment runs on 2 m beyond both ends.
trial::Built built(const Words& w) {
  const std::string xml = fmt::format(
      R"(<project xmlns="urn:deckquire:project:1" number="0901" units="mm"><title>Found</title>
<revisions><revision id="A" date="2026-11-02" by="I. Vane">First</revision></revisions>
<bridge name="Found"><alignment from="-2 m" to="{} m">{}<grade at="0 m" level="10 m"/></alignment>
<girder name="G1" offset="900" flange="250"/><girder name="G2" offset="-900" flange="250"/>{}</bridge>
<deck><edges>{}</edges><section depth="180" fall="none">{}</section>
<span name="1" from="0 m" to="{} m">{}</span>{}{}</deck></project>)",
      w.to + 2, w.alignment, w.steel, w.edges, w.curb, w.to, w.panels, w.joints, w.fittings);
  Findings findings;
  const auto project = read_project(xml, "found.xml", findings);
  std::string said;
  for (const Finding& f : findings.sorted()) said += to_line(f) + "\n";
  REQUIRE_MESSAGE(project, said);
  return trial::build(*project);
}

bool says(const trial::Built& b, const std::string& code) {
  return (" " + trial::codes(b.findings) + " ").find(" " + code + " ") != std::string::npos;
}

std::string lines(const trial::Built& b) {
  std::string out;
  for (const Finding& f : b.findings.sorted()) out += to_line(f) + "\n";
  return out;
}

OracleArea area_of(const Ring<PanelFrame>& ring) {
  return OracleArea::of(ring);
}

}  // namespace

TEST_CASE("a step at a skewed joint: the panel behind keeps its own width to its last corner") {
  Words w;
  w.edges =
      R"(<edge at="0 m" left="1.5 m" right="1.5 m"/><edge at="2.5 m" left="1.5 m" right="1.5 m"/>
<edge at="2.5 m" left="2 m" right="1.5 m"/>)";
  for (const char* skew : {"15 deg", "-15 deg"}) {
    w.joints = fmt::format(R"(<joints skew="{}"/>)", skew);
    const trial::Built b = built(w);
    REQUIRE_MESSAGE(!b.findings.has_errors(), lines(b));
    REQUIRE(b.deck.panels.size() == 2);
    CHECK(bounds(b.deck.panels[0].shape.outline).high.y == 1500);
    CHECK(bounds(b.deck.panels[1].shape.outline).high.y == 2000);
    CHECK(b.deck.panels[0].shape.outline.size() == 4);
    CHECK(b.deck.panels[1].shape.outline.size() == 4);
  }
}

TEST_CASE("a notch that only a corner of a skewed face reaches leaves the panel inside its faces") {
  struct Case {
    const char* at;
    double offset;
  };
  // Across the face, at the left edge, and beside the right edge, whose corner it does not reach.
  for (const Case& c : {Case{"2665", 0}, {"3040", 1500}, {"2280", -1500}}) {
    Words w;
    w.joints = R"(<joints gap="10" skew="15 deg"/>)";
    w.steel = fmt::format(
        R"(<obstruction name="M1" kind="mast" at="{}" offset="{}" length="300" width="300" clearance="20"/>)",
        c.at, c.offset);
    const trial::Built b = built(w);
    CAPTURE(c.at);
    for (const Panel& p : b.deck.panels) {
      const PanelShape& s = p.shape;
      const Ring<PanelFrame> whole{{s.back_x(-1500), -1500},
                                   {s.ahead_x(-1500), -1500},
                                   {s.ahead_x(1500), 1500},
                                   {s.back_x(1500), 1500}};
      const BridgePoint low{std::stod(c.at) - 170, c.offset - 170};
      const PanelPoint corner{low.x - p.start.in_mm(), low.y};
      const auto box = area_of(box_ring(Box<PanelFrame>{corner, corner + PanelPoint{340, 340}}));
      const OracleArea is = area_of(s.outline), wanted = area_of(whole).minus(box);
      CHECK(is.valid());
      CHECK(is.minus(wanted).area() < 1e-3);
      // Between the box and the face no sliver is left.
      CHECK(wanted.minus(is).area() < 2500);
    }
    // The corner of a box that the face behind it cuts off.
    CHECK(area(b.deck.panels[0].shape.outline) < 3000 * b.deck.panels[0].shape.length - 50);
  }
}

TEST_CASE("hollows over a splice run out at both ends of a row joint that leans in its panel") {
  Words w;
  w.to = 6;
  w.panels = R"(<panels count="3"/>)";
  w.alignment =
      R"(<transition from="0 m" to="2 m"/><curve from="2 m" to="6 m" radius="16 m" turn="left"/>)";
  w.steel = R"(<girder name="G3" offset="0" flange="400"/>
<splice girder="G3" at="2050" length="700" width="200" plate="12" projection="25"/>)";
  for (const char* skew : {"0 deg", "12 deg"}) {
    w.joints =
        fmt::format(R"(<joints skew="{}"/><row-joint name="L1" offset="0" gap="10"/>)", skew);
    const trial::Built b = built(w);
    CHECK_MESSAGE(!says(b, "recess-clearance"), lines(b));
    int hollows = 0;
    for (const Panel& p : b.deck.panels)
      for (const Feature& f : p.shape.features) {
        if (f.kind != FeatureKind::recess) continue;
        ++hollows;
        const auto& face = p.row == 0 ? p.right_edge : p.left_edge;
        const double inside = p.row == 0 ? 1 : -1;
        for (double x : {f.box().low.x, f.box().high.x}) {
          const double y =
              face[0].y + (face[1].y - face[0].y) * (x - face[0].x) / (face[1].x - face[0].x);
          const double end = p.row == 0 ? f.box().low.y : f.box().high.y;
          CHECK(inside * (y - end) > -1e-6);                   // no wall is left at the face
          CHECK(inside * (y - end) < 0.05 * f.length + 1e-6);  // nor much cut into the gap
        }
      }
    CHECK(hollows == 4);
  }
}

TEST_CASE("the body of a scupper lies inside its panel, beside a bare edge and a skewed face too") {
  Words w;
  w.curb = R"(<curb sides="right"/>)";
  const auto scupper = [](const char* inset, const char* at) {
    return fmt::format(
        R"(<scuppers inset="{}"><scupper name="S1" at="{}" side="left"/></scuppers>)", inset, at);
  };
  w.fittings = scupper("20", "1.2 m");
  CHECK(says(built(w), "scupper-outside-deck"));
  w.fittings = scupper("60", "1.2 m");
  CHECK_MESSAGE(!built(w).findings.has_errors(), lines(built(w)));
  // Its grate is clear of the face, a corner of its body is not.
  w.curb = R"(<curb/>)";
  w.joints = R"(<joints gap="10" skew="-20 deg"/>)";
  bool crosses = false;
  for (int at = 1500; at < 2200; at += 3) {
    w.fittings = scupper("20", std::to_string(at).c_str());
    const trial::Built b = built(w);
    if (says(b, "scupper-across-joint")) {
      crosses = true;
      break;
    }
    for (const Panel& p : b.deck.panels)
      for (const Feature& f : p.shape.features)
        if (f.kind == FeatureKind::scupper)
          CHECK(area_of(f.ring()).minus(area_of(p.shape.outline)).area() < 1e-3);
  }
  CHECK(crosses);
}

TEST_CASE("without pads the tag keeps clear of a flange beside a row joint") {
  Words w;
  w.steel = R"(<girder name="G3" offset="0" flange="400"/>)";
  w.joints = R"(<joints/><row-joint name="L1" offset="0" gap="10"/>)";
  w.fittings = R"(<pads thickness="0"/>)";
  const trial::Built b = built(w);
  CHECK_MESSAGE(!b.findings.has_errors(), lines(b));
  CHECK(b.deck.panels.size() == 4);
}

TEST_CASE(
    "a post plate at a corner of the edge lies along it, and is refused where it sticks out") {
  Words w;
  w.edges =
      R"(<edge at="0 m" left="1.5 m" right="1.5 m"/><edge at="1.2 m" left="1.5 m" right="1.5 m"/>
<edge at="2.4 m" left="1.86 m" right="1.5 m"/>)";
  const auto post = [](const char* at) {
    return fmt::format(R"(<posts><post at="{}" side="left"/></posts>)", at);
  };
  w.fittings = post("1180");
  const trial::Built b = built(w);
  CHECK(says(b, "plate-cover"));
  CHECK_MESSAGE(!b.findings.has_errors(), lines(b));
  double angle = 0;
  for (const Feature& f : b.deck.panels[0].shape.features)
    if (f.kind == FeatureKind::post_plate) angle = f.angle;
  CHECK(std::tan(angle) == doctest::Approx(0.3 * (1280 - 1200) / 200));
  w.curb = R"(<curb width="115"/>)";
  CHECK(says(built(w), "plate-outside-curb"));
}

TEST_CASE("a post where an opening has taken the curb away is refused") {
  Words w;
  w.steel =
      R"(<obstruction name="M1" kind="mast" at="1 m" offset="1600" length="300" width="180" clearance="20"/>)";
  w.fittings = R"(<posts><post at="1 m" side="left"/></posts>)";
  CHECK(says(built(w), "post-beside-curb"));
  w.fittings = R"(<posts><post at="1400" side="left"/></posts>)";
  CHECK(!says(built(w), "post-beside-curb"));
}

TEST_CASE("posts by rule keep their distance to joints on curves, skews and skewed ends") {
  Words w;
  w.to = 12;
  w.panels = R"(<panels count="5"/>)";
  for (const char* turn : {"left", "right"})
    for (const char* skew : {"0 deg", "14 deg", "-14 deg"})
      for (const char* rule :
           {R"(bays="equal")", R"(bays="equal" at-ends="320")", R"(bays="equal" freedom="200")"}) {
        w.alignment = fmt::format(R"(<curve from="1 m" to="11 m" radius="25 m" turn="{}"/>)", turn);
        w.joints = fmt::format(R"(<joints skew="{}"/>)", skew);
        w.fittings = fmt::format(R"(<posts greatest="1.1 m" in-line="no" {}/>)", rule);
        const trial::Built b = built(w);
        CAPTURE(turn);
        CAPTURE(skew);
        CAPTURE(rule);
        CHECK_MESSAGE(!b.findings.has_errors(), lines(b));
        REQUIRE(b.deck.posts.size() > 20);
        for (std::size_t i = 1; i < b.deck.posts.size(); ++i) {
          const Post &p = b.deck.posts[i - 1], &q = b.deck.posts[i];
          if (p.side != q.side) continue;
          const auto& line = b.bridge.alignment;
          const GroundPoint d = line.ground(q.station.in_mm(), q.offset.in_mm()) -
                                line.ground(p.station.in_mm(), p.offset.in_mm());
          CHECK(std::hypot(d.x, d.y) < 1101);
        }
      }
}
