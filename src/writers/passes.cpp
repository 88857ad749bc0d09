#include "writers/passes.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>

namespace deckquire::writers {
namespace {

using namespace paper;

/// Gives every item its pass. Pass n is of layer n % layer_count. The paper is divided into cells;
/// two items that touch one cell count as meeting there.
class Stacker {
 public:
  explicit Stacker(const Sheet& sheet)
      : sheet_(sheet),
        columns_(cells(sheet.width)),
        rows_(cells(sheet.height)),
        highest_(columns_ * rows_),
        highest_cover_(columns_ * rows_) {}

  /// The first pass of the layer in which the item is above and below what it must be.
  std::size_t place(const Item& item, Layer layer) {
    const bool covers = covers_others(item);
    std::vector<std::uint32_t>& below = covers ? highest_ : highest_cover_;
    std::size_t least = 0;
    visit(item, [&](std::size_t cell) { least = std::max<std::size_t>(least, below[cell]); });
    const auto of = static_cast<std::size_t>(layer);
    const std::size_t pass = least + (of + layer_count - least % layer_count) % layer_count;
    visit(item, [&](std::size_t cell) {
      raise(highest_[cell], pass);
      if (covers) raise(highest_cover_[cell], pass);
    });
    return pass;
  }

 private:
  static constexpr double cell_size = 2;  // mm

  const Sheet& sheet_;
  std::size_t columns_, rows_;
  std::vector<std::uint32_t> highest_, highest_cover_;  // by cell: the highest pass there

  static std::size_t cells(double length) {
    return static_cast<std::size_t>(std::max(1.0, std::ceil(length / cell_size)));
  }
  static std::size_t cell(double at, std::size_t count) {
    return static_cast<std::size_t>(
        std::clamp(std::floor(at / cell_size), 0.0, static_cast<double>(count - 1)));
  }
  static void raise(std::uint32_t& value, std::size_t pass) {
    value = std::max(value, static_cast<std::uint32_t>(pass));
  }
  static bool covers_others(const Item& item) {
    const Text* text = std::get_if<Text>(&item);
    return std::holds_alternative<Fill>(item) || (text && text->masked);
  }

  template <class Cells>
  void visit(const PaperBox& box, Cells& with) const {
    const std::size_t right = cell(box.high.x, columns_), top = cell(box.high.y, rows_);
    for (std::size_t row = cell(box.low.y, rows_); row <= top; ++row)
      for (std::size_t column = cell(box.low.x, columns_); column <= right; ++column)
        with(row * columns_ + column);
  }

  template <class Cells>
  void visit(const Item& item, Cells with) const {
    if (const auto* s = std::get_if<Stroke>(&item)) along(*s, with);
    if (const auto* f = std::get_if<Fill>(&item)) visit(bounds(f->path), with);
    if (const auto* t = std::get_if<Text>(&item))
      visit(t->masked ? mask_box(*t) : text_box(*t), with);
  }

  /// A slanting line in pieces, so that it does not count where it is not.
  template <class Cells>
  void segment(PaperPoint a, PaperPoint b, double half, Cells& with) const {
    const double least = std::min(std::abs(b.x - a.x), std::abs(b.y - a.y));
    const int pieces = 1 + static_cast<int>(least / cell_size);
    for (int i = 0; i < pieces; ++i) {
      const PaperPoint p = a + (b - a) * (static_cast<double>(i) / pieces);
      const PaperPoint q = a + (b - a) * (static_cast<double>(i + 1) / pieces);
      visit(PaperBox{{std::min(p.x, q.x), std::min(p.y, q.y)},
                     {std::max(p.x, q.x), std::max(p.y, q.y)}}
                .grown(half),
            with);
    }
  }

  template <class Cells>
  void along(const Stroke& stroke, Cells& with) const {
    const double half = sheet_.pens[stroke.pen].width / 2;
    PaperPoint start, last;
    const PaperPoint* p = stroke.path.points.data();
    for (Op op : stroke.path.ops) {
      if (op == Op::move) start = last = *p;
      if (op == Op::line) segment(last, *p, half, with), last = *p;
      if (op == Op::close) segment(last, start, half, with), last = start;
      if (op == Op::curve) {
        PaperBox box{last, last};
        for (int i = 0; i < 3; ++i) {
          box.low = {std::min(box.low.x, p[i].x), std::min(box.low.y, p[i].y)};
          box.high = {std::max(box.high.x, p[i].x), std::max(box.high.y, p[i].y)};
        }
        visit(box.grown(half), with);
        last = p[2];
      }
      p += op == Op::close ? 0 : op == Op::curve ? 3 : 1;
    }
  }
};

}  // namespace

std::vector<Pass> passes_of(const Sheet& sheet) {
  const SheetLayers layers = layers_of(sheet);
  Stacker stacker(sheet);
  std::map<std::size_t, Pass> passes;
  for (std::size_t i = 0; i < sheet.items.size(); ++i) {
    const Item& item = sheet.items[i];
    if (std::holds_alternative<GroupStart>(item) || std::holds_alternative<GroupEnd>(item))
      continue;
    Pass& pass = passes[stacker.place(item, layers.of[i])];
    pass.layer = layers.of[i];
    pass.items.push_back(&item);
  }
  std::vector<Pass> out;
  for (auto& [number, pass] : passes) out.push_back(std::move(pass));
  return out;
}

}  // namespace deckquire::writers
