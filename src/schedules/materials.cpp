// What the deck is made of: moulded parts by mass, fittings by piece, pads and joints by length.
#include <fmt/format.h>

#include <algorithm>

#include "schedules/parts.h"
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
    {"hatch covers", "hatch cover"},      {"hold-down inserts", "hold-down"},
    {"lifting inserts", "lifting insert"}};

std::string item_of(const std::string& part) {
  for (const auto& f : fitting_parts)
    if (part == f.part) return f.item;
  return "";
}

BillLine surface_line(const Project& project, const Mark& mark, const MassPart& part) {
  BillLine line{"wearing surface", "", 0, 0, 0, 0, 0, ""};
  if (mark.shape.surface >= 0) {
    const auto& s = project.deck.surfaces[static_cast<std::size_t>(mark.shape.surface)];
    line.description =
        fmt::format("{}, {} thick{}", s.trade_class, print_length(s.thickness, project.units),
                    s.colour.empty() ? "" : ", " + s.colour);
  }
  line.area = mark.masses.surface_area.in_si();
  line.mass = part.mass.in_si();
  line.rule = "area along the slope, set back from ends and curbs, times mass by area";
  return line;
}

BillLine part_line(const Project& project, const Mark& mark, const MassPart& part) {
  if (part.part == "surface") return surface_line(project, mark, part);
  BillLine line{part.part, material_text(project.deck, part.part), 0, 0, 0, 0, 0, ""};
  line.volume = part.volume.in_si();
  line.mass = part.mass.in_si();
  line.rule = "net volume of the drawn shape times density";
  return line;
}

// ---- fittings

struct Fittings {
  const Project& project;
  Sizes size;
  Lines lines;

  void piece(std::string item, std::string description, double count, std::string rule) {
    BillLine line{std::move(item), std::move(description), count, 0, 0, 0, 0, std::move(rule)};
    add_lines(lines, {line}, 1);
  }
  void post_plate(const Feature& f);
  void scupper();
  void hatch(const Feature& f);
  void pad(const Feature& f);
  void add(const Feature& f);
};

void Fittings::post_plate(const Feature& f) {
  if (!project.deck.posts) return;
  const auto& p = project.deck.posts->plate;
  piece("post plate",
        fmt::format("{} × {} × {}, {} × {} tapped; {}", size(f.length), size(f.width),
                    size(p.thickness), p.along * p.across, p.thread,
                    material_text(project.deck, "steel")),
        1, "one for each rail post");
}

void Fittings::scupper() {
  if (!project.deck.scuppers) return;
  const auto& s = *project.deck.scuppers;
  piece("scupper body",
        fmt::format("moulded, {} × {}, cavity {} deep", size(s.body_length), size(s.body_width),
                    size(s.cavity)),
        1, "one for each scupper");
  piece("outlet pipe",
        fmt::format("{} diameter, wall {}, to {} below the soffit", size(s.outlet),
                    size(s.outlet_wall), size(s.outlet_below)),
        1, "one for each scupper");
  piece("scupper grate",
        fmt::format("{} × {} × {}", size(s.grate_length), size(s.grate_width), size(s.grate)), 1,
        "one for each scupper");
  piece("grate bolt", s.bolt, s.bolts, fmt::format("{} for each grate", s.bolts));
}

void Fittings::hatch(const Feature& f) {
  if (f.variant < 0 || f.variant >= static_cast<int>(project.deck.hatches.size())) return;
  const auto& h = project.deck.hatches[static_cast<std::size_t>(f.variant)];
  piece("hatch cover",
        fmt::format("{} × {} × {}, with frame in a rebate {} deep", size(h.length + 2 * h.rebate),
                    size(h.width + 2 * h.rebate), size(h.cover), size(h.rebate_depth)),
        1, "one for each hatch");
  piece("cover bolt", h.bolt, h.bolts, fmt::format("{} for each cover", h.bolts));
}

void Fittings::pad(const Feature& f) {
  if (!project.deck.pads) return;
  const auto& p = *project.deck.pads;
  BillLine line{"bearing pad",
                fmt::format("{}, {} wide × {} thick", p.material, size(p.width), size(p.thickness)),
                1,
                f.length / 1000,
                0,
                0,
                0,
                "along every girder under every panel"};
  add_lines(lines, {line}, 1);
}

void Fittings::add(const Feature& f) {
  switch (f.kind) {
    case FeatureKind::post_plate:
      return post_plate(f);
    case FeatureKind::scupper:
      return scupper();
    case FeatureKind::hatch:
      return hatch(f);
    case FeatureKind::pad:
      return pad(f);
    case FeatureKind::sleeve:
      return piece("sleeve", fmt::format("pipe, {} outer diameter", size(f.length)), 1,
                   "one for each opening");
    case FeatureKind::hold_down:
      if (!project.deck.hold_downs) return;
      return piece("hold-down",
                   fmt::format("insert and clip with bolt {}", project.deck.hold_downs->bolt), 1,
                   "by panel and girder");
    case FeatureKind::lifting_insert:
      return piece("lifting insert",
                   fmt::format("{}, {} deep", project.deck.lifting.thread, size(f.depth)), 1,
                   "as drawn on the panel sheets");
    case FeatureKind::tag:
      return piece("panel tag", "serial, mark, mass", 1, "one for each panel");
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
                fmt::format("{} × {}{}", size(j.cover_width), size(j.cover_thickness),
                            m ? "; " + m->name : ""),
                1,
                width.in_m(),
                0,
                0,
                0,
                "deck width at every end joint"};
  line.volume = (j.cover_width * width * j.cover_thickness).in_si();
  if (m) line.mass = line.volume * m->density.in_si();
  return line;
}

Lines seal_lines(const Project& project, Length gap, Length width) {
  const auto& j = project.deck.joints;
  const Sizes size{project.units};
  BillLine rod{"backer rod",
               fmt::format("{} diameter, closed cell", size(j.rod)),
               0,
               width.in_m(),
               0,
               0,
               0,
               "deck width at every sealed joint"};
  BillLine seal{"sealant", fmt::format("{} wide × {} deep", size(gap), size(j.seal)),
                0,         width.in_m(),
                0,         0,
                0,         "gap × depth × deck width"};
  seal.volume = (gap * width * j.seal).in_si();
  return {rod, seal};
}

// ---- tables

std::vector<Cell> material_row(const BillLine& l) {
  const auto some = [](double v) { return v > 0 ? Cell(v) : Cell(); };
  return {l.item,       l.description,  some(l.pieces), some(l.length),
          some(l.area), some(l.volume), some(l.mass),   l.rule};
}

struct Amount {
  std::string unit;
  double value;
};

// The one quantity a shop orders by.
Amount main_amount(const BillLine& l, UnitSystem u) {
  const auto in = [u](Measure m, double v) {
    const double unit = m == Measure::mass ? 0.45359237 : m == Measure::area ? 0.09290304 : 0.3048;
    return Amount{column_unit(m, u), u == UnitSystem::metric ? v : v / unit};
  };
  if (l.area > 0) return in(Measure::area, l.area);
  if (l.length > 0) return in(Measure::coordinate, l.length);
  if (l.pieces > 0) return {"pcs", l.pieces};
  return in(Measure::mass, l.mass);
}

}  // namespace

const MaterialData* material_of(const DeckData& data, const std::string& part) {
  for (const auto& m : data.materials)
    if (m.part == part) return &m;
  return nullptr;
}

void add_lines(Lines& sum, const Lines& more, double times) {
  for (const BillLine& l : more) {
    auto at = std::find_if(sum.begin(), sum.end(), [&](const BillLine& o) {
      return o.item == l.item && o.description == l.description;
    });
    if (at == sum.end()) {  // beside its like
      const auto like = std::find_if(sum.rbegin(), sum.rend(),
                                     [&](const BillLine& o) { return o.item == l.item; });
      const auto where = like == sum.rend() ? sum.end() : like.base();
      at = sum.insert(where, {l.item, l.description, 0, 0, 0, 0, 0, l.rule});
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

Lines joint_lines(const Project& project, const Bridge& bridge, const Deck& deck) {
  Lines lines;
  for (const Joint& j : deck.joints) {
    const Length width = joint_length(bridge, deck, j);
    if (j.end)
      add_lines(lines, {cover_line(project, width)}, 1);
    else if (project.deck.joints.kind == JointKind::sealed)
      add_lines(lines, seal_lines(project, j.gap, width), 1);
  }
  if (project.deck.joints.kind == JointKind::sealed)
    for (const RowJoint& r : deck.row_joints)
      add_lines(lines, seal_lines(project, r.gap, joint_length(bridge, deck, r)), 1);
  return lines;
}

Table materials_table(const Project& project, const Bridge& bridge, const Deck& deck) {
  Table t{
      "materials",
      "MATERIALS OF THE WHOLE DECK",
      "Net quantities of the finished work: no waste, no spares. Rail posts, drain pipes beyond "
      "the outlets and girder steel are by others.",
      {},
      {},
      {},
      true};
  t.columns = {{"item", "Item", Measure::text},      {"description", "Description", Measure::text},
               {"pieces", "Pieces", Measure::count}, {"length_m", "Length", Measure::coordinate},
               {"area_m2", "Area", Measure::area},   {"volume_m3", "Volume", Measure::volume},
               {"mass_kg", "Mass", Measure::mass},   {"rule", "Rule", Measure::text}};
  Lines lines;
  for (const Mark& m : deck.marks) add_lines(lines, bill_lines(project, m), m.quantity);
  double panels = 0;
  for (const BillLine& l : lines) panels += l.mass;
  add_lines(lines, joint_lines(project, bridge, deck), 1);
  for (const BillLine& l : lines) t.rows.push_back(material_row(l));
  t.total = {std::string("Panels"), std::string("without joint parts"), {}, {}, {}, {}, panels, {}};
  return t;
}

Table bill_of_materials(const Project& project, const Deck& deck, int mark) {
  const Mark& m = deck.marks[static_cast<std::size_t>(mark)];
  Table t{"bill-" + m.name, "BILL OF MATERIALS", "", {}, {}, {}, true};
  t.columns = {{"item", "Item", Measure::text},
               {"unit", "Unit", Measure::text},
               {"one", "One", Measure::count},
               {"all", "All", Measure::count},
               {"remark", "Remark", Measure::text}};
  for (const BillLine& l : bill_lines(project, m)) {
    const Amount a = main_amount(l, project.units);
    t.rows.push_back({l.item, a.unit, a.value, a.value * m.quantity, l.description});
  }
  return t;
}

}  // namespace deckquire
