#include "sheets/details.h"

#include <fmt/format.h>

#include <algorithm>

#include "paper/view.h"
#include "sheets/detail_rows.h"
#include "sheets/furniture.h"

namespace deckquire::sheets {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::Path;
using paper::PenUse;
using paper::Stand;

namespace {

bool has(const SetInput& input, FeatureKind kind) {
  const auto& marks = input.deck.marks;
  return std::any_of(marks.begin(), marks.end(), [kind](const Mark& m) {
    const auto& f = m.shape.features;
    return std::any_of(f.begin(), f.end(), [kind](const Feature& x) { return x.kind == kind; });
  });
}

}  // namespace

std::vector<Detail> details_of(const SetInput& input) {
  const DeckData& deck = input.project.deck;
  std::vector<Detail> out;
  const auto add = [&](bool wanted, Detail d) {
    if (wanted) out.push_back(d);
  };
  const auto& joints = input.deck.joints;
  const bool inner = std::any_of(joints.begin(), joints.end(), [](const Joint& j) {
    return j.back >= 0 && j.ahead >= 0 && !j.end;
  });
  add(deck.section.curb.sides != CurbSides::none, Detail::curb);
  add(has(input, FeatureKind::post_plate), Detail::post_plate);
  add(inner, Detail::joint);
  add(!input.deck.row_joints.empty(), Detail::row_joint);
  add(!joints.empty(), Detail::end_joint);
  add(has(input, FeatureKind::recess), Detail::recess);
  add(has(input, FeatureKind::scupper), Detail::scupper);
  add(has(input, FeatureKind::hatch), Detail::hatch);
  add(has(input, FeatureKind::sleeve), Detail::sleeve);
  add(has(input, FeatureKind::hold_down), Detail::hold_down);
  add(has(input, FeatureKind::lifting_insert), Detail::lifting);
  return out;
}

const char* detail_title(Detail detail) {
  switch (detail) {
    case Detail::curb:
      return "CURB AND DECK EDGE";
    case Detail::post_plate:
      return "POST PLATE IN THE CURB";
    case Detail::joint:
      return "JOINT BETWEEN PANELS";
    case Detail::row_joint:
      return "JOINT BETWEEN ROWS OVER A GIRDER";
    case Detail::end_joint:
      return "END JOINT WITH COVER PLATE";
    case Detail::recess:
      return "RECESS OVER A GIRDER SPLICE";
    case Detail::scupper:
      return "SCUPPER WITH GRATE AND OUTLET";
    case Detail::hatch:
      return "HATCH WITH COVER";
    case Detail::sleeve:
      return "SLEEVE";
    case Detail::hold_down:
      return "HOLD-DOWN AT THE GIRDER FLANGE";
    case Detail::lifting:
      return "LIFTING INSERT";
  }
  return "";
}

int DetailSite::ratio(int wanted) const {
  for (int r : input.style.scales)
    if (r >= std::max<double>(finest, wanted * coarser) - 1e-9) return r;
  return input.style.scales.back();
}

Piece DetailSite::arranged(const std::vector<Piece>& views) const {
  return upright ? stacked(views, 8) : beside(views, 14);
}

std::string DetailSite::material(const std::string& part) const {
  for (const MaterialData& m : deck().materials)
    if (m.part == part && !m.name.empty()) return m.name;
  return part;
}

std::optional<Found> find_feature(const SetInput& input, FeatureKind kind) {
  for (const Mark& m : input.deck.marks)
    for (const Feature& f : m.shape.features)
      if (f.kind == kind) return Found{&m.shape, &f};
  return std::nullopt;
}

Piece drawn_as(const DetailSite& site, Detail detail) {
  switch (detail) {
    case Detail::curb:
      return curb_detail(site);
    case Detail::post_plate:
      return post_plate_detail(site);
    case Detail::joint:
      return joint_detail(site);
    case Detail::row_joint:
      return row_joint_detail(site);
    case Detail::end_joint:
      return end_joint_detail(site);
    case Detail::recess:
      return recess_detail(site);
    case Detail::scupper:
      return scupper_detail(site);
    case Detail::hatch:
      return hatch_detail(site);
    case Detail::sleeve:
      return sleeve_detail(site);
    case Detail::hold_down:
      return hold_down_detail(site);
    case Detail::lifting:
      return lifting_detail(site);
  }
  return {};
}

Piece detail_piece(const SetInput& input, Detail detail, paper::PaperPoint room) {
  Piece piece;
  for (double coarser : {1.0, 2.0, 4.0, 8.0})
    for (bool upright : {false, true}) {
      piece = drawn_as({input, coarser, upright}, detail);
      if (!piece.draw || (piece.box.width() <= room.x && piece.box.height() <= room.y))
        return piece;
    }
  return piece;
}

namespace {

/// The sheets that name a detail: the erection sheets in their notes, the panel sheets in their
/// tables of features. Those of the setting, between strips and moved words, name none.
std::string callers(const SetPlan& plan, Detail detail) {
  std::vector<std::string> strips, moved;
  for (const SheetPlan& s : plan.sheets)
    if (s.series == 'E' && s.subject < plan.strip_sheets())
      strips.push_back(s.number);
    else if (s.series == 'E' && s.subject >= plan.first_of_moved())
      moved.push_back(s.number);
  const auto listed = [](const std::vector<std::string>& all) {
    return all.size() <= 3 ? join(all, ", ") : all.front() + " to " + all.back();
  };
  std::string erection = listed(strips);
  if (!moved.empty()) erection += ", " + listed(moved);
  const bool feature = detail != Detail::curb && detail != Detail::joint &&
                       detail != Detail::row_joint && detail != Detail::end_joint;
  return feature ? erection + " and the P sheets" : erection;
}

const DetailRef& reference(const SetPlan& plan, Detail d) {
  return *plan.find(d);
}

void draw_rows(Board& board, const SetInput& input, const SetPlan& plan, const Rows& rows,
               DetailUse& use) {
  const PaperBox room = room_of(input);
  double heights = 0;
  for (const Row& r : rows) heights += row_height(r);
  const double air_y = (room.height() - heights) / static_cast<double>(rows.size());
  double top = room.high.y - air_y / 2;
  for (const Row& row : rows) {
    double widths = 0;
    for (const Sized& s : row) widths += s.width;
    const double air_x = (room.width() - widths) / static_cast<double>(row.size());
    double x = room.low.x + air_x / 2;
    const double foot = top - row_height(row) + title_room;
    for (const Sized& s : row) {
      const DetailRef& ref = reference(plan, s.detail);
      const paper::Group group(board, "detail-" + ref.letter, "view", ref.title);
      s.piece.draw(board, {x - s.piece.box.low.x, foot - s.piece.box.low.y}, &use);
      paper::view_title(board, {x, foot - title_room + 7}, ref.title, s.piece.ratio, ref.letter,
                        callers(plan, s.detail));
      x += s.width + air_x;
    }
    top = foot - title_room - air_y;
  }
}

std::string tolerance_sentence(const SetInput& input) {
  std::vector<std::string> parts;
  for (const ToleranceData& t : input.project.conditions.tolerances)
    parts.push_back(t.of + " ± " + print_length(t.value, input.project.units));
  if (parts.empty()) return "Tolerances are not stated in the project: the engineer gives them.";
  return "Tolerances: " + join(parts, ", ") + ".";
}

constexpr std::ptrdiff_t tolerance_place = 1;  // among the sentences
constexpr const char* nominal_parts =
    "Flanges, clips and bolts of others are nominal, bolts turned into the section.";

/// What the details of this sheet need said.
std::vector<std::string> sentences(const SetInput& input, const Rows& rows) {
  const auto shows = [&](Detail d) {
    for (const Row& r : rows)
      for (const Sized& s : r)
        if (s.detail == d) return true;
    return false;
  };
  const bool sealed =
      shows(Detail::joint) && input.project.deck.joints.kind == JointKind::sealed;
  std::vector<std::string> out{
      "Figures govern, nobody scales; the bars show a reduced print.", tolerance_sentence(input),
      sealed ? "The shop seals every cut edge and hole with resin before a panel leaves; joint faces "
               "are prepared, and sealant cures, as its maker states."
             : "The shop seals every cut edge and hole with resin before a panel leaves.",
      "Grade and torque of bolts are the engineer's; unlike metals are isolated."};
  if (shows(Detail::post_plate))
    out.push_back(
        "Rail posts keep people from falling: the engineer shows curb, plate and laminate by "
        "calculation or test; it is not done here.");
  if (shows(Detail::lifting))
    out.push_back(
        "Lift to a written plan by a qualified person only, at the sling angles that the inserts "
        "allow; nobody stands under a load.");
  if (shows(Detail::hold_down) || shows(Detail::recess) || shows(Detail::joint))
    out.push_back(nominal_parts);
  return out;
}

/// A swatch with its words, their lines under one another; returns the height it takes.
double swatch(Board& board, PaperPoint at, double width, const std::string& material,
              const std::string& words) {
  const paper::Group group(board, "", "swatch", material);
  const PaperBox b{{at.x, at.y - 4.5}, {at.x + 12, at.y}};
  Path p;
  p.box(b);
  paper::hatch(board, {{b.low, {b.high.x, b.low.y}, b.high, {b.low.x, b.high.y}}}, material);
  board.stroke(PenUse::thin, p);
  const auto lines = board.broken(LetterUse::note, width - 16, words);
  double text = at.y - 3.5;
  for (const std::string& l : lines) {
    board.text(LetterUse::note, {at.x + 15, text}, l);
    text -= board.pitch(LetterUse::note);
  }
  return std::max(6.0, board.pitch(LetterUse::note) * static_cast<double>(lines.size()) + 2);
}

/// What a hatch stands for: in brief, or with the name that the project gives its material.
std::string legend_words(const DetailSite& site, const std::string& hatch, bool brief) {
  if (hatch == "surface") return "wearing surface";
  if (hatch == "concrete") return "concrete, by others";
  const std::string part = hatch == "bearing" ? "bearing pad" : hatch;
  const auto& pads = site.deck().pads;
  const std::string name = hatch != "bearing" ? site.material(hatch) : pads ? pads->material : "";
  return brief || name.empty() || name == hatch ? part : part + ": " + name;
}

double legend(Board& board, const SetInput& input, const PaperBox& space, double top,
              const DetailUse& use) {
  const DetailSite site{input};
  constexpr double narrow = 150;  // mm: short words in two columns
  const bool brief = space.width() < narrow;
  const double width = brief ? space.width() / 2 : space.width();
  board.text(LetterUse::heading, {space.low.x, top}, "CUT FACES ON THIS SHEET", Align::left,
             Stand::top);
  double y = top - 2.2 * board.text_height(LetterUse::heading), taken = 0;
  int column = 0;
  for (const std::string& m : use.materials) {
    const std::string words = legend_words(site, m, brief);
    const double h = swatch(board, {space.low.x + column * width, y}, width, m, words);
    taken = std::max(taken, h);
    column = brief ? 1 - column : 0;
    if (column == 1) continue;
    y -= taken;
    taken = 0;
  }
  return y - taken;
}

/// The details of the sheet with their scales, where the column has room for them.
void list_details(Board& board, const SetPlan& plan, const PaperBox& space, double top,
                  const Rows& rows) {
  std::vector<std::string> lines;
  for (const Row& r : rows)
    for (const Sized& s : r)
      lines.push_back(fmt::format("{}   {}   {}", reference(plan, s.detail).letter,
                                  detail_title(s.detail), board.style().scale_name(s.piece.ratio)));
  const double pitch = 1.4 * board.pitch(LetterUse::note);
  double y = top - 2.5 * board.text_height(LetterUse::heading);
  if (y - pitch * static_cast<double>(lines.size()) < space.low.y) return;
  board.text(LetterUse::heading, {space.low.x, top}, "DETAILS ON THIS SHEET", Align::left,
             Stand::top);
  for (const std::string& l : lines) {
    board.text(LetterUse::note, {space.low.x, y}, l, Align::left, Stand::top);
    y -= pitch;
  }
}

/// The column down to its scale bars; returns the y below.
double draw_words(Board& board, const SetInput& input, const PaperBox& space,
                  const std::vector<std::string>& said, const DetailUse& use) {
  double y = purpose(board, space, "How parts meet, drawn large.");
  y = notes(board, space, y, "NOTES", said) - 2;
  y = legend(board, input, space, y, use) - 1;
  int n = 0;  // bars, two in a row
  for (int ratio : use.ratios) {
    const double half = space.width() / 2;
    paper::scale_bar(board, {space.low.x + (n % 2) * half, y - 5 - 9 * (n / 2)}, ratio, half * 0.5,
                     input.project.units);
    ++n;
  }
  return y - 6 - 10 * ((n + 1) / 2);
}

void draw_column(Board& board, const SetInput& input, const SetPlan& plan, const Spaces& spaces,
                 const Rows& rows, const DetailUse& use) {
  std::vector<std::string> said = sentences(input, rows);
  const auto too_long = [&] {
    paper::Sheet scratch;
    Board trial(scratch, input.style, input.lettering);
    return draw_words(trial, input, spaces.text, said, use) + 4 < spaces.text.low.y;
  };
  // Where the column is too short for all, tolerances are left to the general sheet; then what others
  // bring to the erection sheets.
  if (too_long()) said.erase(said.begin() + tolerance_place);
  if (said.back() == nominal_parts && too_long()) said.pop_back();
  const double y = draw_words(board, input, spaces.text, said, use);
  list_details(board, plan, spaces.text, y, rows);
}

}  // namespace

std::vector<std::vector<Detail>> arrange_details(const SetInput& input) {
  std::vector<std::vector<Detail>> out;
  for (const Rows& sheet : packed(input)) {
    out.emplace_back();
    for (const Row& row : sheet)
      for (const Sized& s : row) out.back().push_back(s.detail);
  }
  return out;
}

paper::Sheet draw_details(const SetInput& input, const SetPlan& plan, std::size_t index) {
  paper::Sheet sheet = blank_sheet(input, plan.sheets[index]);
  Board board(sheet, input.style, input.lettering);
  const Spaces spaces = furnish(board, input, plan, index, "as shown");
  const auto sheets = packed(input);
  const auto& rows = sheets[static_cast<std::size_t>(plan.sheets[index].subject)];
  DetailUse use;
  draw_rows(board, input, plan, rows, use);
  draw_column(board, input, plan, spaces, rows, use);
  return sheet;
}

}  // namespace deckquire::sheets
