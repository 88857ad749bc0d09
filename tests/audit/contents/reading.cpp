#include "audit/contents/reading.h"

#include <algorithm>

namespace deckquire::contents {

using audit::Scan;

namespace {

int parent_row(const Scan& scan, int group) { return scan.within(group, "row"); }

}  // namespace

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::string joined(const Cells& words) {
  std::string out;
  for (const std::string& w : words) out += (out.empty() ? "" : " ") + w;
  return out;
}

bool says(const std::string& text, const std::string& pattern) {
  for (std::size_t at = 0; at <= pattern.size();) {
    const std::size_t bar = std::min(pattern.find('|', at), pattern.size());
    const std::string one = pattern.substr(at, bar - at);
    std::size_t from = 0;
    bool found = true;
    for (std::size_t p = 0; found && p <= one.size();) {
      const std::size_t star = std::min(one.find('*', p), one.size());
      const std::string part = one.substr(p, star - p);
      const std::size_t here = text.find(part, from);
      found = here != std::string::npos;
      from = here + part.size();
      p = star + 1;
    }
    if (found) return true;
    at = bar + 1;
  }
  return false;
}

Page::Page(const paper::Sheet& s) : sheet(s), scan(sheet) {
  std::vector<int> table_of(scan.groups.size(), -1), index(scan.groups.size(), -1);
  for (std::size_t g = 0; g < scan.groups.size(); ++g) {
    const int t = scan.within(static_cast<int>(g), "table");
    table_of[g] = t;
    if (t == static_cast<int>(g)) {
      index[g] = static_cast<int>(tables.size());
      tables.push_back({scan.groups[g].start->title, "", {}, {}});
    }
  }
  int row = -1;
  for (const audit::Letters& l : scan.texts) {
    words += l.text->text + " ";
    const int t = l.group < 0 ? -1 : table_of[static_cast<std::size_t>(l.group)];
    if (t < 0) continue;
    Listing& table = tables[static_cast<std::size_t>(index[static_cast<std::size_t>(t)])];
    const int r = parent_row(scan, l.group);
    if (r < 0) {
      if (table.rows.empty())
        table.head += l.text->text + " ";
      else
        table.foot.push_back(l.text->text);
      continue;
    }
    if (r != row || table.rows.empty()) table.rows.emplace_back();
    row = r;
    table.rows.back().push_back(l.text->text);
  }
}

std::string Page::field(const std::string& caption) const {
  Cells value;
  bool inside = false;
  for (const audit::Letters& l : scan.texts) {
    if (scan.within(l.group, "title-block") < 0) continue;
    if (l.text->ink == paper::Ink::grey) {
      if (inside) break;
      inside = l.text->text == caption;
    } else if (inside) {
      value.push_back(l.text->text);
    }
  }
  return joined(value);
}

Cells Page::in(const std::string& kind) const {
  Cells out;
  for (const audit::Letters& l : scan.texts)
    if (scan.within(l.group, kind) >= 0) out.push_back(l.text->text);
  return out;
}

std::vector<int> Page::groups(const std::string& kind) const {
  std::vector<int> out;
  for (std::size_t g = 0; g < scan.groups.size(); ++g)
    if (scan.groups[g].start->kind == kind) out.push_back(static_cast<int>(g));
  return out;
}

Cells Page::words_of(int group) const {
  Cells out;
  for (const audit::Letters& l : scan.texts) {
    int g = l.group;
    while (g >= 0 && g != group) g = scan.groups[static_cast<std::size_t>(g)].parent;
    if (g == group) out.push_back(l.text->text);
  }
  return out;
}

const Listing* Page::table(const std::string& head) const {
  for (const Listing& t : tables)
    if (holds(t.head, head) || holds(t.title, head)) return &t;
  return nullptr;
}

Reading::Reading(const sheets::DrawnSet& d) : drawn(d) {
  for (const paper::Sheet& s : d.sheets) pages.push_back(std::make_shared<const Page>(s));
}

std::vector<const Page*> Reading::of(const std::string& series) const {
  std::vector<const Page*> out;
  for (const auto& p : pages)
    if (series.find(p->series()) != std::string::npos) out.push_back(p.get());
  return out;
}

std::string Reading::words(const std::string& series) const {
  std::string out;
  for (const Page* p : of(series)) out += p->words;
  return out;
}

std::vector<Cells> Reading::rows(const std::string& series, const std::string& head) const {
  std::vector<Cells> out;
  for (const Page* p : of(series))
    for (const Listing& t : p->tables)
      if (holds(t.head, head) || holds(t.title, head))
        out.insert(out.end(), t.rows.begin(), t.rows.end());
  return out;
}

namespace {

/// Every text inside groups of that kind ("": everywhere).
Fault on_text(const std::string& series, const std::string& kind,
              const std::function<bool(paper::Text&)>& change) {
  return {series, [kind, change](paper::Sheet& s) {
            bool any = false;
            std::vector<bool> inside{kind.empty()};
            for (paper::Item& i : s.items) {
              if (const auto* g = std::get_if<paper::GroupStart>(&i))
                inside.push_back(inside.back() || g->kind == kind);
              else if (std::holds_alternative<paper::GroupEnd>(i))
                inside.pop_back();
              else if (auto* t = std::get_if<paper::Text>(&i); t != nullptr && inside.back())
                any = change(*t) || any;
            }
            return any;
          }};
}

}  // namespace

Fault reword(const std::string& series, const std::string& from, const std::string& to,
             const std::string& kind) {
  return on_text(series, kind, [from, to](paper::Text& t) {
    const std::size_t at = t.text.find(from);
    if (at == std::string::npos) return false;
    t.text.replace(at, from.size(), to);
    return true;
  });
}

Fault rename(const std::string& series, const std::string& from, const std::string& to,
             const std::string& kind) {
  return on_text(series, kind, [from, to](paper::Text& t) {
    if (t.text != from) return false;
    t.text = to;
    return true;
  });
}

Fault unmark(const std::string& series, const std::string& kind) {
  return {series, [kind](paper::Sheet& s) {
            bool any = false;
            for (paper::Item& i : s.items)
              if (auto* g = std::get_if<paper::GroupStart>(&i); g != nullptr && g->kind == kind) {
                g->kind = "lost";
                any = true;
              }
            return any;
          }};
}

}  // namespace deckquire::contents
