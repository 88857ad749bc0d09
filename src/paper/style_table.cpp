#include "paper/style_table.h"

namespace deckquire::paper {

const std::vector<NumberRow>& number_rows() {
  static const std::vector<NumberRow> rows = {
      {"paper", "width", &Style::width, 100, 5000, "trimmed width of the sheet"},
      {"paper", "height", &Style::height, 100, 5000, "trimmed height of the sheet"},
      {"paper", "margin-left", &Style::margin_left, 5, 100,
       "from the trimmed edge to the frame, filing side"},
      {"paper", "margin", &Style::margin, 5, 100,
       "from the trimmed edge to the frame, other sides"},
      {"paper", "zone", &Style::zone, 0, 200, "length of a reference field; 0: none"},
      {"layout", "text-column", &Style::text_column, 80, 400,
       "width of the text space at the right"},
      {"layout", "gap", &Style::gap, 1, 30, "air between neighbours"},
      {"layout", "stamp-width", &Style::stamp_width, 0, 300,
       "clear space for the reviewer's stamp"},
      {"layout", "stamp-height", &Style::stamp_height, 0, 300,
       "clear space for the reviewer's stamp"},
      {"letters", "least-height", &Style::least_height, 1.8, 10, "of any letters on a sheet"},
      {"dimensions", "terminator-size", &Style::terminator_size, 1, 10,
       "length of a tick or arrow"},
      {"dimensions", "first", &Style::first_dimension, 4, 50, "from the outline to the first line"},
      {"dimensions", "next", &Style::next_dimension, 4, 50, "from one line to the next"},
      {"dimensions", "extension-gap", &Style::extension_gap, 0, 10,
       "from the outline to the extension line"},
      {"dimensions", "extension-over", &Style::extension_over, 0, 10, "past the dimension line"},
      {"tables", "row", &Style::row_height, 3, 20, "row of a table sheet"},
      {"tables", "compact-row", &Style::compact_row_height, 3, 20,
       "row of a table in the text column"},
  };
  return rows;
}

const std::vector<WordRow>& word_rows() {
  static const std::vector<WordRow> rows = {
      {"paper",
       "units",
       {"metric", "imperial"},
       [](const Style& s) { return static_cast<std::size_t>(s.units == UnitSystem::imperial); },
       [](Style& s, std::size_t i) {
         s.units = i == 0 ? UnitSystem::metric : UnitSystem::imperial;
       },
       "of scales and furniture; the project's own rule figures"},
      {"dimensions",
       "terminator",
       {"tick", "arrow"},
       [](const Style& s) { return static_cast<std::size_t>(s.terminator == Terminator::arrow); },
       [](Style& s, std::size_t i) {
         s.terminator = i == 0 ? Terminator::tick : Terminator::arrow;
       },
       "ends of dimension lines"},
      {"revisions",
       "clouds",
       {"newest", "all"},
       [](const Style& s) { return static_cast<std::size_t>(s.keep_clouds); },
       [](Style& s, std::size_t i) { s.keep_clouds = i == 1; },
       "round what the last revision of a sheet changed, or what any did"},
      {"revisions",
       "deltas",
       {"stay", "go"},
       [](const Style& s) { return static_cast<std::size_t>(!s.keep_deltas); },
       [](Style& s, std::size_t i) { s.keep_deltas = i == 0; },
       "of earlier revisions, when their clouds go"},
      {"revisions",
       "redlines",
       {"open", "answered"},
       [](const Style& s) { return static_cast<std::size_t>(s.keep_answered); },
       [](Style& s, std::size_t i) { s.keep_answered = i == 1; },
       "drawn on the sheets: open ones alone, or answered ones too until they are closed"},
  };
  return rows;
}

const std::vector<WholeRow>& whole_rows() {
  static const std::vector<WholeRow> rows = {
      {"tables", "band-every", &Style::band_every, 0, 100,
       "a faint band every so many rows; 0: none"},
  };
  return rows;
}

const std::vector<ItemRow>& item_rows() {
  static const std::vector<ItemRow> rows = {
      {"pen", "of", "name of a pen", "which pen"},
      {"pen", "width", "0.05 to 5 mm", "width of its lines"},
      {"pen", "dash", "lengths in mm, on and off in turn", "dashes; nothing: a solid line"},
      {"pen", "ink", "name of an ink", "its ink"},
      {"letter", "of", "purpose of letters", "which letters"},
      {"letter", "height", "1.8 to 20 mm", "height of capitals"},
      {"ink", "of", "name of an ink", "which ink"},
      {"ink", "colour", "#rrggbb", "its colour; for lines and letters at least 4.5:1 to the paper"},
      {"layer", "of", "name of a layer", "which layer"},
      {"layer", "shown", "yes, no", "no: it is in the file, and not shown unless asked for"},
      {"hatch", "of", "name of a material", "which cut faces"},
      {"hatch", "angle", "0 to 180 degrees", "of the lines"},
      {"hatch", "pitch", "0.5 to 50 mm", "from line to line, or from grain to grain"},
      {"hatch", "second", "0 to 50 mm", "pitch of lines that cross the others; 0: none"},
      {"hatch", "dots", "yes, no", "grains instead of lines"},
      {"hatch", "solid", "yes, no", "filled: for thin faces"},
      {"scale", "ratio", "1 to 100000", "a reduction that drawings may have; in rising order"},
      {"scale", "name", "text", "how it is printed; left out: 1:ratio"},
      {"field", "caption", "text", "small words above the value"},
      {"field", "value", "text with {names}", "what stands in the field"},
      {"field", "width", "0.05 to 1", "share of its row"},
      {"field", "row", "0 to 20", "from the top of the title block"},
      {"field", "large", "yes, no", "in larger letters"},
      {"font", "file", "file name", "a font; the first that has a character is taken"},
  };
  return rows;
}

// Widths: 1:2:4 (0.25, 0.5, 1) and one hairline, after ISO 128-20/-23 line group 0.5. Cut outlines
// take the step between (0.7): at 1 mm they swallow the skins, 1.6 mm thick at 1:5. Dashes: gap
// 3 d, dash 12 d, long dash 24 d, dot 0.5 d of ISO 128-20, shortened for pens of 0.25 so that short
// edges still show two dashes.
const std::vector<PenRow>& pen_rows() {
  static const std::vector<double> solid;
  static const std::vector<PenRow> rows = {
      {PenUse::outline, "outline", 0.5, solid, Ink::black, "visible edges of our panels"},
      {PenUse::cut, "cut", 0.7, solid, Ink::black, "outlines of cut faces"},
      {PenUse::thin, "thin", 0.25, solid, Ink::black, "lesser visible edges, break lines"},
      {PenUse::hidden, "hidden", 0.25, {3, 1}, Ink::black, "edges behind"},
      {PenUse::centre, "centre", 0.25, {6, 1, 0.5, 1}, Ink::black, "axes, hole pitch lines"},
      {PenUse::dimension, "dimension", 0.25, solid, Ink::black, "dimension lines and leaders"},
      {PenUse::hatch, "hatch", 0.13, solid, Ink::black, "hatching of cut faces"},
      {PenUse::stipple, "stipple", 0.25, solid, Ink::grey, "grains of the wearing surface"},
      {PenUse::steel, "steel", 0.25, {6, 1.5}, Ink::black, "steelwork by others, seen"},
      {PenUse::steel_hidden, "steel-hidden", 0.25, {2, 1}, Ink::grey, "steelwork under the deck"},
      {PenUse::ground, "ground", 0.13, solid, Ink::black, "concrete, abutments, ground"},
      {PenUse::grid, "grid", 0.13, solid, Ink::grey, "grids of profiles and diagrams"},
      {PenUse::match, "match", 1.0, {18, 3, 1, 3, 1, 3}, Ink::black, "match lines"},
      {PenUse::feature, "feature", 0.5, solid, Ink::accent, "features of our panels"},
      {PenUse::water, "water", 0.25, solid, Ink::accent, "arrows of the flow of water"},
      {PenUse::mark, "mark", 0.5, solid, Ink::accent, "marks, callout pills, arrows ahead"},
      {PenUse::frame, "frame", 1.0, solid, Ink::black, "frame of the sheet"},
      {PenUse::table, "table", 0.13, solid, Ink::black, "rules of tables"},
      {PenUse::table_heavy, "table-heavy", 0.5, solid, Ink::black, "head and foot rules of tables"},
      {PenUse::revision, "revision", 0.5, solid, Ink::red, "clouds round what changed"},
      {PenUse::neighbour,
       "neighbour",
       0.25,
       {8, 1, 0.5, 1, 0.5, 1},
       Ink::black,
       "repeated part of the neighbouring strip"},
  };
  return rows;
}

// Heights of the ISO 3098 series. Figures, notes and tables 3.5: they survive a half-size print.
const std::vector<LetterRow>& letter_rows() {
  static const std::vector<LetterRow> rows = {
      {LetterUse::cover_title, "cover-title", 10, "title on the cover"},
      {LetterUse::sheet_number, "sheet-number", 7, "number of the sheet"},
      {LetterUse::sheet_title, "sheet-title", 5, "title of the sheet"},
      {LetterUse::view_title, "view-title", 5, "titles under views, section letters"},
      {LetterUse::mark, "mark", 5, "marks of panels on plans"},
      {LetterUse::serial, "serial", 3.5, "serials under the marks"},
      {LetterUse::heading, "heading", 3.5, "headings above tables and notes"},
      {LetterUse::note, "note", 3.5, "notes, in sentences"},
      {LetterUse::dimension, "dimension", 3.5, "figures of dimensions"},
      {LetterUse::table, "table", 3.5, "cells of tables"},
      {LetterUse::table_head, "table-head", 3.5, "heads of tables"},
      {LetterUse::callout, "callout", 3.5, "numbers in pills"},
      {LetterUse::caption, "caption", 2.5, "captions of the title block"},
  };
  return rows;
}

const std::vector<InkRow>& ink_rows() {
  static const std::vector<InkRow> rows = {
      {Ink::black, "black", "#000000", true, "lines and letters"},
      {Ink::accent, "accent", "#0b5660", true, "what the panels carry: features, marks, water"},
      {Ink::red, "red", "#b3231b", true, "revisions and redlines only"},
      {Ink::grey, "grey", "#5c6466", true, "what others supply, grids"},
      {Ink::pale, "pale", "#e6ebeb", false, "bands of tables, parts of key plans"},
      {Ink::white, "white", "#ffffff", false, "paper: masks"},
  };
  return rows;
}

// No standard gives patterns for laminate, core or wearing surface; these are ours, and the legend
// of each sheet shows them.
std::vector<Hatch> default_hatches() {
  return {
      {"laminate", 45, 0.9, 0, false, false},   {"core", 45, 4, 4, false, false},
      {"curb", 135, 1.8, 0, false, false},      {"steel", 45, 1.4, 0, false, false},
      {"concrete", 0, 1.8, 0, true, false},     {"surface", 0, 2.4, 0, true, false},
      {"grout", 0, 1.2, 0, true, false},        {"sealant", 0, 1, 0, false, true},
      {"bearing", 135, 1.6, 1.6, false, false},
  };
}

// Fields of ISO 7200 and what construction owners add to them.
std::vector<TitleField> default_title_fields() {
  return {
      {"Project", "{project.title}", 1, 0, true},
      {"Bridge", "{bridge.name}, {bridge.structure}", 1, 1, false},
      {"Location", "{bridge.location}", 1, 2, false},
      {"Owner", "{party.owner}", 0.5, 3, false},
      {"Designer", "{party.designer}", 0.5, 3, false},
      {"Contractor", "{party.contractor}", 0.5, 4, false},
      {"Made by", "{party.fabricator}, {party.fabricator.contact}", 0.5, 4, false},
      {"Sheet title", "{sheet.title}", 1, 5, true},
      {"Document", "Shop and erection drawing", 0.46, 6, false},
      {"Status", "{revision.status}", 0.35, 6, false},
      {"Projection", "{projection}", 0.19, 6, false},
      {"Drawn", "{revision.by}", 0.25, 7, false},
      {"Checked", "{revision.checked}", 0.25, 7, false},
      {"Date", "{revision.date}", 0.25, 7, false},
      {"Scale", "{sheet.scale}", 0.25, 7, false},
      {"Job", "{project.number}", 0.2, 8, true},
      {"Sheet", "{sheet.number}", 0.25, 8, true},
      {"Revision", "{revision.id}", 0.15, 8, true},
      {"Of", "{sheet.index} / {sheet.count}", 0.2, 8, false},
      {"Units, paper", "{units}; {sheet.size}", 0.2, 8, false},
  };
}

}  // namespace deckquire::paper
