// What makes a sheet unfit to print.
#include <cmath>
#include <set>
#include <string_view>

#include <fmt/format.h>

#include "base/text.h"
#include "paper/overlaps.h"
#include "paper/sheet.h"

namespace deckquire::paper {

namespace {

constexpr double slack = 0.01;  // mm, for sums that should meet the paper's or the frame's edge

std::string place(PaperPoint p) {
  return decimal(p.x, 1) + ", " + decimal(p.y, 1);
}

bool is_finite(PaperPoint p) {
  return std::isfinite(p.x) && std::isfinite(p.y);
}

bool lies_within(const PaperBox& b, const PaperBox& room) {
  return room.grown(slack).contains(b.low) && room.grown(slack).contains(b.high);
}

bool is_whole(const Path& path) {
  std::size_t needed = 0;
  for (Op op : path.ops) needed += op == Op::close ? 0 : op == Op::curve ? 3 : 1;
  return needed == path.points.size() && (path.ops.empty() || path.ops.front() == Op::move);
}

/// Walks the items once and notes all faults of single items; keeps what may clash for later.
class Inspector {
 public:
  Inspector(const Sheet& sheet, double least_height, const PaperBox& inside)
      : sheet_(sheet), least_height_(least_height), inside_(inside), heavy_(heavy_line(sheet)) {}

  std::vector<std::string> all() {
    inspect_sheet();
    for (const Item& item : sheet_.items) {
      std::visit([this](const auto& i) { inspect(i); }, item);
      ++order_;
    }
    if (!furniture_.empty()) note(fmt::format("{} groups are not closed", furniture_.size()));
    for (const Clash& c : text_clashes(texts_)) note_clash(c);
    for (const Clash& c : line_clashes(texts_, lines_)) note_crossing(c);
    return std::move(out_);
  }

 private:
  void note(const std::string& what) { out_.push_back(sheet_.number + ": " + what); }

  void inspect_sheet() {
    const auto fits = [](double side) { return side >= 100 && side <= 5000; };
    if (!fits(sheet_.width) || !fits(sheet_.height))
      note(fmt::format("paper of {} x {} mm: each side is 100 to 5000", decimal(sheet_.width, 1),
                       decimal(sheet_.height, 1)));
    for (const Pen& pen : sheet_.pens) inspect(pen);
  }

  void inspect(const Pen& pen) {
    bool sound = std::isfinite(pen.width) && pen.width > 0;
    double sum = 0;
    for (double d : pen.dash) {
      sound = sound && std::isfinite(d) && d >= 0;
      sum += d;
    }
    if (!sound || (!pen.dash.empty() && !(sum > 0)))
      note(fmt::format("pen {} cannot draw: its width or dashes are not positive numbers",
                       pen.name));
  }

  void inspect(const Stroke& s) {
    const bool has_pen = s.pen < sheet_.pens.size();
    if (!has_pen)
      note(fmt::format("stroke with pen {}, the sheet has {}", s.pen, sheet_.pens.size()));
    if (!inspect("stroke", s.path) || !has_pen) return;
    const double width = sheet_.pens[s.pen].width;
    if (width >= heavy_ - 1e-9) lines_.push_back({&s.path, width, order_});
  }

  void inspect(const Fill& f) { inspect("fill", f.path); }

  void inspect(const Text& t) {
    const std::string quoted = "\"" + t.text + "\"";
    if (!is_clean_utf8(t.text)) {
      note(fmt::format("unclean text at {}", place(t.at)));
      return;
    }
    if (!is_finite(t.at) || !std::isfinite(t.width) || !std::isfinite(t.height) ||
        !std::isfinite(t.angle)) {
      note(fmt::format("text {} has a position or size that is not a number", quoted));
      return;
    }
    if (t.height < least_height_ - 1e-9)
      note(fmt::format("text {} at {} is {} mm high, the least is {}", quoted, place(t.at),
                       shortest_decimal(t.height, 2), shortest_decimal(least_height_, 2)));
    inspect_room("text " + quoted, text_box(t));
    texts_.push_back({&t, text_box(t), order_});
  }

  void inspect(const GroupStart& g) {
    furniture_.push_back(g.kind == "furniture" || (!furniture_.empty() && furniture_.back()));
    if (!g.id.empty() && !ids_.insert(g.id).second) note(fmt::format("id {} is used twice", g.id));
  }

  void inspect(const GroupEnd&) {
    if (furniture_.empty())
      note("a group is closed that was never opened");
    else
      furniture_.pop_back();
  }

  /// False when the path cannot be looked at further.
  bool inspect(const char* what, const Path& path) {
    if (!is_whole(path)) {
      note(fmt::format("{} whose points do not match its lines and curves", what));
      return false;
    }
    for (PaperPoint p : path.points)
      if (!is_finite(p)) {
        note(fmt::format("{} with a coordinate that is not a number", what));
        return false;
      }
    if (!path.empty()) inspect_room(what, bounds(path));
    return true;
  }

  void inspect_room(const std::string& what, const PaperBox& b) {
    const PaperBox paper{{0, 0}, {sheet_.width, sheet_.height}};
    const bool furniture = !furniture_.empty() && furniture_.back();
    const char* missed = !lies_within(b, paper)                   ? "paper"
                         : !furniture && !lies_within(b, inside_) ? "frame"
                                                                  : nullptr;
    if (missed != nullptr)
      note(fmt::format("{} outside the {}: from {} to {}", what, missed, place(b.low),
                       place(b.high)));
  }

  void note_clash(const Clash& c) {
    note(fmt::format("text over text at {}: \"{}\" and \"{}\"", place(c.where),
                     texts_[c.text].text->text, texts_[c.other].text->text));
  }

  void note_crossing(const Clash& c) {
    const PlacedText& t = texts_[c.text];
    note(fmt::format("text over a line of {} mm at {}: \"{}\"",
                     shortest_decimal(lines_[c.other].width, 2), place(c.where), t.text->text));
  }

  const Sheet& sheet_;
  double least_height_;
  PaperBox inside_;
  double heavy_;
  std::size_t order_ = 0;
  std::vector<bool> furniture_;  // of the open groups: in furniture?
  std::set<std::string_view> ids_;
  std::vector<PlacedText> texts_;
  std::vector<PlacedLine> lines_;
  std::vector<std::string> out_;
};

}  // namespace

std::vector<std::string> faults(const Sheet& sheet, double least_height, const PaperBox& inside) {
  return Inspector(sheet, least_height, inside).all();
}

}  // namespace deckquire::paper
