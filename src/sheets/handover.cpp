#include "sheets/handover.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "paper/board.h"
#include "schedules/setting_order.h"
#include "sheets/setting_plan.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;
using paper::Stand;

constexpr double tick_box = 5, block_gap = 4;
constexpr double block_lines = 4;  // head, boxes, gaps, signature

int pieces(const Panel& p, FeatureKind kind) {
  return static_cast<int>(std::count_if(p.shape.features.begin(), p.shape.features.end(),
                                        [&](const Feature& f) { return f.kind == kind; }));
}

/// What is ticked off beside a panel.
std::vector<std::string> things_to_see(const SetInput& in, const Panel& p) {
  std::vector<std::string> out;
  const int pads = pieces(p, FeatureKind::pad), clips = pieces(p, FeatureKind::hold_down);
  const int drains = pieces(p, FeatureKind::scupper), caps = pieces(p, FeatureKind::lifting_insert);
  out.push_back(pads > 0 ? fmt::format("seated on {} pads", pads) : "seated on all girders");
  out.push_back(clips > 0 ? fmt::format("{} clips tight", clips) : "held down");
  if (drains > 0) out.push_back(drains > 1 ? fmt::format("{} drains connected", drains) : "drain connected");
  if (p.shape.left_joint || p.shape.right_joint) {
    const auto& rows = in.deck.row_joints;
    const bool alike = std::all_of(rows.begin(), rows.end(), [&](const RowJoint& r) { return r.gap == rows[0].gap; });
    out.push_back(alike && !rows.empty() ? "row gap " + print_length(rows[0].gap, in.project.units) : "row gap");
  }
  out.push_back(fmt::format("{} caps in", caps));
  out.push_back("surface clean");
  return out;
}

class HandoverPage {
 public:
  HandoverPage(Board& board, const SetInput& in) : board_(board), in_(in), frame_(board.style().frame()) {}

  /// What stands over the blocks; returns the y below.
  double head(std::size_t page, std::size_t pages) {
    board_.text(LetterUse::cover_title, {frame_.low.x, frame_.high.y}, "HAND-OVER", Align::left, Stand::top);
    board_.text(LetterUse::heading, frame_.high, fmt::format("page {} of {}", page, pages), Align::right, Stand::top);
    const std::string revision = in_.project.revisions.empty() ? "-" : in_.project.revisions.back().id;
    double y = board_.paragraph(LetterUse::note, {frame_.low.x, frame_.high.y - 13}, frame_.width(),
                                fmt::format("Job {}: {}. Revision {}. In the order of setting. Gaps hold {}. {}",
                                            in_.project.number, in_.project.title, revision, temperature(), torque()));
    y = board_.paragraph(LetterUse::note, {frame_.low.x, y}, frame_.width(),
                         "Nobody walks on a panel before all its hold-downs are tight. What is not in order is not "
                         "ticked: stop, write it under remarks, tell the engineer.");
    return y - 1;
  }

  void block(double top, int step, const Panel& p) {
    const paper::Group group(board_, "panel-" + p.serial, "panel");
    const double line = handover_line, low = top - block_lines * line;
    board_.box(PenUse::table_heavy, {{frame_.low.x, low}, {frame_.high.x, top}});
    for (int k = 1; k < 4; ++k)
      board_.line(PenUse::table, {frame_.low.x, top - k * line}, {frame_.high.x, top - k * line});
    const std::string& mark = in_.deck.marks[static_cast<std::size_t>(p.mark)].name;
    text(LetterUse::sheet_title, 2, top, p.serial);
    text(LetterUse::heading, 0.34 * frame_.width(), top,
         fmt::format("step {},  position {},  mark {}{}", step, p.position, mark, p.turned ? ",  TURNED" : ""));
    boxes(top - line, p);
    gap(0, top - 2 * line, "back", p.joint_back);
    gap(0.4 * frame_.width(), top - 2 * line, "ahead", p.joint_ahead);
    field(0.8 * frame_.width(), top - 2 * line, "Steel at");
    field(0, top - 3 * line, "Signed, date");
    field(0.4 * frame_.width(), top - 3 * line, "Remarks");
  }

 private:
  Board& board_;
  const SetInput& in_;
  PaperBox frame_;

  std::string temperature() const {
    const auto& t = in_.project.conditions.temperature.setting;
    return t ? "at " + print_temperature(*t, in_.project.units) + "; by temperature see the setting sheet"
             : "at the setting temperature, which is not stated: ask the engineer";
  }

  std::string torque() const {
    if (!in_.project.deck.hold_downs) return "";
    for (const TorqueData& q : in_.project.conditions.torques)
      if (q.of == Fastener::hold_down) {
        return fmt::format("Clips are tight at {} ({}).", torque_words(q, in_.project.units), q.source);
      }
    return "Torque of the clips not stated: ask the engineer.";
  }

  /// In the line that hangs below `top`.
  void text(LetterUse use, double x, double top, const std::string& words) {
    board_.text(use, {frame_.low.x + x, top - handover_line / 2}, words, Align::left, Stand::middle);
  }

  void boxes(double top, const Panel& p) {
    const std::vector<std::string> things = things_to_see(in_, p);
    constexpr double around = tick_box + 1.5;
    const auto spare = [&](LetterUse use) {
      double free = frame_.width() - 4 - around * static_cast<double>(things.size());
      for (const std::string& t : things) free -= board_.text_width(use, t);
      return free / static_cast<double>(things.size() - 1);
    };
    const LetterUse use = spare(LetterUse::note) >= 4 ? LetterUse::note : LetterUse::dimension;
    double x = 2;
    const double low = top - (handover_line + tick_box) / 2;
    for (const std::string& t : things) {
      board_.box(PenUse::table, {{frame_.low.x + x, low}, {frame_.low.x + x + tick_box, low + tick_box}});
      text(use, x + around, top, t);
      x += around + board_.text_width(use, t) + spare(use);
    }
  }

  void gap(double x, double top, const char* side, int joint) {
    const Joint& j = in_.deck.joints[static_cast<std::size_t>(joint)];
    field(x, top,
          fmt::format("Gap {} {}: to be {}{}, measured", side, j.name, print_length(j.gap, in_.project.units),
                      in_.project.units == UnitSystem::metric ? " mm" : ""));
  }

  /// Words, and room to write after them.
  void field(double from, double top, const std::string& words) {
    if (from > 0)
      board_.line(PenUse::table, {frame_.low.x + from, top}, {frame_.low.x + from, top - handover_line});
    text(LetterUse::dimension, from + 1.5, top, words);
  }
};

}  // namespace

std::vector<paper::Sheet> handover_sheets(const SetInput& in, const ShopPage& page) {
  const paper::Style style = shop_style(in.style, page, false);
  const std::string revision = in.project.revisions.empty() ? "" : in.project.revisions.back().id;
  Findings said_by_check;
  const std::vector<int> order = setting_order(in.project, in.deck, said_by_check);
  const auto blank = [&](std::size_t number) {
    return shop_sheet(style, fmt::format("H{:02}", number), "HAND-OVER", revision);
  };
  paper::Sheet scratch = blank(0);
  Board measuring(scratch, style, in.lettering);
  const double pitch = block_lines * handover_line + block_gap;
  const double room = HandoverPage(measuring, in).head(1, 1) - style.frame().low.y + block_gap;
  const auto a_page = static_cast<std::size_t>(std::max(1.0, room / pitch));
  const std::size_t pages = (order.size() + a_page - 1) / a_page;
  std::vector<paper::Sheet> sheets;
  for (std::size_t n = 0; n < pages; ++n) {
    paper::Sheet sheet = blank(n + 1);
    Board board(sheet, style, in.lettering);
    HandoverPage drawn(board, in);
    double y = drawn.head(n + 1, pages);
    for (std::size_t i = n * a_page; i < std::min((n + 1) * a_page, order.size()); ++i, y -= pitch)
      drawn.block(y, static_cast<int>(i) + 1, in.deck.panels[static_cast<std::size_t>(order[i])]);
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

}  // namespace deckquire::sheets
