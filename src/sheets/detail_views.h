// The views of each detail, drawn from the project's own values. Only detail_*.cpp and details.cpp
// include it.
#pragma once

#include <optional>
#include <string>

#include "sheets/detail_draft.h"

namespace deckquire::sheets {

/// What the views of a detail ask for again and again.
struct DetailSite {
  const SetInput& input;
  double coarser = 1;    // scales are this much smaller than the detail would like
  bool upright = false;  // views under one another instead of side by side
  int finest = 2;        // no larger scale than 1:finest

  const DeckData& deck() const { return input.project.deck; }
  const SectionData& section() const { return deck().section; }
  UnitSystem units() const { return input.project.units; }
  std::string print(Length a) const { return print_length(a, units()); }
  std::string print(double v) const { return print_length(mm(v), units()); }
  /// The style's scale nearest above `wanted` times `coarser`.
  int ratio(int wanted) const;
  /// The views of the detail as one piece.
  Piece arranged(const std::vector<Piece>& views) const;
  /// The name of a material, or the part itself where the project names none.
  std::string material(const std::string& part) const;
  double pad() const { return deck().pads ? deck().pads->thickness.in_mm() : 0; }
};

/// The first panel type that has a feature of that kind, with the feature.
struct Found {
  const PanelShape* shape = nullptr;
  const Feature* feature = nullptr;
};
std::optional<Found> find_feature(const SetInput& input, FeatureKind kind);

/// The details that the project has, in the order of the list.
std::vector<Detail> details_of(const SetInput& input);

/// All views of one detail at the scales that its site asks for. Empty where the project lacks its
/// parts.
Piece drawn_as(const DetailSite& site, Detail detail);

/// All views of one detail, without its title: as large as it likes to be, or as it must be to fit
/// in `room`. Empty where the project lacks its parts.
Piece detail_piece(const SetInput& input, Detail detail, paper::PaperPoint room);

Piece curb_detail(const DetailSite& site);
Piece post_plate_detail(const DetailSite& site);
Piece joint_detail(const DetailSite& site);
Piece row_joint_detail(const DetailSite& site);
Piece end_joint_detail(const DetailSite& site);
Piece recess_detail(const DetailSite& site);
Piece scupper_detail(const DetailSite& site);
Piece hatch_detail(const DetailSite& site);
Piece sleeve_detail(const DetailSite& site);
Piece hold_down_detail(const DetailSite& site);
Piece lifting_detail(const DetailSite& site);

/// A girder's top flange and pad under a panel, between two x of the view; a break below.
void draw_flange(Draft& d, const DetailSite& site, double from, double to, bool with_pad);
/// A bolt seen from its side: shank of diameter d from z0 to z1, head or nut at `head` (above it
/// when `up`).
void draw_bolt(Draft& d, double x, double diameter, double z0, double z1, bool head_up);

/// Thickness drawn for steel of others whose own is not in the project; only the look depends on
/// it.
constexpr double drawn_flange = 20;

}  // namespace deckquire::sheets
