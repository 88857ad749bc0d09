#include "history/signature.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace deckquire::history {
namespace {

std::string figure(double v) {
  return shortest_decimal(v, 3);
}
std::string figure(Length v) {
  return figure(v.in_mm());
}
/// Not a number of the comparison: equal as text or not at all.
std::string exact(double v, const char* unit) {
  return shortest_decimal(v, 6) + unit;
}

/// Free text in a line of facts.
std::string one_line(std::string text) {
  for (char& c : text)
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  return text;
}

bool is_round(const Ring<PanelFrame>& ring) {
  return ring.size() >= 24;  // a circle has 32 sides
}

/// Writes the facts of one shape.
struct FactWriter {
  const PanelShape& s;
  const Project& project;
  PanelPoint low;
  std::string text;

  const DeckData& deck() const { return project.deck; }
  void line(const std::string& words) { text += words + '\n'; }
  std::string at(PanelPoint p) const { return figure(p.x - low.x) + " " + figure(p.y - low.y); }
  bool has(FeatureKind kind) const {
    return std::any_of(s.features.begin(), s.features.end(),
                       [&](const Feature& f) { return f.kind == kind; });
  }

  void ring(const char* what, const Ring<PanelFrame>& r) {
    std::vector<std::string> corners;
    for (const PanelPoint& p : r) corners.push_back(at(p));
    line(fmt::format("{}: {}", what, join(corners, ", ")));
  }

  void outline() {
    line("length: " + figure(s.length + (s.ahead_slope - s.back_slope) * low.y));
    line("depth: " + figure(s.depth));
    ring("outline", s.outline);
    for (const auto& o : s.openings) {
      const Box<PanelFrame> box = bounds(o);
      if (is_round(o))
        line(fmt::format("round opening: at {}, across {}", at(box.centre()),
                         figure(box.width())));
      else
        ring("opening", o);
    }
    for (const CurbRun& c : s.curbs)
      ring(c.side == Side::left ? "left curb" : "right curb", c.plan);
  }

  void ends() {
    const double width = bounds(s.outline).height();
    const auto end = [&](const char* which, EdgeEnd kind, double slope) {
      line(fmt::format("{} end: {}, skewed by {}", which, end_name(kind), figure(slope * width)));
    };
    end("back", s.back, s.back_slope);
    end("ahead", s.ahead, s.ahead_slope);
    line(fmt::format("left edge: {}", s.left_joint ? "row joint" : "of the deck"));
    line(fmt::format("right edge: {}", s.right_joint ? "row joint" : "of the deck"));
    if (s.back == EdgeEnd::groove || s.ahead == EdgeEnd::tongue)
      line(fmt::format("lap: {} long, tongue {} thick", figure(deck().joints.lap),
                       figure(deck().joints.tongue)));
  }

  void top() {
    static const char* const ways[] = {"to both sides", "to the left", "to the right", "nowhere"};
    const std::string way = ways[static_cast<int>(s.fall)];
    if (s.fall == Fall::none) return line("top falls " + way);
    line(fmt::format("top falls {} by {}, from the line at {}", way, exact(s.slope * 100, "%"),
                     figure(s.high_line - low.y)));
  }

  void section() {
    const SectionData& d = deck().section;
    line(fmt::format("skins: top {}, soffit {}, edges {}", figure(d.top_skin),
                     figure(d.bottom_skin), figure(d.edge_skin)));
    if (!s.curbs.empty())
      line(fmt::format("curb: {} high, {} wide, batter {}", figure(d.curb.height),
                       figure(d.curb.width), figure(d.curb.batter)));
    if (d.drip && !(s.left_joint && s.right_joint))
      line(fmt::format("drip: {} wide, {} deep, inset {}", figure(d.drip->width),
                       figure(d.drip->depth), figure(d.drip->inset)));
  }

  void materials() {
    const bool steel = has(FeatureKind::post_plate) || has(FeatureKind::scupper) ||
                       has(FeatureKind::hatch) || has(FeatureKind::hold_down) ||
                       has(FeatureKind::lifting_insert);
    for (const MaterialData& m : deck().materials) {
      const bool used = m.part == "laminate" || m.part == "core" ||
                        (m.part == "curb" && !s.curbs.empty()) || (m.part == "steel" && steel) ||
                        (m.part == "cover" && has(FeatureKind::hatch)) ||
                        (m.part == "pad" && has(FeatureKind::pad));
      if (used)
        line(fmt::format("material of {}: {}, {}", m.part, one_line(m.name),
                         exact(m.density.in_si(), "kg/m3")));
    }
    if (has(FeatureKind::pad) && deck().pads)
      line("pads: " + one_line(deck().pads->material));
  }

  void surface() {
    if (s.surface < 0) return line("surface: none");
    const SurfaceData& d = deck().surfaces[static_cast<std::size_t>(s.surface)];
    line(fmt::format("surface: {}, {} thick, {}, edge set back by {}", d.trade_class,
                     figure(d.thickness), exact(d.mass.in_si(), "kg/m2"), figure(d.stop)));
    line(fmt::format("surface colour: {}; friction: {}; by: {}", one_line(d.colour),
                     one_line(d.friction), one_line(d.standard)));
  }

  void fittings() {
    if (has(FeatureKind::post_plate)) {
      const PostPlateData& p = deck().posts->plate;
      line(fmt::format("post plates: {} under the curb's top, {} by {} holes {}, pitch {} by {}, "
                       "tapped {} deep",
                       figure(p.cover), p.along, p.across, p.thread, figure(p.pitch_along),
                       figure(p.pitch_across), figure(p.tap_depth)));
    }
    if (has(FeatureKind::scupper)) scuppers(*deck().scuppers);
    if (has(FeatureKind::hold_down)) line("hold-down inserts: " + deck().hold_downs->bolt);
    if (has(FeatureKind::lifting_insert)) line("lifting inserts: " + deck().lifting.thread);
    const TagData& t = deck().tag;
    line(fmt::format("tag: {} by {}, {} from the end, {} from the edge", figure(t.length),
                     figure(t.width), figure(t.from_end), figure(t.from_edge)));
  }

  void scuppers(const ScuppersData& d) {
    line(fmt::format("scupper bodies: cavity {} deep, walls {}", figure(d.cavity), figure(d.wall)));
    line(fmt::format("scupper grates: {} by {}, {} thick, {} bolts {}, pitch {} by {}",
                     figure(d.grate_length), figure(d.grate_width), figure(d.grate), d.bolts,
                     d.bolt, figure(d.bolt_length_pitch), figure(d.bolt_width_pitch)));
    line(fmt::format("scupper outlets: {} across, walls {}, to {} below the soffit",
                     figure(d.outlet), figure(d.outlet_wall), figure(d.outlet_below)));
  }

  std::string more(const Feature& f) const {
    if (f.kind == FeatureKind::hatch) {
      const HatchData& h = deck().hatches[static_cast<std::size_t>(f.variant)];
      return fmt::format(", rebate {} wide, {} deep, cover {}, {} bolts {}, finger hole {}",
                         figure(h.rebate), figure(h.rebate_depth), figure(h.cover), h.bolts, h.bolt,
                         figure(h.lift));
    }
    if (f.kind == FeatureKind::sleeve)
      return ", wall " + figure(deck().sleeves[static_cast<std::size_t>(f.variant)].wall);
    return "";
  }

  void feature(const Feature& f) {
    if (f.kind == FeatureKind::tag) return line("tag at " + at(f.at));
    const bool sided = f.kind == FeatureKind::post_plate || f.kind == FeatureKind::scupper;
    const char* side = !sided ? "" : static_cast<Side>(f.variant) == Side::left ? " left" : " right";
    std::string size = f.round ? figure(f.length) + " across"
                               : fmt::format("{} by {}", figure(f.length), figure(f.width));
    // As what it moves the corners by: a number like all others.
    const double turn = f.round ? 0 : std::remainder(f.angle, pi) * std::hypot(f.length, f.width) / 2;
    line(fmt::format("{}{}: at {}, {}, {} deep, turned by {}{}", feature_name(f.kind), side,
                     at(f.at), size, figure(f.depth), figure(turn), more(f)));
  }
};

bool is_ring(const std::string& words) {
  return words.starts_with("outline:") || words.starts_with("opening:") ||
         words.starts_with("left curb:") || words.starts_with("right curb:");
}

bool near(double a, double b) {
  return std::abs(a - b) <= signature_tolerance + 1e-9;
}

bool near(const Facts::Fact& a, const Facts::Fact& b) {
  const std::size_t n = a.numbers.size();
  const std::size_t turns = is_ring(a.words) ? n : 1;  // a ring may begin with any corner
  for (std::size_t start = 0; start < turns; start += 2) {
    std::size_t i = 0;
    while (i < n && near(a.numbers[i], b.numbers[(start + i) % n])) ++i;
    if (i == n) return true;
  }
  return n == 0;
}

/// One word of a line, with what follows it up to the next.
void take(const std::string& word, Facts::Fact& fact) {
  const std::size_t end = word.find_last_not_of(",");
  const std::string bare = end == std::string::npos ? "" : word.substr(0, end + 1);
  const bool digits = !bare.empty() && bare.find_first_not_of("-0123456789.") == std::string::npos &&
                      bare.find_first_of("0123456789") != std::string::npos;
  char* rest = nullptr;
  const double value = digits ? std::strtod(bare.c_str(), &rest) : 0;
  if (digits && *rest == '\0') {
    fact.numbers.push_back(value);
    fact.words += "#" + word.substr(bare.size());
  } else {
    fact.words += word;
  }
}

Facts::Fact fact_of(const std::string& line) {
  Facts::Fact fact;
  std::size_t from = 0;
  while (from <= line.size()) {
    const std::size_t to = std::min(line.find(' ', from), line.size());
    take(line.substr(from, to - from), fact);
    if (to < line.size()) fact.words += ' ';
    from = to + 1;
  }
  return fact;
}

}  // namespace

Signature signature_of(const PanelShape& shape, const Project& project) {
  FactWriter w{shape, project, bounds(shape.outline).low, {}};
  w.outline();
  w.ends();
  w.top();
  w.section();
  w.materials();
  w.surface();
  w.fittings();
  for (const Feature& f : shape.features) w.feature(f);
  return std::move(w.text);
}

Facts facts_of(const Signature& signature) {
  Facts facts;
  for (const std::string& line : split_lines(signature)) {
    if (line.empty()) continue;
    Facts::Fact fact = fact_of(line);
    if (fact.words == "tag at # #")
      facts.tag = PanelPoint{fact.numbers[0], fact.numbers[1]};
    else
      facts.list.push_back(std::move(fact));
  }
  std::stable_sort(facts.list.begin(), facts.list.end(),
                   [](const auto& a, const auto& b) { return a.words < b.words; });
  return facts;
}

bool same_part(const Facts& a, const Facts& b) {
  const std::size_t n = a.list.size();
  if (n != b.list.size()) return false;
  for (std::size_t i = 0; i < n; ++i)
    if (a.list[i].words != b.list[i].words) return false;
  std::vector<char> taken(n, 0);
  for (std::size_t i = 0, group = 0; i < n; ++i) {
    if (a.list[i].words != a.list[group].words) group = i;
    std::size_t k = group;
    while (k < n && b.list[k].words == a.list[i].words && (taken[k] || !near(a.list[i], b.list[k])))
      ++k;
    if (k == n || b.list[k].words != a.list[i].words) return false;
    taken[k] = 1;
  }
  return true;
}

bool same_part(const Signature& a, const Signature& b) {
  return same_part(facts_of(a), facts_of(b));
}

std::string kind_of(const Facts& facts) {
  std::string out;
  for (const Facts::Fact& f : facts.list) out += f.words + '\n';
  return out;
}

}  // namespace deckquire::history
