#include "sheets/travellers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.h"
#include "paper/board.h"
#include "paper/qr_code.h"
#include "paper/table.h"
#include "sheets/plan.h"
#include "sheets/tags.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;
using paper::Stand;

constexpr double code_side = 22, plan_height = 54, row = 6.2;  // mm

std::string counted(int n, const std::string& one) {
  return fmt::format("{} {}{}", n, one, n == 1 ? "" : one.ends_with("hatch") ? "es" : "s");
}

std::string listed(const std::map<FeatureKind, int>& count, std::initializer_list<FeatureKind> kinds) {
  std::vector<std::string> words;
  for (FeatureKind k : kinds)
    if (const auto at = count.find(k); at != count.end()) words.push_back(counted(at->second, feature_name(k)));
  return words.empty() ? "none" : join(words, ", ");
}

/// "4 x M16 tapped, 30 deep": the holes drilled and tapped after casting.
std::string tapped(const SetInput& in, const Mark& mark) {
  std::map<std::string, int> by;
  for (const Hole& h : mark.holes)
    if (h.kind == HoleKind::tapped)
      ++by[h.thread + (h.depth ? ", " + print_length(mm(*h.depth), in.project.units) + " deep" : "")];
  std::vector<std::string> words;
  for (const auto& [what, n] : by) words.push_back(fmt::format("{} x {}", n, what));
  return words.empty() ? "none" : join(words, "; ");
}

/// The four corners as if no notch were cut: right back, right ahead, left ahead, left back.
std::vector<PanelPoint> corners(const PanelShape& s) {
  return {{s.back_x(s.right_back), s.right_back},
          {s.ahead_x(s.right_ahead), s.right_ahead},
          {s.ahead_x(s.left_ahead), s.left_ahead},
          {s.back_x(s.left_back), s.left_back}};
}

double distance_of(PanelPoint a, PanelPoint b) { return std::hypot(a.x - b.x, a.y - b.y); }

class Traveller {
 public:
  Traveller(Board& board, const SetInput& input, const SetPlan& plan, int panel)
      : board_(board),
        in_(input),
        panel_(input.deck.panels[static_cast<std::size_t>(panel)]),
        mark_(input.deck.marks[static_cast<std::size_t>(panel_.mark)]),
        words_(tag_words(input, plan, panel)),
        frame_(board.style().frame()) {}

  void draw() {
    double y = head(frame_.high.y);
    y = small_plan(y - 4);
    y = dimensions(y - 4);
    y = steps(y - 6);
    release(y - 6);
  }

 private:
  Board& board_;
  const SetInput& in_;
  const Panel& panel_;
  const Mark& mark_;
  TagWords words_;
  PaperBox frame_;

  double head(double top) {
    const paper::QrCode qr = paper::qr_code(tag_code(panel_));
    board_.fill(paper::Ink::black,
                paper::qr_path(qr, {frame_.high.x - code_side, top - code_side}, code_side));
    const double left = frame_.low.x, width = frame_.width() - code_side - 8;
    board_.text(LetterUse::cover_title, {left, top}, words_.serial, Align::left, Stand::top);
    board_.text(LetterUse::sheet_number, {left + width, top}, words_.mark, Align::right, Stand::top);
    std::string hand;
    if (mark_.opposite_of >= 0)
      hand = ", opposite hand of " + in_.deck.marks[static_cast<std::size_t>(mark_.opposite_of)].name;
    double y = board_.paragraph(
        LetterUse::note, {left, top - 13}, width,
        fmt::format("TRAVELLER. Sheet {}, revision {}{}. {}, {}. Mass {}.", words_.sheet, words_.revision,
                    hand, words_.position, words_.turned, words_.mass));
    y = board_.paragraph(LetterUse::note, {left, y}, width,
                         fmt::format("Job {}: {}.", in_.project.number, in_.project.title));
    y = std::min(y, top - code_side) - 1;
    board_.line(PenUse::table_heavy, {left, y}, {frame_.high.x, y});
    return y;
  }

  /// The panel as its sheet draws it, with the letters of what is to be measured.
  double small_plan(double top) {
    const PanelShape& s = mark_.shape;
    const Box<PanelFrame> box = bounds(s.outline);
    const double room = frame_.width() - 40;
    const double scale = std::min(room / box.width(), (plan_height - 14) / box.height());
    const PaperPoint low{frame_.centre().x - box.width() * scale / 2, top - 7 - box.height() * scale};
    const auto at = [&](PanelPoint p) {
      return PaperPoint{low.x + (p.x - box.low.x) * scale, low.y + (p.y - box.low.y) * scale};
    };
    const paper::Group group(board_, "plan", "view");
    paper::Path outline;
    std::vector<PaperPoint> ring;
    for (PanelPoint p : s.outline) ring.push_back(at(p));
    outline.polygon(ring);
    board_.stroke(PenUse::outline, std::move(outline));
    letters(at);
    const PaperPoint middle = at(box.centre());
    paper::arrow(board_, PenUse::mark, middle - PaperPoint{12, 0}, middle + PaperPoint{12, 0}, 4);
    board_.masked_text(LetterUse::note, middle + PaperPoint{0, 3}, "AHEAD", Align::centre, Stand::base);
    board_.masked_text(LetterUse::note, middle - PaperPoint{0, 3}, "as drawn", Align::centre, Stand::top);
    return low.y - 7;
  }

  template <class At>
  void letters(const At& at) {
    const auto c = corners(mark_.shape);
    const auto say = [&](PaperPoint p, const char* letter) {
      board_.text(LetterUse::heading, p, letter, Align::centre, Stand::middle);
    };
    const auto half = [&](std::size_t i, std::size_t k) { return at((c[i] + c[k]) * 0.5); };
    say(half(2, 3) + PaperPoint{0, 4}, "A");
    say(half(0, 1) - PaperPoint{0, 4}, "B");
    say(half(0, 3) - PaperPoint{4, 0}, "C");
    say(half(1, 2) + PaperPoint{4, 0}, "D");
    for (std::size_t i : {0U, 1U}) {
      const PaperPoint a = at(c[i]), b = at(c[i + 2]);
      board_.line(PenUse::thin, a, a + (b - a) * 0.12);
      board_.line(PenUse::thin, b, b + (a - b) * 0.12);
      board_.text(LetterUse::heading, a + (b - a) * 0.18, i == 0 ? "E" : "F", Align::centre, Stand::middle);
    }
  }

  std::string tolerance(const std::string& of) const {
    for (const ToleranceData& t : in_.project.conditions.tolerances)
      if (t.of == of) return "± " + print_length(t.value, in_.project.units);
    return "not stated";
  }

  double dimensions(double y) {
    paper::TableData t;
    t.title = "MEASURED ON THE FINISHED PANEL";
    const std::string unit = in_.project.units == UnitSystem::metric ? "mm" : "ft-in";
    t.columns = {{"", "", Align::left, 8},
                 {"Dimension", "", Align::left, 0},
                 {"To be", unit, Align::right, 24},
                 {"Tolerance", unit, Align::right, 24},
                 {"Measured", unit, Align::right, 30},
                 {"By, date", "", Align::left, 34}};
    for (const KeyDimension& d : key_dimensions(mark_.shape))
      t.rows.push_back({d.letter, d.what, print_length(mm(d.nominal), in_.project.units),
                        tolerance(d.tolerance_of), "", ""});
    return table(t, y);
  }

  double steps(double y) {
    paper::TableData t;
    t.title = "INSPECTION, EACH STEP SIGNED BEFORE THE NEXT";
    t.columns = {{"", "", Align::right, 8},
                 {"Step", "", Align::left, 26},
                 {"What to see", "", Align::left, 0},
                 {"In order", "", Align::left, 16},
                 {"By, date", "", Align::left, 30}};
    int n = 0;
    for (const InspectionStep& s : inspection_steps(in_, mark_))
      t.rows.push_back({std::to_string(++n), s.point, s.what, "", ""});
    return table(t, y);
  }

  double table(paper::TableData& t, double y) {
    return paper::draw_table(board_, t, {frame_.low.x, y}, frame_.width(), row, LetterUse::table, 0,
                             t.rows.size());
  }

  void release(double y) {
    y = board_.paragraph(LetterUse::note, {frame_.low.x, y}, frame_.width(),
                         "A step that is not in order: hold the panel apart, write what and why on the back, "
                         "and wait for the engineer. Lift at all inserts only, by a written plan; nobody "
                         "under the load.");
    const double third = frame_.width() / 3;
    const char* captions[] = {"Released by the shop", "Loaded", "Received on site, without damage"};
    for (int i = 0; i < 3; ++i) {
      const double x = frame_.low.x + i * third;
      board_.line(PenUse::table, {x, y - 12}, {x + third - 6, y - 12});
      board_.text(LetterUse::caption, {x, y - 14}, captions[i], Align::left, Stand::top);
    }
  }
};

}  // namespace

std::vector<KeyDimension> key_dimensions(const PanelShape& s) {
  const auto c = corners(s);
  return {{"A", "left edge", distance_of(c[3], c[2]), "length"},
          {"B", "right edge", distance_of(c[0], c[1]), "length"},
          {"C", "back end", distance_of(c[0], c[3]), "width"},
          {"D", "ahead end", distance_of(c[1], c[2]), "width"},
          {"E", "diagonal, right back to left ahead", distance_of(c[0], c[2]), "squareness"},
          {"F", "diagonal, right ahead to left back", distance_of(c[1], c[3]), "squareness"},
          {"G", "thickness at the high line, no surface", s.depth, "thickness"}};
}

std::vector<InspectionStep> inspection_steps(const SetInput& in, const Mark& mark) {
  std::map<FeatureKind, int> count;
  for (const Feature& f : mark.shape.features) ++count[f.kind];
  using K = FeatureKind;
  std::vector<InspectionStep> steps{
      {"mould", "mark, hand, length and width of the mould; " +
                    listed(count, {K::recess, K::notch, K::hatch, K::sleeve, K::scupper}) + " formed"},
      {"inserts", listed(count, {K::post_plate, K::hold_down, K::lifting_insert}) + ", fixed in place"},
      {"cast", "batches of resin and fibre written down; inserts have not moved"},
      {"demould", "time and hardness as the maker asks; no cracks, no voids"},
      {"drill and tap", tapped(in, mark)}};
  if (mark.shape.surface >= 0) {
    const SurfaceData& s = in.project.deck.surfaces[static_cast<std::size_t>(mark.shape.surface)];
    steps.push_back({"surface", s.trade_class + ", " + print_length(s.thickness, in.project.units) + " thick" +
                                    (s.friction.empty() ? "" : ", friction " + s.friction)});
  }
  if (count.count(K::scupper) || count.count(K::hatch))
    steps.push_back({"fit", listed(count, {K::scupper, K::hatch}) + ": grates and covers tried, numbered"});
  steps.push_back({"final", "measured as above; weighed: ______ ; plate and tag read the same serial"});
  return steps;
}

std::vector<paper::Sheet> traveller_sheets(const SetInput& in, const SetPlan& plan, const ShopPage& page) {
  const paper::Style style = shop_style(in.style, page, false);
  std::vector<paper::Sheet> sheets;
  const std::string revision = in.project.revisions.empty() ? "" : in.project.revisions.back().id;
  for (std::size_t i = 0; i < in.deck.panels.size(); ++i) {
    paper::Sheet sheet =
        shop_sheet(style, in.deck.panels[i].serial, "TRAVELLER " + in.deck.panels[i].serial, revision);
    Board board(sheet, style, in.lettering);
    Traveller(board, in, plan, static_cast<int>(i)).draw();
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

}  // namespace deckquire::sheets
