#include <algorithm>
#include <map>

#include "project/extract.h"

namespace deckquire {
namespace {

Fall fall(const std::string& word) {
  static const std::map<std::string, Fall> words{
      {"crown", Fall::crown}, {"left", Fall::left}, {"right", Fall::right}, {"none", Fall::none}};
  return words.at(word);
}

CurbSides sides(const std::string& word) {
  static const std::map<std::string, CurbSides> words{
      {"both", CurbSides::both}, {"left", CurbSides::left}, {"right", CurbSides::right}};
  return words.at(word);
}

JointKind joint_kind(const std::string& word) {
  static const std::map<std::string, JointKind> words{
      {"open", JointKind::open}, {"sealed", JointKind::sealed}, {"lapped", JointKind::lapped}};
  return words.at(word);
}

CurbData extract_curb(const Fields& f, bool present) {
  CurbData c;
  c.sides = present ? sides(f.text("sides")) : CurbSides::none;
  c.place = f.place();
  if (!present) return c;
  c.height = f.length("height");
  c.width = f.length("width");
  c.batter = f.length("batter");
  return c;
}

SectionData extract_section(const Fields& f) {
  SectionData s;
  s.depth = f.length("depth");
  s.fall = fall(f.text("fall"));
  s.slope = f.si("slope");
  s.high_line = f.length("high-line");
  s.least_edge = f.length("least-edge", s.depth / 2);
  s.least_bearing = f.length("least-bearing");
  s.top_skin = f.length("top-skin");
  s.bottom_skin = f.length("bottom-skin");
  s.edge_skin = f.length("edge-skin");
  s.curb = extract_curb(f.child("curb"), f.has_child("curb"));
  const Fields drip = f.child("drip");
  if (f.has_child("drip"))
    s.drip = DripData{drip.length("width"), drip.length("depth"), drip.length("inset")};
  const Fields recess = f.child("recess");
  s.recess_over = recess.length("over");
  s.recess_around = recess.length("around");
  s.recess_cover = recess.length("cover");
  s.place = f.place();
  return s;
}

/// Those written, then the defaults of the parts left out.
std::vector<MaterialData> extract_materials(const Fields& f) {
  std::vector<MaterialData> out;
  f.each("material", [&](const Fields& e) {
    out.push_back({e.text("part"), e.text("name"), Density::si(e.si("density")), e.text("source"),
                   e.place()});
  });
  const std::size_t written = out.size();
  for (const MaterialDefault& d : material_defaults()) {
    bool known = false;
    for (std::size_t i = 0; i < written; ++i) known = known || out[i].part == d.part;
    if (known) continue;
    const std::string& text = f.own().system() == UnitSystem::metric ? d.metric : d.imperial;
    const auto density = std::get<Amount>(read_amount(Kind::density, text, f.own()));
    out.push_back(
        {d.part, d.name, Density::si(density.si), "default, not stated by the project", f.place()});
  }
  return out;
}

SurfaceData extract_surface(const Fields& f, const AlignmentData& a) {
  SurfaceData s;
  s.trade_class = f.text("class");
  s.from = f.length("from", a.from);
  s.to = f.length("to", a.to);
  s.thickness = f.length("thickness");
  s.mass = AreaDensity::si(f.si("mass"));
  s.colour = f.text("colour");
  s.friction = f.text("friction");
  s.standard = f.text("standard");
  s.stop = f.length("stop");
  s.place = f.place();
  return s;
}

PanelsRule extract_panels(const Fields& f, Length post_clear) {
  PanelsRule r{f.optional_integer("count"), f.optional_length("longest"), f.place()};
  const auto yes = [&](const char* name) { return f.text(name) == "yes"; };
  r.fewest_types = f.text("divide") == "fewest-types";
  r.step = f.length("step");
  r.shortest = f.length("shortest", r.longest.value_or(Length()) / 2);
  r.preferred = f.length("preferred", r.longest.value_or(Length()));
  if (const auto mass = f.optional_si("heaviest")) r.heaviest = Mass::si(*mass);
  r.mould = f.optional_length("mould");
  r.symmetrical = yes("symmetrical");
  r.closing = yes("closing");
  r.joints_at_breaks = yes("joints-at-breaks");
  r.moulds = f.text("hands") == "moulds";
  r.clear = {f.optional_length("clear-splice"),
             std::max(post_clear, f.length("clear-post", post_clear)), f.length("clear-scupper"),
             f.length("clear-hatch"), f.length("clear-obstruction")};
  return r;
}

SpanData extract_span(const Fields& f, Length post_clear) {
  SpanData s;
  s.name = f.text("name");
  s.from = f.length("from");
  s.to = f.length("to");
  if (f.given("skew-from")) s.skew_from = Angle::si(f.si("skew-from"));
  if (f.given("skew-to")) s.skew_to = Angle::si(f.si("skew-to"));
  s.place = f.place();
  s.usual = extract_panels(f.child("panels"), post_clear);
  if (f.has_child("panels")) s.rule = s.usual;
  f.each("panel", [&](const Fields& e) {
    s.runs.push_back({e.length("length"), e.integer("times"), e.place()});
  });
  return s;
}

JointsData extract_joints(const Fields& f) {
  JointsData j;
  j.kind = joint_kind(f.text("kind"));
  j.gap = f.length("gap");
  j.end_gap = f.length("end-gap");
  j.rod = f.length("rod");
  j.seal = f.length("seal");
  j.lap = f.length("lap");
  j.tongue = f.length("tongue");
  j.cover_width = f.length("cover-width");
  j.cover_thickness = f.length("cover-thickness");
  j.skew = Angle::si(f.si("skew"));
  j.place = f.place();
  return j;
}

std::vector<RowJointData> extract_row_joints(const Fields& f, const AlignmentData& a) {
  std::vector<RowJointData> out;
  f.each("row-joint", [&](const Fields& e) {
    out.push_back({e.text("name"), e.length("offset"), e.length("gap"), e.length("from", a.from),
                   e.length("to", a.to), e.place()});
  });
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& p, const auto& q) { return p.offset > q.offset; });
  return out;
}

HatchData extract_hatch(const Fields& f) {
  HatchData h;
  h.name = f.text("name");
  h.station = f.length("at");
  h.offset = f.length("offset");
  h.length = f.length("length");
  h.width = f.length("width");
  h.rebate = f.length("rebate");
  h.rebate_depth = f.length("rebate-depth");
  h.cover = f.length("cover");
  h.bolt = f.text("bolt");
  h.bolts = f.integer("bolts");
  h.lift = f.length("lift");
  h.use = f.text("use");
  h.place = f.place();
  return h;
}

SleeveData extract_sleeve(const Fields& f) {
  return {f.text("name"),   f.length("at"), f.length("offset"), f.length("diameter"),
          f.length("wall"), f.text("use"),  f.place()};
}

std::optional<HoldDownData> extract_hold_downs(const Fields& f) {
  HoldDownData h;
  h.each = f.integer("each");
  if (h.each == 0) return std::nullopt;
  h.spacing = f.optional_length("spacing");
  h.from_joint = f.length("from-joint");
  h.bolt = f.text("bolt");
  h.gauge = f.length("gauge");
  h.insert_depth = f.length("depth");
  h.clear = f.length("clear");
  if (const auto v = f.optional_si("capacity")) h.capacity = Force::si(*v);
  h.source = f.text("source");
  h.place = f.place();
  return h;
}

std::optional<PadsData> extract_pads(const Fields& f) {
  if (f.length("thickness") == Length()) return std::nullopt;
  return PadsData{f.length("width"), f.length("thickness"), f.text("material"), f.place()};
}

LiftingData extract_lifting(const Fields& f) {
  LiftingData l;
  l.thread = f.text("thread");
  l.capacity_kn = f.optional_si("capacity").value_or(0) / 1000;
  l.source = f.text("source");
  l.angle = Angle::si(f.si("angle"));
  l.handling = f.optional_si("handling");
  l.carrying = f.integer("carrying");
  l.depth = f.length("depth");
  l.tolerance = f.length("tolerance");
  l.from_edge = f.length("from-edge");
  l.from_curb = f.length("from-curb");
  l.from_hollow = f.length("from-hollow");
  l.from_insert = f.length("from-insert");
  l.place = f.place();
  return l;
}

TagData extract_tag(const Fields& f) {
  return {f.length("length"), f.length("width"), f.length("from-end"), f.length("from-edge"),
          f.place()};
}

MarksData extract_marks(const Fields& f, const std::string& number) {
  return {f.text("prefix"), f.given("serial") ? f.text("serial") : number + "-",
          f.length("tolerance"), f.place()};
}

}  // namespace

DeckData extract_deck(const Fields& f, const BridgeData& bridge, const std::string& number) {
  DeckData d;
  f.child("edges").each("edge", [&](const Fields& e) {
    d.edges.push_back({e.length("at"), e.length("left"), e.length("right"), e.place()});
  });
  d.section = extract_section(f.child("section"));
  d.materials = extract_materials(f);
  d.strength = extract_panel_strength(f);
  f.each("surface",
         [&](const Fields& e) { d.surfaces.push_back(extract_surface(e, bridge.alignment)); });
  const Length post_clear = f.child("posts").length("clear");
  f.each("span", [&](const Fields& e) { d.spans.push_back(extract_span(e, post_clear)); });
  d.joints = extract_joints(f.child("joints"));
  d.row_joints = extract_row_joints(f, bridge.alignment);
  d.posts = extract_posts(f, bridge);
  d.scuppers = extract_scuppers(f);
  f.each("hatch", [&](const Fields& e) { d.hatches.push_back(extract_hatch(e)); });
  f.each("sleeve", [&](const Fields& e) { d.sleeves.push_back(extract_sleeve(e)); });
  d.hold_downs = extract_hold_downs(f.child("hold-downs"));
  d.pads = extract_pads(f.child("pads"));
  d.lifting = extract_lifting(f.child("lifting"));
  d.tag = extract_tag(f.child("tag"));
  d.marks = extract_marks(f.child("marks"), number);
  f.each("clearance", [&](const Fields& e) {
    d.clearances.push_back({e.text("between"), e.given("and") ? e.text("and") : "",
                            e.length("least"), e.optional_length("depth"), e.place()});
  });
  f.each("allowance", [&](const Fields& e) {
    d.allowances.push_back(
        {e.text("on"), e.si("percent"), e.integer("least"), e.text("source"), e.place()});
  });
  d.place = f.place();
  return d;
}

}  // namespace deckquire
