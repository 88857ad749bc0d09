// Exactly what the engineer wrote, checked for form, with every default filled in. Nothing here is
// derived: stations are as written, and places point back into the file.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/findings.h"
#include "base/text.h"
#include "base/units.h"
#include "project/bridge_data.h"
#include "project/delivery.h"
#include "project/loads.h"

namespace deckquire {

struct Party {
  std::string role;  // owner, designer, contractor, fabricator, railing, drainage, erector, checker
  std::string name;
  std::string contact;  // free text: address, telephone; may be empty
  Place place;
};

struct Revision {
  std::string id;    // letters without I O Q S X Z
  std::string date;  // ISO 8601, checked
  std::string by, checked;
  std::string status;  // "for approval", "approved as noted", "revise and resubmit",
                       // "for fabrication", "as built", "preliminary"
  std::string text;
  Place place;
};

// ---- deck

/// Width at a station: distances of the edges from the alignment. Straight between; two at one
/// station make a step.
struct EdgeData {
  Length station, left, right;
  Place place;
};

enum class Fall { crown, left, right, none };  // top falls both ways, to one side, or is level
enum class CurbSides { both, left, right, none };

struct CurbData {
  CurbSides sides = CurbSides::none;
  Length height;  // of its top above the deck at its inner face
  Length width;   // at its foot
  Length batter;  // the inner face leans out by this much over the height
  Place place;
};

/// A strip under each long edge that makes water drop off.
struct DripData {
  Length width, depth, inset;  // inset: of its outer side from the panel edge
};

struct SectionData {
  Length depth;  // soffit to top at the high line
  Fall fall = Fall::crown;
  double slope = 0;      // of the top across (0.02 = 2 %)
  Length high_line;      // offset of the crown from the alignment (crown only)
  Length least_edge;     // least depth allowed at an edge
  Length least_bearing;  // least width across that a panel or its pad bears on a girder's flange
  Length top_skin, bottom_skin, edge_skin;  // laminate thicknesses
  CurbData curb;
  std::optional<DripData> drip;
  Length recess_over;    // clearance above the highest bolt end
  Length recess_around;  // clearance all round the splice plate
  Length recess_cover;   // least laminate and core left above a recess
  Place place;
};

struct MaterialData {
  std::string part;  // laminate, core, curb, steel, cover, pad, sealant
  std::string name;  // what it is
  Density density;
  std::string source;  // where the value comes from; may be empty (then printed as "not stated")
  Place place;
};

struct SurfaceData {
  std::string trade_class;  // "light" (grit in resin) or "heavy" (polymer concrete)
  Length from, to;
  Length thickness;
  AreaDensity mass;
  std::string colour;
  std::string friction;  // value as the project states it, e.g. "PTV 45 wet"
  std::string standard;  // its test standard, with edition
  Length stop;           // set back of its edge from panel ends and curbs
  Place place;
};

struct PanelRun {  // <panel length= times=>
  Length length;
  int times = 1;
  Place place;
};

/// Least distances of a joint's edge from things (divide="fewest-types").
struct JointClearances {
  std::optional<Length> splice = {};  // none: a joint may part a recess
  Length post = {}, scupper = {}, hatch = {}, obstruction = {};
};

struct PanelsRule {  // <panels count=> or <panels longest=>
  std::optional<int> count;
  std::optional<Length> longest;
  Place place;
  // The rest with divide="fewest-types" only, which goes with longest.
  bool fewest_types = false;
  Length shortest = {}, preferred = {}, step = {};
  std::optional<Mass> heaviest = {};
  std::optional<Length> mould = {};
  bool symmetrical = false, closing = true, joints_at_breaks = true;
  bool moulds = false;  // opposite hands count as one set-up
  JointClearances clear = {};
};

struct SpanData {
  std::string name;
  Length from, to;
  std::optional<Angle> skew_from, skew_to;  // of its end joints; default: as all joints
  std::optional<PanelsRule> rule;           // or
  std::vector<PanelRun> runs;
  PanelsRule usual = {};  // the rule, or its defaults: what `deckquire divide` compares with
  Place place;
};

enum class JointKind { open, sealed, lapped };

struct JointsData {
  JointKind kind = JointKind::sealed;
  Length gap;          // between two panels
  Length end_gap;      // at the ends of every span: wholly inside the deck at its two outer ends,
                       // half to each span between two spans
  Length rod;          // backer rod diameter (sealed)
  Length seal;         // sealant depth (sealed)
  Length lap, tongue;  // lap length and tongue thickness (lapped): drawn, no effect on lengths
  Length cover_width, cover_thickness;  // steel cover plate over the end joints
  Angle skew;  // of the joint lines from square; positive: the left end lies ahead
  Place place;
};

/// A longitudinal joint along the alignment: it parts the deck in rows of panels side by side.
struct RowJointData {
  std::string name;
  Length offset, gap;  // of its middle; between the two rows
  Length from, to;     // default: the whole bridge
  Place place;
};

struct PostPlateData {
  Length length, width, thickness;  // along, across, z
  Length cover;                     // from its top to the curb top
  std::string thread;               // "M16", "5/8-11"
  int along = 2, across = 2;        // holes
  Length pitch_along, pitch_across;
  Length tap_depth;
};

struct PostData {
  std::string name;  // given, or derived as number and side
  Length station;
  CurbSides sides = CurbSides::both;
  Place place;
};

enum class Bays { half, equal };

struct PostsData {
  std::optional<Length> greatest;  // no bay longer than this, along the rail; or
  std::optional<Length> spacing;   // constant spacing from `first`
  Bays bays = Bays::half;          // with `greatest`: half-bay rule in every panel, or equal bays
                                   // between the posts that are fixed
  Length first;
  bool first_given = false;  // else another phase is found where `first` comes too near to a joint
  CurbSides sides = CurbSides::both;
  bool in_line = true;            // left and right ones at the same stations
  std::optional<Length> at_ends;  // a post so far from each end face of the deck
  bool at_breaks = false;         // a post where the edge turns
  Length freedom;                 // a post of a rule may move so far to make more panels alike
  std::vector<PostData> posts;    // written out one by one: each takes the place of the nearest of
                                  // the rule not more than half a bay away
  Length clear;                   // least distance from the plate's edge to the panel's end
  PostPlateData plate;
  std::optional<AnchorData> anchor;
  Place place;
};

struct ScupperData {
  std::string name;
  Length station;
  CurbSides side = CurbSides::left;  // left or right
  Place place;
};

struct ScuppersData {
  std::vector<ScupperData> scuppers;  // written out one by one: the rule counts with them
  std::optional<Length> spacing;      // rule: greatest length of gutter to one scupper
  bool by_rain = false;               // rule: where the spread reaches the one allowed, less
  Length reserve;                     // this much
  bool by_rule() const { return spacing || by_rain; }
  CurbSides sides = CurbSides::both;  // on which sides the rule places them; where no water runs
                                      // it places none
  bool at_sags = true;                // rule: one at every low point of the profile
  bool at_end_joints = true;          // rule: one upstream of every end joint
  Length clear;                       // rule: least distance from joints and what else is there
  Length freedom;                     // rule: further upstream, to make more panels alike
  Length body_length, body_width, cavity;  // moulded body: outer plan size, depth of its cavity
  Length wall;
  Length grate_length, grate_width, grate;  // plan size and thickness
  std::string bolt;                         // "M10"
  int bolts = 4;
  Length bolt_length_pitch, bolt_width_pitch;  // hole pattern
  Length outlet, outlet_wall;                  // pipe outer diameter and wall thickness
  Length outlet_below;                         // end of the pipe below the soffit
  Length inset;                                // grate edge from the foot of the curb
  Place place;
};

struct HatchData {
  std::string name;
  Length station, offset;       // centre
  Length length, width;         // clear opening along and across
  Length rebate, rebate_depth;  // seat of the frame around the opening
  Length cover;                 // cover thickness
  std::string bolt;             // "M12"
  int bolts = 4;                // cover bolts, in the corners, then mid-sides
  Length lift;                  // diameter of the finger lift hole
  std::string use;              // what is below: "water valve"
  Place place;
};

struct SleeveData {
  std::string name;
  Length station, offset, diameter, wall;
  std::string use;
  Place place;
};

struct HoldDownData {
  int each = 2;                   // per panel and girder; or
  std::optional<Length> spacing;  // the fewest not farther apart than this
  Length from_joint;              // of the outer ones from the panel's ends
  std::string bolt;               // "M12"
  Length gauge;  // of the insert from the flange edge, inside the flange is negative
  Length insert_depth;
  Length clear;  // least distance of the insert from recesses, openings and the panel's ends
  std::optional<Force> capacity;  // of one clip
  std::string source;             // of the capacity
  Place place;
};

struct PadsData {
  Length width, thickness;
  std::string material;
  Place place;
};

struct LiftingData {
  std::string thread;              // "M20"
  double capacity_kn = 0;          // 0: not stated
  std::string source;              // of the capacity
  Angle angle;                     // of the slings, from level
  std::optional<double> handling;  // factor on the mass; none: lifting is not checked
  int carrying = 2;                // inserts taken to carry
  Length depth;                    // of the insert
  Length tolerance;                // of the inserts' middle from the centre of gravity
  // Least distances of an insert's skin: from the panel's edges, the curb's foot, openings and
  // recesses, other inserts and post plates.
  Length from_edge, from_curb, from_hollow, from_insert;
  Place place;
};

/// The panel's plate, on the soffit, at the back right corner of the drawing.
struct TagData {
  Length length, width;
  Length from_end, from_edge;  // of its middle
  Place place;
};

struct MarksData {
  std::string prefix;  // of marks: "DP" -> DP01
  std::string serial;  // prefix of serials; default: project number and hyphen -> 0417-001
  Length tolerance;    // two panels share a mark when no coordinate differs by more
  Place place;
};

/// <clearance>: what the project asks between two kinds of things, see checks/clearance.h.
struct ClearanceData {
  std::string between, with;    // names of kinds; `with` empty: everything
  Length least;                 // in plan
  std::optional<Length> depth;  // through the depth, enough by itself; none: as the table says
  Place place;
};

struct DeckData {
  std::vector<EdgeData> edges;
  SectionData section;
  std::vector<MaterialData> materials;
  std::optional<PanelStrengthData> strength;
  std::vector<SurfaceData> surfaces;
  std::vector<SpanData> spans;
  JointsData joints;
  std::vector<RowJointData> row_joints;  // from the left
  std::optional<PostsData> posts;
  std::optional<ScuppersData> scuppers;
  std::vector<HatchData> hatches;
  std::vector<SleeveData> sleeves;
  std::optional<HoldDownData> hold_downs;
  std::optional<PadsData> pads;
  LiftingData lifting;
  TagData tag;
  MarksData marks;
  std::vector<ClearanceData> clearances;
  std::vector<AllowanceData> allowances;
  Place place;
};

// ---- conditions, set, redlines

struct ToleranceData {
  std::string of;  // length, width, squareness, flatness, hole position, thickness, gap ...
  Length value;
  Place place;
};

struct Conditions {
  std::vector<LoadData> loads;
  std::vector<ToleranceData> tolerances;
  std::optional<PedestrianData> pedestrian;
  std::optional<VehicleData> vehicle;
  std::optional<WindData> wind;
  std::optional<RailLoadData> rail;
  std::optional<FactorsData> factors;
  std::optional<DeflectionData> deflection;
  std::optional<RainData> rain;
  TemperatureData temperature;
  std::optional<Length> ship_length, ship_width;
  std::optional<Mass> ship_mass;
  std::optional<TruckData> truck;
  ErectionData erection;
  std::vector<TorqueData> torques;
  Place place;
};

struct ScaleData {
  std::string of;  // erection, panel, detail, key
  int ratio = 0;   // 50 for 1:50
  Place place;
};

/// One property of the set's style, in the words of a style file.
struct OverrideData {
  std::string element, of, property, value;
  Place place;
};

struct SetData {
  std::string style = "a1";
  std::vector<std::string> series;      // empty: all
  std::vector<OverrideData> overrides;  // of the style, in their order
  std::vector<ScaleData> scales;        // empty: chosen by the program
  std::vector<std::string> notes;       // printed on the cover after the standard ones
  Place place;
};

enum class RedlineStatus { open, answered, closed };

/// A remark of a reviewer. Its number on the sheets is its place in the list, from 1.
struct Redline {
  std::string on, by, date, text;
  Place place;
  std::string sheet = {};  // number of the one sheet that it is written on; empty: all that show it
  RedlineStatus status = RedlineStatus::open;
  std::string answer = {}, revision = {};  // that answered it; not where it is open
};

/// What is done with a panel that was cast before the design changed.
struct Decision {
  std::string on;  // its serial
  std::string way;  // "rework", "replace", "accept"
  std::string revision, by, date, text;
  Place place;
};

struct Project {
  std::string file;                       // as given on the command line
  std::string number;                     // job number
  Length unit = mm(1);                    // of bare numbers
  UnitSystem units = UnitSystem::metric;  // of the printed sheets: metric for mm and m
  std::string title;
  std::vector<Party> parties;
  std::vector<Revision> revisions;
  BridgeData bridge;
  DeckData deck;
  Conditions conditions;
  SetData set;
  std::vector<Redline> redlines;
  std::vector<Decision> decisions;
  Place place;

  /// Names of the file's elements by where they stand: "rain", "hatch H2", "plate of posts". By these
  /// a reader finds a value, and no line that is put in before changes them.
  std::map<std::pair<int, int>, std::string> elements;
  /// The name of the element at that place; empty where there is none.
  std::string element_at(const Place& at) const;

  /// Name of the first party with that role, or "not stated".
  std::string party(const std::string& role) const;
};

}  // namespace deckquire
