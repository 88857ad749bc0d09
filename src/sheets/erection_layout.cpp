#include "sheets/erection_layout.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "sheets/deck_lines.h"

namespace deckquire::sheets {
namespace {

using paper::LetterUse;

double greatest_width(const SetInput& input) {
  const DeckEdges& edges = input.bridge.edges;
  Length widest;
  for (const EdgeData& e : edges.data())
    for (bool ahead : {false, true})
      widest = std::max(widest, edges.left(e.station, ahead) + edges.right(e.station, ahead));
  return widest.in_mm();
}

double greatest_edge(const SetInput& input, bool left) {
  Length widest;
  for (const EdgeData& e : input.bridge.edges.data())
    widest = std::max(widest, left ? e.left : e.right);
  return widest.in_mm();
}

/// Greatest edge distance on a strip: the width law is straight between its breaks.
double greatest_edge(const SetInput& input, bool left, const Strip* strip) {
  if (strip == nullptr) return greatest_edge(input, left);
  const DeckEdges& edges = input.bridge.edges;
  std::vector<Length> stations = edges.breaks();
  stations.push_back(strip->from);
  stations.push_back(strip->to);
  Length widest;
  for (Length at : stations) {
    if (at < strip->from || at > strip->to) continue;
    for (bool ahead : {false, true})
      widest = std::max(widest, left ? edges.left(at, ahead) : edges.right(at, ahead));
  }
  return widest.in_mm();
}

/// Paper distance between the two joints that lie nearest to each other.
double least_pitch(const SetInput& input, int ratio) {
  double least = 1e9;
  const std::vector<Joint>& joints = input.deck.joints;
  for (std::size_t i = 1; i < joints.size(); ++i)
    least = std::min(least, (joints[i].station - joints[i - 1].station).in_mm());
  return least / ratio;
}

/// Names of row joints with their offsets, beyond the names of girders.
double row_joint_room(const SetInput& input) {
  const double h = input.style.letters_of(LetterUse::dimension);
  double widest = 0;
  for (const RowJoint& r : input.deck.row_joints)
    widest = std::max(widest, input.lettering.width(row_joint_label(r, input.project.units), h));
  return widest + 5;
}

/// Names of girders beyond the end of the plan.
double girder_name_room(const SetInput& input) {
  double widest = 0;
  for (const Girder& g : input.bridge.girders)
    widest =
        std::max(widest, input.lettering.width(g.name, input.style.letters_of(LetterUse::serial)));
  return std::max(8.0, widest + 3.5);
}

double station_width(const SetInput& input) {
  const std::string text = print_station(input.bridge.alignment.to(), input.project.units);
  return input.lettering.width(text, input.style.letters_of(LetterUse::dimension));
}

double section_height(const SetInput& input) {
  const SectionData& s = input.project.deck.section;
  return (s.depth + s.curb.height).in_mm();
}

/// Model length of the panels [first, last] between the middles of their outer joints.
double run_length(const Deck& deck, std::size_t first, std::size_t last) {
  const Length from = deck.joints[static_cast<std::size_t>(deck.panels[first].joint_back)].station;
  const Length to = deck.joints[static_cast<std::size_t>(deck.panels[last].joint_ahead)].station;
  return (to - from).in_mm();
}

bool begins_bay(const Deck& deck, std::size_t i) {
  return i == 0 || deck.panels[i].bay != deck.panels[i - 1].bay;
}

/// First panels of the strips, each no longer than `capacity`, filled from the start and cut
/// between bays.
std::vector<std::size_t> fill(const Deck& deck, double capacity) {
  std::vector<std::size_t> starts;
  for (std::size_t i = 0; i < deck.panels.size(); ++i) {
    if (!begins_bay(deck, i)) continue;
    if (starts.empty() || run_length(deck, starts.back(), i) > capacity + 0.5) starts.push_back(i);
  }
  return starts;
}

/// Length of the last strip.
double rest(const Deck& deck, const std::vector<std::size_t>& starts) {
  return run_length(deck, starts.back(), deck.panels.size() - 1);
}

struct Trial {
  int ratio = 50, rows = 1, sheets = 1;
  double capacity = 0;  // model mm
  bool sound = false;   // every panel fits
  std::vector<std::size_t> starts;
};

int sheets_for(std::size_t strips, int rows) {
  return (static_cast<int>(strips) + rows - 1) / rows;
}

/// Strips on a full sheet when they are shared out evenly.
int even_rows(const Trial& t) {
  return sheets_for(t.starts.size(), sheets_for(t.starts.size(), t.rows));
}

bool has_free_row(const Trial& t) {
  return static_cast<int>(t.starts.size()) % even_rows(t) != 0;
}

/// Where the typical section goes: right of the last strip, or in a free row. Strips are shortened
/// and added until there is room, then made as equally long as that allows.
void keep_section_room(const SetInput& input, Trial& t) {
  const double need = section_room(input, section_ratio(input, 0)).x + beside_strip + 0.5;
  const double most = t.capacity - need * t.ratio;
  bool found = false;
  for (double capacity = t.capacity; capacity > t.capacity / 10; capacity *= 0.98) {
    Trial next = t;
    next.starts = fill(input.deck, capacity);
    if (found && next.starts.size() > t.starts.size()) return;
    if (!has_free_row(next) && rest(input.deck, next.starts) > most) continue;
    found = true;
    t.starts = next.starts;
  }
}

/// Height across the drawing space that the words and tables need when the text column is too low
/// for them: they take about 270 mm of a column, more with a bent key plan or with rows, of which
/// furniture leaves the sheet's height less 200 mm.
double words_height(const SetInput& input) {
  const paper::PaperBox column = input.style.text_space();
  const double bent = input.bridge.alignment.straight() ? 0 : 50;
  const double rows = input.deck.row_joints.empty() ? 0 : 60;
  const double missing = std::max(0.0, 270 + bent + rows - (column.height() - 200));
  return missing * column.width() / input.style.drawing_space().width();
}

Trial attempt(const SetInput& input, int ratio) {
  const paper::PaperBox space = input.style.drawing_space();
  const StripFrame frame = strip_frame(input, ratio, 0);
  Trial t;
  t.ratio = ratio;
  t.capacity = (space.width() - 2 * input.style.gap - frame.left - frame.right) * ratio;
  t.rows = std::min(
      3, static_cast<int>((space.height() - input.style.gap - words_height(input)) / frame.height));
  // One strip may take the whole sheet: the words then stand on a sheet of their own.
  if (t.rows == 0 && frame.height <= space.height() - input.style.gap) t.rows = 1;
  double longest = 0;
  for (std::size_t i = 0; i < input.deck.panels.size(); ++i)
    longest = std::max(longest, run_length(input.deck, i, i));
  t.sound = t.rows >= 1 && longest <= t.capacity;
  if (!t.sound) return t;
  t.starts = fill(input.deck, t.capacity);
  keep_section_room(input, t);
  t.sheets = sheets_for(t.starts.size(), t.rows);
  return t;
}

/// Clear height of the lowest row of panels between curbs, mm.
double least_row(const SetInput& input) {
  const double curb = input.project.deck.section.curb.width.in_mm();
  double least = 1e9;
  for (const Panel& p : input.deck.panels) {
    const double back = p.shape.left_back - p.shape.right_back;
    const double ahead = p.shape.left_ahead - p.shape.right_ahead;
    const int curbs = (p.shape.left_joint ? 0 : 1) + (p.shape.right_joint ? 0 : 1);
    least = std::min(least, std::min(back, ahead) - curbs * curb);
  }
  return least;
}

/// Marks and serials stand upright in panels of the usual length, with the position above them or,
/// in a low row, beside them.
bool is_legible(const SetInput& input, int ratio) {
  std::vector<double> lengths;
  for (std::size_t i = 0; i < input.deck.panels.size(); ++i)
    lengths.push_back(run_length(input.deck, i, i));
  std::nth_element(lengths.begin(),
                   lengths.begin() + static_cast<std::ptrdiff_t>(lengths.size() / 2),
                   lengths.end());
  const double serial = input.lettering.width(input.deck.panels.front().serial,
                                              input.style.letters_of(LetterUse::serial));
  const double length = lengths[lengths.size() / 2] / ratio, row = least_row(input) / ratio;
  const double block =
      input.style.letters_of(LetterUse::mark) + input.style.letters_of(LetterUse::serial) + 3;
  const double position = input.style.letters_of(LetterUse::serial) + 4;
  return length >= serial + 3 &&
         (row >= block + position || (row >= block && length >= serial + 22));
}

std::optional<int> stated_ratio(const SetInput& input) {
  for (const ScaleData& s : input.project.set.scales)
    if (s.of == "erection" && s.ratio > 0) return s.ratio;
  return std::nullopt;
}

/// All ratios the style allows from 1:20 on, tried.
std::vector<Trial> trials(const SetInput& input) {
  std::vector<Trial> all;
  for (int ratio : input.style.scales)
    if (ratio >= 16 && ratio <= 500) all.push_back(attempt(input, ratio));
  std::erase_if(all, [](const Trial& t) { return !t.sound; });
  return all;
}

/// First panels of the strips of the last issue; none where one of them is not to be found.
std::vector<std::size_t> kept_starts(const Deck& deck, const history::LayoutHints& hints) {
  const auto find = [&](int position) {
    std::size_t i = 0;
    while (i < deck.panels.size() && deck.panels[i].position != position) ++i;
    return i;
  };
  std::vector<std::size_t> starts{0};
  for (std::size_t k = 1; k < hints.strips.size(); ++k) {
    std::size_t at = find(hints.strips[k].first_position);
    if (at == deck.panels.size()) at = find(hints.strips[k - 1].last_position) + 1;
    if (at >= deck.panels.size() || at <= starts.back() || !begins_bay(deck, at)) return {};
    starts.push_back(at);
  }
  return starts;
}

/// Strips as they were issued, one that became too long for its paper cut once more.
std::optional<Trial> kept(const SetInput& input) {
  if (input.history == nullptr) return std::nullopt;
  const history::LayoutHints& hints = input.history->layout;
  const auto stated = stated_ratio(input);
  if (hints.strips.empty() || (stated && *stated != hints.erection_ratio)) return std::nullopt;
  Trial t = attempt(input, hints.erection_ratio);
  const std::vector<std::size_t> starts = kept_starts(input.deck, hints);
  if (!t.sound || starts.empty()) return std::nullopt;
  const Deck& deck = input.deck;
  t.starts.clear();
  for (std::size_t k = 0; k < starts.size(); ++k) {
    const std::size_t end = k + 1 < starts.size() ? starts[k + 1] : deck.panels.size();
    t.starts.push_back(starts[k]);
    for (std::size_t i = starts[k]; i < end; ++i)
      if (begins_bay(deck, i) && run_length(deck, t.starts.back(), i) > t.capacity + 0.5)
        t.starts.push_back(i);
  }
  t.sheets = t.starts.size() == starts.size() ? hints.strips.back().sheet + 1
                                              : sheets_for(t.starts.size(), t.rows);
  const double need = section_room(input, section_ratio(input, 0)).x + beside_strip + 0.5;
  const bool section = has_free_row(t) || rest(deck, t.starts) <= t.capacity - need * t.ratio;
  if (!section || sheets_for(t.starts.size(), t.sheets) > t.rows) return std::nullopt;
  return t;
}

Trial best(const SetInput& input) {
  if (const auto issued = kept(input)) return *issued;
  if (const auto ratio = stated_ratio(input)) {
    Trial t = attempt(input, *ratio);
    if (t.sound) return t;
  }
  const std::vector<Trial> all = trials(input);
  if (all.empty()) return attempt(input, 500);
  // The usual scale: the first from 1:50 on with two strips a sheet, else the last legible one.
  int fewest = all.front().sheets;
  for (const Trial& t : all) {
    if (&t != &all.front() && !is_legible(input, t.ratio)) break;
    fewest = t.sheets;
    if (t.ratio >= 48 && (t.rows >= 2 || t.starts.size() == 1)) break;
  }
  for (const Trial& t : all)
    if (t.sheets <= fewest) return t;
  return all.back();
}

}  // namespace

std::string row_joint_label(const RowJoint& joint, UnitSystem units) {
  if (joint.offset == Length()) return joint.name + ", alignment";
  return joint.name + ", " + print_length(abs(joint.offset), units) +
         (joint.offset > Length() ? " left" : " right");
}

int section_ratio(const SetInput& input, double room) {
  const double width = greatest_width(input);
  // Small sheets need the room for their words.
  const double widest = input.style.width / (input.style.width > 800 ? 3.4 : 4);
  int chosen = 0;
  for (int ratio : input.style.scales) {
    const bool small_enough = room > 0 ? section_room(input, ratio).x <= room : ratio >= 16;
    const bool useful = ratio >= 8 && (room > 0 || width / ratio <= widest);
    if (small_enough && useful && chosen == 0) chosen = ratio;
  }
  return chosen == 0 ? 50 : chosen;
}

paper::PaperPoint section_room(const SetInput& input, int ratio) {
  const double width = greatest_width(input);
  const double tiers = input.style.first_dimension + 4 * input.style.next_dimension + 10;
  return {width / ratio + 2 * input.style.first_dimension + 2 * input.style.next_dimension + 20,
          section_height(input) / ratio + tiers + 33};
}

namespace {

/// Height under the deck for the marks of panels that are too short for them, turned; 0 where every
/// panel holds its own.
double room_for_marks(const SetInput& input, int ratio) {
  const double serial = input.lettering.width(input.deck.panels.front().serial,
                                              input.style.letters_of(LetterUse::serial));
  const double block =
      input.style.letters_of(LetterUse::mark) + input.style.letters_of(LetterUse::serial) + 3.6;
  for (std::size_t i = 0; i < input.deck.panels.size(); ++i)
    if (run_length(input.deck, i, i) / ratio < block) return serial + 5;
  return 0;
}

}  // namespace

StripFrame strip_frame(const SetInput& input, int ratio, double profile, const Strip* strip) {
  const paper::Style& s = input.style;
  const double d = s.letters_of(LetterUse::dimension), row = d + 1.6;
  const double station = station_width(input);
  StripFrame f;
  f.tail = std::clamp(500.0 / ratio, 6.0, 12.0);
  f.skew = skew_reach(input) / ratio;
  const bool rows = !input.deck.row_joints.empty();
  const double dimensions =
      f.tail + s.first_dimension + s.next_dimension + 3 * d + 5 + (rows ? s.next_dimension + d : 0);
  const double captions =
      input.lettering.width("Girder top, m", d) + input.lettering.width("1000.000", d) / 2 + 3;
  const double scales = input.lettering.width("H " + s.scale_name(ratio), d) +
                        input.lettering.width("1000.00", d) + 7;
  f.left = std::max({dimensions, captions, scales}) + f.skew;
  f.right = f.tail + girder_name_room(input) + f.skew + (rows ? row_joint_room(input) : 0);
  f.upright = least_pitch(input, ratio) >= station + 2;
  const double turned = station + 2 + input.lettering.width("J88 ", d);
  const double level = f.upright ? row : input.lettering.width("1000.000", d) + 1.6;
  f.profile_top = s.letters_of(LetterUse::heading) + 3;
  f.profile_bottom = f.profile_top + std::max(profile, 16.0);
  f.deck_level = f.profile_bottom + 1.5 + level;
  f.girder_level = f.deck_level + level;
  f.joint_top = f.girder_level + 1.5;
  f.joint_bar = f.joint_top + (f.upright ? s.letters_of(LetterUse::serial) + 1 + row : turned);
  f.deck_top = f.joint_bar + 1.5 + row + 1;
  f.deck_bottom =
      f.deck_top + (greatest_edge(input, true, strip) + greatest_edge(input, false, strip)) / ratio;
  f.supports = f.deck_bottom + row + 2 + row + room_for_marks(input, ratio);
  f.edge_rows = f.supports + 2;
  f.panels = f.edge_rows + 3 * row + s.next_dimension - 1;
  f.gaps = f.panels + row;
  f.spans = f.gaps + s.next_dimension - 1;
  f.overall = f.spans + s.next_dimension;
  f.elements = f.overall + (input.bridge.alignment.straight() ? 0 : s.next_dimension + 2);
  f.title = f.elements + s.letters_of(LetterUse::view_title) + 4 +
            (input.bridge.alignment.straight() ? 0 : row + 1);
  // The spans' words stand under the title's line (see draw_title).
  f.height = f.title + 0.4 * s.letters_of(LetterUse::view_title) + 1.2 + d + 1.5;
  return f;
}

ErectionLayout lay_out_erection(const SetInput& input) {
  const Deck& deck = input.deck;
  ErectionLayout layout;
  if (deck.panels.empty()) return layout;
  const Trial t = best(input);
  layout.ratio = t.ratio;
  // Strips shared out evenly, the last sheet never the fullest.
  layout.rows = sheets_for(t.starts.size(), std::max(1, t.sheets));
  layout.strip_height = (input.style.drawing_space().height() - input.style.gap) / layout.rows;
  for (std::size_t i = 0; i < t.starts.size(); ++i) {
    const std::size_t end = i + 1 < t.starts.size() ? t.starts[i + 1] : deck.panels.size();
    Strip strip;
    strip.first = static_cast<int>(t.starts[i]);
    strip.count = static_cast<int>(end - t.starts[i]);
    strip.from = deck.joints[static_cast<std::size_t>(deck.panels[t.starts[i]].joint_back)].station;
    strip.to = deck.joints[static_cast<std::size_t>(deck.panels[end - 1].joint_ahead)].station;
    strip.sheet = static_cast<int>(i) / layout.rows;
    strip.row = static_cast<int>(i) % layout.rows;
    strip.levels = level_range(input, strip.from, strip.to);
    layout.strips.push_back(strip);
  }
  return layout;
}

}  // namespace deckquire::sheets
