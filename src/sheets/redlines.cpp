#include "sheets/redlines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "deck/objects.h"
#include "paper/leaders.h"
#include "sheets/free_paper.h"
#include "sheets/redline_sites.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;

constexpr double pad = 1.6;  // between the pennant and its words

const char* word_of(RedlineStatus s) {
  return s == RedlineStatus::open ? "open" : s == RedlineStatus::answered ? "answered" : "closed";
}

bool is_drawn(const SetInput& input, const Redline& r) {
  return r.status == RedlineStatus::open ||
         (r.status == RedlineStatus::answered && input.style.keep_answered);
}

std::vector<std::string> words_of(const Redline& r) {
  std::vector<std::string> out{r.text};
  out.push_back(fmt::format("{}, {}", r.by, r.date));
  if (r.status != RedlineStatus::open)
    out.push_back(fmt::format("Revision {}: {}", r.revision, r.answer));
  return out;
}

/// A note measured: a pennant with its number, and words under it where there is room for them.
struct Note {
  std::string head;
  std::vector<std::string> lines;
  double width = 0, height = 0, head_width = 0, head_height = 0;
};

Note measured(const Board& board, const Redline& r, int number, double width,
              const std::string& on = "") {
  Note n;
  n.head = fmt::format("REDLINE {}{}{}", number, on,
                       r.status == RedlineStatus::open ? "" : std::string(", ") + word_of(r.status));
  n.head_height = board.text_height(LetterUse::heading) + 2 * pad;
  n.head_width = board.text_width(LetterUse::heading, n.head) + n.head_height / 2 + 2 * pad;
  double widest = n.head_width - 2 * pad;
  if (width > 0)
    for (const std::string& words : words_of(r))
      for (const std::string& line : board.broken(LetterUse::note, width, words)) {
        n.lines.push_back(line);
        widest = std::max(widest, board.text_width(LetterUse::note, line));
      }
  n.width = widest + 2 * pad;
  n.height = n.head_height;
  if (!n.lines.empty())
    n.height += static_cast<double>(n.lines.size()) * board.pitch(LetterUse::note) + pad;
  return n;
}

/// The head is a pennant, pointed at its right; the words stand under it in an open frame.
void draw_note(Board& board, const Note& n, const PaperBox& box) {
  const double top = box.high.y, low = top - n.head_height, point = n.head_height / 2;
  const double right = box.low.x + n.head_width;
  paper::Path pennant;
  pennant.polygon({{box.low.x, low},
                   {right - point, low},
                   {right, (low + top) / 2},
                   {right - point, top},
                   {box.low.x, top}});
  board.stroke(PenUse::revision, pennant);
  board.text(LetterUse::heading, {box.low.x + pad, (low + top) / 2}, n.head, paper::Align::left,
             paper::Stand::middle, true, paper::Ink::red);
  double y = low - pad;
  for (const std::string& line : n.lines) {
    board.text(LetterUse::note, {box.low.x + pad, y}, line, paper::Align::left, paper::Stand::top,
               true, paper::Ink::red);
    y -= board.pitch(LetterUse::note);
  }
  if (!n.lines.empty()) board.line(PenUse::revision, {box.low.x, low}, box.low);
}

/// Where its leader leaves a note: nearest to the site, and not through the note itself.
PaperPoint leader_start(const Note& n, const PaperBox& box, PaperPoint site) {
  const double middle = box.high.y - n.head_height / 2;
  const double right = n.lines.empty() ? box.high.x : box.low.x + n.head_width;
  const PaperPoint all[] = {{box.low.x, middle},
                            {right, middle},
                            {box.low.x, box.high.y},
                            {box.low.x, box.low.y}};
  const PaperBox inside = box.grown(-0.3);
  const auto cost = [&](PaperPoint a) {
    const bool through =
        paper::segments_cross(a, site, inside.low, inside.high) ||
        paper::segments_cross(a, site, {inside.low.x, inside.high.y}, {inside.high.x, inside.low.y});
    return std::hypot(a.x - site.x, a.y - site.y) + (through ? 1e6 : 0);
  };
  return *std::min_element(std::begin(all), std::end(all),
                           [&](PaperPoint a, PaperPoint b) { return cost(a) < cost(b); });
}

struct Standing {
  PaperBox box;
  PaperPoint from, site;
  bool leader = false;
};

/// Free paper anywhere: for a note without a leader.
std::optional<Standing> place_apart(const FreePaper& paper, const Note& n) {
  const auto box = paper.nearest({n.width + 2, n.height + 2}, paper.frame().centre(),
                                 [](const PaperBox&) { return true; });
  return box ? std::optional(Standing{box->grown(-1), {}, {}, false}) : std::nullopt;
}

/// The free place nearest to one of the sites whose leader is clear.
std::optional<Standing> place(const FreePaper& paper, const Note& n,
                              const std::vector<PaperPoint>& sites) {
  std::optional<Standing> best;
  double least = 1e9;
  for (PaperPoint site : sites) {
    Standing trial;
    const auto box =
        paper.nearest({n.width + 2, n.height + 2}, site, [&](const PaperBox& around) {
          trial = {around.grown(-1), {}, site, true};
          trial.from = leader_start(n, trial.box, site);
          const double length = std::hypot(site.x - trial.from.x, site.y - trial.from.y);
          return length > 4 && length < least && paper.clear_line(trial.from, site);
        });
    if (!box) continue;
    least = std::hypot(site.x - trial.from.x, site.y - trial.from.y);
    best = trial;
  }
  return best;
}

/// With its words where there is room for them, else without; with a leader, else by its name.
std::optional<std::pair<Note, Standing>> settle(const Board& board, const FreePaper& paper,
                                                const Redline& r, int number,
                                                const std::vector<PaperPoint>& sites) {
  const double letter = board.text_height(LetterUse::note);
  const double widths[] = {22 * letter, 14 * letter, 32 * letter, 0.0};  // 0: no words
  for (double width : widths) {
    const Note n = measured(board, r, number, width);
    if (const auto standing = place(paper, n, sites)) return std::pair{n, *standing};
  }
  for (double width : widths) {
    const Note n = measured(board, r, number, width, ": " + r.on);
    if (const auto standing = place_apart(paper, n)) return std::pair{n, *standing};
  }
  return std::nullopt;
}

void draw(Board& board, const Redline& r, int number, const Note& n, const Standing& s) {
  const paper::Group group(board, fmt::format("redline-{}", number), "redline",
                           fmt::format("Redline {} on {}: {}", number, r.on, r.text));
  draw_note(board, n, s.box);
  if (s.leader) paper::arrow(board, PenUse::revision, s.from, s.site, 3);
}

}  // namespace

bool carries_redline(const SetInput& input, const SetPlan& plan, std::size_t sheet,
                     const Redline& redline) {
  if (!is_drawn(input, redline)) return false;
  const SheetPlan& own = plan.sheets[sheet];
  if (!redline.sheet.empty()) return redline.sheet == own.number;
  const auto object = find_object(input.bridge, input.deck, redline.on);
  return object && (own.series == 'E' || own.series == 'P') &&
         shows_object(input, plan, own, *object);
}

std::vector<int> draw_redlines(paper::Sheet& sheet, const SetInput& input, const SetPlan& plan,
                               std::size_t index) {
  std::vector<int> homeless;
  for (std::size_t i = 0; i < input.project.redlines.size(); ++i) {
    const Redline& r = input.project.redlines[i];
    if (!carries_redline(input, plan, index, r)) continue;
    const int number = static_cast<int>(i) + 1;
    const auto object = find_object(input.bridge, input.deck, r.on);
    const std::vector<PaperPoint> sites =
        object ? redline_sites(sheet, input, plan.sheets[index], *object)
               : std::vector<PaperPoint>();
    const FreePaper paper(sheet, input.style.frame());
    Board board(sheet, input.style, input.lettering);
    if (const auto note = settle(board, paper, r, number, sites))
      draw(board, r, number, note->first, note->second);
    else
      homeless.push_back(number);
  }
  return homeless;
}

void check_redline_sheets(const SetInput& input, const SetPlan& plan, Findings& findings) {
  std::vector<std::string> numbers;
  for (const SheetPlan& s : plan.sheets) numbers.push_back(s.number);
  for (const Redline& r : input.project.redlines) {
    if (r.status != RedlineStatus::open || r.sheet.empty()) continue;
    if (std::find(numbers.begin(), numbers.end(), r.sheet) != numbers.end()) continue;
    const std::string near = nearest_word(r.sheet, numbers);
    findings.error(r.place, "unknown-sheet",
                   fmt::format("the redline is on sheet \"{}\", and the set has no such sheet",
                               r.sheet),
                   near.empty() ? "the set has " + join(numbers, ", ")
                                : fmt::format("did you mean \"{}\"?", near));
  }
}

paper::TableData redline_rows(const SetInput& input, const SetPlan& plan) {
  using paper::Align;
  paper::TableData t{"REDLINES",
                     {{"No.", "", Align::right, 0},
                      {"On", "", Align::left, 0},
                      {"Sheet", "", Align::left, 0},
                      {"By", "", Align::left, 0},
                      {"Date", "", Align::left, 0},
                      {"Remark", "", Align::left, 0},
                      {"Status", "", Align::left, 0},
                      {"Answer", "", Align::left, 0},
                      {"Rev", "", Align::left, 0}},
                     {},
                     {},
                     {}};
  for (std::size_t i = 0; i < input.project.redlines.size(); ++i) {
    const Redline& r = input.project.redlines[i];
    std::vector<std::string> sheets;
    for (std::size_t k = 0; k < plan.sheets.size(); ++k)
      if (carries_redline(input, plan, k, r)) sheets.push_back(plan.sheets[k].number);
    if (sheets.empty() && !r.sheet.empty()) sheets.push_back(r.sheet);
    t.rows.push_back({std::to_string(i + 1), r.on, join(sheets, ", "), r.by, r.date, r.text,
                      word_of(r.status), r.answer, r.revision});
  }
  return t;
}

}  // namespace deckquire::sheets
