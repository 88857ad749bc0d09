// The text column of a panel sheet, and what spills over from it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "schedules/schedules.h"
#include "sheets/calculation_sheet.h"
#include "sheets/panel_parts.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::Group;
using paper::LetterUse;
using paper::PaperBox;
using paper::Stand;
using paper::TableData;
using Piece = PanelText::Piece;

double heading(Board& board, const PaperBox& box, const std::string& words) {
  board.text(LetterUse::heading, {box.low.x, box.high.y}, words, Align::left, Stand::top);
  return box.high.y - board.pitch(LetterUse::heading) - 0.5;
}

// ---- facts

struct Fact {
  std::string name, value, target;
};

std::string lie_counts(const PanelJob& job) {
  int turned = 0;
  for (int i : job.mark.positions)
    turned += job.input.deck.panels[static_cast<std::size_t>(i)].turned;
  return fmt::format("{} ({} as drawn, {} turned end for end)", job.mark.quantity,
                     job.mark.quantity - turned, turned);
}

void hand_facts(const PanelJob& job, std::vector<Fact>& out) {
  const auto& marks = job.input.deck.marks;
  if (job.mark.opposite_of >= 0) {
    const auto of = static_cast<std::size_t>(job.mark.opposite_of);
    const std::string sheet = job.plan.panel_sheet(job.mark.opposite_of);
    out.push_back(
        {"Opposite hand of",
         fmt::format("{} (sheet {}), {} required", marks[of].name, sheet, marks[of].quantity),
         sheet});
  }
  for (std::size_t i = 0; i < marks.size(); ++i)
    if (marks[i].opposite_of == job.index()) {
      const std::string sheet = job.plan.panel_sheet(static_cast<int>(i));
      out.push_back(
          {"Opposite hand",
           fmt::format("{} (sheet {}), {} required", marks[i].name, sheet, marks[i].quantity),
           sheet});
    }
}

std::string diagonals(const PanelJob& job) {
  const Corners c = corners_of(job.shape());
  const auto between = [&](PanelPoint a, PanelPoint b) {
    return job.print(std::hypot(b.x - a.x, b.y - a.y));
  };
  const std::string one = between(c.back_right, c.ahead_left);
  const std::string other = between(c.back_left, c.ahead_right);
  if (datum_on_left(job.shape()))
    return fmt::format("0,0 to ahead right ({}); back right to ahead left ({})", other, one);
  return fmt::format("0,0 to ahead left ({}); back left to ahead right ({})", one, other);
}

/// Where both ends are parallel the length is the same on every line along the panel.
std::string length_words(const PanelJob& job) {
  const PanelShape& s = job.shape();
  const std::string length = job.print(s.length);
  if (std::abs(s.back_slope - s.ahead_slope) < 1e-6) return length;
  const bool inside = s.left_back > -0.5 && s.right_back < 0.5;
  return length + (inside ? " on the chord" : " on the chord, which lies beside this panel");
}

std::string widths(const PanelJob& job) {
  const PanelShape& s = job.shape();
  const double back = s.left_back - s.right_back, ahead = s.left_ahead - s.right_ahead;
  if (!s.square()) {
    const auto [one, other] = face_widths(s);
    return fmt::format("{} along the back end, {} along the ahead end", job.print(one),
                       job.print(other));
  }
  if (std::abs(back - ahead) < 0.5) return job.print(back);
  return fmt::format("{} at the back, {} ahead", job.print(back), job.print(ahead));
}

std::string surface_words(const PanelJob& job) {
  if (job.shape().surface < 0) return "none";
  const SurfaceData& d = job.deck.surfaces[static_cast<std::size_t>(job.shape().surface)];
  return fmt::format("{}, {} thick{}, {} set back from ends and curbs", d.trade_class,
                     print_length(d.thickness, job.units()),
                     d.colour.empty() ? "" : ", " + d.colour, print_length(d.stop, job.units()));
}

/// Depth of the panel where it is deepest.
double greatest_depth(const PanelShape& s) {
  const double low = std::min(s.right_back, s.right_ahead),
               high = std::max(s.left_back, s.left_ahead);
  return s.top(std::clamp(s.high_line, low, high));
}

/// What the edges are and how far they leave the curve of the deck.
std::vector<Fact> edge_facts(const PanelJob& job) {
  std::vector<Fact> out;
  const std::string form = form_words(job);
  if (!form.empty()) out.push_back({"Form", form, ""});
  const auto [left, right] = chord_offsets(job);
  if (std::max(left, right) >= 0.5)
    out.push_back(
        {"Edges",
         fmt::format(
             "straight from corner to corner; the deck's curve leaves them by at most {} on "
             "the left, {} on the right",
             job.print(left), job.print(right)),
         ""});
  return out;
}

std::vector<Fact> facts(const PanelJob& job) {
  const Mark& m = job.mark;
  const bool metric = job.units() == UnitSystem::metric;
  const char* mass = metric ? "kg" : "lb";
  const auto& masses = m.masses;
  std::vector<Fact> out{{"Number required", lie_counts(job), ""}};
  hand_facts(job, out);
  out.push_back(
      {"Size",
       fmt::format("length {}, width {}, depth {}, top area {}{}", length_words(job), widths(job),
                   job.print(greatest_depth(job.shape())), print_area(masses.top_area, job.units()),
                   metric ? " m\u00b2" : " sq ft"),
       ""});
  out.push_back({"Diagonals", diagonals(job), ""});
  for (Fact& f : edge_facts(job)) out.push_back(std::move(f));
  out.push_back({"Mass of one",
                 fmt::format("{} {}; of all {} {}", print_mass(masses.total, job.units()), mass,
                             print_mass(masses.total * double(m.quantity), job.units()), mass),
                 ""});
  out.push_back({"Centre of gravity",
                 fmt::format("x {}, y {}, {} above soffit", job.print(job.along(masses.x)),
                             job.print(job.aside(masses.y)), job.print(masses.z)),
                 ""});
  const auto inserts =
      std::count_if(m.shape.features.begin(), m.shape.features.end(),
                    [](const Feature& f) { return f.kind == FeatureKind::lifting_insert; });
  if (inserts > 0)
    out.push_back({"Lifting",
                   fmt::format("by all {} inserts {} only; see the caution, note 1", inserts,
                               job.deck.lifting.thread),
                   ""});
  const int mark = static_cast<int>(&m - job.input.deck.marks.data());
  out.push_back({"Calculated", calculations_of_mark(job.input, job.plan, mark), ""});
  out.push_back({"Wearing surface", surface_words(job), ""});
  out.push_back({"Ends",
                 fmt::format("back: {}; ahead: {}", end_words(job, true), end_words(job, false)),
                 ""});
  return out;
}

double draw_facts(Board& board, const PanelJob& job, const PaperBox& box) {
  const std::vector<Fact> list = facts(job);
  double name = 0;
  for (const Fact& f : list) name = std::max(name, board.text_width(LetterUse::note, f.name));
  double y = box.high.y;
  for (const Fact& f : list) {
    std::optional<Group> link;
    if (!f.target.empty()) link.emplace(board, "", "link", f.value, f.target);
    board.text(LetterUse::note, {box.low.x, y}, f.name, Align::left, Stand::top);
    y = board.paragraph(LetterUse::note, {box.low.x + name + 3, y}, box.width() - name - 3,
                        f.value);
  }
  return y;
}

// ---- where used

struct Use {
  std::string text, target;
};

/// One entry a run of neighbours that lie the same way, or a panel.
std::vector<Use> uses(const PanelJob& job, bool in_runs) {
  std::vector<Use> out;
  const auto panel = [&](std::size_t i) -> const Panel& {
    return job.input.deck.panels[static_cast<std::size_t>(job.mark.positions[i])];
  };
  for (std::size_t i = 0; i < job.mark.positions.size();) {
    std::size_t last = i;
    while (in_runs && last + 1 < job.mark.positions.size() &&
           counts_on(panel(last), panel(last + 1)) &&
           panel(last + 1).turned == panel(i).turned)
      ++last;
    const Panel &p = panel(i), &q = panel(last);
    const std::string& sheet = job.plan.erection_sheet(job.mark.positions[i]);
    const std::string turned = p.turned ? "  turned" : "";
    out.push_back({last == i ? fmt::format("{}  {}{}", p.position, p.serial, turned)
                             : fmt::format("{} to {}  {} to {}{}", p.position, q.position, p.serial,
                                           q.serial, turned),
                   sheet.empty() ? "" : fmt::format("{}#panel-{}", sheet, p.position)});
    i = last + 1;
  }
  return out;
}

/// More than that no shop reads on a panel's own sheet: the tables list them.
constexpr std::size_t most_listed = 24, most_runs = 36;

double draw_uses(Board& board, const PanelJob& job, const PaperBox& box) {
  double y = heading(board, box, "WHERE USED: POSITION, SERIAL, HOW IT LIES");
  const std::size_t n = job.mark.positions.size();
  const std::vector<Use> list = uses(job, n > most_listed);
  if (list.size() > most_runs) {
    std::vector<int> at;
    for (int i : job.mark.positions)
      at.push_back(job.input.deck.panels[static_cast<std::size_t>(i)].position);
    return board.paragraph(
        LetterUse::table, {box.low.x, y}, box.width(),
        fmt::format("{} panels from position {} to {}; each is listed in the tables of positions.",
                    n, *std::min_element(at.begin(), at.end()), *std::max_element(at.begin(), at.end())));
  }
  double widest = 1;
  for (const Use& u : list) widest = std::max(widest, board.text_width(LetterUse::table, u.text));
  const auto columns = static_cast<std::size_t>(std::max(1.0, box.width() / (widest + 5)));
  for (std::size_t i = 0; i < list.size(); ++i) {
    const double x = box.low.x + double(i % columns) * (widest + 5);
    std::optional<Group> link;
    if (!list[i].target.empty())
      link.emplace(board, "", "link", "Position on the erection plan", list[i].target);
    board.text(LetterUse::table, {x, y}, list[i].text, Align::left, Stand::top);
    if (i % columns == columns - 1 || i + 1 == list.size()) y -= board.pitch(LetterUse::table);
  }
  return y;
}

// ---- tables

double draw_whole(Board& board, const TableData& table, const PaperBox& box) {
  const double height = board.style().compact_row_height;
  return paper::draw_table(board, table, {box.low.x, box.high.y}, box.width(), height,
                           LetterUse::table, 0, table.rows.size());
}

/// As many groups of label, x, y side by side as the width takes.
TableData fitted_places(const Board& board, const PanelJob& job, double width) {
  for (int groups = 5; groups > 1; --groups) {
    const TableData t = hole_places(job, groups);
    double sum = 0;
    for (double w : paper::column_widths(board, t, LetterUse::table)) sum += w;
    if (sum <= width) return t;
  }
  return hole_places(job, 1);
}

TableData bill(const PanelJob& job) {
  TableData t =
      printed(bill_of_materials(job.input.project, job.input.deck, job.index()), job.units());
  t.title = fmt::format("MATERIALS FOR ONE AND FOR ALL {}", job.mark.quantity);
  return t;
}

/// Numbered notes from `first` on as far as `last`.
double draw_notes(Board& board, const PaperBox& box, const std::vector<std::string>& list,
                  std::size_t first, std::size_t last) {
  double y = heading(board, box, fmt::format("NOTES {} TO {}", first + 1, last));
  const double indent = board.text_width(LetterUse::note, "9") + 2.5;
  for (std::size_t i = first; i < last; ++i) {
    board.text(LetterUse::note, {box.low.x, y}, std::to_string(i + 1), Align::left, Stand::top);
    y = board.paragraph(LetterUse::note, {box.low.x + indent, y}, box.width() - indent, list[i]);
  }
  return y;
}

/// The notes of several marks as one list: where they differ each says whose it is.
std::vector<std::string> shared_notes(const std::vector<PanelJob>& jobs) {
  std::vector<std::string> out = panel_notes(jobs.front());
  for (std::size_t i = 0; i < out.size(); ++i) {
    std::vector<std::string> each;
    bool same = true;
    for (const PanelJob& job : jobs) {
      const std::string note = panel_notes(job)[i];
      same = same && note == out[i];
      each.push_back(job.mark.name + ": " + note);
    }
    if (!same) out[i] = join(each, " ");
  }
  return out;
}

// ---- arrangement

using Draw = std::function<double(Board&, const PaperBox&)>;

/// What a mark's sheet says of it at its head.
std::vector<Draw> head_pieces(const PanelJob& job) {
  return {[&job](Board& b, const PaperBox& box) { return purpose(b, box, panel_purpose(job)); },
          [&job](Board& b, const PaperBox& box) { return draw_facts(b, job, box); }};
}

std::vector<Draw> table_pieces(const PanelJob& job) {
  std::vector<Draw> out;
  if (outline_by_table(job.shape()))
    out.push_back(
        [&job](Board& b, const PaperBox& box) { return draw_whole(b, outline_table(job), box); });
  if (!job.items.empty())
    out.push_back(
        [&job](Board& b, const PaperBox& box) { return draw_whole(b, feature_table(job), box); });
  if (!job.mark.holes.empty()) {
    out.push_back(
        [&job](Board& b, const PaperBox& box) { return draw_whole(b, hole_kinds(job), box); });
    out.push_back([&job](Board& b, const PaperBox& box) {
      return draw_whole(b, fitted_places(b, job, box.width()), box);
    });
  }
  out.push_back([&job](Board& b, const PaperBox& box) { return draw_whole(b, bill(job), box); });
  out.push_back([&job](Board& b, const PaperBox& box) { return draw_uses(b, job, box); });
  return out;
}

std::vector<Draw> all_pieces(const PanelJob& job) {
  std::vector<Draw> out = head_pieces(job);
  for (Draw& d : table_pieces(job)) out.push_back(std::move(d));
  // In two halves, so that less spills over.
  for (const bool first : {true, false})
    out.push_back([&job, first](Board& b, const PaperBox& box) {
      const std::vector<std::string> list = panel_notes(job);
      const std::size_t half = list.size() / 2;
      return draw_notes(b, box, list, first ? 0 : half, first ? half : list.size());
    });
  return out;
}

double measured(const Board& board, const Draw& draw, double width) {
  paper::Sheet scratch;
  Board on(scratch, board.style(), board.lettering());
  return -draw(on, {{0, -1000}, {width, 0}});
}

/// One column being filled from the top.
struct Column {
  double x = 0, top = 0, low = 0;
  double used = 0;

  bool takes(double height) const { return used + height <= top - low; }
  PaperBox take(double height, double width, double gap) {
    const PaperBox box{{x, top - used - height}, {x + width, top - used}};
    used += height + gap;
    return box;
  }
};

/// Where the tables are that this sheet has no room for.
Draw reference_to_second(const PanelJob& job) {
  return [&job](Board& b, const PaperBox& box) {
    const std::string sheet = job.own.number + (job.own.part ? "-3" : "-2");
    const Group link(b, "", "link", "Second sheet of this mark", sheet);
    return b.paragraph(LetterUse::heading, {box.low.x, box.high.y}, box.width(),
                       "FURTHER TABLES, MATERIALS AND NOTES: SHEET " + sheet);
  };
}

/// What the text column takes, and the pieces left over in their order.
PanelText fill_text_column(const Board& board, const PanelJob& job, const Spaces& spaces,
                           std::vector<Draw>& left_over) {
  const double gap = board.style().gap, width = spaces.text.width();
  PanelText out;
  Column column{spaces.text.low.x, spaces.text.high.y, spaces.text.low.y, 0};
  std::vector<Draw> list = all_pieces(job);
  if (second_panel_sheet(board.style())) list.insert(list.begin() + 1, reference_to_second(job));
  for (Draw& draw : list) {
    const double height = measured(board, draw, width);
    if (column.takes(height))
      out.pieces.push_back({std::move(draw), column.take(height, width, gap)});
    else
      left_over.push_back(std::move(draw));
  }
  return out;
}

std::vector<double> heights_of(const Board& board, const std::vector<Draw>& list, double width) {
  std::vector<double> out;
  for (const Draw& draw : list) out.push_back(measured(board, draw, width));
  return out;
}

/// Columns beside one another as high as `room`, filled in order; where each piece goes.
std::vector<std::pair<std::size_t, PaperBox>> stack(const std::vector<double>& heights,
                                                    double width, double gap, double room,
                                                    std::vector<Column>& columns) {
  std::vector<std::pair<std::size_t, PaperBox>> out;
  for (double height : heights) {
    auto at = std::find_if(columns.begin(), columns.end(),
                           [&](const Column& c) { return c.takes(height); });
    if (at == columns.end()) at = columns.insert(columns.end(), Column{0, 0, -room, 0});
    const auto index = static_cast<std::size_t>(at - columns.begin());
    out.emplace_back(index, at->take(height, width, gap));
  }
  return out;
}

}  // namespace

PanelText arrange_panel_text(const Board& board, const PanelJob& job, const Spaces& spaces,
                             double share) {
  const double gap = board.style().gap, width = spaces.text.width();
  std::vector<Draw> left_over;
  PanelText out = fill_text_column(board, job, spaces, left_over);
  if (left_over.empty() || second_panel_sheet(board.style())) return out;
  std::vector<Column> columns;
  const auto places = stack(heights_of(board, left_over, width), width, gap,
                            share * spaces.drawing.height() - 2 * gap, columns);
  for (const Column& c : columns) out.corner.y = std::max(out.corner.y, c.used + gap);
  out.corner.x = double(columns.size()) * (width + 2 * gap);
  const double top = spaces.drawing.low.y + out.corner.y - gap;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto& [column, box] = places[i];
    const double x = spaces.drawing.high.x - double(column + 1) * (width + 2 * gap) + gap;
    out.pieces.push_back(
        {std::move(left_over[i]), {{x, box.low.y + top}, {x + width, box.high.y + top}}});
  }
  return out;
}

SharedColumn arrange_shared_column(const Board& board, const std::vector<PanelJob>& jobs,
                                   const Spaces& spaces) {
  std::vector<Draw> list;
  for (const PanelJob& job : jobs)
    for (Draw& d : head_pieces(job)) list.push_back(std::move(d));
  list.push_back([&jobs](Board& b, const PaperBox& box) {
    const std::vector<std::string> notes = shared_notes(jobs);
    return draw_notes(b, box, notes, 0, notes.size());
  });
  SharedColumn out{{}, true};
  Column column{spaces.text.low.x, spaces.text.high.y, spaces.text.low.y, 0};
  for (Draw& draw : list) {
    const double width = spaces.text.width(), height = measured(board, draw, width);
    out.fits = out.fits && column.takes(height);
    out.text.pieces.push_back({std::move(draw), column.take(height, width, board.style().gap)});
  }
  return out;
}

std::vector<PanelText> ways_to_stand_tables(const Board& board, const PanelJob& job,
                                            const PaperBox& part) {
  constexpr double narrowest = 100, step = 4;  // paper mm
  const double gap = board.style().gap, widest = board.style().text_space().width() - 2 * gap;
  std::vector<PanelText> out;
  for (std::size_t n = 1; n <= 3; ++n) {
    const double width = std::min(widest, part.width() / double(n) - 2 * gap);
    if (width < narrowest) break;
    std::vector<Draw> list = table_pieces(job);
    const std::vector<double> heights = heights_of(board, list, width);
    std::vector<Column> columns;
    std::vector<std::pair<std::size_t, PaperBox>> places;
    for (double room = step; room < part.height(); room += step) {
      columns.clear();
      places = stack(heights, width, gap, room, columns);
      if (columns.size() <= n) break;
    }
    PanelText text;
    for (const Column& c : columns) text.corner.y = std::max(text.corner.y, c.used + gap);
    text.corner.x = double(columns.size()) * (width + 2 * gap);
    for (std::size_t i = 0; i < places.size(); ++i) {
      const auto& [column, box] = places[i];
      const double x = part.high.x - double(columns.size() - column) * (width + 2 * gap) + gap;
      const double top = part.low.y + text.corner.y - gap;
      text.pieces.push_back(
          {std::move(list[i]), {{x, box.low.y + top}, {x + width, box.high.y + top}}});
    }
    if (columns.size() <= n) out.push_back(std::move(text));
  }
  return out;
}

PanelText arrange_second_sheet(const Board& board, const PanelJob& job, const Spaces& spaces) {
  const double gap = board.style().gap;
  std::vector<Draw> left_over;
  fill_text_column(board, job, spaces, left_over);
  PanelText out;
  const double width = (spaces.drawing.width() - 6 * gap) / 2;
  const double room = spaces.drawing.height() - 4 * gap;
  std::vector<Column> columns;
  const auto places = stack(heights_of(board, left_over, width), width, gap, room, columns);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto& [column, box] = places[i];
    const double x = spaces.drawing.low.x + 2 * gap + double(column) * (width + 2 * gap);
    const double top = spaces.drawing.high.y - 2 * gap;
    out.pieces.push_back(
        {std::move(left_over[i]), {{x, box.low.y + top}, {x + width, box.high.y + top}}});
  }
  return out;
}

}  // namespace deckquire::sheets
