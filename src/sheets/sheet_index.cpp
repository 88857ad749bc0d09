#include "sheets/sheet_index.h"

#include <algorithm>
#include <cctype>
#include <tuple>

#include "sheets/revision_block.h"

namespace deckquire::sheets {
namespace {

/// Whole number at the start of a text; 0 where there is none.
int leading(const std::string& text) {
  int n = 0;
  for (char c : text) {
    if (c < '0' || c > '9' || n > 99999) break;
    n = 10 * n + (c - '0');
  }
  return n;
}

std::tuple<int, int> order(const std::string& number) {
  const auto dash = number.find('-');
  return {number.empty() ? 0 : leading(number.substr(1)),
          dash == std::string::npos ? 1 : leading(number.substr(dash + 1))};
}

/// What was drawn in any issue before, as it stood in the last that had it.
std::vector<IndexLine> issued_lines(const history::Register& issued) {
  std::vector<IndexLine> out;
  for (const history::Entry& e : issued.entries) {
    if (!e.issue) continue;
    for (const history::IssuedSheet& s : e.issue->sheets) {
      const auto same = [&](const IndexLine& l) { return l.number == s.number; };
      const std::string own = s.revisions.empty() ? "" : s.revisions.back();
      IndexLine line{s.number, s.title, own, s.withdrawn};
      const auto there = std::find_if(out.begin(), out.end(), same);
      if (there == out.end())
        out.push_back(std::move(line));
      else
        *there = std::move(line);
    }
  }
  return out;
}

}  // namespace

bool sheet_before(const std::string& a, const std::string& b) {
  return order(a) < order(b);
}

std::vector<IndexLine> index_lines(const SetInput& input, const SetPlan& plan) {
  std::vector<IndexLine> out;
  for (const SheetPlan& s : plan.sheets) {
    const Revision* own = own_revision(input, s.number);
    out.push_back({s.number, s.title, own ? own->id : "", false});
  }
  if (input.history == nullptr) return out;
  for (IndexLine& old : issued_lines(input.history->issued)) {
    const auto same = [&](const IndexLine& l) { return l.number == old.number; };
    if (old.number.empty() || old.number[0] == 'R') continue;
    if (std::find_if(out.begin(), out.end(), same) != out.end()) continue;
    if (!old.withdrawn && !input.project.revisions.empty())
      old.revision = input.project.revisions.back().id;  // this one withdraws it
    old.withdrawn = true;
    // Behind the last of its series that comes before it; a series that is gone, at the end.
    auto at = out.end();
    for (auto line = out.begin(); line != out.end(); ++line)
      if (line->number[0] == old.number[0] && sheet_before(line->number, old.number)) at = line + 1;
    if (at == out.end())
      for (auto line = out.begin(); line != out.end() && at == out.end(); ++line)
        if (line->number[0] == old.number[0]) at = line;
    out.insert(at, std::move(old));
  }
  return out;
}

}  // namespace deckquire::sheets
