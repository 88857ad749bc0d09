#include <fmt/format.h>

#include "base/checksum.h"
#include "base/text.h"
#include "history/entry_xml.h"

namespace deckquire::history {
namespace {

std::string number(double v) {
  return shortest_decimal(v, 6);
}
std::string number(Length v) {
  return number(v.in_mm());
}

/// Elements one a line, attributes that say nothing left out.
class EntryWriter {
 public:
  explicit EntryWriter(int depth) : depth_(depth) {}

  EntryWriter& open(const char* name) {
    out += std::string(static_cast<std::size_t>(2 * depth_), ' ') + '<' + name;
    return *this;
  }
  EntryWriter& attribute(const char* name, const std::string& value) {
    if (!value.empty()) out += fmt::format(" {}=\"{}\"", name, escaped(value));
    return *this;
  }
  EntryWriter& attribute(const char* name, const std::optional<Length>& value) {
    return attribute(name, value ? number(*value) : std::string());
  }
  EntryWriter& attribute(const char* name, int value) { return attribute(name, std::to_string(value)); }
  void close() { out += "/>\n"; }
  void children() {
    out += ">\n";
    ++depth_;
  }
  void end(const char* name) {
    --depth_;
    out += std::string(static_cast<std::size_t>(2 * depth_), ' ') + "</" + name + ">\n";
  }
  void text(const char* name, const std::string& lines) {
    open(name);
    out += ">\n" + escaped_lines(lines);
    out += std::string(static_cast<std::size_t>(2 * depth_), ' ') + "</" + name + ">\n";
  }

  std::string out;

 private:
  static std::string escaped_lines(const std::string& lines) {
    std::string all;
    for (const std::string& line : split_lines(lines))
      if (!line.empty()) all += escaped(line) + '\n';
    return all;
  }
  int depth_;
};

void write_box(EntryWriter& w, const Spot& s) {
  w.attribute("left", number(s.left))
      .attribute("low", number(s.low))
      .attribute("right", number(s.right))
      .attribute("high", number(s.high))
      .close();
}

void write_mark(EntryWriter& w, const IssuedMark& m) {
  w.open("mark")
      .attribute("name", m.name)
      .attribute("quantity", m.quantity)
      .attribute("opposite-of", m.opposite_of)
      .attribute("sheet", m.sheet)
      .children();
  w.text("signature", m.signature);
  for (const Signature& v : m.variants) w.text("variant", v);
  w.end("mark");
}

void write_position(EntryWriter& w, const IssuedPosition& p) {
  w.open("position")
      .attribute("number", p.position)
      .attribute("span", p.span)
      .attribute("row", p.row + 1)
      .attribute("from", number(p.start))
      .attribute("to", number(p.end))
      .attribute("mark", p.mark)
      .attribute("serial", p.serial)
      .attribute("turned", p.turned ? "yes" : "");
  if (p.wanted.empty()) return w.close();
  w.children();
  w.text("wanted", p.wanted);
  w.end("position");
}

void write_sheet(EntryWriter& w, const IssuedSheet& s) {
  w.open("sheet")
      .attribute("number", s.number)
      .attribute("title", s.title)
      .attribute("fingerprint", s.fingerprint)
      .attribute("revisions", join(s.revisions, " "))
      .attribute("withdrawn", s.withdrawn ? "yes" : "");
  if (s.spots.empty()) return w.close();
  w.children();
  for (const Spot& spot : s.spots) write_box(w.open("spot"), spot);
  w.end("sheet");
}

void write_layout(EntryWriter& w, const LayoutHints& l) {
  if (l.erection_ratio == 0 && l.strips.empty() && l.panels.empty() && l.callouts.empty()) return;
  w.open("layout").attribute("erection-ratio", l.erection_ratio).children();
  for (const LayoutHints::Strip& s : l.strips)
    w.open("strip")
        .attribute("first", s.first_position)
        .attribute("last", s.last_position)
        .attribute("sheet", s.sheet)
        .close();
  for (const LayoutHints::PanelSheet& s : l.panels)
    w.open("panel-sheet")
        .attribute("number", s.number)
        .attribute("marks", join(s.marks, " "))
        .attribute("ratio", s.ratio)
        .close();
  for (const auto& [sheet, texts] : l.callouts)
    for (const auto& [text, place] : texts)
      write_box(w.open("callout").attribute("sheet", sheet).attribute("text", text), place);
  w.end("layout");
}

void write_issue(EntryWriter& w, const Issue& i) {
  w.open("issue")
      .attribute("revision", i.revision)
      .attribute("status", i.status)
      .attribute("date", i.date)
      .attribute("by", i.by)
      .attribute("style", i.style)
      .attribute("project", i.project_file)
      .attribute("checksum", i.project_checksum)
      .children();
  for (const IssuedMark& m : i.marks) write_mark(w, m);
  for (const IssuedPosition& p : i.positions) write_position(w, p);
  for (const IssuedSheet& s : i.sheets) write_sheet(w, s);
  write_layout(w, i.layout);
  w.end("issue");
}

void write_built(EntryWriter& w, const BuiltPanel& b) {
  static const char* const stages[] = {"planned", "cast", "shipped", "set"};
  w.open("built")
      .attribute("serial", b.serial)
      .attribute("mark", b.mark)
      .attribute("revision", b.revision)
      .attribute("stage", stages[static_cast<int>(b.stage)])
      .attribute("date", b.date)
      .attribute("by", b.by)
      .attribute("note", b.note)
      .attribute("length-left", b.length_left)
      .attribute("length-right", b.length_right)
      .attribute("width-back", b.width_back)
      .attribute("width-ahead", b.width_ahead)
      .close();
}

}  // namespace

std::string write_entry(const Entry& entry, const std::string& before) {
  EntryWriter w(1);
  w.out = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<entry xmlns=\"{}\" number=\"{}\"{}>\n",
      register_namespace, entry.number,
      before.empty() ? std::string() : fmt::format(" before=\"{}\"", before));
  if (entry.issue) write_issue(w, *entry.issue);
  if (entry.status)
    w.open("status")
        .attribute("revision", entry.status->revision)
        .attribute("status", entry.status->status)
        .attribute("date", entry.status->date)
        .attribute("by", entry.status->by)
        .close();
  for (const BuiltPanel& b : entry.built) write_built(w, b);
  for (const VoidedSerial& v : entry.voided)
    w.open("voided")
        .attribute("serial", v.serial)
        .attribute("mark", v.mark)
        .attribute("revision", v.revision)
        .attribute("replaced-by", v.replaced_by)
        .attribute("reason", v.reason)
        .close();
  const std::string seal = sha256(w.out);
  return w.out + "  <seal sha256=\"" + seal + "\"/>\n</entry>\n";
}

}  // namespace deckquire::history
