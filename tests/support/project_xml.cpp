#include "support/project_xml.h"

#include <fmt/format.h>

namespace deckquire {
namespace {

std::string written(Length a) {
  const std::int64_t n = a.in_nanometres(), whole = n < 0 ? -n : n;
  return fmt::format("{}{}.{:06} mm", n < 0 ? "-" : "", whole / 1000000, whole % 1000000);
}
std::string written(const std::string& s) {
  return s;
}
const char* written(bool yes) {
  return yes ? "yes" : "no";
}
std::string written(int n) {
  return std::to_string(n);
}
std::string written(Angle a) {
  return fmt::format("{:.9f} deg", a.in_si() * 180 / pi);
}
const char* written(CurbSides s) {
  return s == CurbSides::left ? "left" : s == CurbSides::right ? "right" : "both";
}
const char* written(Fall f) {
  static const char* const words[] = {"crown", "left", "right", "none"};
  return words[static_cast<int>(f)];
}
std::string written(AreaDensity a) {
  return fmt::format("{:.6f} kg/m2", a.in_si());  // the reader takes no more digits
}
const char* written(JointKind k) {
  static const char* const words[] = {"open", "sealed", "lapped"};
  return words[static_cast<int>(k)];
}

/// One start tag while it is written.
struct Tag {
  std::string text;
  template <class Value>
  Tag& with(const char* name, const Value& value) {
    text += fmt::format(" {}=\"{}\"", name, written(value));
    return *this;
  }
  template <class Value>
  Tag& with(const char* name, const std::optional<Value>& value) {
    return value ? with(name, *value) : *this;
  }
};

Tag tag(const char* name) {
  return {std::string("<") + name};
}

class Writer {
 public:
  explicit Writer(const std::string& file) : file_(file) {}
  void line(const std::string& s) {
    text += s + "\n";
    ++line_;
  }
  Place here() const { return {file_, line_, 1}; }
  void empty(const Tag& t, Place& place) {
    place = here();
    line(t.text + "/>");
  }
  void empty(const Tag& t) { line(t.text + "/>"); }
  void open(const Tag& t, Place& place) {
    place = here();
    line(t.text + ">");
  }
  std::string text;

 private:
  std::string file_;
  int line_ = 1;  // of the next one
};

void write_alignment(Writer& w, AlignmentData& a) {
  w.open(tag("alignment")
             .with("from", a.from)
             .with("to", a.to)
             .with("easting", a.easting)
             .with("northing", a.northing)
             .with("bearing", a.bearing),
         a.place);
  auto t = a.transitions.begin();
  const auto transitions_before = [&](Length station) {
    for (; t != a.transitions.end() && t->from < station; ++t)
      w.empty(tag("transition").with("from", t->from).with("to", t->to), t->place);
  };
  for (PlanCurveData& c : a.curves) {
    transitions_before(c.from);
    w.empty(tag("curve")
                .with("from", c.from)
                .with("to", c.to)
                .with("radius", c.radius)
                .with("turn", std::string(c.left ? "left" : "right")),
            c.place);
  }
  transitions_before(a.to);
  for (GradePointData& g : a.grades) {
    Tag one = tag("grade").with("at", g.station).with("level", g.level);
    if (g.curve > Length()) one.with("curve", g.curve);
    w.empty(one, g.place);
  }
  w.line("</alignment>");
}

void write_bridge(Writer& w, BridgeData& b) {
  w.open(tag("bridge").with("name", b.name), b.place);
  write_alignment(w, b.alignment);
  for (SupportData& s : b.supports)
    w.empty(tag("support").with("name", s.name).with("kind", s.kind).with("at", s.station),
            s.place);
  for (GirderData& g : b.girders)
    w.empty(tag("girder")
                .with("name", g.name)
                .with("offset", g.offset)
                .with("flange", g.flange)
                .with("from", g.from)
                .with("to", g.to)
                .with("course", std::string(g.straight ? "straight" : "parallel")),
            g.place);
  for (SpliceData& s : b.splices)
    w.empty(tag("splice")
                .with("girder", s.girder)
                .with("at", s.station)
                .with("length", s.length)
                .with("width", s.width)
                .with("plate", s.plate)
                .with("projection", s.projection),
            s.place);
  for (ObstructionData& o : b.obstructions)
    w.empty(tag("obstruction")
                .with("name", o.name)
                .with("kind", o.kind)
                .with("at", o.station)
                .with("offset", o.offset)
                .with("diameter", o.diameter)
                .with("length", o.length)
                .with("width", o.width)
                .with("clearance", o.clearance),
            o.place);
  w.line("</bridge>");
}

void write_section(Writer& w, SectionData& s) {
  Tag t = tag("section").with("depth", s.depth).with("fall", s.fall);
  t.text += fmt::format(" slope=\"{}\"", s.slope);
  if (s.fall == Fall::crown) t.with("high-line", s.high_line);
  w.open(t.with("least-edge", s.least_edge)
             .with("top-skin", s.top_skin)
             .with("bottom-skin", s.bottom_skin)
             .with("edge-skin", s.edge_skin),
         s.place);
  s.curb.place = s.place;
  if (s.curb.sides != CurbSides::none)
    w.empty(tag("curb")
                .with("sides", s.curb.sides)
                .with("height", s.curb.height)
                .with("width", s.curb.width)
                .with("batter", s.curb.batter),
            s.curb.place);
  if (s.drip)
    w.empty(tag("drip")
                .with("width", s.drip->width)
                .with("depth", s.drip->depth)
                .with("inset", s.drip->inset));
  w.empty(tag("recess")
              .with("over", s.recess_over)
              .with("around", s.recess_around)
              .with("cover", s.recess_cover));
  w.line("</section>");
}

void write_span(Writer& w, SpanData& s) {
  w.open(tag("span")
             .with("name", s.name)
             .with("from", s.from)
             .with("to", s.to)
             .with("skew-from", s.skew_from)
             .with("skew-to", s.skew_to),
         s.place);
  if (s.rule)
    w.empty(tag("panels").with("count", s.rule->count).with("longest", s.rule->longest),
            s.rule->place);
  for (PanelRun& r : s.runs)
    w.empty(tag("panel").with("length", r.length).with("times", r.times), r.place);
  w.line("</span>");
}

void write_joints(Writer& w, DeckData& d) {
  JointsData& j = d.joints;
  w.empty(tag("joints")
              .with("kind", j.kind)
              .with("gap", j.gap)
              .with("end-gap", j.end_gap)
              .with("skew", j.skew),
          j.place);
  for (RowJointData& r : d.row_joints)
    w.empty(tag("row-joint")
                .with("name", r.name)
                .with("offset", r.offset)
                .with("gap", r.gap)
                .with("from", r.from)
                .with("to", r.to),
            r.place);
}

void write_posts(Writer& w, PostsData& p) {
  Tag t = tag("posts").with("greatest", p.greatest).with("spacing", p.spacing);
  if (p.spacing && p.first_given) t.with("first", p.first);
  if (p.greatest) t.with("bays", std::string(p.bays == Bays::equal ? "equal" : "half"));
  t.with("sides", p.sides).with("in-line", p.in_line).with("at-ends", p.at_ends);
  w.open(t.with("at-breaks", p.at_breaks).with("freedom", p.freedom).with("clear", p.clear),
         p.place);
  const PostPlateData& e = p.plate;
  w.empty(tag("plate")
              .with("length", e.length)
              .with("width", e.width)
              .with("thickness", e.thickness)
              .with("cover", e.cover)
              .with("thread", e.thread)
              .with("tap-depth", e.tap_depth));
  for (PostData& q : p.posts) {
    Tag one = tag("post");
    if (!q.name.empty()) one.with("name", q.name);
    w.empty(one.with("at", q.station).with("side", q.sides), q.place);
  }
  w.line("</posts>");
}

void write_scuppers(Writer& w, ScuppersData& s) {
  Tag t = tag("scuppers").with("inset", s.inset).with("spacing", s.spacing);
  if (s.spacing)
    t.with("sides", s.sides)
        .with("at-sags", s.at_sags)
        .with("at-end-joints", s.at_end_joints)
        .with("clear", s.clear)
        .with("freedom", s.freedom);
  w.open(t, s.place);
  w.empty(tag("body")
              .with("length", s.body_length)
              .with("width", s.body_width)
              .with("cavity", s.cavity)
              .with("wall", s.wall));
  for (ScupperData& one : s.scuppers)
    w.empty(tag("scupper").with("name", one.name).with("at", one.station).with("side", one.side),
            one.place);
  w.line("</scuppers>");
}

void write_openings(Writer& w, DeckData& d) {
  for (HatchData& h : d.hatches)
    w.empty(tag("hatch")
                .with("name", h.name)
                .with("at", h.station)
                .with("offset", h.offset)
                .with("length", h.length)
                .with("width", h.width)
                .with("rebate", h.rebate)
                .with("rebate-depth", h.rebate_depth)
                .with("cover", h.cover),
            h.place);
  for (SleeveData& s : d.sleeves)
    w.empty(tag("sleeve")
                .with("name", s.name)
                .with("at", s.station)
                .with("offset", s.offset)
                .with("diameter", s.diameter)
                .with("wall", s.wall),
            s.place);
}

void write_fixings(Writer& w, DeckData& d) {
  if (d.hold_downs) {
    Tag t = tag("hold-downs").with("spacing", d.hold_downs->spacing);
    if (!d.hold_downs->spacing) t.with("each", d.hold_downs->each);
    w.empty(t.with("from-joint", d.hold_downs->from_joint)
                .with("bolt", d.hold_downs->bolt)
                .with("gauge", d.hold_downs->gauge)
                .with("depth", d.hold_downs->insert_depth),
            d.hold_downs->place);
  } else
    w.line("<hold-downs each=\"0\"/>");
  if (d.pads)
    w.empty(tag("pads").with("width", d.pads->width).with("thickness", d.pads->thickness),
            d.pads->place);
  else
    w.line("<pads thickness=\"0\"/>");
  w.empty(tag("lifting").with("thread", d.lifting.thread).with("depth", d.lifting.depth),
          d.lifting.place);
  w.empty(tag("marks").with("prefix", d.marks.prefix).with("tolerance", d.marks.tolerance),
          d.marks.place);
}

void write_deck(Writer& w, DeckData& d) {
  w.open(tag("deck"), d.place);
  w.line("<edges>");
  for (EdgeData& e : d.edges)
    w.empty(tag("edge").with("at", e.station).with("left", e.left).with("right", e.right), e.place);
  w.line("</edges>");
  write_section(w, d.section);
  for (MaterialData& m : d.materials) m.place = d.place;
  d.tag.place = d.place;
  for (SurfaceData& s : d.surfaces)
    w.empty(tag("surface")
                .with("class", s.trade_class)
                .with("from", s.from)
                .with("to", s.to)
                .with("thickness", s.thickness)
                .with("mass", s.mass)
                .with("stop", s.stop),
            s.place);
  for (SpanData& s : d.spans) write_span(w, s);
  write_joints(w, d);
  if (d.posts) write_posts(w, *d.posts);
  if (d.scuppers) write_scuppers(w, *d.scuppers);
  write_openings(w, d);
  write_fixings(w, d);
  w.line("</deck>");
}

}  // namespace

std::string project_xml(Project& p) {
  Writer w(p.file);
  w.open(tag("project")
             .with("xmlns", std::string("urn:deckquire:project:1"))
             .with("number", p.number)
             .with("units", std::string(p.units == UnitSystem::metric ? "mm" : "in")),
         p.place);
  w.line("<title>" + p.title + "</title>");
  w.line(
      "<revisions><revision id=\"A\" date=\"2026-11-02\" by=\"I. Vane\">First</revision>"
      "</revisions>");
  write_bridge(w, p.bridge);
  write_deck(w, p.deck);
  w.line("</project>");
  return w.text;
}

}  // namespace deckquire
