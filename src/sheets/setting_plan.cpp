// Order, stages and sheets of the setting, before anything is drawn.
#include "sheets/setting_plan.h"

#include <fmt/format.h>

#include <algorithm>

#include "schedules/deliveries.h"
#include "schedules/setting_order.h"

namespace deckquire::sheets {
namespace {

constexpr int most_stages = 12;     // more small plans than this nobody follows
constexpr int panels_a_stage = 8;   // where nothing else parts the work (common practice, no source)

using StageRuns = std::vector<SettingStage>;

/// Runs next to each other together, as evenly as may be, until there are no more than a dozen.
StageRuns thinned_stages(const StageRuns& runs, const std::string& one, const std::string& many) {
  const int n = static_cast<int>(runs.size()), parts = std::min(n, most_stages);
  StageRuns out;
  for (int k = 0; k < parts; ++k) {
    const int a = k * n / parts, b = (k + 1) * n / parts - 1;
    const SettingStage &first = runs[static_cast<std::size_t>(a)], &last = runs[static_cast<std::size_t>(b)];
    SettingStage s{"", first.first, last.first + last.count - first.first};
    s.name = a == b ? one + " " + first.name : fmt::format("{} {} to {}", many, first.name, last.name);
    out.push_back(std::move(s));
  }
  return out;
}

StageRuns stages_by_load(const SetInput& in, int panels) {
  if (!in.project.conditions.truck) return {};
  Findings said_by_shop;
  const auto d = plan_deliveries(in.project, in.deck, said_by_shop);
  if (!d || !d->plan.unfit.empty()) return {};
  StageRuns runs;
  int first = 0;
  for (const Load& load : d->plan.loads) {
    runs.push_back({std::to_string(runs.size() + 1), first, load.count});
    first += load.count;
  }
  return first == panels ? thinned_stages(runs, "load", "loads") : StageRuns{};
}

StageRuns stages_by_span(const SetInput& in, const std::vector<int>& order) {
  StageRuns runs;
  int span = -1;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const Panel& p = in.deck.panels[static_cast<std::size_t>(order[i])];
    if (p.span != span) {
      span = p.span;
      runs.push_back({in.deck.spans[static_cast<std::size_t>(span)].name, static_cast<int>(i), 0});
    }
    ++runs.back().count;
  }
  if (runs.size() < 2 || runs.size() > in.deck.spans.size()) return {};  // it goes to and fro
  return thinned_stages(runs, "span", "spans");
}

StageRuns stages_in_parts(int panels) {
  const int parts = std::clamp((panels + panels_a_stage - 1) / panels_a_stage, 1, most_stages);
  StageRuns out;
  for (int k = 0; k < parts; ++k) {
    const int first = k * panels / parts;
    out.push_back({"", first, (k + 1) * panels / parts - first});
  }
  return out;
}

/// Long runs in parts that a crew looks over, where that is no more than a dozen in all.
StageRuns parted(const StageRuns& runs) {
  StageRuns out;
  for (const SettingStage& run : runs) {
    const int parts = (run.count + panels_a_stage - 1) / panels_a_stage;
    for (int k = 0; k < parts; ++k) {
      const int a = k * run.count / parts, b = (k + 1) * run.count / parts;
      const std::string part = parts > 1 ? fmt::format(", part {} of {}", k + 1, parts) : "";
      out.push_back({run.name + part, run.first + a, b - a});
    }
  }
  return out.size() <= most_stages ? out : runs;
}

void choose_stages(const SetInput& in, SettingPlan& s) {
  const int n = static_cast<int>(s.order.size());
  s.by = "by truck load";
  s.stages = parted(stages_by_load(in, n));
  if (!s.stages.empty()) return;
  s.by = "by span";
  s.stages = parted(stages_by_span(in, s.order));
  if (!s.stages.empty()) return;
  s.by = "in equal parts";
  s.stages = stages_in_parts(n);
}

/// The fewest plans side by side that let all stand on one sheet; else as many as a sheet takes.
void size_stages(const SetInput& in, const paper::Board& board, SettingPlan& s) {
  const paper::PaperBox space = setting_space(in);
  const std::size_t n = s.stages.size();
  std::size_t most = 0;
  for (std::size_t columns = 1; columns <= 4; ++columns) {
    const double gaps = static_cast<double>(columns - 1) * stage_gap;
    const double width = (space.width() - gaps) / static_cast<double>(columns);
    const double high = stage_height(board, in, s, width) + stage_gap;
    const auto rows = static_cast<std::size_t>(std::max(1.0, (space.height() + stage_gap) / high));
    if (columns > 1 && rows * columns <= most) continue;
    most = rows * columns;
    s.stage_width = width, s.columns = columns, s.rows = rows;
    if (most >= n) break;
  }
  // Few plans are drawn larger, up to the true shape, as long as words and tables have room below.
  const auto lines = static_cast<double>((std::min(n, most) + s.columns - 1) / s.columns);
  for (double high : {40.0, 32.0, 25.0, 19.0, 14.0}) {
    s.deck_high = high;
    const double taken = lines * (stage_height(board, in, s, s.stage_width) + stage_gap);
    if (taken <= 0.6 * space.height()) return;
  }
}

}  // namespace

paper::PaperBox setting_space(const SetInput& input) {
  return input.style.drawing_space().grown(-1.6 * input.style.gap);
}

std::string panel_words(const SetInput& input, int panel) {
  const Panel& p = input.deck.panels[static_cast<std::size_t>(panel)];
  return fmt::format("position {} (serial {})", p.position, p.serial);
}

void plan_setting(SetPlan& plan, const SetInput& input) {
  auto s = std::make_shared<SettingPlan>();
  Findings said_by_check;
  s->order = setting_order(input.project, input.deck, said_by_check);
  s->step.assign(s->order.size(), 0);
  for (std::size_t i = 0; i < s->order.size(); ++i)
    s->step[static_cast<std::size_t>(s->order[i])] = static_cast<int>(i) + 1;
  s->reasons = setting_reasons(input.project, input.deck);
  s->as_they_stand = sets_as_they_stand(s->order);
  s->picks = picks_of(input.project, input.bridge, input.deck, s->order);
  for (const Panel& p : input.deck.panels) {
    Ring<BridgeFrame> ring;
    for (const PanelPoint& at : p.right_edge) ring.push_back(p.frame.bridge(input.bridge.alignment, at));
    for (auto at = p.left_edge.rbegin(); at != p.left_edge.rend(); ++at)
      ring.push_back(p.frame.bridge(input.bridge.alignment, *at));
    s->outlines.push_back(std::move(ring));
  }
  choose_stages(input, *s);
  plan.setting = s;
  plan.setting_sheets = 1;
  SheetPlan sheet;
  sheet.series = 'E';
  sheet.number = plan.setting_sheet();
  sheet.title = "SETTING SEQUENCE";
  sheet.subject = plan.strip_sheets();
  plan.sheets.push_back(sheet);
  paper::Sheet scratch = blank_sheet(input, {});
  paper::Board board(scratch, input.style, input.lettering);
  s->text = furnish(board, input, plan, plan.sheets.size() - 1, "none").text;
  s->text.low.y += board.pitch(paper::LetterUse::note);  // the title block may grow
  size_stages(input, board, *s);
  for (const int count = count_setting_sheets(input, *s); plan.setting_sheets < count; ++plan.setting_sheets) {
    sheet.subject = plan.strip_sheets() + plan.setting_sheets;
    sheet.number = "E" + padded(sheet.subject + 1, 2);
    plan.sheets.push_back(sheet);
  }
}

}  // namespace deckquire::sheets
