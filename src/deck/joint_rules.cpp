#include "deck/joint_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "deck/site.h"

namespace deckquire {
namespace {

using optimum::Nm;
using optimum::Zone;

/// A thing along the deck that joints keep away from.
struct Thing {
  double from, to;   // stations, mm
  double low, high;  // offsets, mm
  Length clear;
  std::string what;
};

class Rules {
 public:
  Rules(const Project& p, const Bridge& b, JointRules& rules, Mass allowance)
      : project_(p), bridge_(b), r_(rules), allowance_(allowance) {}
  void find();

 private:
  void find_zones();
  void add_zone(const Thing& t);
  void add_splices();
  void add_posts();
  void add_fittings();
  void add_obstructions();
  void mirror_zones();
  std::vector<Nm> musts() const;
  void add_stretch(Nm from, Nm to);
  JointStretch::Width width_of(const JointStretch& s) const;
  int surface_at(Length station) const;
  void set_limits(JointStretch& s) const;
  void limit(JointStretch& s, Length greatest, const char* by) const;
  double greatest_width(const JointStretch& s) const;
  Length greatest_by_mass(const JointStretch& s, Mass most) const;

  const Project& project_;
  const Bridge& bridge_;
  JointRules& r_;
  Mass allowance_;
};

void Rules::find() {
  find_zones();
  Nm at = r_.first;
  for (Nm must : musts()) {
    add_stretch(at, must);
    at = must;
  }
  add_stretch(at, r_.last);
}

// The line passes a thing at its own offset: a skewed one elsewhere than at the alignment. The
// joint reaches from half a gap before the line to half a gap beyond it.
void Rules::add_zone(const Thing& t) {
  const double skew = std::tan(project_.deck.joints.skew.in_si());
  const double a = std::min(t.from - t.low * skew, t.from - t.high * skew);
  const double b = std::max(t.to - t.low * skew, t.to - t.high * skew);
  const Nm back = r_.gap() / 2, ahead = r_.gap() - back;
  // Where the span ends, the division cannot help: the checks of the built deck speak of it.
  const Nm from = std::max((mm(a) - t.clear).in_nanometres() - back, r_.first);
  const Nm to = std::min((mm(b) + t.clear).in_nanometres() + ahead, r_.last);
  if (from < to) r_.zones.push_back({from, to, t.what});
}

void Rules::add_splices() {
  if (!r_.rule.clear.splice) return;
  const double around = project_.deck.section.recess_around.in_mm();
  for (const Splice& s : bridge_.splices) {
    if (recess_depth(s, project_.deck) <= 0) continue;
    const Box<BridgeFrame> b = s.plan.grown(around);
    add_zone({b.low.x, b.high.x, b.low.y, b.high.y, *r_.rule.clear.splice,
              "clear-splice of splice " + s.name});
  }
}

void Rules::add_posts() {
  if (!project_.deck.posts) return;
  const PostsData& posts = *project_.deck.posts;
  const double half = posts.plate.length.in_mm() / 2;
  const auto add = [&](Length at, const std::string& name) {
    const double left = bridge_.edges.left(at).in_mm(), right = bridge_.edges.right(at).in_mm();
    add_zone({at.in_mm() - half, at.in_mm() + half, -right, left, r_.rule.clear.post,
              "clear-post of " + name});
  };
  // Without a first post the phase gives way to the joints.
  if (posts.spacing && posts.first_given && *posts.spacing > Length()) {
    const Length last = Length::from_nanometres(r_.last);
    for (Length s = posts.first; s <= last; s += *posts.spacing)
      if (s.in_nanometres() >= r_.first) add(s, "the post at " + print_station(s, project_.units));
  }
  for (const PostData& p : posts.posts)
    add(p.station,
        "post " + (p.name.empty() ? "at " + print_station(p.station, project_.units) : p.name));
}

void Rules::add_fittings() {
  const DeckData& d = project_.deck;
  const auto add = [&](Length station, Length offset, Length length, Length width, Length clear,
                       const std::string& what) {
    const double x = station.in_mm(), y = offset.in_mm();
    const double l = length.in_mm() / 2, w = width.in_mm() / 2;
    add_zone({x - l, x + l, y - w, y + w, clear, what});
  };
  if (d.scuppers)
    for (const ScupperData& s : d.scuppers->scuppers) {
      const bool left = s.side != CurbSides::right;
      const Length edge = left ? bridge_.edges.left(s.station) : -bridge_.edges.right(s.station);
      const Length in = d.section.curb.width + d.scuppers->inset + d.scuppers->grate_width / 2;
      add(s.station, left ? edge - in : edge + in,
          std::max(d.scuppers->body_length, d.scuppers->grate_length), d.scuppers->body_width,
          r_.rule.clear.scupper, "clear-scupper of scupper " + s.name);
    }
  for (const HatchData& h : d.hatches)
    add(h.station, h.offset, h.length + 2 * h.rebate, h.width + 2 * h.rebate, r_.rule.clear.hatch,
        "clear-hatch of hatch " + h.name);
  for (const SleeveData& s : d.sleeves)
    add(s.station, s.offset, s.diameter + 2 * s.wall, s.diameter, r_.rule.clear.hatch,
        "clear-hatch of sleeve " + s.name);
}

void Rules::add_obstructions() {
  for (const Obstruction& o : bridge_.obstructions) {
    const Box<BridgeFrame> b = bounds(o.kept_free);
    const Length at = mm(b.centre().x);
    const bool beside =
        b.low.y >= bridge_.edges.left(at).in_mm() || b.high.y <= -bridge_.edges.right(at).in_mm();
    if (beside) continue;
    add_zone({b.low.x, b.high.x, b.low.y, b.high.y, r_.rule.clear.obstruction,
              "clear-obstruction of " + o.kind + " " + o.name});
  }
}

void Rules::mirror_zones() {
  const std::size_t n = r_.zones.size();
  for (std::size_t i = 0; i < n; ++i)
    r_.zones.push_back({r_.first + r_.last - r_.zones[i].to, r_.first + r_.last - r_.zones[i].from,
                        r_.zones[i].what + " (mirrored)"});
}

void Rules::find_zones() {
  add_splices();
  add_posts();
  add_fittings();
  add_obstructions();
  if (r_.rule.symmetrical) mirror_zones();
}

std::vector<Nm> Rules::musts() const {
  std::vector<Length> stations =
      r_.rule.joints_at_breaks ? bridge_.edges.breaks() : bridge_.edges.steps();
  for (const SurfaceData& s : project_.deck.surfaces) {
    stations.push_back(s.from);
    stations.push_back(s.to);
  }
  for (const RowJointData& r : project_.deck.row_joints) {
    stations.push_back(r.from);
    stations.push_back(r.to);
  }
  std::vector<Nm> out;
  // A border within half a gap of the span's end is at its end joint already.
  for (Length s : stations)
    if (const Nm at = s.in_nanometres(); at > r_.first + r_.gap() && at < r_.last - r_.gap()) {
      out.push_back(at);
      if (r_.rule.symmetrical) out.push_back(r_.first + r_.last - at);
    }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

int Rules::surface_at(Length station) const {
  int found = -1;
  const auto& zones = project_.deck.surfaces;
  for (std::size_t i = 0; i < zones.size(); ++i)
    if (zones[i].from <= station && station <= zones[i].to) found = static_cast<int>(i);
  return found;
}

JointStretch::Width Rules::width_of(const JointStretch& s) const {
  for (Length b : bridge_.edges.breaks())
    if (b.in_nanometres() > s.from && b.in_nanometres() < s.to) return JointStretch::Width::bent;
  const bool constant = s.left_from == s.left_to && s.right_from == s.right_to;
  return constant ? JointStretch::Width::constant : JointStretch::Width::taper;
}

void Rules::add_stretch(Nm from, Nm to) {
  JointStretch s;
  s.from = from;
  s.to = to;
  const Length a = Length::from_nanometres(from), b = Length::from_nanometres(to);
  s.left_from = bridge_.edges.left(a);
  s.right_from = bridge_.edges.right(a);
  s.left_to = bridge_.edges.left(b, false);
  s.right_to = bridge_.edges.right(b, false);
  s.surface = surface_at(a + (b - a) / 2);
  s.width = width_of(s);
  set_limits(s);
  r_.stretches.push_back(std::move(s));
}

/// The widest panel of the stretch, parted in rows where there are any.
double Rules::greatest_width(const JointStretch& s) const {
  double left = 0, right = 0;
  std::vector<Length> at = bridge_.edges.breaks();
  at.push_back(Length::from_nanometres(s.from));
  at.push_back(Length::from_nanometres(s.to));
  for (Length b : at) {
    if (b.in_nanometres() < s.from || b.in_nanometres() > s.to) continue;
    const bool ahead = b.in_nanometres() < s.to;
    left = std::max(left, bridge_.edges.left(b, ahead).in_mm());
    right = std::max(right, bridge_.edges.right(b, ahead).in_mm());
  }
  double widest = 0, from = left;
  const Nm middle = s.from + (s.to - s.from) / 2;
  for (const RowJointData& r : project_.deck.row_joints) {
    if (middle < r.from.in_nanometres() || middle > r.to.in_nanometres()) continue;
    widest = std::max(widest, from - r.offset.in_mm());
    from = r.offset.in_mm();
  }
  return std::max(widest, from + right);
}

void Rules::limit(JointStretch& s, Length greatest, const char* by) const {
  const Nm pitch = (greatest + r_.frame.gap).in_nanometres();
  if (pitch >= s.limits.greatest) return;
  s.limits.greatest = pitch;
  s.greatest_by = by;
}

Length Rules::greatest_by_mass(const JointStretch& s, Mass most) const {
  const Length from = Length::from_nanometres(s.from), to = Length::from_nanometres(s.to);
  const BareMass m = bare_mass(project_, bridge_, from, to);
  const double per_mm = m.per_mm + m.per_mm2 * greatest_width(s);
  if (per_mm <= 0) return *r_.rule.longest;
  return mm(std::max(0.0, std::floor((most.in_si() - m.each) / per_mm)));
}

void Rules::set_limits(JointStretch& s) const {
  const PanelsRule& rule = r_.rule;
  const Conditions& c = project_.conditions;
  optimum::Limits& l = s.limits;
  l.step = rule.step.in_nanometres();
  l.least = (rule.shortest + r_.frame.gap).in_nanometres();
  l.greatest = (*rule.longest + r_.frame.gap).in_nanometres();
  l.preferred = (rule.preferred + r_.frame.gap).in_nanometres();
  l.grain = print_unit(project_.units).in_nanometres();
  s.greatest_by = "longest";
  if (rule.mould) limit(s, *rule.mould, "mould");
  // A panel travels with its longer side along the vehicle.
  const double width = greatest_width(s);
  if (c.ship_width && width > c.ship_width->in_mm())
    limit(s, *c.ship_width, "the shipping width");
  else if (c.ship_length)
    limit(s, *c.ship_length, "the shipping length");
  std::optional<Mass> most = rule.heaviest;
  const bool shipped = c.ship_mass && (!most || *c.ship_mass < *most);
  if (shipped) most = c.ship_mass;
  if (most) s.most = *most - allowance_;
  s.most_by = shipped ? "the shipping mass" : "heaviest";
  if (most && s.width == JointStretch::Width::constant)
    limit(s, greatest_by_mass(s, *s.most), s.most_by);
  if (rule.closing) l.closing = optimum::Closing{l.least, l.greatest, true};
}

}  // namespace

double deck_area(const Bridge& bridge, Length from, Length to) {
  std::vector<Length> at{from};
  for (Length b : bridge.edges.breaks())
    if (b > from && b < to) at.push_back(b);
  at.push_back(to);
  double area = 0;
  for (std::size_t i = 1; i < at.size(); ++i) {
    const Length a = at[i - 1], b = at[i];
    const Length width = bridge.edges.left(a) + bridge.edges.right(a) +
                         bridge.edges.left(b, false) + bridge.edges.right(b, false);
    area += width.in_mm() / 2 * (b - a).in_mm();
  }
  return area;
}

std::vector<Length> JointRules::panels(const std::vector<Nm>& lines) const {
  std::vector<Length> out;
  for (std::size_t i = 1; i < lines.size(); ++i)
    out.push_back(Length::from_nanometres(lines[i] - lines[i - 1] - gap()));
  return out;
}

std::vector<Nm> JointRules::lines(const std::vector<Length>& panels) const {
  std::vector<Nm> out{first};
  for (Length p : panels) out.push_back(out.back() + p.in_nanometres() + gap());
  return out;
}

bool JointRules::heeded_by(const std::vector<Nm>& lines) const {
  if (lines.empty() || lines.front() != first || lines.back() != last) return false;
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const Nm pitch = lines[i] - lines[i - 1];
    for (const JointStretch& s : stretches) {
      const bool inside = lines[i - 1] < s.to && lines[i] > s.from;
      if (!inside) continue;
      if (lines[i - 1] < s.from || lines[i] > s.to) return false;
      if (pitch < s.limits.least || pitch > s.limits.greatest) return false;
    }
  }
  return std::none_of(lines.begin(), lines.end(), [&](Nm x) {
    return std::any_of(zones.begin(), zones.end(),
                       [&](const Zone& z) { return z.from < x && x < z.to; });
  });
}

JointRules joint_rules(const Project& project, const Bridge& bridge, const SpanFrame& frame,
                       int span, Mass allowance) {
  const SpanData& s = project.deck.spans[static_cast<std::size_t>(span)];
  JointRules r;
  r.span = span;
  r.frame = frame;
  r.rule = *s.rule;
  const Nm half = r.gap() / 2;
  r.first = (s.from + frame.end_gap_back).in_nanometres() - half;
  r.last = (s.to - frame.end_gap_ahead).in_nanometres() + r.gap() - half;
  Rules(project, bridge, r, allowance).find();
  return r;
}

}  // namespace deckquire
