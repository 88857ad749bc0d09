// Blocks of the cover with drawings: how a mark is read, and the legend.
#include <algorithm>

#include "paper/callout.h"
#include "sheets/cover.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;
using paper::Stand;

constexpr double sample = 16;  // width of a legend's sample

double row_of(const Board& board) {
  return std::max(board.style().row_height, 1.9 * board.text_height(LetterUse::note));
}

struct Sample {
  std::string text;
  std::function<void(Board&, const PaperBox&)> draw;
};

// A heading over two columns of samples with their meaning.
Block sample_block(const std::string& heading, std::vector<Sample> samples) {
  return {
      .draw =
          [heading, samples](Board& board, const PaperBox& column, double top) {
            board.text(LetterUse::heading, {column.low.x, top}, heading, Align::left, Stand::top);
            const double row = row_of(board), half = column.width() / 2;
            double y = top - board.pitch(LetterUse::heading) - 1;
            double widest = 0;
            for (const Sample& s : samples)
              widest = std::max(widest, board.text_width(LetterUse::note, s.text));
            const bool two = sample + 3 + widest < half - 1;
            const std::size_t rows = two ? (samples.size() + 1) / 2 : samples.size();
            for (std::size_t i = 0; i < samples.size(); ++i) {
              const double x = column.low.x + (i / rows == 0 ? 0 : half);
              const double middle = y - (static_cast<double>(i % rows) + 0.5) * row;
              samples[i].draw(board, {{x, middle - row * 0.36}, {x + sample, middle + row * 0.36}});
              board.text(LetterUse::note, {x + sample + 3, middle}, samples[i].text, Align::left,
                         Stand::middle);
            }
            return y - static_cast<double>(rows) * row - board.style().gap;
          },
      .starts = true};
}

Sample line_sample(const std::string& text, PenUse pen) {
  return {text, [pen](Board& board, const PaperBox& b) {
            board.line(pen, {b.low.x, b.centre().y}, {b.high.x, b.centre().y});
          }};
}

Sample hatch_sample(const std::string& text, const std::string& material) {
  return {
      text, [material](Board& board, const PaperBox& b) {
        const std::vector<PaperPoint> ring{b.low, {b.high.x, b.low.y}, b.high, {b.low.x, b.high.y}};
        paper::hatch(board, {ring}, material);
        board.box(PenUse::outline, b);
      }};
}

std::vector<Sample> lines(const SetUse& use) {
  const std::pair<const char*, PenUse> all[] = {
      {"outline of our panels", PenUse::outline},
      {"outline of a cut face", PenUse::cut},
      {"hidden edge", PenUse::hidden},
      {"axis, hole pitch", PenUse::centre},
      {"dimension", PenUse::dimension},
      {"feature of a panel", PenUse::feature},
      {"steel by others", PenUse::steel},
      {"the same, below the deck", PenUse::steel_hidden},
      {"ground, concrete", PenUse::ground},
      {"match line", PenUse::match},
      {"neighbouring panel, repeated", PenUse::neighbour}};
  std::vector<Sample> out;
  for (const auto& [text, pen] : all)
    if (use.shows(pen)) out.push_back(line_sample(text, pen));
  return out;
}

std::vector<Sample> hatches(const SetUse& use) {
  const std::pair<const char*, const char*> all[] = {
      {"laminate", "laminate"},          {"core", "core"},
      {"curb", "curb"},                  {"steel", "steel"},
      {"wearing surface", "surface"},    {"sealant", "sealant"},
      {"bearing pad", "bearing"},        {"concrete, by others", "concrete"}};
  std::vector<Sample> out;
  for (const auto& [text, material] : all)
    if (use.cuts(material)) out.push_back(hatch_sample(text, material));
  return out;
}

void sample_cloud(Board& b, const PaperBox& box) {
  const paper::Group group(b, "", "cloud", "Sample");
  paper::Path arcs;
  const double step = box.width() / 3, y = box.centre().y - 1, rise = 2.2;
  arcs.move({box.low.x, y});
  for (double x = box.low.x; x < box.high.x - 0.1; x += step)
    arcs.curve({x + 0.1 * step, y + rise}, {x + 0.9 * step, y + rise}, {x + step, y});
  b.stroke(PenUse::revision, arcs);
}

void sample_delta(Board& b, const PaperBox& box) {
  const paper::Group group(b, "", "delta", "Sample");
  const PaperPoint c = box.centre();
  const double h = std::min(box.height(), 6.0);
  paper::Path triangle;
  triangle.polygon({{c.x - 0.6 * h, c.y - h / 2}, {c.x + 0.6 * h, c.y - h / 2}, {c.x, c.y + h / 2}});
  b.stroke(PenUse::revision, triangle);
}

void sample_redline(Board& b, const PaperBox& box) {
  const paper::Group group(b, "", "redline", "Sample");
  const double y = box.centre().y, h = 1.8;
  paper::Path pennant;
  pennant.polygon({{box.low.x + 2, y - h},
                   {box.high.x - 2 - h, y - h},
                   {box.high.x - 2, y},
                   {box.high.x - 2 - h, y + h},
                   {box.low.x + 2, y + h}});
  b.stroke(PenUse::revision, pennant);
}

/// Those of the groups that show them.
std::vector<Sample> symbols(const SetUse& use) {
  struct Symbol {
    std::vector<const char*> kinds;
    Sample sample;
  };
  const Symbol all[] = {
      {{"callout"},
       {"feature, by number",
        [](Board& b, const PaperBox& box) { paper::pill(b, box.centre(), "3"); }}},
      {{"water", "fall"},
       {"fall of water",
        [](Board& b, const PaperBox& box) {
          paper::arrow(b, PenUse::water, {box.low.x, box.centre().y},
                       {box.high.x, box.centre().y});
        }}},
      {{"orientation", "panel"},
       {"direction of a panel",
        [](Board& b, const PaperBox& box) {
          paper::arrow(b, PenUse::mark, {box.low.x + 3, box.centre().y},
                       {box.high.x - 3, box.centre().y});
        }}},
      {{"datum"},
       {"datum corner of a panel",
        [](Board& b, const PaperBox& box) {
          const PaperPoint c = box.centre();
          paper::Path square;
          square.box({{c.x - 1.2, c.y - 1.2}, {c.x + 1.2, c.y + 1.2}});
          b.fill(paper::Ink::black, std::move(square));
        }}}};
  // Only sets with a history have these: a cover that does not know its set makes no room for them.
  const Symbol marks_of_change[] = {
      {{"cloud"}, {"what a revision changed", sample_cloud}},
      {{"delta"}, {"the change, by revision and number", sample_delta}},
      {{"redline"}, {"open remark of a reviewer, by number", sample_redline}}};
  std::vector<Sample> out;
  for (const Symbol& s : all)
    if (std::any_of(s.kinds.begin(), s.kinds.end(), [&](const char* k) { return use.has(k); }))
      out.push_back(s.sample);
  for (const Symbol& s : marks_of_change)
    if (use.known && use.has(s.kinds.front())) out.push_back(s.sample);
  return out;
}

// A panel as the erection plans show it: mark, serial, arrow.
void little_panel(Board& board, const PaperBox& box, const std::string& mark,
                  const std::string& serial, bool turned) {
  board.box(PenUse::outline, box);
  const PaperPoint c = box.centre();
  const double up = box.height() / 2 - 2;
  board.text(LetterUse::mark, {c.x, c.y + up}, mark, Align::centre, Stand::top);
  board.text(LetterUse::serial, {c.x, c.y - 1.2}, serial, Align::centre, Stand::middle);
  const double y = box.low.y + 2.6, reach = box.width() * 0.22;
  const PaperPoint back{c.x - reach, y}, ahead{c.x + reach, y};
  paper::arrow(board, PenUse::mark, turned ? ahead : back, turned ? back : ahead, 2.5);
}

}  // namespace

void add_mark_picture(Blocks& blocks, const SetInput& input) {
  if (input.deck.panels.empty()) return;
  const Panel& first = input.deck.panels.front();
  const std::string serial = first.serial;
  const std::string mark = input.deck.marks[static_cast<std::size_t>(first.mark)].name;
  blocks.push_back({[mark, serial](Board& board, const PaperBox& column, double top) {
    const double width = std::min(46.0, (column.width() - 6) / 2), height = 19;
    const PaperBox drawn{{column.low.x, top - height}, {column.low.x + width, top}};
    const PaperBox turned{{drawn.high.x + 6, drawn.low.y}, {drawn.high.x + 6 + width, top}};
    little_panel(board, drawn, mark, serial, false);
    little_panel(board, turned, mark, serial, true);
    const double y = drawn.low.y - 2;
    board.text(LetterUse::note, {drawn.low.x, y}, "as drawn", Align::left, Stand::top);
    board.text(LetterUse::note, {turned.low.x, y}, "turned end for end", Align::left, Stand::top);
    return y - board.pitch(LetterUse::note);
  }});
}

void add_legend(Blocks& blocks, const SetUse& use) {
  const auto add = [&](const char* heading, std::vector<Sample> samples) {
    if (!samples.empty()) blocks.push_back(sample_block(heading, std::move(samples)));
  };
  add("LINES", lines(use));
  add("CUT FACES", hatches(use));
  add("SYMBOLS", symbols(use));
}

}  // namespace deckquire::sheets
