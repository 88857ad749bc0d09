#include "writers/svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "paper/layer.h"
#include "writers/extents.h"
#include "writers/guard.h"
#include "writers/markup.h"
#include "writers/svg_style.h"

namespace deckquire::writers {
namespace {

using namespace paper;

class SvgBody {
 public:
  std::string out;
  SvgClasses classes;

  SvgBody(const Sheet& sheet, const DocumentInfo& info, const Lettering& lettering)
      : classes(sheet, lettering),
        sheet_(sheet),
        info_(info),
        lettering_(lettering),
        layers_(layers_of(sheet)) {
    for (const Item& item : sheet.items) {
      std::visit(*this, item);
      ++at_;
    }
    end_layer();
  }

  void operator()(const Stroke& s) {
    to_layer();
    if (pen_ != s.pen) {
      end_path();
      begin_path(classes.pen(s.pen));
      pen_ = s.pen;
    }
    add(s.path);
  }
  void operator()(const Fill& f) {
    to_layer();
    end_path();
    begin_path(classes.ink(f.ink));
    add(f.path);
    out += "\"/>\n";
  }
  void operator()(const Text& t) {
    to_layer();
    end_path();
    if (t.masked) mask(t);
    write(t);
  }
  void operator()(const GroupStart& g) {
    end_layer();
    const std::string where = href(g.target);
    links_.push_back(!where.empty());
    if (links_.back()) attribute("<a", "href", where);
    if (links_.back()) out += '>';
    out += "<g";
    if (!g.id.empty()) attribute("", "id", g.id);
    const bool whole = layers_.whole[at_];
    if (!g.kind.empty()) attribute("", "class", whole ? g.kind + " " + layer_class() : g.kind);
    around_.push_back(whole ? std::optional(layers_.of[at_]) : around());
    out += '>';
    if (!g.title.empty()) title(g.title);
    out += '\n';
  }
  void operator()(const GroupEnd&) {
    end_layer();
    around_.pop_back();
    out += links_.back() ? "</g></a>\n" : "</g>\n";
    links_.pop_back();
  }

  void title(const std::string& words) {
    out += "<title>";
    append_escaped(out, words);
    out += "</title>";
  }

  /// Strokes of one pen that follow one another share a path.
  void end_path() {
    if (pen_ >= 0) out += "\"/>\n";
    pen_ = -1;
  }

 private:
  const Sheet& sheet_;
  const DocumentInfo& info_;
  const Lettering& lettering_;
  const SheetLayers layers_;
  std::size_t at_ = 0;                        // among the items
  std::vector<bool> links_;                   // of the open groups: inside an <a>
  std::vector<std::optional<Layer>> around_;  // of the open groups: the layer they are on
  std::optional<Layer> layer_;                // of the group opened for loose items
  int pen_ = -1;                              // of the open path

  std::optional<Layer> around() const { return around_.empty() ? std::nullopt : around_.back(); }
  std::string layer_class() const { return std::string("layer-") + name_of(layers_.of[at_]); }

  /// Loose items of one layer that follow one another share a group.
  void to_layer() {
    const Layer layer = layers_.of[at_];
    const std::optional<Layer> need = around() == layer ? std::nullopt : std::optional(layer);
    if (need == layer_) return;
    end_layer();
    layer_ = need;
    if (need) out += "<g class=\"" + layer_class() + "\">\n";
  }
  void end_layer() {
    end_path();
    if (layer_) out += "</g>\n";
    layer_.reset();
  }

  void attribute(const char* before, const char* name, const std::string& value) {
    out += before;
    out += ' ';
    out += name;
    out += "=\"";
    append_escaped(out, value);
    out += '"';
  }

  void begin_path(const std::string& name) {
    out += "<path class=\"";
    out += name;
    out += "\" d=\"";
  }

  void pair(char op, PaperPoint p) {
    out += op;
    append_hundredths(out, p.x);
    out += ' ';
    append_hundredths(out, sheet_.height - p.y);
  }

  void add(const Path& path) {
    const PaperPoint* p = path.points.data();
    for (Op op : path.ops) {
      switch (op) {
        case Op::move:
          pair('M', *p++);
          break;
        case Op::line:
          pair('L', *p++);
          break;
        case Op::curve:
          pair('C', *p++);
          pair(' ', *p++);
          pair(' ', *p++);
          break;
        case Op::close:
          out += 'Z';
          break;
      }
    }
  }

  void mask(const Text& t) {
    begin_path(classes.ink(Ink::white));
    char op = 'M';
    for (PaperPoint p : mask_corners(t)) {
      pair(op, p);
      op = 'L';
    }
    out += "Z\"/>\n";
  }

  void coordinate(const char* name, double mm) {
    out += name;
    append_hundredths(out, mm);
    out += '"';
  }

  void place(const Text& t, double x, double y) {
    coordinate(" x=\"", x);
    coordinate(" y=\"", y);
    if (t.angle == 0) return;
    out += " transform=\"rotate(";
    append_number(out, -t.angle * 180 / pi);
    out += ' ';
    append_hundredths(out, x);
    out += ' ';
    append_hundredths(out, y);
    out += ")\"";
  }

  double run_width(const Run& run, double height) const {
    double em = 0;
    for (double a : run.advances) em += a;
    return em * height / lettering_.fonts()[static_cast<std::size_t>(run.font)].cap_height;
  }

  void write(const Text& t) {
    const auto runs = lettering_.runs(t.text);
    if (runs.empty()) return;
    const double y = sheet_.height - t.at.y;
    out += "<text class=\"";
    if (runs.size() == 1) out += classes.letters(runs[0], t.height) + ' ';
    out += classes.ink(t.ink);
    out += '"';
    place(t, t.at.x, y);
    out += '>';
    if (runs.size() == 1) append_escaped(out, runs[0].text);
    if (runs.size() > 1) spans(t, runs);
    out += "</text>\n";
  }

  void spans(const Text& t, const std::vector<Run>& runs) {
    double x = t.at.x;
    for (const Run& run : runs) {
      out += "<tspan class=\"" + classes.letters(run, t.height) + '"';
      coordinate(" x=\"", x);
      out += '>';
      append_escaped(out, run.text);
      out += "</tspan>";
      x += run_width(run, t.height);
    }
  }

  /// Where a target leads from this sheet's own file; empty for sheets that are not in the set.
  std::string href(const std::string& target) const {
    const std::size_t hash = std::min(target.find('#'), target.size());
    const std::string number = target.substr(0, hash), place = target.substr(hash);
    const auto& set = info_.sheets;
    if (number.empty()) return "";
    if (!set.empty() && std::find(set.begin(), set.end(), number) == set.end()) return "";
    return number == sheet_.number && !place.empty() ? place : number + ".svg" + place;
  }
};

std::string head(const Sheet& sheet) {
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  out += "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"";
  append_number(out, sheet.width);
  out += "mm\" height=\"";
  append_number(out, sheet.height);
  out += "mm\" viewBox=\"0 0 ";
  append_hundredths(out, sheet.width);
  out += ' ';
  append_hundredths(out, sheet.height);
  return out + "\" xml:space=\"preserve\">\n";
}

}  // namespace

SvgWriter::SvgWriter(const Lettering& lettering) : lettering_(lettering) {
  for (const FontFile& file : lettering.fonts()) cutters_.emplace_back(file);
}

SvgWriter::~SvgWriter() = default;

std::string SvgWriter::write(const Sheet& sheet, const DocumentInfo& info) {
  guard(sheet, info);
  const SvgBody body(sheet, info, lettering_);
  std::string out = head(sheet);
  out += "<title>" + escaped(sheet.number + " " + sheet.title) + "</title>\n";
  out += "<style>\n" + body.classes.rules(info, cutters_) + "</style>\n";
  out += "<rect class=\"ink-white\" width=\"100%\" height=\"100%\"/>\n";
  return out + body.out + "</svg>\n";
}

std::string write_svg(const Sheet& sheet, const DocumentInfo& info, const Lettering& lettering) {
  return SvgWriter(lettering).write(sheet, info);
}

}  // namespace deckquire::writers
