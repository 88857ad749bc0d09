// Erection sheets: plan strips with profile and dimensions, the typical section, what the erector
// needs to know.
#include <algorithm>

#include <fmt/format.h>

#include "sheets/erection_parts.h"
#include "sheets/setting_plan.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;

/// Of the level grid: more would not make it plainer.
double tallest_profile(const SetInput& input) {
  return std::clamp(input.style.height * 0.075, 20.0, 42.0);
}

StripFrame frame_of(const SetInput& input, const SetPlan& plan, const Strip& strip, double room) {
  const StripFrame least = strip_frame(input, plan.erection_ratio, 0, &strip);
  const double spare = room - least.height;
  const double grid = least.profile_bottom - least.profile_top;
  return strip_frame(input, plan.erection_ratio,
                     std::clamp(grid + spare * 0.7, grid, tallest_profile(input)), &strip);
}

std::string strip_title(const SetInput& input, const Strip& strip, std::size_t number) {
  const std::string positions = positions_in_order(input.deck, strip.first, strip.count);
  return fmt::format(
      "STRIP {}, POSITIONS {}{}", number + 1,
      strip.count > 1 ? positions : positions + " TO " + positions,
      input.bridge.alignment.straight() ? "" : ", PLAN, UNROLLED ALONG THE ALIGNMENT");
}

/// Span lengths in full beside the strip's title: a span may run over a match line.
std::string span_words(const SetInput& input, const Strip& strip) {
  std::string out;
  const auto name = [&](Length station) {
    for (const Support& support : input.bridge.supports)
      if (support.station == station) return support.name;
    return print_station(station, input.project.units);
  };
  for (const SpanRun& span : input.deck.spans) {
    if (span.first + span.count <= strip.first || span.first >= strip.first + strip.count) continue;
    if (!out.empty()) out += "; ";
    out += fmt::format("span {}: {} to {} = {}", span.name, name(span.from), name(span.to),
                       print_length(span.to - span.from, input.project.units));
  }
  return out;
}

const char* const ahead_words = "ahead, stations increase";

/// Right end of the title of a strip (the letter at the north arrow reaches up to 6 mm beyond) that
/// begins at `left`, with the directions after it and the spans under it.
double title_end(const SetInput& input, const SetPlan& plan, std::size_t number, double left) {
  const auto width = [&](LetterUse use, const std::string& text) {
    return input.lettering.width(text, input.style.letters_of(use));
  };
  const Strip& strip = plan.strips[number];
  const double title = width(LetterUse::view_title, strip_title(input, strip, number)) +
                       width(LetterUse::heading, input.style.scale_name(plan.erection_ratio)) + 15;
  const double directions = width(LetterUse::dimension, ahead_words) + (strip.row == 0 ? 40 : 22);
  return left + std::max(title + directions, width(LetterUse::dimension, span_words(input, strip)));
}

/// Which way stations grow; with the north arrow on the first strip of the sheet.
void draw_directions(const StripDrawing& s) {
  const double y = s.y(s.frame.title) + 1;
  const double right =
      std::max(s.to(), title_end(s.input, s.plan, s.number, s.from() - s.frame.left));
  double x = right;
  const Alignment& line = s.input.bridge.alignment;
  if (s.strip().row == 0 && line.straight(s.strip().from, s.strip().to)) {  // else it turns
    paper::north_arrow(
        s.board, {right - 7, y - 3}, 4.5,
        line.straight() ? line.bearing().in_si() : pi / 2 - line.heading(s.strip().from.in_mm()));
    x -= 18;
  }
  paper::arrow(s.board, PenUse::dimension, {x - 18, y}, {x, y}, 3);
  s.board.text(LetterUse::dimension, {x - 20, y}, ahead_words, Align::right, paper::Stand::middle);
}

void draw_title(const StripDrawing& s) {
  const double left = s.from() - s.frame.left;
  paper::view_title(s.board, {left, s.y(s.frame.title)}, strip_title(s.input, s.strip(), s.number),
                    s.plan.erection_ratio);
  s.board.text(LetterUse::dimension,
               {left, s.y(s.frame.title) - 0.4 * s.letters(LetterUse::view_title) - 1.2},
               span_words(s.input, s.strip()), Align::left, paper::Stand::top);
}

double widest_left(const SetInput& input, const Strip& strip) {
  const DeckEdges& edges = input.bridge.edges;
  Length widest = std::max(edges.left(strip.from), edges.left(strip.to, false));
  for (Length at : edges.breaks())
    if (at > strip.from && at < strip.to)
      widest = std::max({widest, edges.left(at, false), edges.left(at, true)});
  return widest.in_mm();
}

void draw_strip(paper::Board& board, const SetInput& input, const SetPlan& plan, std::size_t number,
                const PaperBox& room, std::vector<Detail>& referred) {
  const Strip& strip = plan.strips[number];
  LabelField labels;
  StripDrawing s{board, input,       plan,   number,  frame_of(input, plan, strip, room.height()),
                 {},    room.high.y, labels, referred};
  s.view.ratio = plan.erection_ratio;
  s.view.base = {strip.from.in_mm(), widest_left(input, strip)};
  s.view.origin = {room.low.x + s.frame.left, s.y(s.frame.deck_top)};
  const paper::Group group(board, fmt::format("strip-{}", number + 1), "view",
                           strip_title(input, strip, number));
  draw_profile(s);
  draw_steelwork(s);
  draw_joint_labels(s);
  draw_chains(s);
  name_supports(s);
  draw_edge_rows(s);
  draw_offsets(s);
  draw_elements(s);
  draw_panels(s);
  draw_match_lines(s);
  draw_title(s);
  draw_directions(s);
}

/// What the strips of a sheet leave free: right of short strips, beside the lowest down to the
/// bottom of the sheet, then under the lowest.
std::vector<PaperBox> free_boxes(const SetInput& input, const SetPlan& plan, int sheet,
                                 const PaperBox& drawing) {
  std::vector<PaperBox> out;
  PaperBox under = drawing;
  int rows = 0;
  for (const Strip& strip : plan.strips)
    if (strip.sheet == sheet) rows = std::max(rows, strip.row + 1);
  for (std::size_t i = 0; i < plan.strips.size(); ++i) {
    const Strip& strip = plan.strips[i];
    if (strip.sheet != sheet) continue;
    const double high = drawing.high.y - strip.row * plan.strip_height;
    const StripFrame frame = frame_of(input, plan, strip, plan.strip_height);
    const double length = (strip.to - strip.from).in_mm() / plan.erection_ratio;
    const double right = drawing.low.x + frame.left + length + frame.right + beside_strip;
    const bool lowest = strip.row + 1 == rows;
    // Under the title stand the span and the needle of the north arrow.
    if (lowest)
      under.high.y = high - frame.height - 1.5 * input.style.letters_of(LetterUse::dimension) - 6;
    // A short strip's title and directions run on to its right.
    if (drawing.high.x - right <= 60) continue;
    const bool beside = lowest && right > title_end(input, plan, i, drawing.low.x) + 6;
    out.push_back({{right, beside ? drawing.low.y : high - frame.overall}, {drawing.high.x, high}});
    if (beside) under.high.x = right - input.style.gap;
  }
  if (under.height() > 22) out.push_back(under);
  return out;
}

/// A wide box as columns about as wide as the text column.
std::vector<PaperBox> as_columns(const std::vector<PaperBox>& boxes, double width, double gap) {
  std::vector<PaperBox> out;
  for (const PaperBox& b : boxes) {
    const int n = std::max(1, static_cast<int>(b.width() / (width * 0.8 + gap)));
    const double w = (b.width() - (n - 1) * gap) / n;
    for (int i = 0; i < n; ++i) {
      const double x = b.low.x + i * (w + gap);
      out.push_back({{x, b.low.y}, {x + w, b.high.y}});
    }
  }
  return out;
}

/// The typical section in the largest free box of the last sheet; what it leaves below and beside
/// it stays free.
void place_section(paper::Board& board, const SetInput& input, const SetPlan& plan,
                   std::vector<PaperBox>& free) {
  const PaperPoint need = section_room(input, section_ratio(input, 0));
  const auto best = std::find_if(free.begin(), free.end(), [&](const PaperBox& b) {
    return b.width() >= need.x && b.height() >= need.y;
  });
  if (best == free.end()) return;
  const PaperBox whole = *best;
  const PaperBox typical = draw_typical_section(board, input, plan, whole);
  best->high.y = typical.low.y - 8;
  double right = typical.high.x + input.style.gap;
  if (plan.widest_section) {
    const PaperBox widest = draw_widest_section(board, input, plan, *best);
    best->high.y = widest.low.y - 4;
    right = std::max(right, widest.high.x + input.style.gap);
  }
  best->high.x = right - input.style.gap;
  if (whole.high.x - right > 60) free.push_back({{right, whole.low.y}, whole.high});
}

}  // namespace

std::vector<ErectionWords> draw_erection_sides(paper::Board& board, const SetInput& input,
                                               const SetPlan& plan, std::size_t index,
                                               double reserve) {
  const SheetPlan& own = plan.sheets[index];
  Spaces spaces = furnish(board, input, plan, index, "as shown");
  spaces.text.low.y += reserve;
  const bool last = own.subject + 1 == plan.strip_sheets();
  std::vector<PaperBox> free =
      free_boxes(input, plan, own.subject, spaces.drawing.grown(-input.style.gap));
  if (last) place_section(board, input, plan, free);
  return draw_erection_column(board, input, plan, own.subject, spaces.text,
                              as_columns(free, spaces.text.width(), input.style.gap), last);
}

paper::Sheet draw_erection(const SetInput& input, const SetPlan& plan, std::size_t index) {
  const SheetPlan& own = plan.sheets[index];
  if (own.subject >= plan.strip_sheets() && own.subject < plan.first_of_moved())
    return draw_setting(input, plan, index);
  paper::Sheet sheet = blank_sheet(input, own);
  paper::Board board(sheet, input.style, input.lettering);
  if (own.subject >= plan.first_of_moved()) {
    draw_moved_words(board, input, plan, index);
    return sheet;
  }
  const PaperBox drawing = input.style.drawing_space().grown(-input.style.gap);
  std::vector<Detail> referred;
  for (std::size_t i = 0; i < plan.strips.size(); ++i) {
    const Strip& strip = plan.strips[i];
    if (strip.sheet != own.subject) continue;
    const double high = drawing.high.y - strip.row * plan.strip_height;
    draw_strip(board, input, plan, i,
               {{drawing.low.x, high - plan.strip_height}, {drawing.high.x, high}}, referred);
  }
  draw_erection_sides(board, input, plan, index);
  return sheet;
}

}  // namespace deckquire::sheets
