// What a reader of a calculation must be told, in one wording.
#pragma once

namespace deckquire::workings::cautions {

inline constexpr const char* aid =
    "An aid to calculation, not an approval: the engineer responsible for the project checks and "
    "accepts "
    "every input, load, code and result before anything is made or put up.";
inline constexpr const char* code =
    "The code in force, its edition and the owner's rules decide; the values offered here may be "
    "out of "
    "date or not apply to this place.";
inline constexpr const char* laminate =
    "Laminates differ with resin, fibre, lay-up and process: use values of this project, shown by "
    "test. "
    "Creep, moisture, heat, fire, sunlight and fatigue are not in this calculation.";
inline constexpr const char* railing =
    "The rail keeps people from falling: bolts and threads alone do not prove its anchorage. The "
    "engineer "
    "shows the strength of curb, plate and the laminate around it by calculation or test.";
inline constexpr const char* local =
    "Not checked: punching under wheels, crushing, delamination, bonded joints, the girders.";
inline constexpr const char* lifting =
    "Lift only to a written plan of a qualified person, with weight, centre of gravity, inserts, "
    "rigging and "
    "wind limit verified, and nobody below. Taken here: a rigid panel, lifted level, that catches "
    "on nothing.";
inline constexpr const char* uplift =
    "Holds only with every clip in place and tightened as specified; panels that lie loose or are "
    "fixed in "
    "part need holding down meanwhile.";
inline constexpr const char* gaps =
    "Gaps hold for the temperatures entered: measure the steel when the panels are set.";
inline constexpr const char* road =
    "Limits of trucks differ with state, province, route and season; permits and the securing of "
    "the load are "
    "the carrier's.";
inline constexpr const char* field = "Measure the erected steel before panels are made.";
inline constexpr const char* weight =
    "Only what is listed is weighed, and moulded parts vary: weigh a panel before the first lift.";

}  // namespace deckquire::workings::cautions
