#include "history/statuses.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>
#include <vector>

#include "base/text.h"

namespace deckquire::history {
namespace {

using Followers = std::map<std::string, std::vector<std::string>>;

/// Of a revision: what the next one may be issued as.
const Followers& next_issues() {
  static const Followers all{
      {"", {"preliminary", "for approval"}},
      {"preliminary", {"preliminary", "for approval"}},
      // Approved without remarks: the file has no word of its own for that.
      {"for approval", {"preliminary", "for approval", "for fabrication"}},
      {"approved as noted", {"preliminary", "for approval", "for fabrication"}},
      {"revise and resubmit", {"preliminary", "for approval"}},
      {"for fabrication", {"preliminary", "for approval", "for fabrication", "as built"}},
      {"as built", {"as built"}}};
  return all;
}

/// Of a revision: what it may become as it is. What was noted must be drawn first, in the next.
const Followers& next_statuses() {
  static const Followers all{
      {"preliminary", {"for approval"}},
      {"for approval", {"approved as noted", "revise and resubmit", "for fabrication"}},
      {"approved as noted", {}},
      {"revise and resubmit", {}},
      {"for fabrication", {"as built"}},
      {"as built", {}}};
  return all;
}

bool has(const Followers& all, const std::string& from, const std::string& to) {
  const auto at = all.find(from);
  return at != all.end() && std::find(at->second.begin(), at->second.end(), to) != at->second.end();
}

std::string choice(const Followers& all, const std::string& from) {
  const auto at = all.find(from);
  return at == all.end() || at->second.empty() ? "nothing" : join(at->second, ", ");
}

}  // namespace

std::string refused_issue(const std::string& last, const std::string& status) {
  if (has(next_issues(), last, status)) return "";
  if (status == "approved as noted" || status == "revise and resubmit")
    return fmt::format("\"{}\" is what a reviewer says of a revision that was sent out, not of a new "
                       "one",
                       status);
  if (last.empty()) return fmt::format("nothing was issued yet, and \"{}\" comes later", status);
  return fmt::format("after \"{}\" a revision may be issued as {}", last,
                     choice(next_issues(), last));
}

std::string refused_change(const std::string& from, const std::string& to) {
  if (has(next_statuses(), from, to)) return "";
  return fmt::format("a revision that is \"{}\" may become {} as it is", from,
                     choice(next_statuses(), from));
}

bool may_be_made(const std::string& status) {
  return status == "approved as noted" || status == "for fabrication" || status == "as built";
}

std::string next_revision(const std::string& revision, const std::string& left_out) {
  const auto used = [&](char c) { return left_out.find(c) == std::string::npos; };
  std::string next = revision;
  for (std::size_t i = next.size(); i-- > 0;) {
    do ++next[i];
    while (next[i] <= 'Z' && !used(next[i]));
    if (next[i] <= 'Z') return next;
    next[i] = 'A';
  }
  return "A" + next;
}

bool is_earlier(const std::string& a, const std::string& b) {
  return std::pair(a.size(), a) < std::pair(b.size(), b);
}

}  // namespace deckquire::history
