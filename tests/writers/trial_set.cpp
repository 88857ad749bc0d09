#include "writers/trial_set.h"

namespace deckquire::writers {

using namespace paper;

const Lettering& trial_lettering() {
  static const Lettering lettering({"osifont.ttf", "DejaVuSans.ttf"});
  return lettering;
}

DocumentInfo trial_info() {
  return {.title = "Bridge <of> \"Ø\" & Мост",
          .author = "Tarn Composites",
          .job = "0417",
          .date = "2026-10-02",
          .inks = {"#000000", "#0b5351", "#c00000", "#808080", "#e0e0e0", "#ffffff"},
          .sheets = {"E01", "P01"}};
}

namespace {

Text words(PaperPoint at, const std::string& text) {
  Text t;
  t.at = at;
  t.height = 5;
  t.width = trial_lettering().width(text, 5);
  t.text = text;
  return t;
}

Stroke box(PenIndex pen, const PaperBox& b) {
  Stroke s{pen, {}};
  s.path.box(b);
  return s;
}

Sheet blank(const std::string& number, const std::string& title) {
  return {.number = number,
          .title = title,
          .revision = "A",
          .width = 420,
          .height = 297,
          .pens = {{0.5, {}, Ink::black, "outline"},
                   {0.25, {3, 1.5}, Ink::accent, "hidden"},
                   {0.25, {}, Ink::red, "outline"}},
          .items = {}};
}

}  // namespace

std::vector<Sheet> trial_sheets() {
  Sheet plan = blank("E01", "Plan & <profile>");
  Fill fill{Ink::pale, {}};
  fill.path.circle({300, 200}, 20);
  Text turned = words({50, 60}, "turned 90°");
  turned.angle = pi / 2;
  turned.masked = true;
  plan.items = {box(0, {{10, 10}, {410, 287}}),
                GroupStart{"panel-1", "panel", "DP01, \"first\" <panel>", "P01"},
                box(0, {{100, 100}, {150, 180}}),
                box(1, {{110, 110}, {140, 170}}),
                words({105, 120}, "DP01"),
                GroupEnd{},
                GroupStart{"", "note", "", "T09"},
                words({200, 50}, "not in this set"),
                GroupEnd{},
                fill,
                box(2, {{200, 200}, {220, 210}}),
                box(2, {{230, 200}, {250, 210}}),
                turned,
                words({20, 30}, special_words)};
  Sheet panel = blank("P01", "Panel DP01");
  panel.items = {GroupStart{"back", "where-used", "", "E01#panel-1"}, words({40, 250}, "E01"),
                 GroupEnd{}, box(0, {{10, 10}, {410, 287}})};
  return {plan, panel};
}

}  // namespace deckquire::writers
