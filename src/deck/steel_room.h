// What room the panels leave the steel under and beside them, as it is designed or as it was measured.
// All rooms in mm; negative: the steel is out already by that much.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "deck/deck.h"

namespace deckquire {

/// Between a splice and the hollow over it in one panel.
struct RecessRoom {
  const Panel* panel = nullptr;
  const Feature* recess = nullptr;
  double above = 0;  // of the highest bolt end, the pad's thickness counted
  /// Of the plate with its bolt heads; none: the hollow is open there, at a joint.
  std::optional<double> behind, ahead, left, right;

  /// The least of all, and which it is: "above its bolts", "behind it", "ahead of it", "left of it" ...
  struct Least {
    double room = 0;
    const char* side = "";
  };
  Least least() const;
  /// The least of the four sides.
  std::optional<double> around() const;
};
/// `recess`: a feature of that panel.
RecessRoom recess_room(const Project& project, const Bridge& bridge, const Panel& panel,
                       const Feature& recess, const Splice& splice);
/// Of all hollows over that splice, found by its name, in the order of the panels.
std::vector<RecessRoom> recess_rooms(const Project& project, const Bridge& bridge, const Deck& deck,
                                     const Splice& splice);

/// Whether any of the splice's plate or bolt heads lies under that panel.
bool stands_under(const Bridge& bridge, const Panel& panel, const Splice& splice);

/// How far a splice may lie off its designed place and still leave the setting tolerance in every
/// hollow over it; none: it is open on that side.
struct SpliceRoom {
  std::optional<double> back, ahead, left, right, up;
};
SpliceRoom splice_room(const Project& project, const Bridge& bridge, const Deck& deck,
                       const Splice& splice);

/// How far a girder's top flange may lie to the left or right of where it is put by `offset`, before a
/// panel at that station bears on less than least_bearing, on the flange itself or by its pad, or an
/// opening (hatch, sleeve, outlet) comes nearer to the flange than the setting tolerance, or the flange
/// meets the insert of a clip beside it.
struct FlangeRoom {
  double left = 1e300, right = 1e300;
  std::string left_end, right_end;  // what ends it: "bearing of panel 3", "hatch H1 of panel 3"
  double narrower = 1e300, wider = 1e300;  // how much the flange itself may be, its middle in place
  /// Insert of a clip and the flange edge beside it: the least and the greatest, where there are clips.
  std::optional<double> clip_least, clip_most;
};
/// Nothing where no panel lies over the girder at that station.
std::optional<FlangeRoom> flange_room(const Project& project, const Bridge& bridge, const Deck& deck,
                                      const Girder& girder, Length station, double offset,
                                      double flange);

/// Level that the deck asks of the girders' tops at a station: under the pads, under the soffit where
/// there are none. A panel lies straight from the level of the alignment at its back face to that at
/// its ahead face.
Length steel_top(const Project& project, const Bridge& bridge, const Deck& deck, Length station);

/// From an obstruction to a panel's own material, 0 where it stands in it; `at` half way.
struct ObstructionRoom {
  const Panel* panel = nullptr;
  double distance = 1e300;
  PanelPoint at;
};
ObstructionRoom obstruction_room(const Bridge& bridge, const Panel& panel,
                                 const Obstruction& obstruction);
/// To the nearest panel; panel nullptr where the deck has none.
ObstructionRoom obstruction_room(const Bridge& bridge, const Deck& deck,
                                 const Obstruction& obstruction);

/// The outer joint of the deck that stands at an abutment, or nullptr.
const Joint* outer_joint_at(const Bridge& bridge, const Deck& deck, const Support& support);

}  // namespace deckquire
