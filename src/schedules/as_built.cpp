#include "schedules/as_built.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "schedules/setting_order.h"

namespace deckquire {
namespace {

constexpr int trials = 20000;
constexpr std::uint64_t seed = 20240601;

const Panel& panel_number(const Deck& deck, int i) {
  return deck.panels[static_cast<std::size_t>(i)];
}
const Joint& joint_number(const Deck& deck, int i) {
  return deck.joints[static_cast<std::size_t>(i)];
}

double corner_to_corner(const std::vector<PanelPoint>& edge) {
  const PanelPoint d = edge.back() - edge.front();
  return std::hypot(d.x, d.y);
}

double tolerance_of(const Project& project, const char* of) {
  for (const ToleranceData& t : project.conditions.tolerances)
    if (t.of == of) return t.value.in_mm();
  return 0;
}

/// Sizes by serial, as they were measured last to the mark that the panel has now.
struct Sizes {
  history::Stage stage = history::Stage::planned;
  std::optional<double> drawn_left, drawn_right;
};
std::map<std::string, Sizes> sizes_of(const history::Register& issued) {
  std::map<std::string, Sizes> out;
  for (const history::PanelLife& life : issued.lives()) {
    Sizes s;
    s.stage = life.stage;
    for (const history::BuiltPanel& b : life.events) {
      if (b.mark != life.events.back().mark) continue;
      if (b.length_left) s.drawn_left = b.length_left->in_mm();
      if (b.length_right) s.drawn_right = b.length_right->in_mm();
    }
    out[life.serial] = s;
  }
  return out;
}

MeasuredPanel measured_panel(const Deck& deck, int i, const std::map<std::string, Sizes>& sizes) {
  const Panel& p = panel_number(deck, i);
  MeasuredPanel m;
  m.panel = i;
  m.nominal_left = corner_to_corner(p.left_edge);
  m.nominal_right = corner_to_corner(p.right_edge);
  const auto known = sizes.find(p.serial);
  if (known == sizes.end()) return m;
  m.stage = known->second.stage;
  m.left = p.turned ? known->second.drawn_right : known->second.drawn_left;
  m.right = p.turned ? known->second.drawn_left : known->second.drawn_right;
  return m;
}

/// Drift of each, the joint where the run closes and what is open.
class Run {
 public:
  Run(const Project& project, const Deck& deck, MeasuredRun& run)
      : project_(project), deck_(deck), run_(run) {}

  void finish() {
    run_.length_tolerance = tolerance_of(project_, "length");
    run_.gap_tolerance = tolerance_of(project_, "gap");
    drifts();
    joints();
    RemainingRun left;
    left.panels = static_cast<int>(run_.panels.size()) - run_.measured;
    left.gaps = static_cast<int>(run_.panels.size()) - 1;
    left.panel_tolerance = run_.length_tolerance;
    left.gap_tolerance = run_.gap_tolerance;
    left.mean_error = run_.drift / run_.measured;
    run_.prediction =
        predict_closure(left, run_.drift, run_.can_take().value_or(run_.closing_gap), trials, seed);
  }

 private:
  const Project& project_;
  const Deck& deck_;
  MeasuredRun& run_;

  void drifts() {
    double left = 0, right = 0;
    for (MeasuredPanel& m : run_.panels) {
      left += m.off_left(), right += m.off_right();
      m.drift_left = left, m.drift_right = right;
      if (run_.next < 0 && m.stage == history::Stage::planned) run_.next = m.panel;
    }
    run_.drift = std::abs(left) >= std::abs(right) ? left : right;
  }

  void joints() {
    std::set<int> placed, fixed;  // bays of the run so far, and of panels that are set
    for (const MeasuredPanel& m : run_.panels)
      if (m.stage == history::Stage::set) fixed.insert(panel_number(deck_, m.panel).bay);
    for (const MeasuredPanel& m : run_.panels) {
      const int bay = panel_number(deck_, m.panel).bay;
      const bool first = m.panel == first_panel();
      if (!first && !(fixed.count(bay) && fixed.count(bay - 1))) ++run_.open_joints;
    }
    const Panel& last = panel_number(deck_, run_.panels.back().panel);
    for (const MeasuredPanel& m : run_.panels) placed.insert(panel_number(deck_, m.panel).bay);
    placed.erase(last.bay);
    // Set against the panel behind it where there is one: then it closes ahead.
    const bool ahead = placed.count(last.bay - 1) > 0 || placed.empty();
    run_.closing = &joint_number(deck_, ahead ? last.joint_ahead : last.joint_back);
    const bool shared = run_.closing->end && run_.closing->back >= 0 && run_.closing->ahead >= 0;
    run_.closing_gap = run_.closing->gap.in_mm() / (shared ? 2 : 1);
    const TemperatureData& t = project_.conditions.temperature;
    if (t.place.line > 0) run_.least = t.least_gap.in_mm() / (shared ? 2 : 1);
  }

  int first_panel() const {
    int first = run_.panels.front().panel;
    for (const MeasuredPanel& m : run_.panels) first = std::min(first, m.panel);
    return first;
  }
};

std::string stage_word(history::Stage stage) {
  switch (stage) {
    case history::Stage::planned:
      return "planned";
    case history::Stage::cast:
      return "cast";
    case history::Stage::shipped:
      return "shipped";
    case history::Stage::set:
      return "set";
  }
  return "";
}

Cell measured_cell(const std::optional<double>& v) { return v ? Cell(mm(*v)) : Cell(); }

std::vector<Cell> panel_line(const Deck& deck, const MeasuredRun& run, const MeasuredPanel& m, int order) {
  const Panel& p = panel_number(deck, m.panel);
  const auto off = [](const std::optional<double>& v, double nominal) {
    return v ? Cell(mm(*v - nominal)) : Cell();
  };
  const bool out = std::abs(m.most_off()) > run.length_tolerance + 1e-6;
  return {std::int64_t{order},
          std::int64_t{p.position},
          p.serial,
          deck.marks[static_cast<std::size_t>(p.mark)].name,
          stage_word(m.stage),
          mm(m.nominal_left),
          measured_cell(m.left),
          off(m.left, m.nominal_left),
          mm(m.nominal_right),
          measured_cell(m.right),
          off(m.right, m.nominal_right),
          std::string(!m.measured() ? "not measured" : out ? "OUT" : "in"),
          mm(m.drift_left),
          mm(m.drift_right),
          deck.spans[static_cast<std::size_t>(run.span)].name};
}

}  // namespace

double MeasuredPanel::off_left() const {
  return left ? *left - nominal_left : right ? *right - nominal_right : 0;
}
double MeasuredPanel::off_right() const {
  return right ? *right - nominal_right : left ? *left - nominal_left : 0;
}
double MeasuredPanel::most_off() const {
  return std::abs(off_left()) >= std::abs(off_right()) ? off_left() : off_right();
}

std::optional<double> MeasuredRun::can_take() const {
  if (!least) return std::nullopt;
  return std::max(0.0, closing_gap - *least);
}

bool MeasuredRun::too_far() const {
  const auto most = can_take();
  return most ? std::abs(drift) > *most + 1e-6 : drift >= closing_gap;
}

std::vector<MeasuredRun> measured_runs(const Project& project, const Deck& deck,
                                       const history::Register& issued) {
  const auto sizes = sizes_of(issued);
  std::map<std::pair<int, int>, MeasuredRun> runs;
  Findings said;  // with the order of setting
  for (int i : setting_order(project, deck, said)) {
    const Panel& p = panel_number(deck, i);
    MeasuredRun& run = runs[{p.span, p.row}];
    run.span = p.span, run.row = p.row;
    run.panels.push_back(measured_panel(deck, i, sizes));
    if (run.panels.back().measured()) ++run.measured;
  }
  std::vector<MeasuredRun> out;
  for (auto& [key, run] : runs) {
    if (run.measured == 0) continue;
    Run(project, deck, run).finish();
    out.push_back(std::move(run));
  }
  return out;
}

Table as_built_table(const Project& project, const Deck& deck, const std::vector<MeasuredRun>& runs) {
  Table t{"as-built", "PANELS AS BUILT", "", {}, {}, {}, true};
  t.intro = "In the order of setting. Lengths from corner to corner, left and right looking ahead; of a panel "
            "that lies turned, left is the right edge of its sheet. The drift adds up what was measured along "
            "the span, panels that were not measured taken as they should be; + is too long. Tolerance of "
            "length: ± " + print_length(mm(tolerance_of(project, "length")), project.units) + ".";
  t.columns = {{"order", "Order", Measure::count},
               {"position", "Position", Measure::count},
               {"serial", "Panel", Measure::text},
               {"mark", "Mark", Measure::text},
               {"stage", "Stage", Measure::text},
               {"left_mm", "Left to be", Measure::length},
               {"measured_left_mm", "Left measured", Measure::length},
               {"off_left_mm", "Left off", Measure::length},
               {"right_mm", "Right to be", Measure::length},
               {"measured_right_mm", "Right measured", Measure::length},
               {"off_right_mm", "Right off", Measure::length},
               {"verdict", "Tolerance", Measure::text},
               {"drift_left_mm", "Drift left", Measure::length},
               {"drift_right_mm", "Drift right", Measure::length},
               {"span", "Span", Measure::text}};
  for (const MeasuredRun& run : runs) {
    int order = 0;
    for (const MeasuredPanel& m : run.panels) t.rows.push_back(panel_line(deck, run, m, ++order));
  }
  return t;
}

Table closure_table(const Deck& deck, const std::vector<MeasuredRun>& runs) {
  Table t{"closure", "CLOSING GAPS AS BUILT", "", {}, {}, {}, true};
  t.intro = "What the closing gap will be: the drift of the panels measured, on the side that is off most, and "
            "what the others may add. Worst case and root of the sum of squares are about the expected drift, "
            "which takes the mean error of those measured for those that are not. The gap can take what it "
            "has over the least gap, + or -; heat that closes it further is not in it. Chances that it does: "
            "tolerances as three standard deviations; every value within its tolerance as likely (" +
            std::to_string(trials) + " trials, seed " + std::to_string(seed) + ").";
  t.columns = {{"span", "Span", Measure::text},
               {"row", "Row", Measure::count},
               {"panels", "Panels", Measure::count},
               {"measured", "Measured", Measure::count},
               {"drift_mm", "Drift", Measure::length},
               {"mean_mm", "Mean of one", Measure::length},
               {"expected_mm", "Expected drift", Measure::length},
               {"worst_mm", "Worst ±", Measure::length},
               {"rss_mm", "RSS ±", Measure::length},
               {"joint", "Closes at", Measure::text},
               {"gap_mm", "Gap to be", Measure::length},
               {"left_mm", "Gap now", Measure::length},
               {"can_take_mm", "Can take ±", Measure::length},
               {"chance_normal", "Chance, normal", Measure::percent},
               {"chance_even", "Chance, simulated", Measure::percent},
               {"verdict", "Closes", Measure::text}};
  for (const MeasuredRun& run : runs) {
    const ClosurePrediction& p = run.prediction;
    const auto most = run.can_take();
    const auto tenth = [](double v) { return mm(std::round(v * 10) / 10); };
    t.rows.push_back({deck.spans[static_cast<std::size_t>(run.span)].name, std::int64_t{run.row + 1},
                      static_cast<std::int64_t>(run.panels.size()), std::int64_t{run.measured},
                      mm(run.drift), mm(std::round(run.drift / run.measured * 100) / 100), tenth(p.drift),
                      tenth(p.worst), tenth(p.root_sum_square), run.closing->name, mm(run.closing_gap),
                      mm(run.closing_gap - run.drift),
                      most ? Cell(mm(*most)) : Cell(std::string("not stated")),
                      most ? Cell(std::round(p.within_normal * 1000) / 1000) : Cell(),
                      most ? Cell(std::round(p.within_simulated * 1000) / 1000) : Cell(),
                      std::string(run.too_far()                         ? "NO"
                                  : !most                               ? "not checked"
                                  : std::abs(p.drift) > *most + 1e-6 ? "at risk"
                                                                        : "yes so far")});
  }
  return t;
}

}  // namespace deckquire
