#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "deck/posts.h"

namespace deckquire {
namespace {

constexpr Length shortest_panel = mm(300);  // shorter ones are taken for a slip of the pen

/// One span while it is being divided.
struct Run {
  const Project& project;
  const SpanData& span;
  Length gap;    // between two panels
  Length clear;  // of the span, its end gaps taken off
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

/// The part of the end gap inside the span: all of it at the ends of the deck, else half.
Length end_share(const Project& project, bool end_of_deck, bool back_of_span) {
  const Length gap = project.deck.joints.end_gap;
  if (end_of_deck) return gap;
  const Length half = Length::from_nanometres(gap.in_nanometres() / 2);
  return back_of_span ? half : gap - half;  // an odd nanometre goes to the span behind
}

void add_joint(Division& d, Length station, Length gap, bool end) {
  Joint j;
  j.name = fmt::format("J{}", d.joints.size() + 1);
  j.station = station;
  j.gap = gap;
  j.end = end;
  j.back = static_cast<int>(d.pieces.size()) - 1;
  d.joints.push_back(j);
}

void lay_span(const Project& project, const SpanRun& run, const std::vector<Length>& panels,
              Division& d) {
  const Length gap = project.deck.joints.gap;
  const int span = static_cast<int>(d.spans.size()) - 1;
  Length at = run.from + run.end_gap_back;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    if (i > 0) add_joint(d, at - gap / 2, gap, false);
    d.pieces.push_back({at, at + panels[i], span});
    at += panels[i] + gap;
  }
}

}  // namespace

Division divide(const Project& project, Findings& findings) {
  Division d;
  const auto& spans = project.deck.spans;
  if (!spans_in_order(project, findings)) return d;
  const Length end_gap = project.deck.joints.end_gap;
  for (std::size_t i = 0; i < spans.size(); ++i) {
    const SpanData& s = spans[i];
    SpanRun run{s.name, s.from, s.to, static_cast<int>(d.pieces.size()), 0, {}, {}};
    run.end_gap_back = end_share(project, i == 0, true);
    run.end_gap_ahead = end_share(project, i + 1 == spans.size(), false);
    const Run r{project, s, project.deck.joints.gap,
                s.to - s.from - run.end_gap_back - run.end_gap_ahead, findings};
    const std::vector<Length> panels = s.rule ? by_rule(r) : as_written(r);
    check_lengths(r, panels);
    run.count = static_cast<int>(panels.size());
    d.spans.push_back(run);
    add_joint(d, i == 0 ? s.from + end_gap / 2 : s.from, end_gap, true);
    lay_span(project, run, panels, d);
  }
  constexpr std::size_t most_panels = 1000;  // the checks of neighbours grow with the square
  if (d.pieces.size() > most_panels) {
    findings.error(spans.front().place, "too-many-panels",
                   fmt::format("the deck has {} panels", d.pieces.size()),
                   fmt::format("at most {} are drawn in one project; part the bridge into several",
                               most_panels));
    return {};
  }
  if (!spans.empty()) add_joint(d, spans.back().to - end_gap / 2, end_gap, true);
  for (Joint& j : d.joints)
    j.ahead = j.back + 1 < static_cast<int>(d.pieces.size()) ? j.back + 1 : -1;
  d.posts = place_posts(project, d);
  return d;
}

}  // namespace deckquire
