// Which status may follow which, in the words of the project file. After the state machine of the
// trade (common practice, no source): a set goes out for approval and comes back as noted, or to be
// resubmitted; what was released to the shop is followed by what is released, and ends as built.
#pragma once

#include <string>

namespace deckquire::history {

/// Why a new revision may not go out with this status when that of the last revision is `last` (empty:
/// nothing was issued yet); empty: it may.
std::string refused_issue(const std::string& last, const std::string& status);

/// Why an issued revision may not go from one status to the other without a new revision; empty: it
/// may.
std::string refused_change(const std::string& from, const std::string& to);

/// True where the shop may make panels to a revision of that status.
bool may_be_made(const std::string& status);

/// The revision after that one, without letters that may be misread; after the last letter two: AA.
std::string next_revision(const std::string& revision, const std::string& left_out = "IOQSXZ");

/// True where `a` comes before `b`.
bool is_earlier(const std::string& a, const std::string& b);

}  // namespace deckquire::history
