// Items of the erection plans.
#include <algorithm>
#include <cmath>
#include <map>

#include "audit/contents/reading.h"
#include "base/text.h"
#include "sheets/erection_parts.h"
#include "sheets/setting_plan.h"

namespace deckquire::contents {

namespace {

using sheets::Strip;

/// Sheets with strips: those of words alone come after them.
std::vector<const Page*> strip_pages(const Reading& r) {
  auto pages = r.of("E");
  pages.resize(static_cast<std::size_t>(r.drawn.plan.strip_sheets()));
  return pages;
}

std::string print(const Reading& r, Length v) { return print_length(v, r.project().units); }

const Panel& panel(const Reading& r, int i) {
  return r.deck().panels[static_cast<std::size_t>(i)];
}

void positions(const Reading& r, Outcome& o) {
  std::map<std::string, int> seen;
  for (const Page* p : r.of("E"))
    for (int g : p->groups("panel")) ++seen[p->scan.start(g).id];
  for (const Panel& p : r.deck().panels)
    o.expect(seen["panel-" + std::to_string(p.position)] == 1,
             "position " + std::to_string(p.position));
}

void mark_size(const Reading& r, Outcome& o) {
  for (const Page* p : r.of("E")) {
    double mark = 1e9, figure = 0;
    for (const audit::Letters& l : p->scan.texts) {
      if (p->scan.within(l.group, "mark") >= 0) mark = std::min(mark, l.text->height);
      if (p->scan.within(l.group, "dimensions") >= 0)
        figure = std::max(figure, l.text->height);
    }
    if (mark < 1e9) o.expect(mark > figure, p->number() + ": marks are no larger than figures");
  }
}

/// An arrow in every panel, back where it lies turned; panels are lettered in their order.
void arrows(const Reading& r, Outcome& o) {
  std::vector<bool> back;
  for (const Page* p : r.of("E"))
    for (int g : p->groups("orientation")) {
      const int view = p->scan.within(g, "view");
      if (view < 0 || !p->scan.start(view).id.starts_with("strip-")) continue;
      for (const audit::Line& l : p->scan.lines)
        if (l.group == g)
          back.push_back(l.stroke->path.points.back().x < l.stroke->path.points.front().x);
    }
  o.expect(back.size() == r.deck().panels.size(), std::to_string(back.size()) + " arrows");
  for (std::size_t i = 0; i < std::min(back.size(), r.deck().panels.size()); ++i)
    o.expect(back[i] == r.deck().panels[i].turned,
             "position " + std::to_string(r.deck().panels[i].position) + " points the wrong way");
}

/// North is there; on a straight bridge, drawn along the paper, it stands at the bearing.
void north(const Reading& r, Outcome& o) {
  const double bearing = r.project().bridge.alignment.bearing.in_si();
  for (const Page* p : strip_pages(r)) {
    const auto found = p->groups("north");
    // Strips of a curve are unrolled: only the key plan has a north.
    const bool straight = r.bridge().alignment.straight();
    o.expect(found.size() >= (straight ? 2 : 1), p->number() + ": no north");
    if (!straight) continue;
    for (int g : found)
      for (const audit::Line& l : p->scan.lines) {
        if (l.group != g) continue;
        const auto& pts = l.stroke->path.points;
        const double angle = std::atan2(pts.back().y - pts.front().y, pts.back().x - pts.front().x);
        o.expect(std::abs(std::remainder(angle - bearing, 2 * pi)) < 0.002,
                 p->number() + ": north is wrong");
      }
  }
}

void girders(const Reading& r, Outcome& o) {
  const auto& list = r.bridge().girders;
  for (const Page* p : strip_pages(r)) {
    for (const Girder& g : list)
      o.expect(holds(p->words, " " + g.name + " "), p->number() + ": no " + g.name);
    for (std::size_t i = 0; i + 1 < list.size(); ++i) {
      // The chain stops at the alignment too.
      const Length a = list[i].offset, b = list[i + 1].offset;
      const bool across = a > Length() && b < Length();
      if (r.bridge().alignment.straight())
        o.expect(holds(p->words, across ? print(r, a) : print(r, a - b)),
                 p->number() + ": no distance of " + list[i].name);
    }
  }
}

void joints(const Reading& r, Outcome& o) {
  std::string said;
  for (const Page* p : r.of("E")) said += joined(p->in("joint")) + " ";
  for (const Joint& j : r.deck().joints) {
    o.expect(holds(said, j.name), "no " + j.name);
    o.expect(holds(said, print_station(j.station, r.project().units)), j.name + ": no station");
  }
}

void first_joint(const Reading& r, Outcome& o) {
  const Length set = r.deck().panels.front().start - r.deck().spans.front().from;
  o.expect(says(r.words("E"), "set " + print(r, set) + " from " + r.bridge().supports.front().name),
           "no distance from the work point");
  o.expect(says(r.words("E"), "Work point: the line of"), "no work point");
}

/// Lengths of panels, gaps and strips; the strips together are the deck, none of it twice.
void lengths(const Reading& r, Outcome& o) {
  std::int64_t sum = 0;
  const auto& strips = r.drawn.plan.strips;
  const auto pages = r.of("E");
  Length end = r.deck().spans.front().from;
  for (const Strip& s : strips) {
    const auto chain = sheets::panel_chain(r.drawn.set.input(), s);
    const Page* p = pages[static_cast<std::size_t>(s.sheet)];
    const std::string said = " " + joined(p->in("dimensions")) + " ";
    const UnitSystem u = r.project().units;
    o.expect(holds(said, " " + print_whole_units(chain.total, u) + " "),
             p->number() + ": no length of a strip");
    for (std::int64_t panel_length : chain.panels)
      o.expect(holds(said, " " + print_whole_units(panel_length, u) + " "),
               p->number() + ": no length of a panel");
    o.expect(chain.from == end, p->number() + ": a strip begins where none ended");
    end = chain.to;
    sum += chain.total;
  }
  const Length whole = r.deck().spans.back().to - r.deck().spans.front().from;
  o.expect(end == r.deck().spans.back().to, "the last strip ends early");
  o.expect(sum == whole_units(whole, print_unit(r.project().units)), "strips do not sum");
  o.expect(holds(r.words("G"), print(r, whole)), "no length of the deck");
}

void curves(const Reading& r, Outcome& o) {
  const bool skewed = std::any_of(r.deck().joints.begin(), r.deck().joints.end(),
                                  [](const Joint& j) { return j.skew != 0; });
  for (const Page* p : strip_pages(r))
    if (!r.bridge().alignment.straight())
      o.expect(holds(joined(p->in("elements")), "R 45"), p->number() + ": no radius");
  if (skewed) o.expect(says(r.words("E"), "°*skewed joints"), "no angle of skew");
}

/// What the bridge has is named on the plans.
void things(const Reading& r, Outcome& o) {
  std::set<std::string> texts;
  for (const Page* p : r.of("E"))
    for (const audit::Letters& l : p->scan.texts) texts.insert(l.text->text);
  const std::string said = r.words("E");
  const auto expect = [&](const std::string& name) {
    o.expect(texts.count(name) > 0 || holds(said, " " + name + " "), name + " is not on the plans");
  };
  for (const Post& p : r.deck().posts) expect(p.name);
  for (const ScupperPlace& s : r.deck().scuppers) expect(s.name);
  for (const HatchData& h : r.project().deck.hatches) expect(h.name);
  for (const SleeveData& s : r.project().deck.sleeves) expect(s.name);
  for (const Obstruction& b : r.bridge().obstructions) expect(b.name);
  for (const Splice& s : r.bridge().splices) expect(s.name);
}

/// On the sheets with strips, or where their words were moved to, the panel that is set first; on the
/// sheet of the setting the first and the last of all.
void order(const Reading& r, Outcome& o) {
  const auto& setting = *r.drawn.plan.setting;
  const auto named = [&](int i) {
    return std::to_string(panel(r, i).position) + "*(serial " + panel(r, i).serial + ")";
  };
  std::string beside, whole;
  const auto all = r.of("E");
  for (std::size_t i = 0; i < all.size(); ++i) {
    const int number = static_cast<int>(i);
    const bool own = number >= r.drawn.plan.strip_sheets() && number < r.drawn.plan.first_of_moved();
    (own ? whole : beside) += all[i]->words + " ";
  }
  o.expect(says(whole, "Start panel, step*1:*position " + named(setting.order.front())), "no start panel");
  o.expect(says(whole, "step*" + std::to_string(setting.order.size()) + ":*position " + named(setting.order.back())),
           "no closing panel");
  const auto pages = strip_pages(r);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const auto range = sheets::panels_on(r.drawn.plan, static_cast<int>(i));
    int first = range.first;
    for (int k = range.first; k < range.first + range.count; ++k)
      if (setting.step[static_cast<std::size_t>(k)] < setting.step[static_cast<std::size_t>(first)]) first = k;
    o.expect(says(beside, "position " + named(first)), pages[i]->number() + ": no first panel");
    o.expect(says(beside, "last: " + std::to_string(range.count) + "*panels"),
             pages[i]->number() + ": no count of panels");
  }
}

/// Every cut between strips is labelled at both sides with its joint, station and the other side.
void match_lines(const Reading& r, Outcome& o) {
  const auto& plan = r.drawn.plan;
  std::vector<std::string> labels;
  for (const Page* p : r.of("E"))
    for (const audit::Letters& l : p->scan.texts)
      if (holds(l.text->text, "MATCH LINE")) labels.push_back(p->number() + " " + l.text->text);
  std::size_t wanted = 0;
  for (std::size_t i = 0; i + 1 < plan.strips.size(); ++i) {
    const Strip &a = plan.strips[i], &b = plan.strips[i + 1];
    const std::string here = plan.erection_sheet(a.first), there = plan.erection_sheet(b.first);
    const Joint& j =
        r.deck().joints[static_cast<std::size_t>(panel(r, b.first).joint_back)];
    const std::string name =
        "MATCH LINE " + j.name + "  " + print_station(j.station, r.project().units) + "  SEE ";
    const bool same = here == there;
    const std::string ahead =
        here + " " + name + (same ? "STRIP " + std::to_string(i + 2) + " BELOW" : there);
    const std::string back =
        there + " " + name + (same ? "STRIP " + std::to_string(i + 1) + " ABOVE" : here);
    for (const std::string& label : {ahead, back})
      o.expect(std::count(labels.begin(), labels.end(), label) == 1, label);
    wanted += 2;
  }
  o.expect(labels.size() == wanted, std::to_string(labels.size()) + " labels of match lines");
}

void heaviest(const Reading& r, Outcome& o) {
  const auto pages = strip_pages(r);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const auto range = sheets::panels_on(r.drawn.plan, static_cast<int>(i));
    Mass most;
    for (int k = range.first; k < range.first + range.count; ++k)
      most = std::max(most,
                      r.deck().marks[static_cast<std::size_t>(panel(r, k).mark)].masses.total);
    o.expect(says(r.words("E"), "Heaviest pick here: *, " + print_mass(most, r.project().units) +
                                    (r.project().units == UnitSystem::metric ? " kg" : " lb")),
             pages[i]->number() + ": another heaviest");
  }
}

void levels(const Reading& r, Outcome& o) {
  const UnitSystem u = r.project().units;
  for (const Page* p : strip_pages(r))
    o.expect(says(p->words, "Deck top, *Girder top, "), p->number() + ": no rows of levels");
  const std::string said = r.words("E");
  for (const Support& s : r.bridge().supports) {
    const Length deck = r.bridge().alignment.level(s.station);
    const Length pad = r.project().deck.pads ? r.project().deck.pads->thickness : Length();
    o.expect(holds(said, print_level(deck - r.project().deck.section.depth - pad, u)),
             s.name + ": no level of the girder");
    // The figure of a joint close by stands for both.
    const auto near = [&](const Joint& j) {
      const Length d = j.station - s.station;
      return d < mm(500) && d > mm(-500);
    };
    const auto& joints = r.deck().joints;
    o.expect(std::any_of(joints.begin(), joints.end(), near) || holds(said, print_level(deck, u)),
             s.name + ": no level of the deck");
  }
}

bool padded(const Reading& r) { return r.project().deck.pads.has_value(); }

}  // namespace

Items erection() {
  return {
      {"E1", "Every position drawn once, with its mark", {}, positions, unmark("E", "panel"),
       {"mark-count", "serial-count"}},
      {"E2", "Marks larger than figures", {}, mark_size,
       {"E",
        [](paper::Sheet& s) {
          for (paper::Item& i : s.items)
            if (auto* t = std::get_if<paper::Text>(&i); t && t->text == "DP02" && t->height > 4) {
              t->height = 2.5;
              return true;
            }
          return false;
        }}},
      {"E3", "Direction of every panel", {}, arrows, unmark("E", "orientation")},
      {"E4", "North, at the right angle", {}, north, unmark("E", "north")},
      {"E5", "Direction of stations", {{"E", "ahead, stations increase", false}}},
      {"E6", "Girders with their names and distances", {}, girders, rename("E", "740", "750")},
      {"E7", "Joints set to stations of the alignment", {}, joints, rename("E", "J4", "J5")},
      {"E8", "From the work point to the first panel", {}, first_joint,
       reword("E", "Work point", "Point")},
      {"E9", "Length of deck, panels, gaps", {{"E", "Panels*Gaps|set", false}}, lengths,
       rename("E", "12537", "12538"), {"chain-sum"}},
      {"E10", "Width, edges, fall", {{"E", "Left edge*Right edge*Deck width", false}, {"E", " %", false}}},
      {"E11", "Skew and curve", {}, curves, reword("E", "R 45", "R 54"), {}, "", "heron"},
      {"E12", "Bearing and fixing",
       {{"E", "lays the pads on the girders", false, padded},
        {"E", "hold-downs are tight, detail * on D", false}}},
      {"E13", "Details named with sheets that are there",
       {{"E", "Details: *joint * on D*end*joint * on D", false}}, {}, {}, {"reference-dead"}},
      {"E14", "Joints, drains, posts, crossings shown by name", {}, things,
       rename("E", "S2", "S3")},
      {"E15", "Order, direction, first panel", {{"E", "Start panel, step*1:*position*Closing*panel, step", false}},
       order, reword("E", "position 1 (serial 0301-001)", "position 2")},
      {"E16", "Match lines at both sides, with station and neighbour", {}, match_lines,
       reword("E", "SEE STRIP 2 BELOW", "SEE STRIP 3 BELOW")},
      {"E17", "Heaviest pick and where it is lifted",
       {{"E", "hang level from*inserts", false}}, heaviest, reword("E", "378 kg", "387 kg")},
      {"E18", "Levels of deck and girders at the supports", {}, levels,
       reword("E", "48.261", "48.216"), {}, "heights of haunches and shims"},
      {"E19", "Site work and shop work kept apart",
       {{"E", "Site work: *Nobody drills or cuts a panel*on site", false}}},
      {"E20", "Hardware of the strip", {{"E", "HARDWARE ON THIS SHEET|HARDWARE, E", false}}},
      {"E21", "Tolerances of gaps and of setting",
       {{"E", "Gaps of *within|tolerance not stated", false}, {"E", "are set within", false}}},
      {"E22", "Number of panels", {}, order, reword("E", "8 panels", "9 panels")},
      {"E23", "Temperature at which gaps hold", {{"E", "hold at*°|setting temperature", false}}},
      {"E24", "Until rails and hold-downs are fixed",
       {{"E", "Nobody walks on a panel before", false},
        {"E", "Edges and open ends are guarded", false}}},
      {"E25", "Nothing dimensioned twice across a match line", {}, lengths,
       rename("E", "7519", "7520")}};
}

}  // namespace deckquire::contents
