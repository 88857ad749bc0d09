// People leaning on the rail: the bolts of its posts, their threads, and what the panel gets.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "checks/section_values.h"
#include "checks/strip_cases.h"
#include "workings/threads.h"

namespace deckquire {
namespace {


struct Posts {
  const CalculationJob& job;
  const PostsData& posts;
  const RailLoadData& rail;
  const FactorsData& factors;
  std::vector<Bundle> bundles = {};
  const workings::ThreadSize* size = workings::find_thread(posts.plate.thread);
};

struct Bay {
  double length = 0;  // mm
  std::string between;
};

/// The longest bay of the rail, along its chord.
Bay longest_bay(const Deck& deck) {
  Bay longest;
  for (std::size_t i = 0; i + 1 < deck.posts.size(); ++i) {
    const Post &a = deck.posts[i], &b = deck.posts[i + 1];
    if (a.side != b.side) continue;
    const double d =
        std::hypot(a.survey.easting - b.survey.easting, a.survey.northing - b.survey.northing) * 1e3;
    if (d > longest.length + 1e-6) longest = {d, fmt::format("posts {} and {}", a.name, b.name)};
  }
  return longest;
}

Length thickest_surface(const DeckData& d) {
  Length t;
  for (const SurfaceData& s : d.surfaces) t = std::max(t, s.thickness);
  return t;
}

std::vector<int> marks_with_posts(const Deck& deck) {
  std::vector<int> marks;
  for (std::size_t i = 0; i < deck.marks.size(); ++i) {
    const auto& features = deck.marks[i].shape.features;
    if (std::any_of(features.begin(), features.end(),
                    [](const Feature& f) { return f.kind == FeatureKind::post_plate; }))
      marks.push_back(static_cast<int>(i));
  }
  return marks;
}

double thickest_edge(const Deck& deck) {
  double t = 0;
  for (const Mark& m : deck.marks) {
    const Box<PanelFrame> b = bounds(m.shape.outline);
    t = std::max({t, m.shape.top(b.low.y), m.shape.top(b.high.y)});
  }
  return t;
}

/// Strengths of a bolt at the onset of yield; none where the grade has no proof stress here.
void bolt_strengths(const Posts& p, Inputs& in) {
  if (!p.size || !p.posts.anchor) return;
  const AnchorData& a = *p.posts.anchor;
  const workings::BoltGrade* grade = workings::find_grade(a.bolt_class, p.size->d);
  if (!grade || grade->proof == 0) return;
  const double d = p.size->d - 0.9382 * p.size->pitch;
  const double proof = grade->proof * pi / 4 * d * d;
  in.computed("T_r", proof,
              "proof load of the bolt, without a resistance factor: the code's own decides");
  in.computed("V_r", a.shear_ratio * proof, "shear ratio of the anchor × the same");
}

std::optional<double> anchor(Posts& p, const Bay& bay, const Subject& of) {
  const PostPlateData& plate = p.posts.plate;
  const AnchorData& a = *p.posts.anchor;
  const SectionData& section = p.job.project.deck.section;
  const double surface = thickest_surface(p.job.project.deck).in_mm();
  Inputs in;
  in.computed("s", bay.length / 1e3, "longest bay: " + bay.between)
      .project("P_0", p.rail.point.in_si(), p.rail.place, p.rail.code)
      .project("w", p.rail.line, p.rail.place, p.rail.code)
      .project("h", p.rail.height.in_m(), p.rail.place, p.rail.code)
      .computed("h_b", (section.curb.height.in_mm() - surface) / 1e3,
                "curb height less the thickest wearing surface")
      .computed("e", (surface + thickest_edge(p.job.deck) / 2) / 1e3,
                "the thickest surface, and half of the thickest edge")
      .project("y_c", a.toe.in_m(), a.place, a.source)
      .computed("y_t", a.toe.in_m() + plate.pitch_across.in_m() * (plate.across - 1),
                "the toe and the pitch of the bolts across")
      .project("n_t", plate.along, p.posts.place)
      .project("n_c", plate.along, p.posts.place)
      .project("gamma", p.factors.rail, p.factors.place, p.factors.code);
  bolt_strengths(p, in);
  if (p.size) {
    in.choice("size", plate.thread, "thread of the post plate");
    in.values["grade"] = {0, a.bolt_class, {workings::Origin::From::project, a.source, a.place}};
  }
  const auto i = add_working(p.job, Topic::posts, "post-anchor", in, of);
  if (!i) return std::nullopt;
  p.bundles.push_back({*i});
  const workings::Working& w = p.job.out.list[*i].working;
  if (in.values.count("T_r") == 0)
    p.job.not_checked(Topic::posts, "bolts of the posts against their strength",
                      p.size ? "the strength of one bolt: class " + a.bolt_class +
                                   " has no proof stress here"
                             : "a thread in the table of sizes: " + plate.thread);
  return w.result("M_pd");
}

void threads(Posts& p, const Subject& of) {
  const PostPlateData& plate = p.posts.plate;
  const AnchorData& a = *p.posts.anchor;
  if (!p.size) return;
  if (!a.plate_strength)
    return p.job.not_checked(Topic::posts, "stripping of the post plates' threads",
                             "the strength of the plate (anchor plate-strength=)");
  Inputs in;
  in.choice("size", plate.thread, "thread of the post plate");
  in.values["grade"] = {0, a.bolt_class, {workings::Origin::From::project, a.source, a.place}};
  in.project("Fu_p", a.plate_strength->in_si(), a.place, a.source)
      .project("r", a.shear_ratio, a.place, a.source)
      .project("LE", std::min(plate.tap_depth, plate.thickness).in_m(), p.posts.place,
               "tapped depth, within the plate");
  if (const auto i = add_working(p.job, Topic::posts, "thread-stripping", in, of)) {
    workings::Working& w = p.job.out.list[*i].working;
    rename_verdicts(w, "the bolt breaks before a thread strips, with r",
                    "length of thread for the bolt to break first, with the ratio of strengths");
    rename_verdicts(w, "the bolt breaks before a thread strips, the standard's",
                    "length of thread for the bolt to break first, the standard's form");
    p.bundles.push_back({*i});
  }
}

/// The moment of one post on a strip of a metre, with people on the deck; on whichever strips it is
/// worst.
void into_panel(Posts& p, double moment) {
  const CurbData& curb = p.job.project.deck.section.curb;
  const double inset = (curb.width - curb.batter).in_mm() / 2;
  SandwichStrips sections(p.job, Topic::posts);
  std::vector<StripCase> cases;
  std::vector<CaseMeasure> measures;
  for (const PanelStrip& s : strips_of(p.job)) {
    if (s.supports.size() < 2) continue;
    for (bool left : {true, false}) {
      const double x = left ? inset : s.length - inset;
      if ((left ? s.left_curb : s.right_curb) == 0) continue;
      StripCase c = case_of(s, Ask::strength, 1000, p.factors.dead);
      if (const auto& people = p.job.project.conditions.pedestrian)
        add_people(c, *people, p.factors.pedestrian);
      c.more.push_back(workings::couple_load((left ? -1 : 1) * moment * 1e3, x));
      c.more_words = "a post's factored moment into the panel, by post-anchor, all on this strip";
      measures.push_back(measure(c, sections));
      cases.push_back(std::move(c));
    }
  }
  for (std::size_t i : worst_of(measures, Ask::strength))
    p.bundles.push_back(add_case(p.job, Topic::posts, cases[i], sections, cases[i].strip.marks,
                                 {"under the rail load", p.rail.place, ""}));
  if (cases.empty())
    return p.job.not_checked(Topic::posts, "bending of the panels under the rail load",
                             "panels on two girders with a curb");
  p.job.not_checked(Topic::posts,
                    "length of panel that carries the moment of a post, taken here as one metre",
                    "a calculation as a plate, or a test");
}

}  // namespace

void calculate_posts(const CalculationJob& job) {
  const Conditions& c = job.project.conditions;
  const auto& posts = job.project.deck.posts;
  if (!posts || job.deck.posts.empty()) return;
  job.not_checked(Topic::posts, "anchorage of the rail posts: curb and laminate around the post plates, base plates",
                  "calculation or test by the engineer and the railing supplier");
  Missing missing;
  missing.need(c.rail.has_value(), "the load of people on the rail (rail-load)");
  missing.need(c.factors.has_value(), "load factors (factors)");
  missing.need(posts->anchor.has_value(), "class of the bolts and their place (posts anchor)");
  if (missing.any()) return job.not_checked(Topic::posts, "bolts of the rail posts", missing.words());
  if (posts->plate.across < 2)
    return job.not_checked(Topic::posts, "bolts of the rail posts", "two rows of bolts across");
  Posts p{job, *posts, *c.rail, *c.factors};
  const Bay bay = longest_bay(job.deck);
  if (bay.length == 0) return job.not_checked(Topic::posts, "bolts of the rail posts", "two posts on one side");
  const Subject of{bay.between, marks_with_posts(job.deck), posts->anchor->place};
  const auto moment = anchor(p, bay, of);
  threads(p, of);
  if (!job.project.deck.strength)
    job.not_checked(Topic::posts, "bending of the panels under the rail load", needs_stiffness);
  else if (moment)
    into_panel(p, *moment);
  print_governing(job, Topic::posts, p.bundles);
}

}  // namespace deckquire
