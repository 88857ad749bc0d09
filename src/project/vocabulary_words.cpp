#include "project/vocabulary_words.h"

#include <fmt/core.h>

#include "base/text.h"

namespace deckquire {
namespace {

/// "light=4 mm|heavy=10 mm" -> "light: 4 mm, heavy: 10 mm".
std::string by_words(const std::string& list) {
  std::string out;
  for (char c : list) out += c == '=' ? ": " : c == '|' ? ", " : std::string(1, c);
  return out;
}

}  // namespace

std::string preset_words(const Attribute& row) {
  const Preset& p = row.preset;
  switch (p.way) {
    case Preset::Way::required:
      return "required";
    case Preset::Way::absent:
    case Preset::Way::described:
      return p.words;
    case Preset::Way::value:
      return p.metric == p.imperial ? p.metric : p.metric + ", or " + p.imperial;
    case Preset::Way::by:
      return p.metric == p.imperial ? by_words(p.metric)
                                    : by_words(p.metric) + "; or " + by_words(p.imperial);
  }
  return {};
}

std::string limits_words(const Attribute& row) {
  if (!row.words.empty()) return join(row.words, ", ");
  if (row.limits.least.empty()) return {};
  return row.limits.least + " to " + row.limits.greatest;
}

std::string kind_words(Kind kind) {
  switch (kind) {
    case Kind::text:
      return "text";
    case Kind::name:
      return "name";
    case Kind::word:
      return "word";
    case Kind::letters:
      return "capital letters";
    case Kind::series:
      return "sheet series";
    case Kind::integer:
      return "whole number";
    case Kind::length:
      return "length";
    case Kind::station:
      return "station";
    case Kind::slope:
      return "slope";
    case Kind::density:
      return "density";
    case Kind::area_mass:
      return "mass per area";
    case Kind::mass:
      return "mass";
    case Kind::angle:
      return "angle";
    case Kind::temperature:
      return "temperature";
    case Kind::force:
      return "force";
    case Kind::pressure:
      return "pressure";
    case Kind::line_load:
      return "load per length";
    case Kind::moment:
      return "torque";
    case Kind::rain:
      return "rain intensity";
    case Kind::expansion:
      return "expansion";
    case Kind::number:
      return "number";
    case Kind::date:
      return "date";
    case Kind::revision:
      return "revision";
    case Kind::thread:
      return "thread";
    case Kind::scale:
      return "scale";
  }
  return {};
}

std::string count_words(const Child& c) {
  if (c.most == 1) return c.least == 1 ? "one" : "at most one";
  return c.least == 0 ? fmt::format("up to {}", c.most) : fmt::format("{} to {}", c.least, c.most);
}

std::string choice_words(const Choice& choice) {
  std::vector<std::string> ways;
  for (const auto& way : choice.ways) ways.push_back(join(way, " with "));
  if (ways.size() == 1) return ways[0] + ", all or none";
  return std::string(choice.needed ? "either " : "at most one of ") + join(ways, " or ");
}

}  // namespace deckquire
