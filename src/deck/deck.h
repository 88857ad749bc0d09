// Bridge -> Deck: panels with their features, types (marks), serials, masses.
//
// Levels: the alignment's level is the top of the moulded panel at the high line; the soffit is
// section depth below it, everywhere level across; the wearing surface lies above.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "bridge/bridge.h"
#include "deck/placing.h"

namespace deckquire {

enum class FeatureKind {
  recess,          // moulded hollow in the soffit over a girder splice
  post_plate,      // tapped steel plate moulded in the curb under a rail post
  scupper,         // moulded drain body with grate and outlet pipe
  hatch,           // opening with frame rebate and cover
  sleeve,          // round opening through the panel
  hold_down,       // insert in the soffit for a clip at a girder flange
  lifting_insert,  // threaded insert in the top
  notch,           // part of the outline left out for an obstruction (closed opening or edge notch)
  pad,             // bearing pad under the soffit along a girder
  tag              // place of the panel's plate, on the soffit near the back right corner
};
/// "recess", "post plate", "scupper" ...: the word the sheets print.
const char* feature_name(FeatureKind kind);

enum class Side { left, right };

/// One feature of a panel, in the panel frame, mm. Sizes that all features of a kind share (thread,
/// grate, walls) are in the project's data; those that differ are here.
struct Feature {
  FeatureKind kind{};
  PanelPoint at;      // centre of its plan
  double length = 0;  // along x; a round feature: its diameter
  double width = 0;   // along y
  bool round = false;
  double angle = 0;    // rad, of its length axis from x, counter-clockwise: a post plate on a taper
  double depth = 0;    // into the panel from its face: recess depth, insert depth, plate thickness
  int variant = 0;     // index of what differs further: hatch data index; scupper and post: Side
  std::string source;  // name in the bridge ("G1-S2", "12L", "S3", "H1"): not part of the type
  Place place;         // of what it comes from in the project file: not part of the type
  /// Its plan outline, turned by `angle`; a circle as 32 sides.
  Ring<PanelFrame> ring() const;
  /// The box around ring().
  Box<PanelFrame> box() const;
};

/// A curb: from one station of the panel to the other along one edge, in the panel frame.
struct CurbRun {
  Side side{};
  Ring<PanelFrame> plan;  // foot of the curb
};

/// What a panel has at its back or ahead end. Open and sealed joints are the same from both sides;
/// in a lapped one the panel behind has the tongue at its foot, the one ahead of it the rebate for
/// it.
enum class EdgeEnd { joint, end_joint, tongue, groove };
/// "panel joint", "end joint", "panel joint, tongue" ...
const char* end_name(EdgeEnd end);

/// Everything that makes a panel's type, in the panel frame (see deck/placing.h): x from where the
/// back face meets the alignment, y from the chord, z from the soffit; mm.
struct PanelShape {
  double length = 0;                       // along x, from face to face on the chord
  Ring<PanelFrame> outline;                // with edge notches cut; counter-clockwise
  std::vector<Ring<PanelFrame>> openings;  // hatches, sleeves, scupper outlets, inner notches
  double high_line = 0;                    // y of the crown or of the higher edge's reference
  Fall fall = Fall::crown;
  double slope = 0;
  double depth = 0;  // at the high line
  std::vector<CurbRun> curbs;
  std::vector<Feature> features;  // ordered by kind, x, y
  int surface = 0;                // index into DeckData::surfaces, -1 none
  bool no_inserts = false;        // no room was found for the lifting inserts
  std::string no_clips;           // the girder on which no room was found for the hold-downs
  EdgeEnd back = EdgeEnd::joint, ahead = EdgeEnd::joint;
  // dx/dy of the end faces: the back one passes through (0, 0), the ahead one through (length, 0).
  double back_slope = 0, ahead_slope = 0;
  double back_x(double y) const { return back_slope * y; }
  double ahead_x(double y) const { return length + ahead_slope * y; }
  // The long edge is the face of a row joint, not the deck's own edge.
  bool left_joint = false, right_joint = false;
  /// False where something found no room: an error of the deck.
  bool has_room() const { return !no_inserts && no_clips.empty(); }
  bool square() const { return back_slope == 0 && ahead_slope == 0; }

  /// Height of the structural top above the soffit (wearing surface not counted).
  double top(double y) const;
  /// Edges' y at the corners of the back and ahead end face, before notches.
  double left_back = 0, left_ahead = 0, right_back = 0, right_ahead = 0;  // signed y
};

/// One part of a panel's mass.
struct MassPart {
  std::string part;  // "laminate", "core", "curb", "surface", "post plates", "scuppers", ...
  Volume volume;     // zero where the mass is by area or by piece
  Mass mass;
  double x = 0, y = 0, z = 0;  // centre of gravity, panel frame, mm
};

struct Masses {
  std::vector<MassPart> parts;
  Mass total;
  double x = 0, y = 0, z = 0;  // centre of gravity, panel frame, mm
  Area top_area;               // of the outline less openings, plan
  Area surface_area;           // of the wearing surface, developed along the slope
};

enum class HoleKind { tapped, insert, through, blind, bolt };

/// "tapped", "insert" ...: the word the tables print.
std::string hole_name(HoleKind kind);

/// One hole or insert of a panel, as the hole table lists it.
struct Hole {
  std::string label;  // A1, A2, B1: letter per kind and size, number by x then y
  HoleKind kind{};
  std::string what;  // "post plate, tapped", "hold-down insert", "hatch cover bolt" ...
  PanelPoint at;
  double diameter = 0;          // mm; of the opening, or nominal of the thread
  std::optional<double> depth;  // mm; none: through
  std::string thread;           // "M16", empty for plain holes
  bool from_top = true;
  int feature = 0;  // index into PanelShape::features
};

struct Mark {
  std::string name;  // DP01
  int quantity = 0;
  int opposite_of = -1;  // index of the mark whose mirror image this is, else -1
  PanelShape shape;      // as drawn
  Masses masses;
  std::vector<Hole> holes;
  std::vector<int> positions;  // indices into Deck::panels, in order
  std::string remark;          // what is special, one line ("with hatch; 2 recesses")
};

/// One physical panel in its place.
struct Panel {
  int position = 0;                     // its name: from 1 in erection order on the first issue,
                                        // kept when panels before it come or go
  std::string serial;                   // 0417-001
  int mark = 0;                         // index into Deck::marks
  bool turned = false;                  // lies end for end to its mark's drawing
  int span = 0;                         // index into Deck::spans
  Length start, end;                    // stations of its own end faces
  int joint_back = 0, joint_ahead = 0;  // indices into Deck::joints
  int bay = 0;                          // from 0 along the bridge: the panels between two joints
  int row = 0;                          // in its bay, from 0 at the left
  PanelPlacing frame;
  PanelShape shape;  // in place (not turned), features with their names
  std::vector<PanelPoint> left_edge, right_edge;  // from corner to corner, notches not cut
  double chord_left = 0, chord_right = 0;  // how far the straight edge leaves its true line, mm
  std::string wanted;  // signature of what the design asks for, where the panel stays as it was built
                       // (history/identities.h); empty: as designed
};

struct Joint {
  std::string name;           // J1 ...
  Length station;             // of its middle, on the alignment
  Length gap;                 // square to the joint line
  bool end = false;           // at the end of a span: expansion joint with cover plate
  int back = -1, ahead = -1;  // indices of the panels it parts (of the first row), -1 none
  double skew = 0;            // rad, of its line from square; positive: its left end lies ahead
};

/// A longitudinal joint between two rows of panels.
struct RowJoint {
  std::string name;
  Length offset, gap;
  Length from, to;
  Place place;
};

struct SpanRun {
  std::string name;
  Length from, to;
  int first = 0, count = 0;            // panels
  Length end_gap_back, end_gap_ahead;  // the part of the end gaps inside this span
};

/// A rail post, for the plan and for the railing supplier.
struct Post {
  std::string name;  // 12L
  Side side{};
  Length station, offset;
  Length level;  // of the curb top (underside of the base plate)
  SurveyPoint survey;
  int panel = 0, feature = 0;
};

struct ScupperPlace {
  std::string name;
  Side side{};
  Length station, offset;
  Length grate_level;   // top of the grate
  Length outlet_level;  // lower end of the pipe
  double grade = 0, crossfall = 0;
  SurveyPoint survey;
  int panel = 0, feature = 0;
};

struct Deck {
  std::vector<SpanRun> spans;
  std::vector<Joint> joints;
  std::vector<RowJoint> row_joints;
  std::vector<Panel> panels;  // in the order of erection
  std::vector<Mark> marks;    // in the order of their numbers
  std::vector<Post> posts;
  std::vector<ScupperPlace> scuppers;
  Mass mass;
  Area area;
};

/// What is said about a built deck: that of checks/fit.h, which this folder knows by no other name.
using DeckChecks = std::function<void(const Project&, const Bridge&, const Deck&, Findings&)>;

/// Divides, places features, finds types. Contradictions (panels that do not add up to their span,
/// a hatch across a joint, an edge narrower than the girders, a post too near a panel's end) go to
/// `findings`; the deck is complete only when there are no errors. Of the divisions compared for
/// spans that ask for the fewest types one is taken that builds, and passes `checks`, without an
/// error, if there is one (alternatives.h).
Deck build_deck(const Project& project, const Bridge& bridge, Findings& findings,
                const DeckChecks& checks = {});

/// Of one of the deck's own panels.
int index_of(const Deck& deck, const Panel& panel);

/// True where b's position and serial are the next ones after a's: "1 to 4" says it of all between.
bool counts_on(const Panel& a, const Panel& b);
/// Positions of panels that stand one after the other, the way sheets say it: "3", "1 TO 20", and
/// where panels came or went since they were numbered "1 TO 4, 21, 5 TO 20".
std::string positions_in_order(const Deck& deck, int first, int count);
/// The panels' positions and marks are those of a deck that was numbered from its beginning.
bool numbered_in_order(const Deck& deck);

/// A mark of that drawing, with masses, holes and remark; without name, hand and panels.
Mark make_mark(const PanelShape& shape, const Project& project);

/// DP03
std::string mark_name(const Project& project, int number);

/// What in the beginning of serials stands for the mark.
inline constexpr std::string_view serial_mark = "{mark}";
/// What the serials of that mark's panels begin with, and a serial; they count by beginning.
std::string serial_beginning(const Project& project, const std::string& mark);
std::string serial_name(const std::string& beginning, int number);

/// Makes the lists of posts and scuppers anew, from the panels' features.
void list_fittings(const Project& project, const Bridge& bridge, Deck& deck);

// ---- the steps, each public for its tests

/// A rail post before its panel is shaped.
struct PlacedPost {
  std::string name;
  Side side{};
  Length station;
  int piece = 0;
  Place place;
  bool given = false;  // written out, not by a rule
};

/// A scupper before its panel is shaped.
struct PlacedScupper {
  std::string name;
  Side side{};
  Length station;
  int piece = 0;
  Place place;
  bool given = false;  // written out, not by a rule
};

/// Joint faces of every span in order: panels' start and end stations; posts and scuppers once they
/// are placed.
struct Division {
  std::vector<SpanRun> spans;
  std::vector<Joint> joints;
  std::vector<RowJoint> row_joints;
  /// One panel, ordered by bay, then row.
  struct Piece {
    Length start, end;  // where its end faces meet the alignment
    int span = 0;
    int joint_back = 0, joint_ahead = 0;
    int bay = 0, row = 0;
    std::optional<Length> left_limit, right_limit;  // offset of a row joint's face; none: deck edge
    std::vector<int> posts, scuppers;               // indices into those of the Division
    std::vector<int> hatches, sleeves;              // indices into those of the project
    std::vector<int> obstructions;  // indices into those of the bridge: all that may reach it
  };
  std::vector<Piece> pieces;
  std::vector<int> bays;                // the first piece of each bay
  std::vector<PlacedPost> posts;        // left ones by station, then right ones
  std::vector<PlacedScupper> scuppers;  // by station, left before right
};
Division divide(const Project& project, const Bridge& bridge, Findings& findings,
                const DeckChecks& checks = {});

/// Posts and scuppers, by rule and written out, in a complete division.
void place_fittings(const Project& project, const Bridge& bridge, Division& division,
                    Findings& findings);

/// The shape of the panel between two stations, with every feature that falls on it.
PanelShape shape_panel(const Project& project, const Bridge& bridge, const Division& division,
                       int piece, Findings& findings);

/// Volume, mass and centre of gravity by integration over the true polygons.
Masses weigh(const PanelShape& shape, const DeckData& deck);

/// Limits of the wearing surface in plan: between the curbs' feet (the edges where there is no
/// curb), set back by the surface's stop from them and from the panel's ends. Openings are not cut
/// out.
Ring<PanelFrame> surface_ring(const PanelShape& shape, const DeckData& deck);

/// Every hole and insert, with labels: a letter for each kind and size, numbers by x, then y.
std::vector<Hole> list_holes(const PanelShape& shape, const DeckData& deck);

/// The shape turned end for end (half-turn about its middle), and its mirror image about the
/// alignment.
PanelShape half_turn(const PanelShape& shape);
PanelShape mirror(const PanelShape& shape);

/// True where no coordinate or size differs by more than `tolerance` and all else is equal.
/// Measured from the lowest corner of the box around each outline, so panels of two rows, or of
/// decks that lie more to one side, may be the same part.
bool same_type(const PanelShape& a, const PanelShape& b, Length tolerance);

}  // namespace deckquire
