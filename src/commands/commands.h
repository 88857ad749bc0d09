// The verbs of the command line. Each reads, calls the stages, writes and reports; each returns the
// exit status: 0 done, 1 the project has errors, 2 the command line is wrong, 3 a file could not be
// read or written.
#pragma once

#include <string>
#include <vector>

namespace deckquire::commands {

enum Status { done = 0, project_errors = 1, wrong_command_line = 2, file_trouble = 3 };

struct DrawOptions {
  std::string project;
  std::string out;     // empty: out/<file stem>
  std::string style;   // empty: the project's
  std::string sheets;  // empty: all; "E,P03-P07,T01"
  int jobs = 0;        // 0: as many as there are processors
};
int draw(const DrawOptions& options);

struct ShopOptions {
  std::string project;
  std::string out;          // empty: out/<file stem>-shop
  std::string style;        // empty: the project's
  std::string page = "a4";  // a4, a3, letter, ledger
};
/// Templates, travellers, tags, pages to measure the steel by, load sheets and a workbook of all tables.
int shop(const ShopOptions& options);

int check(const std::string& project, bool json);

struct AuditOptions {
  std::string project;
  std::string style;  // empty: the project's
  bool json = false;
};
/// Measures the sheets as an approver would; status 1 when one would come back.
int audit(const AuditOptions& options);

struct CompareOptions {
  std::string before;  // a project file, or a revision that was issued of `now`
  std::string now;     // a project file
  std::string out;     // for R sheets; empty: none
  std::string style;   // empty: that of the older project
  bool json = false;
};
/// What changed from one project to another: values, panels, marks, sheets, and which of them comes
/// from which. Status 0 whether anything differs or not.
int compare(const CompareOptions& options);

/// Divisions of the deck compared, and the one chosen in lines to paste into the project.
int divide(const std::string& project, bool json);

enum class Form { text, csv, json };
/// An empty schedule lists what there is.
int list(const std::string& project, const std::string& schedule, Form form);

/// Why two marks are two. With one mark or none: which marks would be one if a few fittings moved,
/// as tried on the whole deck.
int why(const std::string& project, const std::vector<std::string>& marks, bool json);

/// One calculation by itself, from values as typed ("Q=1.5L/s"). Without values: what it takes; without
/// a name: all there are.
int reckon(const std::string& working, const std::vector<std::string>& values, bool json);

struct IssueOptions {
  std::string project, revision;
  std::string status;  // empty: as the file says
  std::string by;      // empty: as the file says
  std::string date;    // of a new status of an issued revision; an issue has the file's
};
/// Freezes what the project says at its last revision in the register beside it, or enters that an
/// issued revision came back or was released.
int issue(const IssueOptions& options);

struct BuiltOptions {
  std::string project;
  std::vector<std::string> serials;
  std::string date, stage = "cast", by, note;
  std::string length_left, length_right, width_back, width_ahead;  // as measured; of one panel
};
/// Enters that panels were cast, shipped or set: from then on a change of them is an error.
int built(const BuiltOptions& options);

/// A starter project and the schema for editors, in a new or empty folder.
int new_project(const std::string& folder);

}  // namespace deckquire::commands
