#include "sheets/title_block.h"

#include <algorithm>

#include "sheets/furniture.h"
#include "sheets/revision_block.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PenUse;
using paper::Stand;
using paper::TitleField;

constexpr double pad = 1.5;  // between a rule and letters

// ---- names in templates

std::string party_value(const Project& project, const std::string& name) {
  const std::string contact = ".contact";
  const bool wants_contact = name.size() > contact.size() && name.ends_with(contact);
  const std::string role = wants_contact ? name.substr(0, name.size() - contact.size()) : name;
  for (const Party& p : project.parties)
    if (p.role == role) return wants_contact ? p.contact : p.name;
  return "";
}

const Revision* named_by(const BlockContext& c) {
  return c.measuring ? first_issued(c.input)
                     : own_revision(c.input, c.plan.sheets[c.index].number);
}

/// The status that the room of all later ones is measured with: the first one's, as it was issued.
std::string first_status(const SetInput& input) {
  if (input.history)
    for (const history::Entry& e : input.history->issued.entries)
      if (e.issue) return e.issue->status;
  return input.project.revisions.back().status;
}

std::string revision_value(const BlockContext& c, const std::string& name) {
  const Revision* r = named_by(c);
  if (r == nullptr) return "";
  if (name == "id") return r->id;
  if (name == "date") return r->date;
  if (name == "by") return r->by;
  if (name == "checked") return r->checked;
  // What the set may be used for holds for every sheet of it.
  if (name == "status")
    return c.measuring ? first_status(c.input) : c.input.project.revisions.back().status;
  return name == "text" ? r->text : "{revision." + name + "}";
}

std::string sheet_size(const paper::Style& style) {
  std::string size = style.name;
  std::transform(size.begin(), size.end(), size.begin(),
                 [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
  return size;
}

std::string sheet_value(const BlockContext& c, const std::string& name) {
  const SheetPlan& sheet = c.plan.sheets[c.index];
  if (name == "number") return sheet.number;
  if (name == "title") return sheet.title;
  if (name == "index") return std::to_string(c.index + 1);
  if (name == "count") return std::to_string(c.plan.sheets.size());
  if (name == "scale") return c.scale;
  return name == "size" ? sheet_size(c.input.style) : "{sheet." + name + "}";
}

std::string named_value(const BlockContext& c, const std::string& name) {
  const Project& p = c.input.project;
  if (name == "project.title") return p.title;
  if (name == "project.number") return p.number;
  if (name == "bridge.name") return p.bridge.name;
  if (name == "bridge.structure") return p.bridge.structure;
  if (name == "bridge.location") return p.bridge.location;
  if (name == "units")
    return p.units == UnitSystem::metric ? "mm, levels in m" : "ft-in, levels in ft";
  if (name.starts_with("party.")) return party_value(p, name.substr(6));
  if (name.starts_with("revision.")) return revision_value(c, name.substr(9));
  if (name.starts_with("sheet.")) return sheet_value(c, name.substr(6));
  return "{" + name + "}";
}

// ---- fields

// How a value is lettered: the first choice that fits in its number of lines.
struct Lettered {
  LetterUse use = LetterUse::caption;
  std::vector<std::string> lines;
};

std::vector<LetterUse> choices(const TitleField& field) {
  if (field.value.find("{sheet.number}") != std::string::npos)
    return {LetterUse::sheet_number, LetterUse::sheet_title, LetterUse::heading, LetterUse::note};
  if (field.large)
    return {LetterUse::sheet_title, LetterUse::heading, LetterUse::note, LetterUse::caption};
  return {LetterUse::heading, LetterUse::note, LetterUse::caption};
}

// The field that holds no words but the symbol of the projection.
bool is_symbol(const TitleField& field) {
  return field.value == "{projection}";
}

Lettered letter(const Board& board, const TitleField& field, const std::string& value,
                double width) {
  const auto uses = choices(field);
  if (is_symbol(field)) return {uses.front(), {""}};
  Lettered last;
  for (std::size_t lines : {std::size_t{1}, std::size_t{2}, std::size_t{9}})
    for (LetterUse use : uses) {
      last = {use, board.broken(use, width, value)};
      if (last.lines.size() <= lines) return last;
    }
  return last;
}

double field_height(const Board& board, const Lettered& l) {
  const double caption = board.text_height(LetterUse::caption);
  const double lines = static_cast<double>(l.lines.size());
  return 3 * pad + caption + board.text_height(l.use) + (lines - 1) * board.pitch(l.use) + 0.5;
}

struct Row {
  std::vector<const TitleField*> fields;
  double shares = 0;
};

std::vector<Row> rows_of(const std::vector<TitleField>& fields) {
  std::vector<Row> rows;
  for (const TitleField& f : fields) {
    const auto at = static_cast<std::size_t>(std::max(0, f.row));
    if (rows.size() <= at) rows.resize(at + 1);
    rows[at].fields.push_back(&f);
    rows[at].shares += f.width > 0 ? f.width : 1;
  }
  return rows;
}

double field_width(const Row& row, const TitleField& f, double whole) {
  return whole * (f.width > 0 ? f.width : 1) / row.shares;
}

bool depends_on_sheet(const TitleField& f) {
  return f.value.find("{sheet.") != std::string::npos;
}

/// Its value may change while all that is drawn on the sheet stays.
bool names_revision(const TitleField& f) {
  for (const char* name : {"{revision.", "{sheet.index}", "{sheet.count}"})
    if (f.value.find(name) != std::string::npos) return true;
  return false;
}

// The tallest that any sheet of the set needs, so that the block is the same on all.
double row_height(const Board& board, const BlockContext& c, const Row& row, double whole) {
  double height = 0;
  for (const TitleField* f : row.fields) {
    const double width = field_width(row, *f, whole) - 2 * pad;
    BlockContext other = c;
    other.measuring = true;
    const std::size_t first = depends_on_sheet(*f) ? 0 : c.index;
    const std::size_t last = depends_on_sheet(*f) ? c.plan.sheets.size() - 1 : c.index;
    for (other.index = first; other.index <= last; ++other.index) {
      const auto l = letter(board, *f, fill_template(other, f->value), width);
      height = std::max(height, field_height(board, l));
    }
  }
  return height;
}

// As many words of a caption as its field has room for.
std::string short_caption(const Board& board, std::string caption, double width) {
  while (board.text_width(LetterUse::caption, caption) > width) {
    const auto space = caption.find_last_of(' ');
    if (space == std::string::npos) break;
    caption.resize(space);
    while (!caption.empty() && caption.back() == ',') caption.pop_back();
  }
  return caption;
}

// The symbol of ISO 5456-2 (proportions from memory): a frustum, h and 2 h across and 2 h long,
// seen from the side and on its small end. In the third angle the view on the small end stands
// beside that end, in the first angle beyond the other one.
void draw_projection(Board& board, const PaperBox& box) {
  const double gap = 0.5, across = std::min(box.height(), (box.width() - gap) / 2.2);
  const double h = across / 2, y = box.centre().y;
  const bool third = board.style().projection == paper::Projection::third;
  const double rings = box.low.x + (third ? h : 2 * h + gap + h + 0.2 * h);
  const double small = box.low.x + (third ? 2 * h + gap + 0.2 * h : 0.0), large = small + 2 * h;
  paper::Path side, end;
  side.polygon({{small, y - h / 2}, {large, y - h}, {large, y + h}, {small, y + h / 2}});
  end.circle({rings, y}, h / 2);
  end.circle({rings, y}, h);
  board.stroke(PenUse::thin, side);
  board.stroke(PenUse::thin, end);
  board.line(PenUse::table, {small - 0.2 * h, y}, {large + 0.2 * h, y});
  board.line(PenUse::table, {rings - h, y}, {rings + h, y});
  board.line(PenUse::table, {rings, y - h}, {rings, y + h});
}

/// A value that the first issue's room is too low for: smaller, then on as many lines as there are.
Lettered letter_within(const Board& board, const TitleField& f, const std::string& value,
                       const PaperBox& box) {
  Lettered l = letter(board, f, value, box.width() - 2 * pad);
  if (field_height(board, l) <= box.height() + 0.01) return l;
  for (LetterUse use : choices(f)) {
    l = {use, board.broken(use, box.width() - 2 * pad, value)};
    if (field_height(board, l) <= box.height() + 0.01) return l;
  }
  while (l.lines.size() > 1 && field_height(board, l) > box.height() + 0.01) l.lines.pop_back();
  return l;
}

void draw_field(Board& board, const BlockContext& c, const TitleField& f, const PaperBox& box) {
  const double caption = board.text_height(LetterUse::caption);
  board.text(LetterUse::caption, {box.low.x + pad, box.high.y - pad},
             short_caption(board, f.caption, box.width() - pad), Align::left, Stand::top, true,
             paper::Ink::grey);
  if (is_symbol(f))
    return draw_projection(board, {{box.low.x + pad, box.low.y + 0.8},
                                   {box.high.x - pad, box.high.y - 1.4 * pad - caption}});
  const std::string value = fill_template(c, f.value);
  const Lettered l = c.input.history ? letter_within(board, f, value, box)
                                     : letter(board, f, value, box.width() - 2 * pad);
  double y = box.high.y - 2 * pad - caption - 0.5;
  for (const auto& line : l.lines) {
    board.text(l.use, {box.low.x + pad, y}, line, Align::left, Stand::top);
    y -= board.pitch(l.use);
  }
}

/// Draws what names the revision, and notes its items and its room on the sheet.
template <class Draw>
void note_revision(Board& board, const PaperBox& box, Draw draw) {
  const std::size_t first = board.sheet().items.size();
  draw();
  board.sheet().revision_items.push_back({first, board.sheet().items.size() - first, box});
}

void draw_stamp(Board& board, const PaperBox& box) {
  {
    const paper::Group group(board, "", "stamp", "Space for the reviewer's stamp");
    board.box(PenUse::table, box);
  }
  board.text(LetterUse::caption, {box.low.x, box.high.y + pad}, "Reviewer's stamp", Align::left,
             Stand::base, true, paper::Ink::grey);
}

}  // namespace

std::string fill_template(const BlockContext& c, const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const auto end = text[i] == '{' ? text.find('}', i) : std::string::npos;
    if (end == std::string::npos) {
      out += text[i++];
      continue;
    }
    out += named_value(c, text.substr(i + 1, end - i - 1));
    i = end + 1;
  }
  const auto first = out.find_first_not_of(" ,");
  if (first == std::string::npos) return "not stated";
  return out.substr(first, out.find_last_not_of(" ,") - first + 1);
}

double title_block_height(const Board& board, const BlockContext& c) {
  double height = 0;
  for (const Row& row : rows_of(board.style().title_fields))
    height += row_height(board, c, row, board.style().text_column);
  return height;
}

void draw_title_block(Board& board, const BlockContext& c, const PaperBox& box) {
  paper::Group group(board, "title-block", "title-block");
  double y = box.high.y;
  for (const Row& row : rows_of(board.style().title_fields)) {
    const double height = row_height(board, c, row, box.width());
    board.line(PenUse::table_heavy, {box.low.x, y}, {box.high.x, y});
    double x = box.low.x;
    for (const TitleField* f : row.fields) {
      const double width = field_width(row, *f, box.width());
      if (x > box.low.x + 0.1) board.line(PenUse::table, {x, y}, {x, y - height});
      const PaperBox room{{x, y - height}, {x + width, y}};
      if (names_revision(*f))
        note_revision(board, room, [&] { draw_field(board, c, *f, room); });
      else
        draw_field(board, c, *f, room);
      x += width;
    }
    y -= height;
  }
}

double draw_stamp_and_revisions(Board& board, const BlockContext& c, double y) {
  const auto& style = board.style();
  const PaperBox column = style.text_space();
  const double gap = style.gap, caption = board.text_height(LetterUse::caption) + 2 * pad;
  const PaperBox stamp{{column.high.x - gap - style.stamp_width, y + gap},
                       {column.high.x - gap, y + gap + style.stamp_height}};
  draw_stamp(board, stamp);
  const std::string& sheet = c.plan.sheets[c.index].number;
  const auto draw = [&](const PaperBox& room) {
    note_revision(board, room, [&] { draw_revisions(board, c.input, sheet, room); });
    return room.high.y + gap;
  };
  // The room is that of the first issue: what later ones say moves nothing on the sheet.
  const double beside = stamp.low.x - column.low.x - 2 * gap;
  const double above = stamp.high.y + caption;
  // As much as its rows need unbroken, else it takes the whole width above the stamp.
  const PaperBox narrow{{column.low.x + gap, stamp.low.y}, {column.low.x + gap + beside, above}};
  if (beside >= 29 * style.letters_of(LetterUse::table) && first_revision_fits(board, c.input, narrow))
    return draw(narrow);
  PaperBox wide{{column.low.x + gap, above + gap},
                {column.high.x - gap, above + gap + 5.5 * style.compact_row_height}};
  while (!first_revision_fits(board, c.input, wide) && wide.height() < 0.2 * style.height)
    wide.high.y += style.compact_row_height;
  return draw(wide);
}

void name_revision(paper::Sheet& sheet, const SetInput& input, const SetPlan& plan,
                   std::size_t index) {
  const Revision* own = own_revision(input, sheet.number);
  sheet.revision = own ? own->id : "";
  const BlockContext c{input, plan, index, ""};
  std::vector<const TitleField*> fields;
  for (const Row& row : rows_of(input.style.title_fields))
    for (const TitleField* f : row.fields)
      if (names_revision(*f)) fields.push_back(f);
  const auto old = std::move(sheet.revision_items);
  const auto items = std::move(sheet.items);
  sheet.items.clear();
  sheet.revision_items.clear();
  Board board(sheet, input.style, input.lettering);
  std::size_t next = 0;
  for (std::size_t k = 0; k < old.size(); ++k) {
    const auto at = [&](std::size_t i) { return items.begin() + static_cast<std::ptrdiff_t>(i); };
    sheet.items.insert(sheet.items.end(), at(next), at(old[k].first));
    next = old[k].first + old[k].count;
    note_revision(board, old[k].box, [&] {
      // The fields come in their order, the revision block after them.
      k < fields.size() ? draw_field(board, c, *fields[k], old[k].box)
                        : draw_revisions(board, input, sheet.number, old[k].box);
    });
  }
  sheet.items.insert(sheet.items.end(), items.begin() + static_cast<std::ptrdiff_t>(next),
                     items.end());
}

}  // namespace deckquire::sheets
