// One calculation by itself.
#include <fmt/format.h>

#include <algorithm>

#include "base/json.h"
#include "base/text.h"
#include "commands/commands.h"
#include "workings/reckoner.h"

namespace deckquire::commands {
namespace {

using workings::InputSpec;
using workings::WorkingKind;

std::size_t widest(const std::vector<std::string>& words) {
  std::size_t most = 0;
  for (const std::string& s : words) most = std::max(most, s.size());
  return most;
}

void print_all() {
  std::vector<std::string> names;
  for (const WorkingKind& k : workings::registry()) names.push_back(k.name);
  std::string group;
  for (const WorkingKind& k : workings::registry()) {
    if (k.group != group) fmt::print("{}{}\n", group.empty() ? "" : "\n", k.group);
    group = k.group;
    fmt::print("  {:<{}}  {}\n", k.name, widest(names), k.title);
  }
  fmt::print("\nWhat one takes: deckquire reckon NAME\n");
}

std::string what_it_takes(const InputSpec& in) {
  if (in.list) return "a list";
  if (!in.choices.empty()) return join(in.choices, ", ");
  return workings::unit_words(in.kind);
}

/// "bare numbers m, with units=us ft".
std::string bare_unit(const InputSpec& in, bool us_constants) {
  using workings::System;
  const bool plain = in.list || !in.choices.empty() || in.kind == workings::Kind::number ||
                     in.kind == workings::Kind::count;
  if (plain) return "";
  const auto si = in.unit_in(System::si).label, us = in.unit_in(System::us).label;
  std::string out = fmt::format("; a bare number is in {}", si);
  if (us_constants && us != si) out += fmt::format(", with units=us in {}", us);
  return out;
}

std::string default_words(const InputSpec& in) {
  if (in.optional) return in.note.empty() ? "may be left out" : "may be left out: " + in.note;
  if (in.fallback.empty()) return in.note;
  return fmt::format("default {}{}{}", in.fallback, in.why.empty() ? "" : ": ", in.why);
}

void print_help(const WorkingKind& k) {
  std::vector<std::string> symbols{"units"};
  for (const InputSpec& in : k.inputs) symbols.push_back(in.symbol);
  const std::size_t column = widest(symbols);
  fmt::print("{} ({})\n", k.title, k.name);
  if (!k.about.empty()) fmt::print("{}\n", k.about);
  fmt::print("\nValues\n");
  for (const InputSpec& in : k.inputs) {
    fmt::print("  {:<{}}  {}\n", in.symbol, column, in.meaning);
    fmt::print("  {:<{}}    {}{}\n", "", column, what_it_takes(in), bare_unit(in, k.us_constants));
    const std::string range = in.range_words(workings::System::si);
    if (!range.empty()) fmt::print("  {:<{}}    {}\n", "", column, range);
    const std::string more = default_words(in);
    if (!more.empty()) fmt::print("  {:<{}}    {}\n", "", column, more);
  }
  if (k.us_constants)
    fmt::print("  {:<{}}  si or us: constants and units of the formulas; default si\n", "units",
               column);
  fmt::print("\nSource\n");
  for (const std::string& s : k.sources) fmt::print("  {}\n", s);
  if (!k.example.empty()) fmt::print("\nExample\n  deckquire reckon {} {}\n", k.name, k.example);
}

std::string json_list(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& s : words) out += (out.empty() ? "" : ", ") + json_string(s);
  return "[" + out + "]";
}

std::string json_input(const InputSpec& in) {
  std::vector<std::string> units;
  if (!in.list && in.choices.empty())
    for (const workings::Unit& u : workings::units_of(in.kind)) units.emplace_back(u.label);
  return fmt::format(
      "{{\"symbol\": {}, \"meaning\": {}, \"units\": {}, \"choices\": {}, \"default\": {}, "
      "\"because\": "
      "{}, \"optional\": {}}}",
      json_string(in.symbol), json_string(in.meaning), json_list(units), json_list(in.choices),
      in.fallback.empty() ? "null" : json_string(in.fallback), json_string(in.why), in.optional);
}

void print_json(const std::vector<const WorkingKind*>& kinds) {
  fmt::print("[");
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    const WorkingKind& k = *kinds[i];
    std::string inputs;
    for (const InputSpec& in : k.inputs)
      inputs += (inputs.empty() ? "" : ",\n    ") + json_input(in);
    fmt::print("{}\n  {{\"name\": {}, \"group\": {}, \"title\": {}, \"sources\": {}, ",
               i == 0 ? "" : ",", json_string(k.name), json_string(k.group), json_string(k.title),
               json_list(k.sources));
    fmt::print("\"us_constants\": {}, \"inputs\": [\n    {}]}}", k.us_constants, inputs);
  }
  fmt::print("\n]\n");
}

int refuse(const std::string& why) {
  fmt::print(stderr, "deckquire: reckon{}\n", why);
  return wrong_command_line;
}

int unknown(const std::string& name) {
  std::vector<std::string> names;
  for (const WorkingKind& k : workings::registry()) names.push_back(k.name);
  const std::string near = nearest_word(name, names);
  return refuse(
      fmt::format(": there is no working '{}'; {}", name,
                  near.empty() ? "'deckquire reckon' lists all" : "did you mean '" + near + "'?"));
}

}  // namespace

int reckon(const std::string& name, const std::vector<std::string>& values, bool json) {
  if (name.empty() && json) {
    std::vector<const WorkingKind*> all;
    for (const WorkingKind& k : workings::registry()) all.push_back(&k);
    print_json(all);
    return done;
  }
  if (name.empty()) {
    print_all();
    return done;
  }
  const WorkingKind* kind = workings::find_working(name);
  if (!kind) return unknown(name);
  if (values.empty()) {
    json ? print_json({kind}) : print_help(*kind);
    return done;
  }
  std::vector<std::pair<std::string, std::string>> typed;
  for (const std::string& v : values) {
    const auto at = v.find('=');
    if (at == std::string::npos || at == 0)
      return refuse(
          fmt::format(" {}: '{}' is no name=value; write it without blanks or in quotes", name, v));
    typed.emplace_back(v.substr(0, at), v.substr(at + 1));
  }
  try {
    const workings::Working w = workings::reckon_typed(*kind, typed);
    fmt::print("{}", json ? workings::to_json(w) : workings::to_text(w));
    return done;
  } catch (const workings::WorkingError& e) {
    return refuse(fmt::format(" {}: {}", name, e.what()));
  }
}

}  // namespace deckquire::commands
