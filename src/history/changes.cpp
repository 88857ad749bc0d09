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
  const Fact* element = nullptr;
  std::vector<std::string> keys;
  std::map<std::string, const Fact*> values;  // by what follows the path
};

/// Elements that only `from` has, outermost ones, with all that is in them.
std::vector<Whole> only_in(const Facts& from, const Facts& other) {
  std::vector<Whole> out;
  for (const auto& [key, fact] : from) {
    if (!fact.attribute.empty() || other.count(key)) continue;
    const std::string path = path_of(key);
    const auto inside = [&](const Whole& w) { return is_below(path, w.path); };
    if (std::none_of(out.begin(), out.end(), inside)) out.push_back({path, &fact, {}, {}});
  }
  for (Whole& w : out)
    for (const auto& [key, fact] : from) {
      const std::string path = path_of(key);
      if (path != w.path && !is_below(path, w.path)) continue;
      w.keys.push_back(key);
      w.values[key.substr(w.path.size())] = &fact;
    }
  return out;
}

std::string summary(const Whole& w) {
  std::string out;
  for (const auto& [key, fact] : w.values) {
    if (!fact->given || fact->attribute.empty()) continue;
    out += out.empty() ? "" : ", ";
    out += (fact->attribute == "text" ? "" : fact->attribute + " ") + fact->shown;
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
  for (const auto& [key, fact] : a.values) {
    const auto found = b.values.find(key);
    if (!fact->attribute.empty() && found != b.values.end() && found->second->value == fact->value)
      ++n;
  }
  return n;
}

/// One change a value that differs, of an element that is known by another name now.
void moved(const Whole& old, const Whole& fresh, std::vector<Change>& out) {
  bool first = true;
  for (const auto& [key, fact] : fresh.values) {
    const auto found = old.values.find(key);
    if (fact->attribute.empty() || found == old.values.end()) continue;
    const Fact& before = *found->second;
    if (before.value == fact->value) continue;
    out.push_back({Change::Way::changed,
                   old.element->element,
                   fact->attribute,
                   before.shown,
                   fact->shown,
                   before.si,
                   fact->si,
                   before.place,
                   fact->place,
                   {}});
    if (!first) continue;
    first = false;
    out.back().keys = old.keys;
    out.back().keys.insert(out.back().keys.end(), fresh.keys.begin(), fresh.keys.end());
  }
}

/// Pairs what went with what came, of one kind under one parent, where all but one or two values
/// agree.
void whole_elements(const Facts& before, const Facts& now, std::vector<Change>& out) {
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

std::vector<Change> changes(const Facts& before, const Facts& now) {
  std::vector<Change> out;
  whole_elements(before, now, out);
  for (const auto& [key, fact] : now) {
    const auto found = before.find(key);
    if (found == before.end() || found->second.value == fact.value) continue;
    const Fact& old = found->second;
    out.push_back({Change::Way::changed,
                   fact.element,
                   fact.attribute,
                   old.shown,
                   fact.shown,
                   old.si,
                   fact.si,
                   old.place,
                   fact.place,
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

Steps steps(const Facts& before, const Facts& now) {
  Steps out;
  for (const auto& [key, fact] : now) {
    const auto found = before.find(key);
    if (found == before.end())
      out[key] = {std::nullopt, fact.value};
    else if (found->second.value != fact.value)
      out[key] = {found->second.value, fact.value};
  }
  for (const auto& [key, fact] : before)
    if (!now.count(key)) out[key] = {fact.value, std::nullopt};
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
