// The deck as a whole: panels into types, serials, lists of posts and scuppers.
#include <fmt/format.h>

#include <algorithm>

#include "deck/deck.h"
#include "deck/site.h"

namespace deckquire {
namespace {

int count(const PanelShape& s, FeatureKind kind) {
  return static_cast<int>(std::count_if(s.features.begin(), s.features.end(),
                                        [&](const Feature& f) { return f.kind == kind; }));
}

std::string plural(int n, const std::string& word) {
  const std::string many = word == "recess" ? "recesses" : word == "hatch" ? "hatches" : word + "s";
  return n == 1 ? "1 " + word : fmt::format("{} {}", n, many);
}

std::string outline_words(const PanelShape& s) {
  const double back = s.left_back - s.right_back, ahead = s.left_ahead - s.right_ahead;
  if (std::abs(back - ahead) >= 0.5) return ahead > back ? "widening ahead" : "narrowing ahead";
  return s.outline.size() == 4 ? "" : "shaped outline";
}

/// What is special, in one line: outline, ends, surface, features that not every panel has.
std::string remark(const PanelShape& s, const DeckData& deck) {
  std::vector<std::string> parts;
  if (const std::string words = outline_words(s); !words.empty()) parts.push_back(words);
  if (s.back == EdgeEnd::end_joint) parts.push_back("end joint at its back");
  if (s.ahead == EdgeEnd::end_joint) parts.push_back("end joint ahead");
  for (FeatureKind k : {FeatureKind::recess, FeatureKind::scupper, FeatureKind::hatch,
                        FeatureKind::sleeve, FeatureKind::notch})
    if (const int n = count(s, k); n > 0) parts.push_back(plural(n, feature_name(k)));
  if (s.surface >= 0)
    parts.push_back(deck.surfaces[static_cast<std::size_t>(s.surface)].trade_class + " surface");
  return parts.empty() ? "plain" : join(parts, ", ");
}

/// The mark of a shape, made when there is none yet; `turned` says how the panel lies to it.
int mark_of(const PanelShape& shape, const DeckData& data, Deck& deck, bool& turned) {
  const Length tolerance = data.marks.tolerance;
  const PanelShape half = half_turn(shape);
  for (std::size_t i = 0; i < deck.marks.size(); ++i) {
    turned = !same_type(deck.marks[i].shape, shape, tolerance);
    if (!turned || same_type(deck.marks[i].shape, half, tolerance)) return static_cast<int>(i);
  }
  turned = false;
  Mark m;
  m.name = data.marks.prefix + padded(static_cast<int>(deck.marks.size()) + 1, 2);
  m.shape = shape;
  const PanelShape image = mirror(shape), image_half = half_turn(image);
  for (std::size_t i = 0; i < deck.marks.size() && m.opposite_of < 0; ++i)
    if (same_type(deck.marks[i].shape, image, tolerance) ||
        same_type(deck.marks[i].shape, image_half, tolerance))
      m.opposite_of = static_cast<int>(i);
  m.masses = weigh(shape, data);
  m.holes = list_holes(shape, data);
  m.remark = remark(shape, data);
  deck.marks.push_back(std::move(m));
  return static_cast<int>(deck.marks.size()) - 1;
}

std::string serial(const Project& project, int position) {
  return project.deck.marks.serial + padded(position, 3);
}

void place_panels(const Project& project, const Bridge& bridge, const Division& division,
                  Findings& findings, Deck& deck) {
  for (std::size_t i = 0; i < division.pieces.size(); ++i) {
    const int n = static_cast<int>(i);
    const auto& piece = division.pieces[i];
    Panel p;
    p.position = n + 1;
    p.serial = serial(project, p.position);
    p.span = piece.span;
    p.start = piece.start;
    p.end = piece.end;
    p.shape = shape_panel(project, bridge, division, n, findings);
    p.mark = mark_of(p.shape, project.deck, deck, p.turned);
    Mark& mark = deck.marks[static_cast<std::size_t>(p.mark)];
    ++mark.quantity;
    mark.positions.push_back(n);
    deck.mass += mark.masses.total;
    deck.area += mark.masses.top_area;
    deck.panels.push_back(std::move(p));
  }
  for (std::size_t j = 0; j < deck.joints.size(); ++j) {
    const Joint& joint = deck.joints[j];
    if (joint.back >= 0)
      deck.panels[static_cast<std::size_t>(joint.back)].joint_ahead = static_cast<int>(j);
    if (joint.ahead >= 0)
      deck.panels[static_cast<std::size_t>(joint.ahead)].joint_back = static_cast<int>(j);
  }
}

void list_post(const Project& project, const Bridge& bridge, const Panel& panel, int feature,
               Deck& deck) {
  const Feature& f = panel.shape.features[static_cast<std::size_t>(feature)];
  const CurbData& curb = project.deck.section.curb;
  Post post;
  post.name = f.source;
  post.side = static_cast<Side>(f.variant);
  post.station = panel.start + mm(f.at.x);
  post.offset = mm(f.at.y);
  post.survey = bridge.alignment.survey(post.station, post.offset);
  const double foot =
      f.at.y - sign(post.side) * ((curb.width - curb.batter) / 2 + curb.batter).in_mm();
  post.level = bridge.alignment.level(post.station) - project.deck.section.depth +
               mm(panel.shape.top(foot)) + curb.height;
  post.survey.level = post.level.in_m();
  post.panel = panel.position - 1;
  post.feature = feature;
  deck.posts.push_back(post);
}

void list_scupper(const Project& project, const Bridge& bridge, const Panel& panel, int feature,
                  Deck& deck) {
  const Feature& f = panel.shape.features[static_cast<std::size_t>(feature)];
  ScupperPlace s;
  s.name = f.source;
  s.side = static_cast<Side>(f.variant);
  s.station = panel.start + mm(f.at.x);
  s.offset = mm(f.at.y);
  const Length soffit = bridge.alignment.level(s.station) - project.deck.section.depth;
  s.grate_level = soffit + mm(panel.shape.top(f.at.y));
  s.outlet_level = soffit - project.deck.scuppers->outlet_below;
  s.grade = bridge.alignment.grade(s.station);
  s.crossfall = project.deck.section.fall == Fall::none ? 0 : project.deck.section.slope;
  s.survey = bridge.alignment.survey(s.station, s.offset);
  s.survey.level = s.outlet_level.in_m();
  s.panel = panel.position - 1;
  s.feature = feature;
  deck.scuppers.push_back(s);
}

void list_fittings(const Project& project, const Bridge& bridge, Deck& deck) {
  for (const Panel& p : deck.panels)
    for (std::size_t i = 0; i < p.shape.features.size(); ++i) {
      const int n = static_cast<int>(i);
      if (p.shape.features[i].kind == FeatureKind::post_plate)
        list_post(project, bridge, p, n, deck);
      if (p.shape.features[i].kind == FeatureKind::scupper)
        list_scupper(project, bridge, p, n, deck);
    }
  const auto by_side = [](const auto& a, const auto& b) {
    return a.side != b.side ? a.side == Side::left : a.station < b.station;
  };
  std::stable_sort(deck.posts.begin(), deck.posts.end(), by_side);
  std::stable_sort(deck.scuppers.begin(), deck.scuppers.end(), [](const auto& a, const auto& b) {
    return a.station != b.station ? a.station < b.station : a.side < b.side;
  });
}

}  // namespace

Deck build_deck(const Project& project, const Bridge& bridge, Findings& findings) {
  Deck deck;
  const Division division = divide(project, findings);
  deck.spans = division.spans;
  deck.joints = division.joints;
  place_panels(project, bridge, division, findings, deck);
  list_fittings(project, bridge, deck);
  return deck;
}

}  // namespace deckquire
