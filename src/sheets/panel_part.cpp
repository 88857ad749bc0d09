// A long mark with features all along, parted over two sheets at a match line.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::Group;
using paper::LetterUse;
using paper::PaperBox;
using paper::PenUse;

/// x of the match line at that scale of the plans.
std::optional<double> parting(const PanelJob& job, int ratio) {
  const PanelShape& s = job.shape();
  const Box<PanelFrame> box = bounds(s.outline);
  const double cut = typical_cut(s), centre = job.mark.masses.x, mm_shown = ratio;
  // The section's marks with their bars, the centre of gravity with its letters.
  const std::vector<Stretch> kept{{cut - 6 * mm_shown, cut + 9 * mm_shown},
                                  {centre - 3 * mm_shown, centre + 9 * mm_shown}};
  constexpr double air = 3;  // paper mm
  const bool metric = job.units() == UnitSystem::metric;
  const double inch = mm(25.4).in_mm();
  const std::vector<double> steps = metric
                                        ? std::vector<double>{500, 100, 50, 10}
                                        : std::vector<double>{24 * inch, 12 * inch, 6 * inch, inch};
  const std::vector<Stretch> clear = clear_stretches(s, job.deck, kept);
  for (double share : {0.05, 0.15}) {  // of the length, to both sides of its middle
    const double x = box.centre().x, off = share * box.width();
    if (const auto at =
            choose_parting(clear, datum_corner(s).x, {x - off, x + off, air * ratio, steps}))
      return at;
  }
  return std::nullopt;
}

std::uint32_t views_of(const PanelLayout& layout) {
  std::uint32_t out = 0;
  for (int i = 0; i < panel_view_count; ++i)
    if (layout.views[i].drawn) out |= 1u << i;
  return out;
}

PanelLayout ahead_layout(const Board& board, const PanelJob& job, const Spaces& spaces) {
  PaperBox space = spaces.drawing;
  space.low.y += bar_strip;
  return lay_out_part(board, job, space, {0, 0});
}

}  // namespace

std::optional<double> choose_parting(const std::vector<Stretch>& clear, double datum,
                                     const PartRules& rules) {
  const double middle = (rules.low + rules.high) / 2;
  for (double step : rules.steps) {
    std::optional<double> best;
    for (auto [from, to] : clear) {
      const double low = std::max(from + rules.air, rules.low);
      const double high = std::min(to - rules.air, rules.high);
      // The whole steps on both sides of the place in the stretch that is nearest to the middle.
      const double near = std::clamp(middle, std::min(low, high), std::max(low, high));
      for (double round : {std::floor((near - datum) / step), std::ceil((near - datum) / step)}) {
        const double x = datum + round * step;
        if (x < low || x > high) continue;
        if (!best || std::abs(x - middle) < std::abs(*best - middle)) best = x;
      }
    }
    if (best) return best;
  }
  return std::nullopt;
}

bool on_other_sheet(const PanelJob& job, PanelView v) {
  return job.own.part && ((job.own.part->views >> static_cast<int>(v)) & 1u) != 0;
}

const std::string& sheet_of(const PanelJob& job, PanelView v) {
  const bool cut = v != PanelView::top && v != PanelView::soffit && v != PanelView::side;
  return cut && on_other_sheet(job, v) ? job.own.part->other : job.own.number;
}

std::optional<std::pair<PanelPart, PanelPart>> part_panel(const SetInput& input,
                                                          const SetPlan& plan, int mark) {
  constexpr int large_enough = 10, legible = 25;  // no part is over 1:10, no whole one 1:25
  const PanelShape& shape = input.deck.marks[static_cast<std::size_t>(mark)].shape;
  if (!is_long(shape) || !shape.square()) return std::nullopt;
  const TrialSheet whole(input, plan, {mark});
  const PanelLayout uncut = arrange_panel(whole.board, whole.jobs.front(), whole.spaces).layout;
  const int ratio = uncut[PanelView::top].ratio;
  if (!uncut.breaks.empty() || ratio <= legible) return std::nullopt;
  for (int r : input.style.scales) {
    if (r < large_enough || 2 * r > ratio) continue;
    const auto at = parting(whole.jobs.front(), r);
    if (!at) continue;
    PanelPart part{*at, false, r, "P00-2", 0};
    const TrialSheet back(input, plan, {mark}, part);
    const PanelLayout first = arrange_panel(back.board, back.jobs.front(), back.spaces).layout;
    if (!first.fits) continue;
    PanelPart rest = part;
    rest.ahead = true;
    rest.views = views_of(first);
    const TrialSheet ahead(input, plan, {mark}, rest);
    const PanelLayout second = ahead_layout(ahead.board, ahead.jobs.front(), ahead.spaces);
    constexpr std::size_t on_both = 3;  // the views along the mark
    if (!second.fits || drawn_views(first) + drawn_views(second) - on_both < drawn_views(uncut))
      continue;
    part.views = views_of(second);
    return std::pair{part, rest};
  }
  return std::nullopt;
}

paper::Shortening other_part(const Board& board, const PanelJob& job, int ratio) {
  const Box<PanelFrame> box = bounds(job.shape().outline);
  const double at = job.own.part->at;
  const double from = job.own.part->ahead ? box.low.x : at,
               to = job.own.part->ahead ? at : box.high.x;
  const double room = (board.text_height(LetterUse::heading) + 4.5) * ratio;
  // What is left out is whole in print, so that the figures of a chain across it still sum up.
  const double unit = print_unit(job.units()).in_mm();
  return {from, to, to - from - std::floor((to - from - room) / unit) * unit};
}

std::string part_words(const PanelJob& job) {
  if (!job.own.part) return "";
  return job.own.part->ahead ? "PART 2 OF 2" : "PART 1 OF 2";
}

std::string match_words(const PanelJob& job) {
  return fmt::format("MATCH LINE x {}, SEE {}", job.print(job.along(job.own.part->at)),
                     job.own.part->other);
}

void draw_match(Board& board, const PanelJob& job, const paper::Shortening& other,
                const PaperBox& gap, bool words) {
  constexpr double pen = 0.6;  // paper mm
  const bool ahead = job.ahead_part();
  const double x = ahead ? gap.high.x : gap.low.x;
  const Group match(board, "", "match-line", "", job.own.part->other);
  {
    const Group group(board, "", "break", job.print(other.left_out()) + " left out");
    paper::Path away;
    away.box({{ahead ? gap.low.x - pen : x, gap.low.y - pen},
              {ahead ? x : gap.high.x + pen, gap.high.y + pen}});
    board.fill(paper::Ink::white, away);
    board.line(PenUse::match, {x, gap.low.y - match_over}, {x, gap.high.y + match_over});
  }
  if (!words) return;
  board.masked_text(LetterUse::heading, {gap.centre().x + (ahead ? -0.6 : 0.6), gap.centre().y},
                    match_words(job), Align::centre, paper::Stand::middle, false);
}

void draw_ahead_part(Board& board, const PanelJob& job, const Spaces& spaces) {
  const std::string& first = job.own.part->other;
  double y = purpose(board, spaces.text, panel_purpose(job));
  {
    const Group link(board, "", "link", "First sheet of this mark", first);
    y = board.paragraph(LetterUse::heading, {spaces.text.low.x, y}, spaces.text.width(),
                        "BACK PART, FURTHER VIEWS AND NOTES: SHEET " + first);
  }
  board.paragraph(
      LetterUse::note, {spaces.text.low.x, y - board.style().gap}, spaces.text.width(),
      fmt::format("This sheet shows the panel ahead of the match line, x {} from the back end. "
                  "Figures go on from the datum corner 0,0 on sheet {}; what that sheet dimensions "
                  "is not dimensioned again here, or stands in brackets.",
                  job.print(job.along(job.own.part->at)), first));
  const PanelLayout layout = ahead_layout(board, job, spaces);
  draw_views(board, job, layout);
  draw_bars(board, job.units(), spaces.drawing, {layout});
}

}  // namespace deckquire::sheets
