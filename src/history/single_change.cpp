#include "history/single_change.h"

#include <algorithm>
#include <map>
#include <sstream>
#include <stdexcept>

#include "history/statement_nodes.h"
#include "project/vocabulary.h"

namespace deckquire::history {
namespace {

/// "project/deck/span[1]" of "project/deck/span[1]/panels@count": up to the last element that is
/// known by something, else the element itself.
std::string edited(const std::string& key) {
  const std::string path = key.substr(0, key.rfind('@'));
  const std::size_t bracket = path.rfind(']');
  return bracket == std::string::npos ? path : path.substr(0, bracket + 1);
}

bool is_whole(const std::string& path) {
  return path.back() == ']';
}

/// Where what tells the last element from its like begins; a name may hold a slash.
std::size_t bracket_of(const std::string& path) {
  return is_whole(path) ? path.rfind('[') : path.size();
}

std::string parent_of(const std::string& path) {
  return path.substr(0, path.rfind('/', bracket_of(path)));
}

std::string name_of(const std::string& path) {
  const std::size_t bracket = bracket_of(path);
  const std::size_t slash = path.rfind('/', bracket);
  return path.substr(slash + 1, bracket - slash - 1);
}

/// A bare length means another thing in a file with another unit.
void state_unit(pugi::xml_attribute a, const Element& e, const OwnUnit& own) {
  const Attribute* row = find_attribute(e, a.name());
  if (row == nullptr || (row->kind != Kind::length && row->kind != Kind::station)) return;
  const Reading reading = read_amount(row->kind, a.value(), own);
  if (const auto* amount = std::get_if<Amount>(&reading)) {
    const std::int64_t nm = amount->nanometres, size = nm < 0 ? -nm : nm;
    std::string part = std::to_string(size % 1000000);
    part.insert(0, 6 - part.size(), '0');
    a.set_value(
        ((nm < 0 ? "-" : "") + std::to_string(size / 1000000) + "." + part + " mm").c_str());
  }
}

void state_units(pugi::xml_node node, const OwnUnit& own) {
  const Element* e = find_element(node.name());
  if (e == nullptr) return;
  for (pugi::xml_attribute a : node.attributes()) state_unit(a, *e, own);
  for (pugi::xml_node child : node.children()) state_units(child, own);
}

class Editor {
 public:
  Editor(const std::string& before, const std::string& now)
      : old_(before, "before", findings_), fresh_(now, "now", findings_) {
    if (!old_.ok() || !fresh_.ok()) throw std::invalid_argument("files that are no XML");
    old_statements_ = statements_of(old_, &old_nodes_);
    fresh_statements_ = statements_of(fresh_, &fresh_nodes_);
    own_.name = trimmed(fresh_.root().attribute("units").value());
    same_unit_ = own_.name == trimmed(old_.root().attribute("units").value());
  }

  void apply(const std::string& path) {
    const pugi::xml_node fresh = find(fresh_nodes_, path);
    pugi::xml_node old = find(old_nodes_, path);
    if (!fresh && !old) return;  // defaults on both sides
    if (!fresh) {
      if (old_statements_.count(path + "@"))
        old.parent().remove_child(old);
      else
        old.remove_attributes();
    } else if (!old) {
      if (fresh_statements_.count(path + "@"))
        finish(made(parent_of(path)).append_copy(fresh));
      else
        sync(made(path), fresh);
    } else if (is_whole(path)) {
      const pugi::xml_node copy = old.parent().insert_copy_after(fresh, old);
      old.parent().remove_child(old);
      finish(copy);
    } else {
      sync(old, fresh);
    }
  }

  std::string text() const {
    std::ostringstream out;
    old_.root().print(out, "", pugi::format_raw);
    return std::move(out).str();
  }

 private:
  Findings findings_;
  Document old_, fresh_;
  Statements old_statements_, fresh_statements_;
  StatementNodes old_nodes_, fresh_nodes_;
  OwnUnit own_;
  bool same_unit_ = true;

  static pugi::xml_node find(const StatementNodes& nodes, const std::string& path) {
    const auto found = nodes.find(path);
    return found == nodes.end() ? pugi::xml_node() : found->second;
  }

  void finish(pugi::xml_node node) {
    if (!same_unit_) state_units(node, own_);
  }

  /// The element of a path in the old file, made where it is not there.
  pugi::xml_node made(const std::string& path) {
    if (const pugi::xml_node node = find(old_nodes_, path)) return node;
    pugi::xml_node parent =
        path.find('/') == std::string::npos ? old_.root() : made(parent_of(path));
    return old_nodes_[path] = parent.append_child(name_of(path).c_str());
  }

  /// Attributes and text, not the elements within.
  void sync(pugi::xml_node old, pugi::xml_node fresh) {
    const bool is_root = old == old_.root();
    const std::string unit = old.attribute("units").value();
    old.remove_attributes();
    for (pugi::xml_attribute a : fresh.attributes()) {
      pugi::xml_attribute copy = old.append_copy(a);
      if (!same_unit_)
        if (const Element* e = find_element(old.name())) state_unit(copy, *e, own_);
    }
    // Bare numbers of the old file keep their meaning.
    if (is_root) old.attribute("units").set_value(unit.c_str());
    if (old.text()) old.text().set(fresh.text().get());
  }
};

}  // namespace

std::vector<ChangeGroup> groups_of(const std::vector<Change>& changes) {
  std::vector<ChangeGroup> out;
  std::map<std::vector<std::string>, std::size_t> known;
  std::vector<std::string> before;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    std::vector<std::string> paths;
    for (const std::string& key : changes[i].keys) paths.push_back(edited(key));
    std::sort(paths.begin(), paths.end());
    // Of an element that came or went, the outermost; it sorts first.
    std::vector<std::string> outer;
    for (const std::string& path : paths)
      if (outer.empty() || (path != outer.back() && !path.starts_with(outer.back() + "/")))
        outer.push_back(path);
    paths = std::move(outer);
    if (paths.empty()) paths = before;  // a further value of an element that moved
    before = paths;
    const auto [at, fresh] = known.try_emplace(paths, out.size());
    if (fresh) out.push_back({paths, {}});
    out[at->second].changes.push_back(i);
  }
  return out;
}

std::string with_group(const std::string& before, const std::string& now,
                       const ChangeGroup& group) {
  Editor editor(before, now);
  for (const std::string& path : group.paths) editor.apply(path);
  return editor.text();
}

}  // namespace deckquire::history
