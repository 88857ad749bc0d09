#include "sheets/cover.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "sheets/furniture.h"

namespace deckquire::sheets {
namespace {

using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;

std::vector<std::string> finding_lines(const SetInput& input) {
  std::vector<std::string> out;
  for (const Finding& f : input.findings)
    out.push_back(fmt::format("{}: {}; {}.", f.severity == Severity::note ? "Note" : "Warning",
                              f.what, f.remedy));
  if (out.empty()) out.push_back("None.");
  return out;
}

std::vector<std::string> redline_lines(const Project& project) {
  std::vector<std::string> out;
  for (const Redline& r : project.redlines)
    if (r.status == RedlineStatus::open)
      out.push_back(fmt::format("On {}, {}, {}: {}", r.on, r.by, r.date, r.text));
  return out;
}

// ---- the title and the places

double draw_title(Board& board, const PaperBox& space, const Project& p) {
  double y =
      board.paragraph(LetterUse::cover_title, {space.low.x, space.high.y}, space.width(), p.title);
  std::vector<std::string> parts{p.bridge.name};
  if (!p.bridge.structure.empty()) parts.push_back("structure " + p.bridge.structure);
  if (!p.bridge.location.empty()) parts.push_back(p.bridge.location);
  parts.push_back("job " + p.number);
  y = board.paragraph(LetterUse::heading, {space.low.x, y}, space.width(), join(parts, "  ·  "));
  y = board.paragraph(LetterUse::heading, {space.low.x, y}, space.width(),
                      "Shop and erection drawings of the prefabricated deck");
  board.line(PenUse::table_heavy, {space.low.x, y}, {space.high.x, y});
  return y - board.style().gap;
}

PaperBox cover_space(const paper::Style& style) {
  const PaperBox f = style.drawing_space();
  return {{f.low.x + 1.6 * style.gap, f.low.y + 1.6 * style.gap},
          {f.high.x - 1.6 * style.gap, f.high.y - 1.6 * style.gap}};
}

// Rows a little lower than elsewhere: most covers then stay on one sheet.
paper::Style cover_style(const paper::Style& style) {
  paper::Style s = reading_style(style);
  s.compact_row_height =
      std::max(0.9 * s.compact_row_height, s.letters_of(LetterUse::table) + 0.9);
  return s;
}

// Columns of one G sheet: what is free of the text column, then those of the drawing space.
std::vector<PaperBox> columns_of(const PaperBox& space, const PaperBox& text,
                                 const paper::Style& style) {
  std::vector<PaperBox> out{text};
  const double gap = 2 * style.gap;
  const double least = 50 * style.letters_of(LetterUse::note);
  const int count = std::max(1, static_cast<int>((space.width() + gap) / (least + gap)));
  const double width = (space.width() - (count - 1) * gap) / count;
  for (int i = 0; i < count; ++i) {
    const double x = space.low.x + i * (width + gap);
    out.push_back({{x, space.low.y}, {x + width, space.high.y}});
  }
  return out;
}

// Lays blocks down the columns, sheet after sheet.
class Flow {
 public:
  Flow(const SetInput& input, const SetPlan& plan, const Blocks& blocks)
      : input_(input),
        blocks_(blocks),
        style_(cover_style(input.style)),
        board_(scratch_, style_, input.lettering) {
    scratch_ = blank_sheet(input, {});
    Board plain(scratch_, input.style, input.lettering);
    text_ = furnish(plain, input, plan, 0, "").text;
    const PaperBox space = cover_space(input.style);
    title_end_ = draw_title(board_, space, input.project);
    least_ = least_overview(board_, {space.low, {space.high.x, title_end_}}, input, plan);
    measure();
  }

  CoverLayout run() {
    for (double more = 0.3; more > 0; more -= 0.02) {
      CoverLayout layout = flow((1 + more) * least_, 1);
      if (layout.sheets == 1) return layout;
    }
    return even(least_);
  }

 private:
  void measure() {
    const PaperBox space = cover_space(input_.style);
    const auto columns = columns_of(space, text_, style_);
    for (const Block& b : blocks_) {
      text_heights_.push_back(space.high.y - b.draw(board_, columns.front(), space.high.y));
      heights_.push_back(space.high.y - b.draw(board_, columns.back(), space.high.y));
    }
  }

  // What is left of one column.
  struct Free {
    std::size_t sheet = 0;
    bool text = false;
    PaperBox column;
    double y = 0;
  };

  // `fill`: how much of the columns of every sheet after the first is used.
  CoverLayout flow(double overview, double fill) const {
    CoverLayout out;
    out.overview = overview;
    std::vector<Free> free;
    std::size_t before = 0;  // column of the group before
    for (std::size_t block = 0; block < blocks_.size();) {
      const std::size_t end = group_end(block);
      const std::size_t least = blocks_[block].follows ? before : 0;
      std::size_t c = least;
      while (c < free.size() && !holds(free[c], block, end)) ++c;
      if (c == free.size()) {
        c = least;
        while (c < free.size() && !holds(free[c], block, start_end(block))) ++c;
      }
      before = place_group(out, free, c, block, end, fill);
      block = end;
    }
    return out;
  }

  std::size_t group_end(std::size_t block) const {
    std::size_t end = block + 1;
    while (end < blocks_.size() && !blocks_[end].starts) ++end;
    return end;
  }

  // A heading and the block under it are not parted.
  std::size_t start_end(std::size_t block) const {
    return blocks_[block].heads && block + 1 < blocks_.size() ? block + 2 : block + 1;
  }

  double height(const Free& f, std::size_t block) const {
    return f.text ? text_heights_[block] : heights_[block];
  }

  bool holds(const Free& f, std::size_t first, std::size_t end) const {
    double need = 0;
    for (std::size_t i = first; i < end; ++i) need += height(f, i);
    return f.y - need >= f.column.low.y - input_.style.gap;
  }

  void open_sheet(CoverLayout& out, std::vector<Free>& free, double fill) const {
    const std::size_t sheet = free.empty() ? 0 : free.back().sheet + 1;
    PaperBox space = cover_space(input_.style);
    if (sheet == 0) space.high.y = title_end_ - out.overview;
    if (sheet > 0) space.low.y = space.high.y - fill * space.height();
    bool text = true;
    for (const PaperBox& c : columns_of(space, text_, style_)) {
      free.push_back({sheet, text, c, c.high.y});
      text = false;
    }
    out.sheets = sheet + 1;
  }

  // Puts blocks [first, end) from column c on, going on in the next where they do not fit; returns
  // the last column used.
  std::size_t place_group(CoverLayout& out, std::vector<Free>& free, std::size_t c,
                          std::size_t first, std::size_t end, double fill) const {
    for (std::size_t i = first; i < end; ++i) {
      const std::size_t together = start_end(i);
      while (c >= free.size() || !holds(free[c], i, together)) {
        if (c < free.size()) ++c;
        if (c >= free.size()) open_sheet(out, free, fill);
        if (free[c].y == free[c].column.high.y && !free[c].text && free[c].sheet > 0) break;
      }
      out.places.push_back({free[c].sheet, i, free[c].column, free[c].y});
      free[c].y -= height(free[c], i);
    }
    return c;
  }

  // The same number of sheets with the columns of the later ones about equally long.
  CoverLayout even(double overview) const {
    CoverLayout best = flow(overview, 1);
    for (double fill = 0.95; fill > 0.2; fill -= 0.05) {
      CoverLayout next = flow(overview, fill);
      if (next.sheets > best.sheets) break;
      best = std::move(next);
    }
    return best;
  }

  const SetInput& input_;
  const Blocks& blocks_;
  paper::Style style_;
  paper::Sheet scratch_;  // measured on, never shown
  Board board_;
  PaperBox text_;
  double title_end_ = 0, least_ = 0;
  std::vector<double> heights_, text_heights_;
};

}  // namespace

Blocks cover_blocks(const SetInput& input, const SetPlan& plan, const SetUse& use) {
  Blocks b;
  const Project& p = input.project;
  const double rows = 0.4 * input.style.height / reading_style(input.style).compact_row_height;
  add_notes(b, "CAUTIONS", cautions());
  add_notes(b, "GENERAL NOTES", general_notes(input));
  add_notes(b, "SHOP AND STORE", shop_notes());
  add_notes(b, "MARKS AND SERIALS", mark_notes(input));
  add_mark_picture(b, input);
  add_space(b);
  add_table(b, index_table(input, plan), static_cast<std::size_t>(rows));
  add_folded_table(b, totals_table(input));
  add_table(b, party_table(p));
  add_table(b, design_table(p));
  add_table(b, material_table(p));
  add_table(b, surface_table(p));
  add_folded_table(b, tolerance_table(p));
  add_notes(b, "CHECKED BY THE PROGRAM", input.scope.checked);
  add_notes(b, "NOT CHECKED", not_checked_lines(input, plan));
  add_notes(b, "FINDINGS", finding_lines(input));
  add_notes(b, "OPEN REMARKS OF REVIEWERS", redline_lines(p));
  if (p.revisions.size() > 4 || input.history) add_table(b, revision_history(p));
  add_legend(b, use);
  add_folded_table(b, abbreviation_table(input, plan, use));
  return b;
}

CoverLayout lay_out_cover(const SetInput& input, const SetPlan& plan) {
  const Blocks blocks = cover_blocks(input, plan);
  return Flow(input, plan, blocks).run();
}

SetUse use_of(const std::vector<paper::Sheet>& sheets, const SetInput& input, const SetPlan& plan) {
  SetUse use{true, {}, {}, {}, {}};
  const auto take = [&](const paper::Sheet& sheet) {
    for (const paper::Item& item : sheet.items) {
      if (const auto* s = std::get_if<paper::Stroke>(&item))
        use.pens.insert(sheet.pens[s->pen].name);
      if (const auto* g = std::get_if<paper::GroupStart>(&item)) {
        use.kinds.insert(g->kind);
        if (g->kind == "swatch") use.faces.insert(g->title);
      }
      const auto* t = std::get_if<paper::Text>(&item);
      std::string word;
      for (std::size_t i = 0; t && i <= t->text.size(); ++i) {
        const char c = i < t->text.size() ? t->text[i] : ' ';
        const bool letter = (c >= '0' && c <= '9') || ((c | 32) >= 'a' && (c | 32) <= 'z');
        if (letter) word += c;
        if (!letter) use.words.insert(std::exchange(word, ""));
      }
      if (t && t->text.find("Ø") != std::string::npos) use.words.insert("Ø");
    }
  };
  for (const paper::Sheet& sheet : sheets) take(sheet);
  paper::Sheet overview = blank_sheet(input, plan.sheets.front());
  const paper::Style larger = cover_style(input.style);
  Board board(overview, larger, input.lettering);
  draw_overview(board, cover_space(input.style), input, plan);
  take(overview);
  return use;
}

paper::Sheet draw_cover(const SetInput& input, const SetPlan& plan, std::size_t index) {
  return draw_cover_for({}, input, plan, index);
}

paper::Sheet draw_cover_for(const SetUse& use, const SetInput& input, const SetPlan& plan,
                            std::size_t index) {
  const SheetPlan& own = plan.sheets[index];
  paper::Sheet sheet = blank_sheet(input, own);
  Board plain(sheet, input.style, input.lettering);
  furnish(plain, input, plan, index, own.subject == 0 ? "as shown" : "none");
  const paper::Style larger = cover_style(input.style);
  Board board(sheet, larger, input.lettering);
  Blocks blocks = cover_blocks(input, plan, use);
  CoverLayout layout = Flow(input, plan, blocks).run();
  // The number of sheets was planned with everything; none of them may stay empty.
  const CoverLayout planned = lay_out_cover(input, plan);
  if (layout.sheets != planned.sheets) {
    blocks = cover_blocks(input, plan);
    layout = planned;
  }
  if (own.subject == 0) {
    const PaperBox space = cover_space(input.style);
    const double y = draw_title(board, space, input.project);
    draw_overview(board, {{space.low.x, y - layout.overview + input.style.gap}, {space.high.x, y}},
                  input, plan);
  }
  for (const auto& place : layout.places)
    if (place.sheet == static_cast<std::size_t>(own.subject))
      blocks[place.block].draw(board, place.column, place.top);
  return sheet;
}

}  // namespace deckquire::sheets
