#include "sheets/details.h"

#include <algorithm>

namespace deckquire::sheets {

namespace {

bool has(const SetInput& input, FeatureKind kind) {
  const auto& marks = input.deck.marks;
  return std::any_of(marks.begin(), marks.end(), [kind](const Mark& m) {
    const auto& f = m.shape.features;
    return std::any_of(f.begin(), f.end(), [kind](const Feature& x) { return x.kind == kind; });
  });
}

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
  add(!joints.empty(), Detail::end_joint);
  add(has(input, FeatureKind::recess), Detail::recess);
  add(has(input, FeatureKind::scupper), Detail::scupper);
  add(has(input, FeatureKind::hatch), Detail::hatch);
  add(has(input, FeatureKind::sleeve), Detail::sleeve);
  add(has(input, FeatureKind::hold_down), Detail::hold_down);
  add(has(input, FeatureKind::lifting_insert), Detail::lifting);
  return out;
}

}  // namespace

const char* detail_title(Detail detail) {
  switch (detail) {
    case Detail::curb:
      return "CURB AND DECK EDGE";
    case Detail::post_plate:
      return "POST PLATE IN THE CURB";
    case Detail::joint:
      return "JOINT BETWEEN PANELS";
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

std::vector<std::vector<Detail>> arrange_details(const SetInput& input) {
  std::vector<std::vector<Detail>> out;
  for (Detail d : details_of(input)) {
    if (out.empty() || out.back().size() == 4) out.emplace_back();
    out.back().push_back(d);
  }
  return out;
}

}  // namespace deckquire::sheets
