// The deck as a whole: panels into types, serials, lists of posts and scuppers.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

#include "base/text.h"
#include "deck/deck.h"
#include "deck/features.h"
#include "deck/posts.h"
#include "deck/scuppers.h"
#include "deck/site.h"
#include "deck/typing.h"

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

std::string outline_words(const PanelShape& s, UnitSystem units) {
  const bool left = std::abs(s.left_ahead - s.left_back) > 0.5;
  const bool right = std::abs(s.right_ahead - s.right_back) > 0.5;
  if (!left && !right) return s.outline.size() == 4 ? "" : "shaped outline";
  const auto whole = [&](double v) { return print_length(mm(std::round(v)), units); };
  return fmt::format("tapers on {} from {} to {} wide",
                     left && right ? "both sides"
                     : left        ? "the left"
                                   : "the right",
                     whole(s.left_back - s.right_back), whole(s.left_ahead - s.right_ahead));
}

std::string recess_words(const PanelShape& s) {
  int at_joint = 0, inside = 0;
  for (const Feature& f : s.features) {
    if (f.kind != FeatureKind::recess) continue;
    const bool end = f.box().low.x < 0.5 || f.box().high.x > s.length - 0.5;
    ++(end ? at_joint : inside);
  }
  std::vector<std::string> said;
  if (inside > 0) said.push_back(plural(inside, "recess"));
  if (at_joint > 0) said.push_back(plural(at_joint, "recess") + " open at a joint");
  return join(said, ", ");
}

/// What is special, in one line: outline, ends, features that not every panel has, a surface other
/// than the first.
std::string remark(const PanelShape& s, const Project& project) {
  std::vector<std::string> parts;
  const auto say = [&](std::string words) {
    if (!words.empty()) parts.push_back(std::move(words));
  };
  say(outline_words(s, project.units));
  if (s.back == EdgeEnd::end_joint) say("end joint at its back");
  if (s.ahead == EdgeEnd::end_joint) say("end joint ahead");
  say(recess_words(s));
  for (FeatureKind k :
       {FeatureKind::scupper, FeatureKind::hatch, FeatureKind::sleeve, FeatureKind::notch})
    if (const int n = count(s, k); n > 0) say(plural(n, feature_name(k)));
  if (s.surface > 0)
    say(project.deck.surfaces[static_cast<std::size_t>(s.surface)].trade_class + " surface");
  return parts.empty() ? "plain" : join(parts, ", ");
}

/// The mark of a shape, made when there is none yet; `turned` says how the panel lies to it.
int mark_of(const PanelShape& shape, const Project& project, Typing& typing, Deck& deck,
            bool& turned) {
  const Typing::Placed placed = typing.place(shape);
  turned = placed.turned;
  if (!placed.first) return placed.mark;
  Mark m = make_mark(shape, project);
  m.name = mark_name(project, placed.mark + 1);
  m.opposite_of = placed.opposite_of;
  deck.marks.push_back(std::move(m));
  return placed.mark;
}

/// Station and offset of a feature's middle.
BridgePoint on_bridge(const Bridge& bridge, const Panel& panel, PanelPoint at) {
  return panel.frame.bridge(bridge.alignment, at);
}

/// How far a straight edge leaves its true line on a curve: the greatest of a few points between.
double chord_offset(const PanelSite& site, Side side) {
  if (site.frame.straight) return 0;
  const auto& limit = side == Side::left ? site.here().left_limit : site.here().right_limit;
  const auto true_offset = [&](Length at) {
    if (limit) return limit->in_mm();
    const DeckEdges& e = site.bridge.edges;
    return sign(side) * (side == Side::left ? e.left(at) : e.right(at)).in_mm();
  };
  const Chain& edge = site.edge(side);
  constexpr int steps = 8;
  double most = 0;
  for (std::size_t k = 0; k + 1 < edge.size(); ++k)
    for (int i = 1; i < steps; ++i) {
      const BridgePoint at =
          site.on_bridge(edge[k] + (edge[k + 1] - edge[k]) * (double(i) / steps));
      most = std::max(most, std::abs(at.y - true_offset(mm(at.x))));
    }
  return most;
}

void place_panels(const Project& project, const Bridge& bridge, const Division& division,
                  Findings& findings, Deck& deck) {
  Typing typing(project.deck.marks.tolerance);
  std::map<std::string, int> serials;  // given so far, by what they begin with
  for (std::size_t i = 0; i < division.pieces.size(); ++i) {
    const int n = static_cast<int>(i);
    const auto& piece = division.pieces[i];
    Panel p;
    p.position = n + 1;
    p.span = piece.span;
    p.start = piece.start;
    p.end = piece.end;
    p.joint_back = piece.joint_back;
    p.joint_ahead = piece.joint_ahead;
    p.bay = piece.bay;
    p.row = piece.row;
    const PanelSite site(project, bridge, division, n, findings);
    p.frame = site.frame;
    p.left_edge = site.left;
    p.right_edge = site.right;
    p.chord_left = chord_offset(site, Side::left);
    p.chord_right = chord_offset(site, Side::right);
    p.shape = shape_panel(site);
    p.mark = mark_of(p.shape, project, typing, deck, p.turned);
    if (p.turned) place_tag(site, p.shape, true);
    Mark& mark = deck.marks[static_cast<std::size_t>(p.mark)];
    const std::string beginning = serial_beginning(project, mark.name);
    p.serial = serial_name(beginning, ++serials[beginning]);
    ++mark.quantity;
    mark.positions.push_back(n);
    deck.mass += mark.masses.total;
    deck.area += mark.masses.top_area;
    deck.panels.push_back(std::move(p));
  }
}

/// What found no room, one finding a kind: the first panel and how many.
void report_no_room(const Project& project, const Deck& deck, Findings& findings) {
  const Panel *lifting = nullptr, *clips = nullptr;
  int no_lifting = 0, no_clips = 0;
  for (const Panel& p : deck.panels) {
    if (p.shape.no_inserts && no_lifting++ == 0) lifting = &p;
    if (!p.shape.no_clips.empty() && no_clips++ == 0) clips = &p;
  }
  const auto more = [](int n) {
    return n > 1 ? fmt::format(", and {} more like it", n - 1) : std::string();
  };
  if (lifting)
    findings.error(project.deck.lifting.place, "lifting-no-room",
                   fmt::format("panel {} has no room for four lifting inserts about its centre of "
                               "gravity{}",
                               lifting->position, more(no_lifting)),
                   "move the openings, ask for less distance, or lift this panel by other means");
  if (clips)
    findings.error(project.deck.hold_downs->place, "hold-down-no-room",
                   fmt::format("panel {} has no room for its hold-downs on girder {}{}",
                               clips->position, clips->shape.no_clips, more(no_clips)),
                   "make the panel longer, or give fewer hold-downs");
}

void list_post(const Project& project, const Bridge& bridge, const Panel& panel, int feature,
               Deck& deck) {
  const Feature& f = panel.shape.features[static_cast<std::size_t>(feature)];
  const CurbData& curb = project.deck.section.curb;
  Post post;
  post.name = f.source;
  post.side = static_cast<Side>(f.variant);
  const BridgePoint at = on_bridge(bridge, panel, f.at);
  post.station = mm(at.x);
  post.offset = mm(at.y);
  post.survey = bridge.alignment.survey(post.station, post.offset);
  const double foot =
      f.at.y - sign(post.side) * ((curb.width - curb.batter) / 2 + curb.batter).in_mm();
  post.level = bridge.alignment.level(post.station) - project.deck.section.depth +
               mm(panel.shape.top(foot)) + curb.height;
  post.survey.level = post.level.in_m();
  post.panel = index_of(deck, panel);
  post.feature = feature;
  deck.posts.push_back(post);
}

void list_scupper(const Project& project, const Bridge& bridge, const Panel& panel, int feature,
                  Deck& deck) {
  const Feature& f = panel.shape.features[static_cast<std::size_t>(feature)];
  ScupperPlace s;
  s.name = f.source;
  s.side = static_cast<Side>(f.variant);
  const BridgePoint at = on_bridge(bridge, panel, f.at);
  s.station = mm(at.x);
  s.offset = mm(at.y);
  const Length soffit = bridge.alignment.level(s.station) - project.deck.section.depth;
  s.grate_level = soffit + mm(panel.shape.top(f.at.y));
  s.outlet_level = soffit - project.deck.scuppers->outlet_below;
  s.grade = bridge.alignment.grade(s.station);
  s.crossfall = project.deck.section.fall == Fall::none ? 0 : project.deck.section.slope;
  s.survey = bridge.alignment.survey(s.station, s.offset);
  s.survey.level = s.outlet_level.in_m();
  s.panel = index_of(deck, panel);
  s.feature = feature;
  deck.scuppers.push_back(s);
}

}  // namespace

void list_fittings(const Project& project, const Bridge& bridge, Deck& deck) {
  deck.posts.clear();
  deck.scuppers.clear();
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

Mark make_mark(const PanelShape& shape, const Project& project) {
  Mark m;
  m.shape = shape;
  m.masses = weigh(shape, project.deck);
  m.holes = list_holes(shape, project.deck);
  m.remark = remark(shape, project);
  return m;
}

std::string mark_name(const Project& project, int number) {
  return project.deck.marks.prefix + padded(number, 2);
}

std::string serial_beginning(const Project& project, const std::string& mark) {
  std::string out = project.deck.marks.serial;
  if (const auto at = out.find(serial_mark); at != std::string::npos)
    out.replace(at, serial_mark.size(), mark);
  return out;
}

std::string serial_name(const std::string& beginning, int number) {
  return beginning + padded(number, 3);
}

bool counts_on(const Panel& a, const Panel& b) {
  const auto parts = [](const std::string& serial) {
    const std::size_t at = serial.find_last_not_of("0123456789") + 1;
    return std::pair(serial.substr(0, at), std::strtoll(serial.c_str() + at, nullptr, 10));
  };
  auto next = parts(a.serial);
  ++next.second;
  return b.position == a.position + 1 && parts(b.serial) == next;
}

std::string positions_in_order(const Deck& deck, int first, int count) {
  std::vector<std::string> runs;
  const auto at = [&](int i) { return deck.panels[static_cast<std::size_t>(i)].position; };
  for (int i = first, last = i; i < first + count; i = ++last) {
    while (last + 1 < first + count && at(last + 1) == at(last) + 1) ++last;
    runs.push_back(i == last ? std::to_string(at(i)) : fmt::format("{} TO {}", at(i), at(last)));
  }
  return join(runs, ", ");
}

bool numbered_in_order(const Deck& deck) {
  std::size_t marks = 0;
  for (std::size_t i = 0; i < deck.panels.size(); ++i) {
    const Panel& p = deck.panels[i];
    if (p.position != static_cast<int>(i) + 1 || (i > 0 && !counts_on(deck.panels[i - 1], p)))
      return false;
    const auto mark = static_cast<std::size_t>(p.mark);
    if (mark > marks) return false;
    if (mark == marks) ++marks;
  }
  return true;
}

int index_of(const Deck& deck, const Panel& panel) {
  return static_cast<int>(&panel - deck.panels.data());
}

void place_fittings(const Project& project, const Bridge& bridge, Division& division,
                    Findings& findings) {
  place_posts(project, bridge, division, findings);
  place_scuppers(project, bridge, division, findings);
}

Deck build_deck(const Project& project, const Bridge& bridge, Findings& findings,
                const DeckChecks& checks) {
  Deck deck;
  Division division = divide(project, bridge, findings, checks);
  deck.spans = division.spans;
  deck.joints = division.joints;
  deck.row_joints = division.row_joints;
  // Where a span is not divided everything on it would miss its panel: the same cause in other
  // words.
  for (const SpanRun& s : division.spans)
    if (s.count == 0) return deck;
  place_fittings(project, bridge, division, findings);
  place_panels(project, bridge, division, findings, deck);
  report_no_room(project, deck, findings);
  list_fittings(project, bridge, deck);
  return deck;
}

}  // namespace deckquire
