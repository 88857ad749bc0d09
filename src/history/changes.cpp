#include "history/changes.h"

#include <algorithm>
#include <tuple>

namespace deckquire::history {
namespace {

/// "deck/hatch[H2]" of "deck/hatch[H2]@at"; stations and names hold no '@'... the last one counts.
std::string path_of(const std::string& key) {
  return key.substr(0, key.rfind('@'));
}

bool is_below(const std::string& path, const std::string& top) {
  return path.size() > top.size() && path.compare(0, top.size(), top) == 0 &&
         path[top.size()] == '/';
}

/// The element's name and its parent's path: what may have moved within.
std::string kind_of(const std::string& path) {
  const std::size_t bracket =
      path.rfind("/", path.rfind('[') == std::string::npos ? std::string::npos : path.rfind('['));
  const std::size_t end = path.find('[', bracket == std::string::npos ? 0 : bracket);
  return path.substr(0, end);
}

/// An element that is in one file only, with its values.
struct Whole {
  std::string path;
  const Statement* element = nullptr;
  std::vector<std::string> keys;
  std::map<std::string, const Statement*> values;  // by what follows the path
};

/// Elements that only `from` has, outermost ones, with all that is in them.
std::vector<Whole> only_in(const Statements& from, const Statements& other) {
  std::vector<Whole> out;
  for (const auto& [key, said] : from) {
    if (!said.attribute.empty() || other.count(key)) continue;
    const std::string path = path_of(key);
    const auto inside = [&](const Whole& w) { return is_below(path, w.path); };
    if (std::none_of(out.begin(), out.end(), inside)) out.push_back({path, &said, {}, {}});
  }
  for (Whole& w : out)
    for (const auto& [key, said] : from) {
      const std::string path = path_of(key);
      if (path != w.path && !is_below(path, w.path)) continue;
      w.keys.push_back(key);
      w.values[key.substr(w.path.size())] = &said;
    }
  return out;
}

std::string summary(const Whole& w) {
  std::string out;
  for (const auto& [key, said] : w.values) {
    if (!said->given || said->attribute.empty()) continue;
    out += out.empty() ? "" : ", ";
    out += (said->attribute == "text" ? "" : said->attribute + " ") + said->shown;
  }
  return out;
}

Change came_or_went(const Whole& w, bool came) {
  Change c;
  c.way = came ? Change::Way::added : Change::Way::removed;
  c.element = w.element->element;
  (came ? c.now : c.before) = summary(w);
  (came ? c.new_place : c.old_place) = w.element->place;
  c.keys = w.keys;
  return c;
}

/// How many values two elements share; what they are known by is among the others.
std::size_t shared(const Whole& a, const Whole& b) {
  std::size_t n = 0;
  for (const auto& [key, said] : a.values) {
    const auto found = b.values.find(key);
    if (!said->attribute.empty() && found != b.values.end() && found->second->value == said->value)
      ++n;
  }
  return n;
}

/// One change a value that differs, of an element that is known by another name now.
void moved(const Whole& old, const Whole& fresh, std::vector<Change>& out) {
  bool first = true;
  for (const auto& [key, said] : fresh.values) {
    const auto found = old.values.find(key);
    if (said->attribute.empty() || found == old.values.end()) continue;
    const Statement& before = *found->second;
    if (before.value == said->value) continue;
    out.push_back({Change::Way::changed,
                   old.element->element,
                   said->attribute,
                   before.shown,
                   said->shown,
                   before.si,
                   said->si,
                   before.place,
                   said->place,
                   {}});
    if (!first) continue;
    first = false;
    out.back().keys = old.keys;
    out.back().keys.insert(out.back().keys.end(), fresh.keys.begin(), fresh.keys.end());
  }
}

/// Pairs what went with what came, of one kind under one parent, where all but one or two values
/// agree.
void whole_elements(const Statements& before, const Statements& now, std::vector<Change>& out) {
  std::vector<Whole> went = only_in(before, now), came = only_in(now, before);
  for (Whole& fresh : came) {
    std::size_t best = 0;
    Whole* pair = nullptr;
    for (Whole& old : went) {
      if (old.element == nullptr || kind_of(old.path) != kind_of(fresh.path) ||
          old.values.size() != fresh.values.size())
        continue;
      const std::size_t n = shared(old, fresh);
      if (n + 2 >= old.values.size() && n > best) best = n, pair = &old;  // the element, its key
    }
    if (pair == nullptr) {
      out.push_back(came_or_went(fresh, true));
    } else {
      moved(*pair, fresh, out);
      pair->element = nullptr;
    }
  }
  for (const Whole& old : went)
    if (old.element != nullptr) out.push_back(came_or_went(old, false));
}

}  // namespace

std::vector<Change> changes(const Statements& before, const Statements& now) {
  std::vector<Change> out;
  whole_elements(before, now, out);
  for (const auto& [key, said] : now) {
    const auto found = before.find(key);
    if (found == before.end() || found->second.value == said.value) continue;
    const Statement& old = found->second;
    out.push_back({Change::Way::changed,
                   said.element,
                   said.attribute,
                   old.shown,
                   said.shown,
                   old.si,
                   said.si,
                   old.place,
                   said.place,
                   {key}});
  }
  const auto order = [](const Change& c) {
    const Place& p = c.new_place.line > 0 ? c.new_place : c.old_place;
    return std::tuple(p.line, p.column, c.element, c.attribute);
  };
  std::stable_sort(out.begin(), out.end(),
                   [&](const Change& a, const Change& b) { return order(a) < order(b); });
  return out;
}

Steps steps(const Statements& before, const Statements& now) {
  Steps out;
  for (const auto& [key, said] : now) {
    const auto found = before.find(key);
    if (found == before.end())
      out[key] = {std::nullopt, said.value};
    else if (found->second.value != said.value)
      out[key] = {found->second.value, said.value};
  }
  for (const auto& [key, said] : before)
    if (!now.count(key)) out[key] = {said.value, std::nullopt};
  return out;
}

Steps then(const Steps& first, const Steps& second) {
  Steps out = first;
  for (const auto& [key, step] : second) {
    const auto [at, fresh] = out.try_emplace(key, step);
    if (fresh) continue;
    at->second.now = step.now;
    if (at->second.before == at->second.now) out.erase(at);
  }
  return out;
}

std::string to_words(const Change& c) {
  switch (c.way) {
    case Change::Way::added:
      return c.element + " added" + (c.now.empty() ? "" : ": " + c.now);
    case Change::Way::removed:
      return c.element + " removed" + (c.before.empty() ? "" : "; it was " + c.before);
    default:
      return c.element + (c.attribute == "text" ? "" : " " + c.attribute) + ": " + c.now +
             ", was " + c.before;
  }
}

}  // namespace deckquire::history
