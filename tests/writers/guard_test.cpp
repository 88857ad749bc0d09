#include <doctest/doctest.h>

#include <functional>
#include <limits>
#include <stdexcept>
#include <utility>

#include "writers/trial_set.h"

using namespace deckquire;
using namespace deckquire::writers;

namespace {

/// The message of both writers on a spoilt sheet; both refuse with the same words.
std::string refusal(const std::function<void(paper::Sheet&)>& spoil) {
  std::vector<paper::Sheet> sheets = trial_sheets();
  spoil(sheets[0]);
  std::string pdf, svg;
  try {
    write_pdf(sheets, trial_info(), trial_lettering(), 2);
  } catch (const std::runtime_error& e) {
    pdf = e.what();
  }
  try {
    write_svg(sheets[0], trial_info(), trial_lettering());
  } catch (const std::runtime_error& e) {
    svg = e.what();
  }
  CHECK(pdf == svg);
  return svg;
}

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("writers: a sheet that would come out wrong without a word is refused, with its place") {
  CHECK(refusal([](auto&) {}).empty());
  for (double bad : {not_a_number, infinite, -infinite, 1e300, 1e7})
    CHECK(refusal([&](auto& s) { std::get<paper::Stroke>(s.items[0]).path.points[0].x = bad; }) ==
          "sheet E01: item 1: a coordinate that is not finite or far off the paper");
  CHECK(refusal([](auto& s) { std::get<paper::Text>(s.items[4]).at.y = not_a_number; }) ==
        "sheet E01: item 5: a text whose place is not finite or far off the paper");
  CHECK(refusal([](auto& s) { std::get<paper::Text>(s.items[4]).height = 0; }) ==
        "sheet E01: item 5: a text whose height is not usable");
  CHECK(refusal([](auto& s) { std::get<paper::Text>(s.items[4]).text = "\xff"; }) ==
        "sheet E01: item 5: a text that is not clean UTF-8");
  CHECK(refusal([](auto& s) { std::get<paper::Text>(s.items[4]).text = "\x01"; }) ==
        "sheet E01: item 5: a text that is not clean UTF-8");
  CHECK(refusal([](auto& s) { std::get<paper::Stroke>(s.items[0]).pen = 3; }) ==
        "sheet E01: item 1: a pen that the sheet does not have");
  CHECK(refusal([](auto& s) { std::get<paper::Stroke>(s.items[0]).path.points.pop_back(); }) ==
        "sheet E01: item 1: a path whose points do not match its moves");
  CHECK(refusal([](auto& s) { s.items.emplace_back(std::in_place_type<paper::GroupEnd>); }) ==
        "sheet E01: item 15: the end of a group that was never opened");
  CHECK(refusal([](auto& s) { s.items.emplace_back(std::in_place_type<paper::GroupStart>); }) ==
        "sheet E01: a group that is never closed");
  CHECK(refusal([](auto& s) { s.width = not_a_number; }) ==
        "sheet E01: a sheet size that is not usable");
}

TEST_CASE("writers: pens that cairo would choke on are refused") {
  using Dash = std::vector<double>;
  for (const Dash& dash : {Dash{0, 0}, Dash{-1, 2}, Dash{not_a_number}, Dash{infinite}})
    CHECK(refusal([&](auto& s) { s.pens[1].dash = dash; }) ==
          "sheet E01: pen 'hidden' is not usable");
  for (double width : {0.0, -1.0, not_a_number, infinite})
    CHECK(refusal([&](auto& s) { s.pens[1].width = width; }) ==
          "sheet E01: pen 'hidden' is not usable");
}
