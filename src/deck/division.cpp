#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "deck/alternatives.h"
#include "deck/division.h"
#include "deck/site.h"

namespace deckquire {
namespace {

constexpr Length shortest_panel = mm(300);  // shorter ones are taken for a slip of the pen

/// One span while it is being divided.
struct Run {
  const Project& project;
  const SpanData& span;
  Length gap;    // between two panels, along the alignment
  Length clear;  // of the span along the alignment, its end gaps taken off
  Findings& findings;
  std::string length(Length a) const { return print_length(a, project.units); }
};

Length snapped_down(Length a, Length unit) {
  const std::int64_t n = a.in_nanometres() / unit.in_nanometres();
  return Length::from_nanometres(n * unit.in_nanometres());
}

/// `count` panels of one length in whole print units, the last one taking what is left.
std::vector<Length> equal_panels(const Run& run, std::int64_t count,
                                 std::optional<Length> longest) {
  const Length unit = print_unit(run.project.units);
  const std::int64_t gaps = run.gap.in_nanometres() * (count - 1);
  const Length sum = Length::from_nanometres(run.clear.in_nanometres() - gaps);
  Length each = snapped_down(Length::from_nanometres(sum.in_nanometres() / count), unit);
  // The closing panel must not outgrow the limit either: then the others are one unit longer.
  if (longest && sum - each * (count - 1) > *longest && each + unit <= *longest) each += unit;
  std::vector<Length> panels(static_cast<std::size_t>(count), each);
  panels.back() = sum - each * (count - 1);
  return panels;
}

std::vector<Length> by_rule(const Run& run) {
  const PanelsRule& rule = *run.span.rule;
  std::int64_t count = rule.count.value_or(0);
  if (rule.longest) {
    const std::int64_t pitch = (*rule.longest + run.gap).in_nanometres();
    if (pitch > 0) count = ((run.clear + run.gap).in_nanometres() + pitch - 1) / pitch;
  }
  constexpr std::int64_t most = 10000;
  if (count >= 1 && count <= most && run.clear > run.gap * (count - 1))
    return equal_panels(run, count, rule.longest);
  run.findings.error(rule.place, "panels-do-not-fit",
                     fmt::format("span {} has {} for panels, which {} panels do not divide",
                                 run.span.name, run.length(run.clear), count),
                     "give another number of panels or another longest length");
  return {};
}

/// What would make the written panels fill the span: another last panel where that stays near the
/// others in length, else more or fewer panels.
std::string how_to_close(const Run& run, Length last, Length excess) {
  const Length closing = last - excess;
  if (closing >= shortest_panel && closing <= last * 1.2)
    return fmt::format("a last panel of {} would close the span", run.length(closing));
  const auto whole = static_cast<std::int64_t>(abs(excess) / (last + run.gap));
  if (whole == 0) return "change the lengths of several panels";
  return fmt::format("{} {} of {} and see what is left", excess > Length() ? "take out" : "add",
                     whole, run.length(last));
}

std::vector<Length> as_written(const Run& run) {
  std::vector<Length> panels;
  Length sum;
  for (const PanelRun& r : run.span.runs)
    for (int i = 0; i < r.times; ++i) {
      panels.push_back(r.length);
      sum += r.length + run.gap;
    }
  if (panels.empty()) {
    run.findings.error(run.span.place, "span-without-panels",
                       fmt::format("span {} has no panels", run.span.name),
                       "add <panels longest=\"...\"/>, <panels count=\"...\"/> or <panel .../>");
    return {};
  }
  const Length excess = sum - run.gap - run.clear;
  if (excess == Length()) return panels;
  run.findings.error(
      run.span.place, "panels-do-not-add-up",
      fmt::format("the panels of span {} with their gaps are {} too {} (they come to {}, the span "
                  "leaves {} between its end gaps)",
                  run.span.name, run.length(abs(excess)), excess > Length() ? "long" : "short",
                  run.length(run.clear + excess), run.length(run.clear)),
      how_to_close(run, panels.back(), excess));
  return {};
}

void check_lengths(const Run& run, const std::vector<Length>& panels) {
  for (Length p : panels) {
    if (p >= shortest_panel) continue;
    run.findings.error(
        run.span.place, "panel-too-short",
        fmt::format("span {} would have a panel of {}", run.span.name, run.length(p)),
        fmt::format("no panel shorter than {} is divided; give other lengths",
                    run.length(shortest_panel)));
    return;
  }
}

bool spans_in_order(const Project& project, Findings& findings) {
  const auto& spans = project.deck.spans;
  const AlignmentData& a = project.bridge.alignment;
  const auto at = [&](Length s) { return print_station(s, project.units); };
  bool good = true;
  const auto error = [&](const SpanData& s, const char* code, std::string what,
                         std::string remedy) {
    findings.error(s.place, code, std::move(what), std::move(remedy));
    good = false;
  };
  for (std::size_t i = 0; i < spans.size(); ++i) {
    const SpanData& s = spans[i];
    if (s.to <= s.from)
      error(s, "span-has-no-length", fmt::format("span {} ends where it begins", s.name),
            "give `to` a station ahead of `from`");
    if (s.from < a.from || s.to > a.to)
      error(s, "span-outside-bridge",
            fmt::format("span {} runs from {} to {}", s.name, at(s.from), at(s.to)),
            fmt::format("the bridge runs from {} to {}", at(a.from), at(a.to)));
    if (i == 0 || s.from == spans[i - 1].to) continue;
    const bool overlap = s.from < spans[i - 1].to;
    error(s, overlap ? "spans-overlap" : "gap-between-spans",
          fmt::format("span {} begins at {}, span {} ends at {}", s.name, at(s.from),
                      spans[i - 1].name, at(spans[i - 1].to)),
          fmt::format("begin it at {}", at(spans[i - 1].to)));
  }
  return good;
}

/// A gap is given square to its joint line; this is its length along the alignment.
Length along(Length gap, double skew) {
  return skew == 0 ? gap : gap / std::cos(skew);
}

/// The part of the end gap inside the span: all of it at the ends of the deck, else half.
Length end_share(Length gap, bool end_of_deck, bool back_of_span) {
  if (end_of_deck) return gap;
  const Length half = Length::from_nanometres(gap.in_nanometres() / 2);
  return back_of_span ? half : gap - half;  // an odd nanometre goes to the span behind
}

std::string degrees_text(Angle a) {
  return decimal(a.in_si() * 180 / pi, 2) + "°";
}

/// Skews of the end joints: of the deck's back end, between the spans, of its ahead end.
std::vector<double> end_skews(const Project& project, Findings& findings) {
  const auto& spans = project.deck.spans;
  std::vector<double> out(spans.size() + 1, project.deck.joints.skew.in_si());
  for (std::size_t i = 0; i < spans.size(); ++i) {
    const auto& before = i > 0 ? spans[i - 1].skew_to : std::nullopt;
    const auto& here = spans[i].skew_from;
    if (before && here && *before != *here)
      findings.error(
          spans[i].place, "end-skews-differ",
          fmt::format("span {} ends with a skew of {}, span {} begins with {}", spans[i - 1].name,
                      degrees_text(*before), spans[i].name, degrees_text(*here)),
          "it is one joint line: state one skew");
    if (here) out[i] = here->in_si();
    if (spans[i].skew_to) out[i + 1] = spans[i].skew_to->in_si();
  }
  return out;
}

void add_joint(Division& d, Length station, Length gap, bool end, double skew) {
  Joint j;
  j.name = fmt::format("J{}", d.joints.size() + 1);
  j.station = station;
  j.gap = gap;
  j.end = end;
  j.skew = skew;
  j.back = d.bays.empty() ? -1 : d.bays.back();
  j.ahead = static_cast<int>(d.pieces.size());
  d.joints.push_back(j);
}

/// The panels between two joints, one a row, from the left.
void add_bay(Division& d, Division::Piece piece) {
  piece.joint_back = static_cast<int>(d.joints.size()) - 1;
  piece.joint_ahead = piece.joint_back + 1;
  piece.bay = static_cast<int>(d.bays.size());
  d.bays.push_back(static_cast<int>(d.pieces.size()));
  const Length middle = piece.start + (piece.end - piece.start) / 2;
  for (const RowJoint& r : d.row_joints) {
    if (middle < r.from || middle > r.to) continue;
    piece.right_limit = r.offset + r.gap / 2;
    d.pieces.push_back(piece);
    ++piece.row;
    piece.left_limit = r.offset - r.gap / 2;
  }
  piece.right_limit.reset();
  d.pieces.push_back(piece);
}

void lay_span(const Project& project, const SpanRun& run, const std::vector<Length>& panels,
              Division& d) {
  const double skew = project.deck.joints.skew.in_si();
  const Length square = project.deck.joints.gap, gap = along(square, skew);
  const int span = static_cast<int>(d.spans.size()) - 1;
  Length at = run.from + run.end_gap_back;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    if (i > 0) add_joint(d, at - gap / 2, square, false, skew);
    Division::Piece piece;
    piece.start = at;
    piece.end = at + panels[i];
    piece.span = span;
    add_bay(d, piece);
    at += panels[i] + gap;
  }
}

void check_row_joints(const Project& project, const Bridge& bridge, const Division& d,
                      Findings& findings) {
  for (const RowJoint& r : d.row_joints) {
    const auto on = [&](const Girder& g) {
      return std::all_of(d.joints.begin(), d.joints.end(), [&](const Joint& j) {
        if (j.station < r.from || j.station > r.to) return true;
        const double off = r.offset.in_mm() - girder_offset(bridge, g, j.station.in_mm());
        return std::abs(off) + r.gap.in_mm() / 2 < g.flange.in_mm() / 2;
      });
    };
    if (std::none_of(bridge.girders.begin(), bridge.girders.end(), on))
      findings.error(r.place, "row-joint-off-girder",
                     fmt::format("row joint {} at offset {} has no girder under both its sides",
                                 r.name, print_length(r.offset, project.units)),
                     "put it over the middle of a girder, so that both rows bear on its flange");
    for (Length end : {r.from, r.to}) {
      if (end <= d.joints.front().station || end >= d.joints.back().station) continue;
      const Joint& joint = nearest_joint(d, end);
      if (abs(joint.station - end) <= std::max(joint.gap, mm(1))) continue;
      findings.error(r.place, "row-joint-ends-inside-panel",
                     fmt::format("row joint {} ends at {}, inside a panel", r.name,
                                 print_station(end, project.units)),
                     fmt::format("end it on a joint; the nearest is {} at {}", joint.name,
                                 print_station(joint.station, project.units)));
    }
  }
}

}  // namespace

std::vector<SpanFrame> span_frames(const Project& project, Findings& findings) {
  std::vector<SpanFrame> out;
  if (!spans_in_order(project, findings)) return out;
  const std::vector<double> skews = end_skews(project, findings);
  const JointsData& joints = project.deck.joints;
  const std::size_t n = project.deck.spans.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Length back = along(joints.end_gap, skews[i]);
    const Length ahead = along(joints.end_gap, skews[i + 1]);
    out.push_back({along(joints.gap, joints.skew.in_si()), end_share(back, i == 0, true),
                   end_share(ahead, i + 1 == n, false), back, ahead, skews[i], skews[i + 1]});
  }
  return out;
}

std::vector<Length> equal_lengths(const Project& project, const SpanFrame& frame, Length length,
                                  std::int64_t count, std::optional<Length> longest) {
  Findings none;
  const SpanData span;
  const Length clear = length - frame.end_gap_back - frame.end_gap_ahead;
  if (count < 1 || clear <= frame.gap * (count - 1)) return {};
  return equal_panels({project, span, frame.gap, clear, none}, count, longest);
}

namespace {

bool asks_for_fewest(const SpanData& s) {
  return s.rule && s.rule->fewest_types && s.rule->longest;
}

/// By span; empty for those that do not ask, and where there is no division (an error says why).
std::vector<std::vector<Length>> chosen_panels(const Project& project, const Bridge& bridge,
                                               Findings& findings, const DeckChecks& checks) {
  const auto& spans = project.deck.spans;
  if (std::none_of(spans.begin(), spans.end(), asks_for_fewest)) return {};
  Findings said_already;
  return choose_panels(project, bridge, span_frames(project, said_already), findings, checks);
}

}  // namespace

Division divide(const Project& project, const Bridge& bridge, Findings& findings,
                const DeckChecks& checks) {
  Division d;
  const auto& spans = project.deck.spans;
  if (!spans_in_order(project, findings) || spans.empty()) return d;
  for (const RowJointData& r : project.deck.row_joints)
    d.row_joints.push_back({r.name, r.offset, r.gap, r.from, r.to, r.place});
  const JointsData& joints = project.deck.joints;
  const std::vector<double> skews = end_skews(project, findings);
  const auto chosen = chosen_panels(project, bridge, findings, checks);
  for (std::size_t i = 0; i < spans.size(); ++i) {
    const SpanData& s = spans[i];
    const Length back = along(joints.end_gap, skews[i]);
    const Length ahead = along(joints.end_gap, skews[i + 1]);
    SpanRun run{s.name, s.from, s.to, static_cast<int>(d.pieces.size()), 0, {}, {}};
    run.end_gap_back = end_share(back, i == 0, true);
    run.end_gap_ahead = end_share(ahead, i + 1 == spans.size(), false);
    const Run r{project, s, along(joints.gap, joints.skew.in_si()),
                s.to - s.from - run.end_gap_back - run.end_gap_ahead, findings};
    const std::vector<Length> panels = asks_for_fewest(s) ? chosen[i]
                                       : s.rule           ? by_rule(r)
                                                          : as_written(r);
    check_lengths(r, panels);
    d.spans.push_back(run);
    add_joint(d, i == 0 ? s.from + back / 2 : s.from, joints.end_gap, true, skews[i]);
    lay_span(project, run, panels, d);
    d.spans.back().count = static_cast<int>(d.pieces.size()) - run.first;
  }
  const Length last = along(joints.end_gap, skews.back());
  add_joint(d, spans.back().to - last / 2, joints.end_gap, true, skews.back());
  d.joints.back().ahead = -1;
  if (d.pieces.empty()) return d;
  check_row_joints(project, bridge, d, findings);
  list_contents(project, bridge, d);
  return d;
}

}  // namespace deckquire
