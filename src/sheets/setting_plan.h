// How the panels of a deck are set, as the E sheets of the setting show it.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "schedules/picks.h"
#include "sheets/blocks.h"
#include "sheets/furniture.h"
#include "sheets/plan.h"

namespace deckquire::sheets {

/// A run of the order that one small plan shows.
struct SettingStage {
  std::string name;  // "load 2", "span 1"; empty: an equal part
  int first = 0, count = 0;
};

struct SettingPlan {
  std::vector<int> order;                    // indices of panels
  std::vector<int> step;                     // by panel, from 1
  std::vector<std::string> reasons;          // by panel
  bool as_they_stand = true;                 // set from the first panel to the last
  std::vector<Pick> picks;                   // in order
  std::vector<Ring<BridgeFrame>> outlines;   // by panel
  std::string by;                            // "by truck load", "by span", "in equal parts"
  std::vector<SettingStage> stages;          // at most a dozen
  double stage_width = 0;                    // of one small plan, paper mm; side by side, and one below
  std::size_t columns = 1, rows = 1;         // the other on a sheet
  double deck_high = 14;                     // most of the deck's width on a small plan, paper mm
  paper::PaperBox text;                      // what their text columns have free
};

/// Between two small plans, paper mm.
constexpr double stage_gap = 7;

/// Order, stages and the size of their plans, into `plan.setting`, and the sheets for them to the end of
/// `plan`: by truck load where trucks are stated and take all panels, else by span where each is done
/// before the next, else in equal parts.
void plan_setting(SetPlan& plan, const SetInput& input);

/// How many sheets the plans and what stands beside them take.
int count_setting_sheets(const SetInput& input, const SettingPlan& setting);

/// Where small plans stand.
paper::PaperBox setting_space(const SetInput& input);

/// "position 38 (serial 0417-038)".
std::string panel_words(const SetInput& input, int panel);

/// "45 N m", "33 lbf ft".
std::string torque_words(const TorqueData& torque, UnitSystem units);

/// What stands beside the plans, a group each: the order in words, signs, gaps by temperature, what to
/// tighten to, cranes, cautions.
std::vector<Blocks> setting_words(const SetInput& input, const SettingPlan& setting);

/// What the hook has to do, step by step, where a sheet has room left; the table of all picks has the rest.
Blocks setting_picks(const SetInput& input, const SettingPlan& setting);

/// One small plan of a stage, its upper left corner at `corner`.
void draw_stage(paper::Board& board, const SetInput& input, const SettingPlan& setting, std::size_t stage,
                paper::PaperPoint corner);
/// How high it is at that width.
double stage_height(const paper::Board& board, const SetInput& input, const SettingPlan& setting, double width);

/// Light lines inside a ring: what stands already.
void hatch_lightly(paper::Path& path, const std::vector<paper::PaperPoint>& ring);

/// An E sheet of the setting.
paper::Sheet draw_setting(const SetInput& input, const SetPlan& plan, std::size_t index);

}  // namespace deckquire::sheets
