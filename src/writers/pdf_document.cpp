#include "writers/pdf_document.h"

#include <fmt/format.h>

#include <list>
#include <map>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>
#include <set>
#include <span>
#include <stdexcept>

#include "paper/layer.h"
#include "writers/extents.h"
#include "writers/markup.h"

namespace deckquire::writers {
namespace {

using namespace paper;
using Object = QPDFObjectHandle;

constexpr double points_per_mm = 72 / 25.4;

Object name(const char* n) {
  return Object::newName(n);
}
Object text(const std::string& s) {
  return Object::newUnicodeString(s);
}
Object points(double mm) {
  return Object::newReal(mm * points_per_mm, 2);
}

Object array(const std::vector<Object>& items) {
  return Object::newArray(items);
}

/// What a target names: a page, and a box on it where the target names a group.
struct Destinations {
  std::map<std::string, Object> pages;
  std::map<std::string, PaperBox> boxes;  // "E02#panel-7"

  /// Null when the document does not hold it.
  Object find(const std::string& target) const {
    const auto page = pages.find(target.substr(0, target.find('#')));
    if (page == pages.end()) return Object::newNull();
    const auto box = boxes.find(target);
    if (box == boxes.end()) return array({page->second, name("/Fit")});
    return array({page->second, name("/XYZ"), points(box->second.low.x), points(box->second.high.y),
                  Object::newNull()});
  }
};

Object link(const PaperBox& box, const Object& destination) {
  Object annotation = Object::newDictionary();
  annotation.replaceKey("/Type", name("/Annot"));
  annotation.replaceKey("/Subtype", name("/Link"));
  annotation.replaceKey("/Rect", array({points(box.low.x), points(box.low.y), points(box.high.x),
                                        points(box.high.y)}));
  annotation.replaceKey("/Border", Object::parse("[0 0 0]"));
  annotation.replaceKey("/F", Object::newInteger(4));
  annotation.replaceKey("/Dest", destination);
  return annotation;
}

class Document {
 public:
  Document(const std::vector<Sheet>& sheets, const DocumentInfo& info)
      : sheets_(sheets), info_(info) {
    pdf_.emptyPDF();
    pdf_.setSuppressWarnings(true);
  }

  void add_pages(const std::vector<PagesPdf>& parts) {
    add_layers(parts);
    QPDFPageDocumentHelper pages(pdf_);
    for (const PagesPdf& part : parts) {
      QPDF& source = sources_.emplace_back();
      source.processMemoryFile("PDF pages", part.bytes.data(), part.bytes.size());
      const auto found = QPDFPageDocumentHelper(source).getAllPages();
      std::size_t next = 0;
      for (const std::vector<Layer>& layers : part.layers) {
        if (next + layers.size() > found.size())
          throw std::runtime_error("the PDF pages do not match the parts of the sheets");
        pages.addPage(lay_together(source, std::span(found).subspan(next, layers.size())), false);
        next += layers.size();
        pages_.push_back(pdf_.getAllPages().back());
        name_layers(layers);
      }
    }
    if (pages_.size() != sheets_.size())
      throw std::runtime_error("the PDF pages do not match the sheets");
  }

  void add_links() {
    std::vector<std::vector<GroupBox>> groups;
    Destinations to;
    for (std::size_t i = 0; i < sheets_.size(); ++i) {
      groups.push_back(group_boxes(sheets_[i]));
      to.pages.emplace(sheets_[i].number, pages_[i]);
      for (const GroupBox& g : groups[i])
        if (g.drawn && !g.id.empty()) to.boxes.emplace(sheets_[i].number + "#" + g.id, g.box);
    }
    for (std::size_t i = 0; i < sheets_.size(); ++i) add_page_links(pages_[i], groups[i], to);
  }

  void add_bookmarks() {
    Object root = indirect();
    std::vector<Object> series;
    int count = 0;
    for (std::size_t i = 0; i < sheets_.size();) {
      const char letter = sheets_[i].number.empty() ? '?' : sheets_[i].number[0];
      Object parent = indirect();
      std::vector<Object> entries;
      const Object first = pages_[i];
      for (; i < sheets_.size() && sheets_[i].number.substr(0, 1) == std::string(1, letter); ++i) {
        entries.push_back(indirect());
        describe(entries.back(), sheets_[i].number + " " + sheets_[i].title, pages_[i]);
      }
      describe(parent, series_name(letter), first);
      count += chain(parent, entries) + 1;
      series.push_back(parent);
      if (entries.empty()) break;  // a sheet without a number: faults elsewhere
    }
    chain(root, series);
    root.replaceKey("/Type", name("/Outlines"));
    root.replaceKey("/Count", Object::newInteger(count));
    pdf_.getRoot().replaceKey("/Outlines", root);
    pdf_.getRoot().replaceKey("/PageMode", name("/UseOutlines"));
  }

  void add_labels() {
    Object numbers = Object::newArray();
    for (std::size_t i = 0; i < sheets_.size(); ++i) {
      Object label = Object::newDictionary();
      label.replaceKey("/P", text(sheets_[i].number));
      numbers.appendItem(Object::newInteger(static_cast<long long>(i)));
      numbers.appendItem(label);
    }
    Object labels = Object::newDictionary();
    labels.replaceKey("/Nums", numbers);
    pdf_.getRoot().replaceKey("/PageLabels", labels);
  }

  void add_metadata() {
    Object facts = indirect();
    facts.replaceKey("/Title", text(info_.title));
    facts.replaceKey("/Author", text(info_.author));
    facts.replaceKey("/Subject", text("Project " + info_.job));
    facts.replaceKey("/Creator", text("deckquire"));
    const std::string date = pdf_date();
    if (!date.empty()) facts.replaceKey("/CreationDate", Object::newString(date));
    if (!date.empty()) facts.replaceKey("/ModDate", Object::newString(date));
    pdf_.getTrailer().replaceKey("/Info", facts);
    pdf_.getRoot().replaceKey("/ViewerPreferences", Object::parse("<</DisplayDocTitle true>>"));
  }

  std::string bytes() {
    QPDFWriter writer(pdf_);
    writer.setOutputMemory();
    writer.setStreamDataMode(qpdf_s_preserve);
    writer.setObjectStreamMode(qpdf_o_generate);
    writer.setDeterministicID(true);
    writer.write();
    const auto buffer = writer.getBufferSharedPointer();
    return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
  }

 private:
  const std::vector<Sheet>& sheets_;
  const DocumentInfo& info_;
  std::list<QPDF> sources_;  // outlive pdf_, which reads their streams when it is written
  QPDF pdf_;
  std::vector<Object> pages_;

  std::map<Layer, Object> layers_;

  /// An optional content group for each layer that something lies on (ISO 32000-1, 8.11).
  void add_layers(const std::vector<PagesPdf>& parts) {
    std::set<Layer> used;
    for (const PagesPdf& part : parts)
      for (const auto& layers : part.layers) used.insert(layers.begin(), layers.end());
    Object all = Object::newArray(), off = Object::newArray();
    for (Layer l : used) {
      Object group = indirect();
      group.replaceKey("/Type", name("/OCG"));
      group.replaceKey("/Name", text(name_of(l)));
      layers_.emplace(l, group);
      all.appendItem(group);
      if (info_.hidden[static_cast<std::size_t>(l)]) off.appendItem(group);
    }
    Object shown = Object::newDictionary(), properties = Object::newDictionary();
    shown.replaceKey("/Order", all);
    shown.replaceKey("/OFF", off);
    properties.replaceKey("/OCGs", all.shallowCopy());
    properties.replaceKey("/D", shown);
    pdf_.getRoot().replaceKey("/OCProperties", properties);
  }

  /// The first of these pages, made to draw white paper and then all of them, each as a form: their
  /// content streams become the forms, unchanged.
  static QPDFPageObjectHelper lay_together(QPDF& source,
                                           std::span<const QPDFPageObjectHelper> parts) {
    Object page = parts.front().getObjectHandle(), forms = Object::newDictionary();
    Object box = QPDFPageObjectHelper(page).getMediaBox();
    std::string draw = fmt::format("1 1 1 rg 0 0 {} {} re f\n", box.getArrayItem(2).unparse(),
                                   box.getArrayItem(3).unparse());
    for (std::size_t i = 0; i < parts.size(); ++i) {
      Object part = parts[i].getObjectHandle(), form = part.getKey("/Contents");
      Object facts = form.getDict();
      facts.replaceKey("/Type", name("/XObject"));
      facts.replaceKey("/Subtype", name("/Form"));
      facts.replaceKey("/BBox", box);
      facts.replaceKey("/Resources", part.getKey("/Resources"));
      forms.replaceKey(form_name(i), form);
      draw += form_name(i) + " Do\n";
    }
    Object resources = Object::newDictionary();
    resources.replaceKey("/XObject", forms);
    page.replaceKey("/Resources", resources);
    page.replaceKey("/Contents", Object::newStream(&source, draw));
    return parts.front();
  }

  static std::string form_name(std::size_t i) { return fmt::format("/Part{}", i + 1); }

  /// Puts the forms of the last page on their layers.
  void name_layers(const std::vector<Layer>& layers) {
    Object forms = pages_.back().getKey("/Resources").getKey("/XObject");
    for (std::size_t i = 0; i < layers.size(); ++i) {
      Object facts = forms.getKey(form_name(i)).getDict();
      facts.replaceKey("/OC", layers_.at(layers[i]));
    }
  }

  Object indirect() { return pdf_.makeIndirectObject(Object::newDictionary()); }

  static void add_page_links(Object page, const std::vector<GroupBox>& groups,
                             const Destinations& to) {
    Object annotations = Object::newArray();
    for (const GroupBox& g : groups) {
      if (g.target.empty() || !g.drawn) continue;
      Object destination = to.find(g.target);
      if (!destination.isNull()) annotations.appendItem(link(g.box, destination));
    }
    if (annotations.getArrayNItems() > 0) page.replaceKey("/Annots", annotations);
  }

  static void describe(Object entry, const std::string& title, const Object& page) {
    entry.replaceKey("/Title", text(title));
    entry.replaceKey("/Dest", array({page, name("/Fit")}));
  }

  /// Hangs entries below a parent, open; returns how many.
  static int chain(Object parent, const std::vector<Object>& entries) {
    const int n = static_cast<int>(entries.size());
    if (n == 0) return 0;
    parent.replaceKey("/First", entries.front());
    parent.replaceKey("/Last", entries.back());
    parent.replaceKey("/Count", Object::newInteger(n));
    for (std::size_t i = 0; i < entries.size(); ++i) {
      Object entry = entries[i];
      entry.replaceKey("/Parent", parent);
      if (i > 0) entry.replaceKey("/Prev", entries[i - 1]);
      if (i + 1 < entries.size()) entry.replaceKey("/Next", entries[i + 1]);
    }
    return n;
  }

  /// "2026-10-02" -> "D:20261002000000Z"; empty for anything else.
  std::string pdf_date() const {
    std::string digits;
    for (char c : info_.date)
      if (c >= '0' && c <= '9') digits += c;
    return digits.size() == 8 && info_.date.size() == 10 ? "D:" + digits + "000000Z" : "";
  }
};

}  // namespace

std::string join_pages(const std::vector<PagesPdf>& parts, const std::vector<Sheet>& sheets,
                       const DocumentInfo& info) {
  Document document(sheets, info);
  document.add_pages(parts);
  document.add_links();
  document.add_bookmarks();
  document.add_labels();
  document.add_metadata();
  return document.bytes();
}

}  // namespace deckquire::writers
