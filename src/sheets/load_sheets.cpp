#include "sheets/load_sheets.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "paper/board.h"
#include "paper/table.h"

namespace deckquire::sheets {
namespace {

using paper::Align;
using paper::Board;
using paper::LetterUse;
using paper::PaperBox;
using paper::PaperPoint;
using paper::PenUse;
using paper::Stand;

constexpr double row = 6;  // of tables, mm

class LoadPage {
 public:
  /// `first`: row of the list that its pages begin with.
  LoadPage(Board& board, const SetInput& input, const Deliveries& d, std::size_t index, std::size_t first)
      : board_(board),
        in_(input),
        d_(d),
        index_(index),
        first_(first),
        load_(d.plan.loads[index]),
        frame_(board.style().frame()) {}

  void draw() {
    double y = head(frame_.high.y);
    y = views(y - 6);
    y = facts(y - 5);
    y = signatures(y - 4);
    list(y - 6);
  }
  /// What the pages before left of the list.
  void draw_more() {
    const double y = head(frame_.high.y);
    list(y - 6);
  }
  std::size_t listed() const { return first_; }

 private:
  Board& board_;
  const SetInput& in_;
  const Deliveries& d_;
  std::size_t index_, first_;
  const Load& load_;
  PaperBox frame_;

  const Panel& panel(int i) const { return in_.deck.panels[static_cast<std::size_t>(i)]; }
  const Cargo& cargo(int i) const { return d_.cargo[static_cast<std::size_t>(i)]; }
  std::string length(double v) const { return print_length(mm(v), in_.project.units); }
  std::string mass(double kg) const {
    return print_mass(Mass::si(kg), in_.project.units) +
           (in_.project.units == UnitSystem::metric ? " kg" : " lb");
  }

  double head(double top) {
    board_.text(LetterUse::cover_title, {frame_.low.x, top},
                fmt::format("LOAD {} OF {}", index_ + 1, d_.plan.loads.size()), Align::left, Stand::top);
    const std::string revision =
        in_.project.revisions.empty() ? "-" : in_.project.revisions.back().id;
    const TruckData& truck = *in_.project.conditions.truck;
    const double y = board_.paragraph(
        LetterUse::note, {frame_.low.x, top - 13}, frame_.width(),
        fmt::format("Job {}: {}. Revision {}. {}. {} panels, {}.", in_.project.number, in_.project.title,
                    revision, truck.name, load_.count, mass(load_.mass)));
    board_.line(PenUse::table_heavy, {frame_.low.x, y}, {frame_.high.x, y});
    return y;
  }

  double most_width() const {
    double w = 0;
    for (const Stack& s : load_.stacks)
      for (int p : s.panels) w = std::max(w, cargo(p).width);
    return w;
  }

  /// Side view over top view, one scale; the front of the truck at the left.
  double views(double top) {
    double height = d_.limits.height;
    for (const Stack& s : load_.stacks) height = std::max(height, s.height);
    const double wide = std::max(d_.limits.bed_width, most_width());
    const double room = 0.36 * frame_.height() - 22;
    const double scale = std::min(frame_.width() / d_.limits.bed_length, room / (height + wide));
    const int ratio = rounded(1 / scale);
    const double s = 1.0 / ratio;
    const double bed = top - 6 - height * s;
    side(bed, s, height);
    const double axis = bed - 14 - wide * s / 2;
    plan(axis, s, wide);
    board_.text(LetterUse::caption, {frame_.low.x, top}, fmt::format("SIDE VIEW 1:{}, front of the truck at the left", ratio),
                Align::left, Stand::top);
    board_.text(LetterUse::caption, {frame_.low.x, bed - 6}, fmt::format("VIEW FROM ABOVE 1:{}", ratio),
                Align::left, Stand::top);
    return axis - wide * s / 2 - 2;
  }

  /// 10, 20, 25, 50 ... : the next of the preferred reductions (ISO 5455, and 1:25, 1:75, 1:125).
  static int rounded(double ratio) {
    for (int r : {10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 500})
      if (r >= ratio) return r;
    return 1000;
  }

  void side(double bed, double s, double height) {
    const paper::Group group(board_, "side", "view");
    const double left = frame_.low.x;
    board_.line(PenUse::outline, {left, bed}, {left + d_.limits.bed_length * s, bed});
    if (d_.limits.height > 0)
      board_.line(PenUse::hidden, {left, bed + height * s}, {left + d_.limits.bed_length * s, bed + height * s});
    for (const Stack& stack : load_.stacks) {
      double z = d_.limits.dunnage;
      for (int p : stack.panels) {
        const Cargo& c = cargo(p);
        const double x = left + (stack.front + (stack.length - c.length) / 2) * s;
        bearers(x, bed, z, c, s);
        const PaperBox box{{x, bed + z * s}, {x + c.length * s, bed + (z + c.height) * s}};
        board_.box(PenUse::thin, box);
        serial(box, p);
        z += c.height + std::max(d_.limits.dunnage, c.flat_top ? 0 : c.stands_up);
      }
    }
  }

  /// Two lines of bearers under a panel, a fifth of its length from its ends.
  void bearers(double x, double bed, double z, const Cargo& c, double s) {
    const double high = d_.limits.dunnage;
    if (high <= 0) return;
    for (double part : {0.207, 0.793}) {
      const double at = x + c.length * part * s;
      paper::Path block;
      block.box({{at - 0.7, bed + (z - high) * s}, {at + 0.7, bed + z * s}});
      board_.fill(paper::Ink::grey, std::move(block));
    }
  }

  void serial(const PaperBox& box, int p) {
    const std::string& text = panel(p).serial;
    const double high = board_.text_height(LetterUse::dimension);
    if (box.height() > high + 0.8 && box.width() > board_.text_width(LetterUse::dimension, text) + 2)
      board_.text(LetterUse::dimension, box.centre(), text, Align::centre, Stand::middle);
  }

  void plan(double axis, double s, double wide) {
    const paper::Group group(board_, "plan", "view");
    const double left = frame_.low.x;
    board_.box(PenUse::outline, {{left, axis - wide * s / 2}, {left + d_.limits.bed_length * s, axis + wide * s / 2}});
    int number = 0;
    for (const Stack& stack : load_.stacks) {
      const Cargo& top = cargo(stack.panels.back());
      const double x = left + (stack.front + (stack.length - top.length) / 2) * s;
      const PaperBox box{{x, axis - top.width * s / 2}, {x + top.length * s, axis + top.width * s / 2}};
      board_.box(PenUse::thin, box);
      board_.text(LetterUse::heading, box.centre(), fmt::format("STACK {}", ++number), Align::centre, Stand::middle);
    }
  }

  void list(double y) {
    paper::TableData t;
    t.title = "LOAD IN THIS ORDER: THE FIRST LIES LOWEST";
    t.columns = {{"", "", Align::right, 8},         {"Serial", "", Align::left, 0},
                 {"Mark", "", Align::left, 0},      {"Stack", "", Align::right, 14},
                 {"Layer", "", Align::right, 14},   {"Mass", unit(), Align::right, 18},
                 {"Position", "", Align::right, 18}, {"Loaded", "", Align::left, 20},
                 {"Received", "", Align::left, 20}};
    std::vector<std::pair<int, std::vector<std::string>>> rows;
    for (std::size_t s = 0; s < load_.stacks.size(); ++s)
      for (std::size_t i = 0; i < load_.stacks[s].panels.size(); ++i) {
        const int p = load_.stacks[s].panels[i];
        const int set_as = static_cast<int>(std::find(d_.carried.begin(), d_.carried.end(), p) - d_.carried.begin());
        rows.push_back({-set_as,
                        {"", panel(p).serial, in_.deck.marks[static_cast<std::size_t>(panel(p).mark)].name,
                         std::to_string(s + 1), std::to_string(i + 1),
                         print_mass(Mass::si(cargo(p).mass), in_.project.units),
                         std::to_string(panel(p).position), "", ""}});
      }
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (std::size_t i = 0; i < rows.size(); ++i) {
      rows[i].second.front() = std::to_string(i + 1);
      t.rows.push_back(rows[i].second);
    }
    t.total = {"", fmt::format("{} panels", load_.count), "", "", "", print_mass(Mass::si(load_.mass), in_.project.units), "", "", ""};
    const std::size_t fit = paper::rows_that_fit(board_, t, frame_.width(), y - 6 - frame_.low.y, row,
                                                 LetterUse::table, first_);
    paper::draw_table(board_, t, {frame_.low.x, y}, frame_.width(), row, LetterUse::table, first_, fit);
    first_ += fit;
    if (first_ < t.rows.size())
      board_.text(LetterUse::note, {frame_.high.x, frame_.low.y}, "goes on on the next page", Align::right);
  }

  std::string unit() const { return in_.project.units == UnitSystem::metric ? "kg" : "lb"; }

  double facts(double y) {
    const TruckData& truck = *in_.project.conditions.truck;
    std::vector<std::string> words;
    if (load_.axles)
      words.push_back(fmt::format("Axles: steer {}, drive {}, trailer {}; gross {}.", mass(load_.axles->steer),
                                  mass(load_.axles->drive), mass(load_.axles->trailer), mass(load_.axles->gross())));
    else
      words.push_back("NOT CHECKED: loads of the axles; needs the axles of the truck.");
    words.back() += fmt::format(" Centre of the load {} behind the front of the bed.", length(load_.centre));
    words.push_back(fmt::format("Bearers {} high under the webs, in line one over the other, higher than curbs; soffits down. "
                                "Lashings: working load limits of {} in all at least, half the mass of the load; edges guarded.",
                                length(std::max(d_.limits.dunnage, 0.0)), mass(load_.mass / 2)));
    words.push_back("Limits: " + truck.source + ". Axle limits, routes, permits and lashing are the carrier's duty.");
    for (const std::string& w : words) y = board_.paragraph(LetterUse::note, {frame_.low.x, y}, frame_.width(), w);
    return y;
  }

  double signatures(double y) {
    const char* captions[] = {"Loaded by, date", "Driver", "Received by, date; damage"};
    const double third = frame_.width() / 3;
    for (int i = 0; i < 3; ++i) {
      const double x = frame_.low.x + i * third;
      board_.line(PenUse::table, {x, y - 9}, {x + third - 6, y - 9});
      board_.text(LetterUse::caption, {x, y - 11}, captions[i], Align::left, Stand::top);
    }
    return y - 14;
  }
};

void unfit_page(Board& board, const SetInput& in, const Deliveries& d) {
  const PaperBox f = board.style().frame();
  board.text(LetterUse::cover_title, {f.low.x, f.high.y}, "PANELS THAT FIT NO TRUCK", Align::left, Stand::top);
  paper::TableData t;
  t.columns = {{"Serial", "", Align::left, 0}, {"Mark", "", Align::left, 0}, {"Why", "", Align::left, 0}};
  for (int p : d.plan.unfit) {
    const Panel& panel = in.deck.panels[static_cast<std::size_t>(p)];
    t.rows.push_back({panel.serial, in.deck.marks[static_cast<std::size_t>(panel.mark)].name,
                      unfit(d.cargo[static_cast<std::size_t>(p)], d.limits, d.axles ? &*d.axles : nullptr)});
  }
  paper::draw_table(board, t, {f.low.x, f.high.y - 18}, f.width(), row, LetterUse::table, 0, t.rows.size());
}

}  // namespace

std::vector<paper::Sheet> load_sheets(const SetInput& in, const Deliveries& d, const ShopPage& page) {
  const paper::Style style = shop_style(in.style, page, false);
  const std::string revision = in.project.revisions.empty() ? "" : in.project.revisions.back().id;
  std::vector<paper::Sheet> sheets;
  const auto add = [&](const std::string& number, const std::string& title, auto draw) {
    paper::Sheet sheet = shop_sheet(style, number, title, revision);
    Board board(sheet, style, in.lettering);
    draw(board);
    sheets.push_back(std::move(sheet));
  };
  for (std::size_t i = 0; i < d.plan.loads.size(); ++i) {
    std::size_t listed = 0;
    const auto all = static_cast<std::size_t>(d.plan.loads[i].count);
    for (int page_of_load = 1; listed < all; ++page_of_load)
      add(fmt::format("L{:02}", i + 1) + (page_of_load > 1 ? fmt::format("-{}", page_of_load) : ""),
          fmt::format("LOAD {}", i + 1), [&](Board& board) {
            LoadPage drawn(board, in, d, i, listed);
            page_of_load == 1 ? drawn.draw() : drawn.draw_more();
            listed = drawn.listed();
          });
  }
  if (!d.plan.unfit.empty())
    add("L00", "PANELS THAT FIT NO TRUCK", [&](Board& board) { unfit_page(board, in, d); });
  return sheets;
}

}  // namespace deckquire::sheets
