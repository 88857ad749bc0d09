// The picture of a typical bay: its lines, what is named on it, title and note.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "paper/callout.h"
#include "sheets/bay_scene.h"
#include "sheets/furniture.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;

// Paper mm: wider would not make it plainer, narrower not be read.
constexpr double widest = 130, narrowest = 75, least = 50;

constexpr double side = 5, under = 9, over = 7;  // air for names and the arrow

struct Drawing {
  Board& board;
  const BayScene& scene;
  PaperPoint low;  // of the picture's extent on paper
  double ratio = 1;
  Room room;

  PaperPoint at(PicturePoint p) const {
    return low + PaperPoint{p.x - scene.low.x, p.y - scene.low.y} * (1 / ratio);
  }
  /// Where names may stand.
  PaperBox names() const {
    const PaperBox all{low, at(scene.high)};
    return {{all.low.x - side, all.low.y - under}, {all.high.x + side, all.high.y + over}};
  }
};

void draw_lines(Drawing& d) {
  const std::pair<LineKind, PenUse> pens[] = {{LineKind::others, PenUse::steel},
                                              {LineKind::sunk, PenUse::hidden},
                                              {LineKind::trace, PenUse::thin},
                                              {LineKind::edge, PenUse::thin},
                                              {LineKind::outline, PenUse::outline}};
  for (const auto& [kind, pen] : pens) {
    Path path;
    for (const PictureLine& l : d.scene.lines) {
      if (l.kind != kind) continue;
      path.segment(d.at(l.a), d.at(l.b));
      d.room.take_line(d.at(l.a), d.at(l.b), 0.5);
    }
    if (!path.empty()) d.board.stroke(pen, std::move(path));
  }
}

void draw_water(Drawing& d) {
  for (const auto& [from, to] : d.scene.water) {
    const paper::Group group(d.board, "", "water", "Fall of water");
    paper::arrow(d.board, PenUse::water, d.at(from), d.at(to), 2.5);
    d.room.take_line(d.at(from), d.at(to), 1.5);
  }
}

/// Outside the right edge of what is seated.
void draw_ahead(Drawing& d) {
  const PaperPoint from = d.at(d.scene.ahead_from), to = d.at(d.scene.ahead_to);
  const double l = std::hypot(to.x - from.x, to.y - from.y);
  if (l < 1) return;
  const PaperPoint u = (to - from) * (1 / l), out{u.y, -u.x};
  const PaperPoint tail = from + u * (0.2 * l) + out * 7, tip = tail + u * 12;
  const paper::Group group(d.board, "", "orientation", "Direction of rising stations");
  paper::arrow(d.board, PenUse::mark, tail, tip, 3);
  d.room.take_line(tail, tip, 1.5);
  d.room.take(
      d.board.text(LetterUse::note, tail + PaperPoint{4, -0.5}, "AHEAD", Align::left, Stand::top)
          .grown(1));
}

/// Position in its box, on the panel where nothing is in the way, else led to it. The mark stands
/// in the note: on plans it is counted.
void name_panels(Drawing& d) {
  const double h = d.board.text_height(LetterUse::note) + 1.4;
  std::vector<BayPanel> all = d.scene.seated;
  all.insert(all.end(), d.scene.lifted.begin(), d.scene.lifted.end());
  for (const BayPanel& label : all) {
    const double w = std::max(h, d.board.text_width(LetterUse::note, label.position) + 1.4);
    const PaperPoint site = d.at(label.at);
    const auto place = d.room.place({w + 1, h + 1}, site, d.names(), 60);
    if (!place) continue;
    const paper::Group group(d.board, "", "reference", "Position " + label.position);
    const PaperPoint c = *place;
    const PaperBox box{{c.x - w / 2, c.y - h / 2}, {c.x + w / 2, c.y + h / 2}};
    if (!box.contains(site)) {
      const PaperPoint end{std::clamp(site.x, box.low.x, box.high.x),
                           std::clamp(site.y, box.low.y, box.high.y)};
      Path dot;
      dot.circle(site, 0.5);
      d.board.fill(paper::Ink::black, dot);
      d.board.line(PenUse::dimension, site, end);
      d.room.take_line(site, end, 0.5);
    }
    d.board.box(PenUse::dimension, box);
    d.board.text(LetterUse::note, c, label.position, Align::centre, Stand::middle);
    d.room.take(box);
  }
}

void name_girders(Drawing& d) {
  const double h = d.board.text_height(LetterUse::serial);
  for (const BayGirder& label : d.scene.girders) {
    const double width = d.board.text_width(LetterUse::serial, label.name);
    const auto place =
        d.room.place({width + 1, h + 1}, d.at(label.at) - PaperPoint{0, h + 1}, d.names(), 20);
    if (!place) continue;
    d.board.text(LetterUse::serial, *place, label.name, Align::centre, Stand::middle);
    d.room.take({*place - PaperPoint{width, h} * 0.5, *place + PaperPoint{width, h} * 0.5});
  }
}

/// "position 20"; "positions 3 and 4".
std::string words_of(const std::vector<BayPanel>& panels) {
  std::vector<std::string> positions;
  for (const BayPanel& p : panels) positions.push_back(p.position);
  return (panels.size() > 1 ? "positions " : "position ") + join(positions, " and ");
}

}  // namespace

double draw_bay(Board& board, const PaperBox& column, double top, const BayScene& scene,
                bool small) {
  const paper::Group group(board, "view-bay", "view", "Typical bay on its girders");
  const double width = std::min(column.width() - 2 * side, small ? narrowest : widest);
  const std::string title = "TYPICAL BAY";
  if (width < least || board.text_width(LetterUse::view_title, title) + 4 > column.width())
    return top - 1e6;  // no column is as high as that
  Drawing d{board, scene, {}, (scene.high.x - scene.low.x) / width, {}};
  const double height = (scene.high.y - scene.low.y) / d.ratio;
  d.low = {column.low.x + side, top - height - over};
  draw_lines(d);
  draw_water(d);
  draw_ahead(d);
  name_girders(d);
  name_panels(d);
  const double y = d.low.y - under - board.text_height(LetterUse::view_title);
  paper::view_title(board, {column.low.x, y}, title, 0);
  const std::string left_out =
      scene.left_out.empty() ? "" : " Not drawn: " + join(scene.left_out, ", ") + ".";
  const std::string note = fmt::format(
      "Isometric, not to scale: {} seated, {} above {} place. Girders are by others, drawn cut off "
      "below.{}",
      words_of(scene.seated), words_of(scene.lifted), scene.lifted.size() > 1 ? "their" : "its",
      left_out);
  const double below = y - 0.4 * board.text_height(LetterUse::view_title) - 2;
  return board.paragraph(LetterUse::note, {column.low.x, below}, column.width(), note);
}

}  // namespace deckquire::sheets
