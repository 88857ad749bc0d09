#include "bench/long_deck.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "base/files.h"
#include "checks/fit.h"
#include "deck/typing.h"
#include "project/reader.h"

namespace deckquire {
namespace {

constexpr int repeats = 5;
const char* const stages[] = {"division", "posts, scuppers", "shapes",
                              "types",    "clash and fit",   "bridge, deck, checks"};
constexpr std::size_t stage_count = std::size(stages);

double now_ms() {
  const auto t = std::chrono::steady_clock::now().time_since_epoch();
  return std::chrono::duration<double, std::milli>(t).count();
}

/// Things of the first length again behind it, `times` in all.
template <class Data>
void again(std::vector<Data>& all, Length length, int times, bool named) {
  const std::size_t n = all.size();
  for (int k = 1; k < times; ++k)
    for (std::size_t i = 0; i < n; ++i) {
      Data d = all[i];
      d.station += length * k;
      if constexpr (requires { d.name; })
        if (named) d.name += fmt::format("-{}", k);
      all.push_back(d);
    }
}

/// `times` decks end to end. A deck's own end gap is whole, between two spans half on each side:
/// the spans at the seams are shortened by that half.
Project lengthened(const Project& one, int times) {
  Project p = one;
  const AlignmentData& a = one.bridge.alignment;
  const Length half = one.deck.joints.end_gap / 2, length = a.to - a.from - half * 2;
  p.bridge.alignment.to = a.from + length * times + half * 2;
  // Every second time turned end for end, so that the levels meet.
  for (int k = 1; k < times; ++k) {
    std::vector<GradePointData> more = a.grades;
    if (k % 2 == 1) std::reverse(more.begin(), more.end());
    for (std::size_t i = 1; i < more.size(); ++i) {
      if (k % 2 == 1) more[i].station = a.from + a.to - more[i].station;
      more[i].station += length * k;
      p.bridge.alignment.grades.push_back(more[i]);
    }
  }
  again(p.bridge.splices, length, times, false);
  if (p.deck.scuppers) again(p.deck.scuppers->scuppers, length, times, true);
  again(p.deck.hatches, length, times, true);
  p.bridge.supports = {one.bridge.supports.front(), one.bridge.supports.back()};
  p.bridge.supports.back().station = p.bridge.alignment.to;
  for (GirderData& g : p.bridge.girders) g.to = p.bridge.alignment.to;
  for (SurfaceData& s : p.deck.surfaces) s.to = p.bridge.alignment.to;
  p.deck.spans.clear();
  for (int k = 0; k < times; ++k)
    for (SpanData s : one.deck.spans) {
      const bool first = s.from == a.from, last = s.to == a.to;
      s.name += fmt::format("-{}", k);
      s.from += length * k + (first && k > 0 ? half : Length());
      s.to += length * k - (last && k + 1 < times ? half : Length());
      p.deck.spans.push_back(s);
    }
  return p;
}

/// With what the causeway has none of, in every span: a widening, a sleeve, a mast through the
/// edge.
Project crowded(Project p) {
  const Length pitch = mm(2500), middle = mm(16 + 1244);
  const EdgeData plain = p.deck.edges.front();
  int n = 0;
  for (const SpanData& s : p.deck.spans) {
    ++n;
    for (const auto& [panels, wider] : {std::pair(9, 0), {10, 200}, {12, 200}, {13, 0}})
      p.deck.edges.push_back({s.from + mm(10) + pitch * panels, plain.left + mm(wider),
                              plain.right + mm(wider), plain.place});
    SleeveData sleeve;
    sleeve.name = fmt::format("D{}", n);
    sleeve.station = s.from + middle + pitch * 4;
    sleeve.diameter = mm(100);
    sleeve.wall = mm(5);
    p.deck.sleeves.push_back(sleeve);
    ObstructionData mast;
    mast.name = fmt::format("M{}", n);
    mast.kind = "mast";
    mast.station = s.from + middle + pitch * 5;
    mast.offset = plain.left;
    mast.diameter = mm(60);
    mast.clearance = mm(50);
    p.bridge.obstructions.push_back(mast);
  }
  return p;
}

std::vector<double> one_run(const Project& p, std::size_t& panels, std::string& error) {
  std::vector<double> at{now_ms()};
  Findings findings;
  const Bridge bridge = build_bridge(p, findings);
  at.front() = now_ms();
  Division d = divide(p, bridge, findings);
  at.push_back(now_ms());
  place_fittings(p, bridge, d, findings);
  at.push_back(now_ms());
  std::vector<PanelShape> shapes;
  for (std::size_t i = 0; i < d.pieces.size(); ++i)
    shapes.push_back(shape_panel(p, bridge, d, static_cast<int>(i), findings));
  at.push_back(now_ms());
  Typing typing(p.deck.marks.tolerance);
  for (const PanelShape& s : shapes) typing.place(s);
  at.push_back(now_ms());
  Findings said;
  const double together = now_ms();
  const Bridge whole = build_bridge(p, said);
  const Deck deck = build_deck(p, whole, said);
  const double built = now_ms();
  check_fit(p, whole, deck, said);
  const double end = now_ms();
  std::vector<double> out;
  for (std::size_t i = 1; i < at.size(); ++i) out.push_back(at[i] - at[i - 1]);
  out.push_back(end - built);
  out.push_back(end - together);
  panels = deck.panels.size();
  error.clear();
  for (const Finding& f : said.sorted())
    if (f.severity == Severity::error && error.empty()) error = f.what;
  return out;
}

std::vector<double> medians(const Project& p, std::size_t& panels) {
  std::vector<std::vector<double>> runs;
  std::string error;
  for (int i = 0; i < repeats; ++i) runs.push_back(one_run(p, panels, error));
  if (!error.empty()) fmt::print("the deck of {} panels has errors: {}\n", panels, error);
  std::vector<double> out;
  for (std::size_t s = 0; s < stage_count; ++s) {
    std::vector<double> v;
    for (const auto& r : runs) v.push_back(r[s]);
    std::sort(v.begin(), v.end());
    out.push_back(v[v.size() / 2]);
  }
  return out;
}

}  // namespace

void time_long_decks() {
  const std::string file = DECKQUIRE_SOURCE "/projects/causeway.xml";
  Findings findings;
  const auto project = read_project(read_file(file), file, findings);
  const auto compare = [](const char* name, const Project& once, const Project& tenfold) {
    std::size_t n = 0, n10 = 0;
    const auto one = medians(once, n), ten = medians(tenfold, n10);
    fmt::print("\n{:<26}{:>10}{:>10}{:>10}\n", fmt::format("{}, ms; panels:", name), n, n10,
               "times");
    for (std::size_t s = 0; s < stage_count; ++s)
      fmt::print("{:<26}{:>10.1f}{:>10.1f}{:>10.1f}\n", stages[s], one[s], ten[s], ten[s] / one[s]);
  };
  const Project ten = lengthened(*project, 10);
  compare("causeway", *project, ten);
  compare("crowded", crowded(*project), crowded(ten));
}

void time_calculations() {
  Findings findings;
  const auto read = [&](const char* name) {
    const std::string file = std::string(DECKQUIRE_SOURCE "/projects/") + name;
    return *read_project(read_file(file), file, findings);
  };
  // The long deck with all the values that the main example states.
  Project project = read("causeway.xml");
  const Project stated = read("saltmarsh.xml");
  project.conditions = stated.conditions;
  project.deck.strength = stated.deck.strength;
  project.deck.lifting.handling = stated.deck.lifting.handling;
  project.deck.lifting.capacity_kn = stated.deck.lifting.capacity_kn;
  if (project.deck.hold_downs && stated.deck.hold_downs)
    project.deck.hold_downs->capacity = stated.deck.hold_downs->capacity;
  if (project.deck.posts && stated.deck.posts)
    project.deck.posts->anchor = stated.deck.posts->anchor;
  const Bridge bridge = build_bridge(project, findings);
  const Deck deck = build_deck(project, bridge, findings);
  std::vector<double> times;
  std::size_t count = 0, open = 0;
  for (int run = 0; run < 5; ++run) {
    Findings own;
    const double start = now_ms();
    const Calculations all = calculate(project, bridge, deck, own);
    times.push_back(now_ms() - start);
    count = all.list.size(), open = all.not_checked.size();
  }
  std::sort(times.begin(), times.end());
  fmt::print("\nall calculations of {} panels, {} marks: {:.1f} ms ({} workings, {} not checked)\n",
             deck.panels.size(), deck.marks.size(), times[times.size() / 2], count, open);
}

}  // namespace deckquire
