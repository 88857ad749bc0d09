// The register of a project: what was issued, and what was made of it. Plain data; store.h reads and
// writes it, identities.h keeps the names of a deck true to it. Nothing in it is ever changed or taken
// back: later entries add to earlier ones.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/units.h"

namespace deckquire::history {

/// What is made by a mark, as text: one fact a line, numbers in mm to 0.001, end for end in the
/// orientation of the mark's drawing. See signature.h for what is in it and how two compare.
using Signature = std::string;

/// A mark as it was issued: from then on its name means this and nothing else.
struct IssuedMark {
  std::string name;         // DP03
  std::string opposite_of;  // the mark whose mirror image it is; empty: none
  int quantity = 0;
  Signature signature;
  /// Of panels of the mark that differ from the drawing by less than the project's tolerance.
  std::vector<Signature> variants;
  std::string sheet;  // P03; empty where the set had no panel sheets
};

/// A place in the bridge. Its number stays when places before it come or go.
struct IssuedPosition {
  int position = 0;
  std::string span;
  int row = 0;
  Length start, end;  // stations of the panel's end faces
  std::string mark, serial;
  bool turned = false;
  Signature wanted;  // of a panel accepted as built: what the design asked for; else empty
};

/// A region of a sheet that a revision changed, in paper mm.
struct Spot {
  double left = 0, low = 0, right = 0, high = 0;
};

struct IssuedSheet {
  std::string number, title;
  std::string fingerprint;             // SHA-256 of what is drawn, less what names the revision
  std::vector<std::string> revisions;  // that touched it, oldest first; the last is its own letter
  std::vector<Spot> spots;             // that the last of them changed; none on a new sheet
  bool withdrawn = false;              // void: keeps number and place in the index, is not drawn
};

/// Choices of layout that a later set keeps, so that a small change stays small on paper.
struct LayoutHints {
  int erection_ratio = 0;  // 0: none
  /// One strip of the erection plan: the positions of its first and last bay, and its sheet.
  struct Strip {
    int first_position = 0, last_position = 0;
    int sheet = 0;  // number among the E sheets
  };
  std::vector<Strip> strips;
  /// One panel sheet (or a mark's sheets), and the scale of its plan.
  struct PanelSheet {
    std::string number;  // P03, without -2
    std::vector<std::string> marks;
    int ratio = 0;
  };
  std::vector<PanelSheet> panels;
  /// By sheet number, then the callout's words: where they stood, a box without size.
  std::map<std::string, std::map<std::string, Spot>> callouts;
};

/// Words of status, as the project file has them.
inline constexpr const char* for_fabrication = "for fabrication";
inline constexpr const char* as_built = "as built";

/// One revision as it went out.
struct Issue {
  std::string revision, status, date, by;
  std::string style;             // name of the style of its sheets
  std::string project_file;      // name of the copy in the register's folder
  std::string project_checksum;  // SHA-256 of that copy
  std::vector<IssuedMark> marks;  // in use; those of earlier issues that are not here are withdrawn
  std::vector<IssuedPosition> positions;  // in the order of the deck's panels
  std::vector<IssuedSheet> sheets;        // in the order of the index, void ones at their places
  LayoutHints layout;
};

/// An issued revision came back, or was released, without a change of what is drawn.
struct StatusChange {
  std::string revision, status, date, by;
};

/// How far a panel is.
enum class Stage { planned, cast, shipped, set };

/// What happened to one physical panel.
struct BuiltPanel {
  std::string serial, mark, revision;  // made to that revision of the mark's sheet
  Stage stage = Stage::cast;
  std::string date, by, note;
  std::optional<Length> length_left, length_right, width_back, width_ahead;  // as measured
};

/// A serial that will never name a panel again, and why.
struct VoidedSerial {
  std::string serial, mark, revision;  // voided by that revision
  std::string replaced_by;             // serial that takes its place; empty: the place is gone
  std::string reason;
};

/// One file of the register: just one of the members is filled.
struct Entry {
  int number = 0;  // from 1, without a gap
  std::optional<Issue> issue;
  std::optional<StatusChange> status;
  std::vector<BuiltPanel> built;
  std::vector<VoidedSerial> voided;  // with an issue: the serials that it made void
};

/// One line of a panel's life.
struct PanelLife {
  std::string serial, mark;
  int position = 0;  // of its last issue; 0: none any more
  Stage stage = Stage::planned;
  std::string revision;  // it was made to; empty: not made
  bool voided = false;
  std::string replaced_by, reason;
  std::vector<BuiltPanel> events;  // oldest first
};

struct Register {
  std::vector<Entry> entries;

  bool empty() const { return entries.empty(); }
  /// The issue of that revision, or nullptr.
  const Issue* find(const std::string& revision) const;
  const Issue* last_issue() const;
  /// Status of a revision: that of its issue or of the last change after it; empty: never issued.
  std::string status(const std::string& revision) const;
  /// The register as it stood before that revision was issued.
  Register before(const std::string& revision) const;
  /// Every serial ever given, in order of number, with all that happened to it.
  std::vector<PanelLife> lives() const;
};

}  // namespace deckquire::history
