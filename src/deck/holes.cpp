// The holes and inserts of a panel, as the shop drills and sets them out.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "deck/features.h"

namespace deckquire {
namespace {

PanelPoint turned(const Feature& f, double dx, double dy) {
  const double c = std::cos(f.angle), s = std::sin(f.angle);
  return {f.at.x + dx * c - dy * s, f.at.y + dx * s + dy * c};
}

Hole hole(const Feature& f, int index, HoleKind kind, const char* what) {
  Hole h;
  h.kind = kind;
  h.what = what;
  h.at = f.at;
  h.diameter = f.length;
  h.feature = index;
  return h;
}

/// Bolts in the corners of a pattern, then in the middles of its long and its short sides.
std::vector<PanelPoint> bolt_pattern(int bolts, double along, double across) {
  const double l = along / 2, w = across / 2;
  std::vector<PanelPoint> all{{-l, -w}, {l, -w}, {l, w}, {-l, w}};
  if (bolts >= 6) all.insert(all.end(), {{0, -w}, {0, w}});
  if (bolts >= 8) all.insert(all.end(), {{-l, 0}, {l, 0}});
  if (bolts == 2) all = {{-l, 0}, {l, 0}};
  return all;
}

void plate_holes(const Feature& f, int index, const PostPlateData& plate, std::vector<Hole>& out) {
  for (int i = 0; i < plate.along; ++i)
    for (int j = 0; j < plate.across; ++j) {
      Hole h = hole(f, index, HoleKind::tapped, "post plate, tapped");
      h.at = turned(f, (i - (plate.along - 1) / 2.0) * plate.pitch_along.in_mm(),
                    (j - (plate.across - 1) / 2.0) * plate.pitch_across.in_mm());
      h.diameter = thread_diameter(plate.thread);
      h.depth = plate.tap_depth.in_mm();
      h.thread = plate.thread;
      out.push_back(h);
    }
}

void scupper_holes(const Feature& f, int index, const ScuppersData& s, std::vector<Hole>& out) {
  Hole outlet = hole(f, index, HoleKind::through, "scupper outlet");
  outlet.diameter = s.outlet.in_mm();
  out.push_back(outlet);
  for (const PanelPoint& p :
       bolt_pattern(s.bolts, s.bolt_length_pitch.in_mm(), s.bolt_width_pitch.in_mm())) {
    Hole h = hole(f, index, HoleKind::bolt, "grate bolt, tapped insert");
    h.at = f.at + p;
    h.diameter = thread_diameter(s.bolt);
    h.thread = s.bolt;
    h.depth = 2 * h.diameter;  // insert of twice its thread (common practice, no source)
    out.push_back(h);
  }
}

void hatch_holes(const Feature& f, int index, const HatchData& d, std::vector<Hole>& out) {
  for (const PanelPoint& p :
       bolt_pattern(d.bolts, (d.length + d.rebate).in_mm(), (d.width + d.rebate).in_mm())) {
    Hole h = hole(f, index, HoleKind::bolt, "hatch cover bolt, tapped insert");
    h.at = f.at + p;
    h.diameter = thread_diameter(d.bolt);
    h.thread = d.bolt;
    h.depth = 2 * h.diameter;
    out.push_back(h);
  }
}

void insert_hole(const Feature& f, int index, const std::string& thread, bool from_top,
                 std::vector<Hole>& out) {
  Hole h = hole(f, index, HoleKind::insert, from_top ? "lifting insert" : "hold-down insert");
  h.diameter = thread_diameter(thread);
  h.thread = thread;
  h.depth = f.depth;
  h.from_top = from_top;
  out.push_back(h);
}

/// A, B, C ... without I, O and Q, then AA ...
std::string letters(int n) {
  static const std::string alphabet = "ABCDEFGHJKLMNPRSTUVWXYZ";
  const int size = static_cast<int>(alphabet.size());
  std::string s(1, alphabet[static_cast<std::size_t>(n % size)]);
  return n < size ? s : letters(n / size - 1) + s;
}

void label(std::vector<Hole>& holes) {
  const auto hundredths = [](double v) { return std::llround(v * 100); };
  const auto group = [&](const Hole& h) {
    return std::tuple(h.kind, h.what, hundredths(h.diameter), h.thread,
                      hundredths(h.depth.value_or(0)));
  };
  std::stable_sort(holes.begin(), holes.end(), [&](const Hole& a, const Hole& b) {
    return std::tuple(group(a), hundredths(a.at.x), hundredths(a.at.y)) <
           std::tuple(group(b), hundredths(b.at.x), hundredths(b.at.y));
  });
  int letter = -1, number = 0;
  for (std::size_t i = 0; i < holes.size(); ++i) {
    if (i == 0 || group(holes[i]) != group(holes[i - 1])) {
      ++letter;
      number = 0;
    }
    holes[i].label = letters(letter) + std::to_string(++number);
  }
}

}  // namespace

std::vector<Hole> list_holes(const PanelShape& shape, const DeckData& deck) {
  std::vector<Hole> out;
  for (std::size_t i = 0; i < shape.features.size(); ++i) {
    const Feature& f = shape.features[i];
    const int n = static_cast<int>(i);
    switch (f.kind) {
      case FeatureKind::post_plate:
        plate_holes(f, n, deck.posts->plate, out);
        break;
      case FeatureKind::scupper:
        scupper_holes(f, n, *deck.scuppers, out);
        break;
      case FeatureKind::hatch:
        hatch_holes(f, n, deck.hatches[static_cast<std::size_t>(f.variant)], out);
        break;
      case FeatureKind::sleeve:
        out.push_back(hole(f, n, HoleKind::through, "sleeve"));
        break;
      case FeatureKind::hold_down:
        insert_hole(f, n, deck.hold_downs->bolt, false, out);
        break;
      case FeatureKind::lifting_insert:
        insert_hole(f, n, deck.lifting.thread, true, out);
        break;
      default:
        break;
    }
  }
  label(out);
  return out;
}

}  // namespace deckquire
