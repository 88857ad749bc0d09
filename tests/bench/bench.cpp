// How long the whole program takes beside bare cairo: the main example from XML to PDF and SVG in
// memory, against one thread that only replays the finished display lists into one PDF.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <functional>

#include "base/files.h"
#include "bench/long_deck.h"
#include "bench/replay.h"
#include "checks/fit.h"
#include "project/reader.h"
#include "schedules/schedules.h"
#include "sheets/set.h"
#include "writers/whole_set.h"

using namespace deckquire;

namespace {

constexpr int repeats = 7;
const std::string file = DECKQUIRE_SOURCE "/projects/saltmarsh.xml";

double median(std::vector<double> v) {
  std::sort(v.begin(), v.end());
  return v[v.size() / 2];
}

class Stopwatch {
 public:
  /// Milliseconds since the last lap.
  double lap() {
    const auto now = std::chrono::steady_clock::now();
    const double ms = std::chrono::duration<double, std::milli>(now - last_).count();
    last_ = now;
    return ms;
  }

 private:
  std::chrono::steady_clock::time_point last_ = std::chrono::steady_clock::now();
};

const char* const stage_names[] = {"read",         "bridge, deck, fit",
                                   "calculations", "style, fonts, tables",
                                   "draw sheets",  "PDF and SVG"};

struct Laps {
  std::vector<double> stages;
  double sum() const {
    double s = 0;
    for (double v : stages) s += v;
    return s;
  }
};

/// One run of everything; `sheets` gets the drawings.
Laps whole_program(int jobs, std::vector<paper::Sheet>& sheets) {
  Laps laps;
  Stopwatch watch;
  Findings findings;
  const auto project = read_project(read_file(file), file, findings);
  laps.stages.push_back(watch.lap());
  const Bridge bridge = build_bridge(*project, findings);
  const Deck deck = build_deck(*project, bridge, findings);
  check_fit(*project, bridge, deck, findings);
  laps.stages.push_back(watch.lap());
  const CheckScope scope = check_scope(*project, bridge, deck, findings);
  laps.stages.push_back(watch.lap());
  const paper::Style style =
      paper::read_style(project->set.style, DECKQUIRE_SOURCE "/styles", findings);
  const paper::Lettering lettering(style.fonts);
  const auto tables = make_schedules(*project, bridge, deck);
  const auto remarks = findings.sorted();
  laps.stages.push_back(watch.lap());
  sheets =
      sheets::draw_set({*project, bridge, deck, tables, scope, remarks, style, lettering}, jobs);
  laps.stages.push_back(watch.lap());
  writers::DocumentInfo info;
  info.title = project->title;
  info.job = project->number;
  info.date = "2026-10-02";
  info.inks.assign(style.inks.begin(), style.inks.end());
  const auto drawings = writers::write_drawings(sheets, info, lettering, jobs);
  laps.stages.push_back(watch.lap());
  return laps;
}

Laps medians(const std::vector<Laps>& runs) {
  Laps out;
  for (std::size_t i = 0; i < std::size(stage_names); ++i) {
    std::vector<double> v;
    for (const Laps& r : runs) v.push_back(r.stages[i]);
    out.stages.push_back(median(v));
  }
  return out;
}

}  // namespace

/// `decks`: the long decks only.
int main(int count, char** words) {
  if (count > 1 && words[1] == std::string("decks")) {
    time_long_decks();
    time_calculations();
    return 0;
  }
  std::vector<paper::Sheet> sheets;
  whole_program(1, sheets);
  const paper::Lettering lettering({"osifont.ttf", "DejaVuSans.ttf"});
  const Replay replay(sheets, lettering);
  replay.draw();
  std::vector<Laps> one, two;
  std::vector<double> bare, all_one, all_two;
  for (int i = 0; i < repeats; ++i) {  // in turn, so that a busy machine slows all alike
    Stopwatch watch;
    replay.draw();
    bare.push_back(watch.lap());
    std::vector<paper::Sheet> drawn;
    one.push_back(whole_program(1, drawn));
    two.push_back(whole_program(2, drawn));
    all_one.push_back(one.back().sum());
    all_two.push_back(two.back().sum());
  }
  fmt::print("{} sheets, medians of {} runs\n", sheets.size(), repeats);
  fmt::print("{:<26}{:>10}{:>10}\n", "stage, ms", "1 job", "2 jobs");
  for (std::size_t i = 0; i < std::size(stage_names); ++i)
    fmt::print("{:<26}{:>10.1f}{:>10.1f}\n", stage_names[i], medians(one).stages[i],
               medians(two).stages[i]);
  fmt::print("{:<26}{:>10.1f}{:>10.1f}\n", "whole program", median(all_one), median(all_two));
  fmt::print("{:<26}{:>10.1f}\n", "bare cairo replay", median(bare));
  fmt::print("{:<26}{:>10.2f}{:>10.2f}\n", "ratio", median(all_one) / median(bare),
             median(all_two) / median(bare));
  time_long_decks();
  time_calculations();
}
