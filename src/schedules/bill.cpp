// What the deck is made of: moulded parts by mass, fittings by piece, pads and joints by length.
#include "schedules/bill.h"

#include <fmt/format.h>

#include <algorithm>

#include "deck/site.h"
#include "schedules/bolt_length.h"
#include "schedules/schedules.h"

namespace deckquire {
namespace {

using Lines = std::vector<BillLine>;

// Prints lengths in the project's own system.
struct Sizes {
  UnitSystem units;
  std::string operator()(Length a) const { return print_length(a, units); }
  std::string operator()(double v) const { return print_length(mm(v), units); }
};

std::string material_text(const DeckData& data, const std::string& part) {
  const MaterialData* m = material_of(data, part);
  return m ? m->name : "";
}

// ---- moulded parts

// Parts of the mass that are pieces, beside the items that the features count.
struct FittingPart {
  const char* part;
  const char* item;
};
constexpr FittingPart fitting_parts[] = {
    {"post plates", "post plate"},        {"scupper bodies", "scupper body"},
    {"outlet pipes", "outlet pipe"},      {"grates", "scupper grate"},
    {"hatch covers", "hatch cover"},      {"hold-down inserts", "hold-down insert"},
    {"lifting inserts", "lifting insert"}};

std::string item_of(const std::string& part) {
  for (const auto& f : fitting_parts)
    if (part == f.part) return f.item;
  return "";
}

BillLine surface_line(const Project& project, const Mark& mark, const MassPart& part) {
  BillLine line{"wearing surface", "", ""};
  if (mark.shape.surface >= 0) {
    const auto& s = project.deck.surfaces[static_cast<std::size_t>(mark.shape.surface)];
    line.size = fmt::format("{}, {} thick", s.trade_class, print_length(s.thickness, project.units));
    line.detail = s.colour;
  }
  line.area = mark.masses.surface_area.in_si();
  line.mass = part.mass.in_si();
  line.rule = "area along the slope, set back from ends and curbs, times mass by area";
  line.ordered_by = Measure::area;
  line.allowance = "surface";
  return line;
}

BillLine part_line(const Project& project, const Mark& mark, const MassPart& part) {
  if (part.part == "surface") return surface_line(project, mark, part);
  BillLine line{part.part, material_text(project.deck, part.part), ""};
  line.volume = part.volume.in_si();
  line.mass = part.mass.in_si();
  line.rule = "net volume of the drawn shape times density";
  const bool core = part.part == "core";
  line.ordered_by = core ? Measure::volume : Measure::mass;
  if (core || part.part == "laminate") line.allowance = part.part;
  return line;
}

// ---- fittings

/// What is tightened into a threaded insert with a bottom: its length where plate and insert are known.
void size_bolt(BillLine& line, const std::string& thread, Length grip, const Sizes& size) {
  const Length d = mm(thread_diameter(thread)), insert = d + d;  // as the hole table draws them
  if (const auto length = bolt_length(grip, d, insert, thread.front() != 'M')) {
    line.size = fmt::format("{} × {}", thread, size(*length));
    line.detail = "over all, head flush";
    line.rule += fmt::format("; length: grip {} and thread between {} and {}, standard length nearest "
                             "to grip and 1.5 diameters",
                             size(grip), size(d), size(insert));
  } else {
    line.size = thread;
    line.detail = fmt::format("length: none of the standard ones lies between {} and {}",
                              size(grip + d), size(grip + insert));
  }
}

struct Fittings {
  const Project& project;
  Sizes size;
  Lines lines;

  BillLine line(const char* item, double count, std::string rule, const char* allowance) const {
    BillLine l{item, "", "", count};
    l.rule = std::move(rule);
    l.allowance = allowance;
    return l;
  }
  void add(BillLine l) { add_lines(lines, {std::move(l)}, 1); }
  void post_plate(const Feature& f);
  void scupper();
  void hatch(const Feature& f);
  void hold_down(const Feature& f);
  void lifting(const Feature& f);
  void pad(const Feature& f);
  void add(const Feature& f);
};

void Fittings::post_plate(const Feature& f) {
  if (!project.deck.posts) return;
  const auto& p = project.deck.posts->plate;
  const int holes = p.along * p.across;
  BillLine plate = line("post plate", 1, "one for each rail post", "plates");
  plate.size = fmt::format("{} × {} × {}", size(f.length), size(f.width), size(p.thickness));
  plate.detail = fmt::format("{} × {} tapped; {}", holes, p.thread, material_text(project.deck, "steel"));
  add(std::move(plate));
  BillLine bolt = line("rail post bolt", holes, "one for each tapped hole of the post plates", "");
  bolt.size = p.thread;
  bolt.detail = "by the railing supplier; length: by grip, base plate not stated";
  bolt.supplier = "railing supplier";
  bolt.loose = true;
  add(std::move(bolt));
}

void Fittings::scupper() {
  if (!project.deck.scuppers) return;
  const auto& s = *project.deck.scuppers;
  const char* const each = "one for each scupper";
  BillLine body = line("scupper body", 1, each, "drains");
  body.size = fmt::format("{} × {}", size(s.body_length), size(s.body_width));
  body.detail = fmt::format("moulded, cavity {} deep", size(s.cavity));
  add(std::move(body));
  BillLine pipe = line("outlet pipe", 1, each, "drains");
  pipe.size = fmt::format("{} diameter, wall {}", size(s.outlet), size(s.outlet_wall));
  pipe.detail = fmt::format("to {} below the soffit", size(s.outlet_below));
  add(std::move(pipe));
  BillLine grate = line("scupper grate", 1, each, "grates");
  grate.size = fmt::format("{} × {} × {}", size(s.grate_length), size(s.grate_width), size(s.grate));
  grate.loose = true;
  add(std::move(grate));
  BillLine bolt = line("grate bolt", s.bolts, fmt::format("{} for each grate", s.bolts), "bolts");
  size_bolt(bolt, s.bolt, s.grate, size);
  bolt.loose = true;
  add(std::move(bolt));
}

void Fittings::hatch(const Feature& f) {
  if (f.variant < 0 || f.variant >= static_cast<int>(project.deck.hatches.size())) return;
  const auto& h = project.deck.hatches[static_cast<std::size_t>(f.variant)];
  BillLine cover = line("hatch cover", 1, "one for each hatch", "hatches");
  cover.size = fmt::format("{} × {} × {}", size(h.length + 2 * h.rebate), size(h.width + 2 * h.rebate),
                           size(h.cover));
  cover.detail = fmt::format("with frame in a rebate {} deep", size(h.rebate_depth));
  cover.loose = true;
  add(std::move(cover));
  BillLine bolt = line("cover bolt", h.bolts, fmt::format("{} for each cover", h.bolts), "bolts");
  size_bolt(bolt, h.bolt, h.cover, size);
  bolt.loose = true;
  add(std::move(bolt));
}

void Fittings::hold_down(const Feature& f) {
  if (!project.deck.hold_downs) return;
  const std::string& thread = project.deck.hold_downs->bolt;
  const char* const each = "one for each clip, by panel and girder";
  BillLine insert = line("hold-down insert", 1, each, "inserts");
  insert.size = fmt::format("{}, {} deep", thread, size(f.depth));
  insert.detail = "moulded in";
  add(std::move(insert));
  BillLine clip = line("hold-down clip", 1, "by panel and girder", "clips");
  clip.detail = "by the contractor";
  BillLine bolt = line("hold-down bolt", 1, each, "bolts");
  bolt.size = thread;
  bolt.detail = "by the contractor; length: by grip, flange thickness not stated";
  for (BillLine* l : {&clip, &bolt}) {
    l->supplier = "contractor";
    l->loose = true;
    add(*l);
  }
}

void Fittings::lifting(const Feature& f) {
  const std::string& thread = project.deck.lifting.thread;
  BillLine insert = line("lifting insert", 1, "as drawn on the panel sheets", "inserts");
  insert.size = fmt::format("{}, {} deep", thread, size(f.depth));
  insert.detail = "moulded in";
  add(std::move(insert));
  BillLine cap = line("insert cap", 1, "one for each lifting insert, set when the panel is", "caps");
  cap.size = "for " + thread;
  cap.loose = true;
  add(std::move(cap));
}

void Fittings::pad(const Feature& f) {
  if (!project.deck.pads) return;
  const auto& p = *project.deck.pads;
  BillLine strip = line("bearing pad", 1, "along every girder under every panel", "pads");
  strip.size = fmt::format("{} × {}", size(p.width), size(p.thickness));
  strip.detail = p.material;
  strip.length = f.length / 1000;
  strip.ordered_by = Measure::run;
  strip.loose = true;
  add(std::move(strip));
}

void Fittings::add(const Feature& f) {
  BillLine one;
  switch (f.kind) {
    case FeatureKind::post_plate:
      return post_plate(f);
    case FeatureKind::scupper:
      return scupper();
    case FeatureKind::hatch:
      return hatch(f);
    case FeatureKind::pad:
      return pad(f);
    case FeatureKind::hold_down:
      return hold_down(f);
    case FeatureKind::lifting_insert:
      return lifting(f);
    case FeatureKind::sleeve:
      one = line("sleeve", 1, "one for each opening", "");
      one.size = fmt::format("{} outer diameter", size(f.length));
      one.detail = "pipe";
      return add(std::move(one));
    case FeatureKind::tag:
      one = line("panel tag", 1, "one for each panel", "");
      one.detail = "serial, mark, mass";
      return add(std::move(one));
    case FeatureKind::recess:
    case FeatureKind::notch:
      break;  // nothing to buy
  }
}

// The mass of a kind of fitting goes to the items counted, shared by their pieces.
void add_mass(Lines& lines, const MassPart& part) {
  const std::string item = item_of(part.part);
  double pieces = 0;
  for (const BillLine& l : lines)
    if (l.item == item) pieces += l.pieces;
  for (BillLine& l : lines)
    if (!item.empty() && l.item == item) l.mass += part.mass.in_si() * l.pieces / pieces;
}

// ---- joints

// A steel plate over the gap of an end joint.
BillLine cover_line(const Project& project, Length width) {
  const auto& j = project.deck.joints;
  const Sizes size{project.units};
  const MaterialData* m = material_of(project.deck, "steel");
  BillLine line{"joint cover plate",
                fmt::format("{} × {} × {}", size(j.cover_width), size(j.cover_thickness), size(width)),
                m ? m->name : "", 1, width.in_m()};
  line.rule = "one for each end joint, as long as the deck is wide";
  line.volume = (j.cover_width * width * j.cover_thickness).in_si();
  if (m) line.mass = line.volume * m->density.in_si();
  line.allowance = "plates";
  line.loose = true;
  return line;
}

Lines seal_lines(const Project& project, Length gap, Length width) {
  const auto& j = project.deck.joints;
  const Sizes size{project.units};
  BillLine rod{"backer rod", size(j.rod) + " diameter", "closed cell", 0, width.in_m()};
  rod.rule = "length of every sealed joint";
  rod.ordered_by = Measure::run;
  BillLine seal{"sealant", fmt::format("{} wide × {} deep", size(gap), size(j.seal)),
                material_text(project.deck, "sealant"), 0, width.in_m()};
  seal.rule = "gap × depth × length of every sealed joint";
  seal.ordered_by = Measure::fill;
  seal.volume = (gap * width * j.seal).in_si();
  for (BillLine* l : {&rod, &seal}) {
    l->allowance = "sealant";
    l->loose = true;
  }
  return {rod, seal};
}

}  // namespace

std::string BillLine::description() const {
  return size.empty() || detail.empty() ? size + detail : size + "; " + detail;
}

double BillLine::ordered() const {
  switch (ordered_by) {
    case Measure::run:
      return length;
    case Measure::fill:
      return 1000 * volume;
    case Measure::area:
      return area;
    case Measure::volume:
      return volume;
    case Measure::mass:
      return mass;
    default:
      return pieces;
  }
}

const MaterialData* material_of(const DeckData& data, const std::string& part) {
  for (const auto& m : data.materials)
    if (m.part == part) return &m;
  return nullptr;
}

void add_lines(Lines& sum, const Lines& more, double times) {
  for (const BillLine& l : more) {
    auto at = std::find_if(sum.begin(), sum.end(), [&](const BillLine& o) {
      return o.item == l.item && o.size == l.size && o.detail == l.detail;
    });
    if (at == sum.end()) {  // beside its like
      const auto like = std::find_if(sum.rbegin(), sum.rend(),
                                     [&](const BillLine& o) { return o.item == l.item; });
      at = sum.insert(like == sum.rend() ? sum.end() : like.base(), l);
      at->pieces = at->length = at->area = at->volume = at->mass = 0;
    }
    at->pieces += times * l.pieces;
    at->length += times * l.length;
    at->area += times * l.area;
    at->volume += times * l.volume;
    at->mass += times * l.mass;
  }
}

Lines bill_lines(const Project& project, const Mark& mark) {
  Fittings fittings{project, {project.units}, {}};
  for (const MassPart& part : mark.masses.parts)
    if (item_of(part.part).empty()) add_lines(fittings.lines, {part_line(project, mark, part)}, 1);
  for (const Feature& f : mark.shape.features) fittings.add(f);
  for (const MassPart& part : mark.masses.parts) add_mass(fittings.lines, part);
  return fittings.lines;
}

std::vector<Lines> mark_bills(const Project& project, const Deck& deck) {
  std::vector<Lines> out;
  for (const Mark& m : deck.marks) out.push_back(bill_lines(project, m));
  return out;
}

Lines panel_lines(const std::vector<Lines>& bills, const Deck& deck, int first, int count) {
  std::vector<int> of_mark(deck.marks.size());
  for (int i = first; i < first + count; ++i)
    ++of_mark[static_cast<std::size_t>(deck.panels[static_cast<std::size_t>(i)].mark)];
  Lines lines;
  for (std::size_t m = 0; m < bills.size(); ++m)
    if (of_mark[m] > 0) add_lines(lines, bills[m], of_mark[m]);
  return lines;
}

Lines joint_lines(const Project& project, const Bridge& bridge, const Deck& deck, int first, int count) {
  Lines lines;
  if (count <= 0) return lines;
  const int back = deck.panels[static_cast<std::size_t>(first)].joint_back;
  const int ahead = deck.panels[static_cast<std::size_t>(first + count - 1)].joint_ahead;
  const bool sealed = project.deck.joints.kind == JointKind::sealed;
  for (int i = first == 0 ? back : back + 1; i <= ahead; ++i) {
    const Joint& j = deck.joints[static_cast<std::size_t>(i)];
    const Length width = joint_length(bridge, deck, j);
    if (j.end)
      add_lines(lines, {cover_line(project, width)}, 1);
    else if (sealed)
      add_lines(lines, seal_lines(project, j.gap, width), 1);
  }
  if (sealed)
    for (const RowJoint& r : deck.row_joints)
      if (const Length l = joint_length(bridge, deck, r, back, ahead); l > Length())
        add_lines(lines, seal_lines(project, r.gap, l), 1);
  return lines;
}

Lines deck_lines(const Project& project, const Bridge& bridge, const Deck& deck) {
  const int all = static_cast<int>(deck.panels.size());
  Lines lines = panel_lines(mark_bills(project, deck), deck, 0, all);
  add_lines(lines, joint_lines(project, bridge, deck, 0, all), 1);
  return lines;
}

}  // namespace deckquire
