#include "bench/replay.h"

#include <cairo-ft.h>
#include <cairo-pdf.h>

#include <cmath>
#include <stdexcept>

namespace deckquire {

using namespace paper;

namespace {

constexpr double points = 72 / 25.4;

struct PlacedRun {
  int font = 0;
  double em = 0, angle = 0;
  std::string text;
  std::vector<cairo_glyph_t> glyphs;
  std::vector<cairo_text_cluster_t> clusters;
};

std::vector<PlacedRun> placed(const Text& t, double sheet_height, const Lettering& lettering) {
  std::vector<PlacedRun> out;
  double along = 0;
  for (const Run& run : lettering.runs(t.text)) {
    PlacedRun p;
    p.font = run.font;
    p.em = t.height / lettering.fonts()[static_cast<std::size_t>(run.font)].cap_height;
    p.angle = t.angle;
    p.text = run.text;
    std::size_t byte = 0;
    for (std::size_t i = 0; i < run.glyphs.size(); ++i) {
      p.glyphs.push_back({run.glyphs[i], t.at.x + along * std::cos(t.angle),
                          sheet_height - t.at.y - along * std::sin(t.angle)});
      along += run.advances[i] * p.em;
      const std::size_t begin = byte++;
      while (byte < p.text.size() && (p.text[byte] & 0xc0) == 0x80) ++byte;
      p.clusters.push_back({static_cast<int>(byte - begin), 1});
    }
    out.push_back(std::move(p));
  }
  return out;
}

void add(cairo_t* cr, const Path& path, double height) {
  const PaperPoint* p = path.points.data();
  for (Op op : path.ops) {
    if (op == Op::move) cairo_move_to(cr, p->x, height - p->y);
    if (op == Op::line) cairo_line_to(cr, p->x, height - p->y);
    if (op == Op::close) cairo_close_path(cr);
    if (op == Op::curve)
      cairo_curve_to(cr, p->x, height - p->y, p[1].x, height - p[1].y, p[2].x, height - p[2].y);
    p += op == Op::close ? 0 : op == Op::curve ? 3 : 1;
  }
}

void ink(cairo_t* cr, Ink i) {
  static constexpr double greys[] = {0, 0.3, 0.4, 0.5, 0.9, 1};
  const double g = greys[static_cast<std::size_t>(i)];
  cairo_set_source_rgb(cr, g, g, g);
}

}  // namespace

struct Replay::Data {
  const std::vector<Sheet>& sheets;
  FT_Library library = nullptr;
  std::vector<FT_Face> opened;
  std::vector<cairo_font_face_t*> faces;
  std::vector<std::vector<PlacedRun>> texts;  // of every Text item, in order

  void write(cairo_t* cr, const std::vector<PlacedRun>& runs) const {
    for (const PlacedRun& run : runs) {
      cairo_matrix_t matrix;
      cairo_matrix_init_scale(&matrix, run.em, run.em);
      cairo_matrix_rotate(&matrix, -run.angle);
      cairo_set_font_face(cr, faces[static_cast<std::size_t>(run.font)]);
      cairo_set_font_matrix(cr, &matrix);
      cairo_show_text_glyphs(cr, run.text.data(), static_cast<int>(run.text.size()),
                             run.glyphs.data(), static_cast<int>(run.glyphs.size()),
                             run.clusters.data(), static_cast<int>(run.clusters.size()),
                             static_cast<cairo_text_cluster_flags_t>(0));
    }
  }

  void mask(cairo_t* cr, const Text& t, double height) const {
    ink(cr, Ink::white);
    const bool turned = std::abs(t.angle) > 0.1;
    cairo_rectangle(cr, t.at.x - (turned ? t.height : 0),
                    height - t.at.y - (turned ? t.width : t.height), turned ? t.height : t.width,
                    turned ? t.width : t.height);
    cairo_fill(cr);
  }

  void stroke(cairo_t* cr, const Pen& pen) const {
    ink(cr, pen.ink);
    cairo_set_line_width(cr, pen.width);
    cairo_set_dash(cr, pen.dash.data(), static_cast<int>(pen.dash.size()), 0);
    cairo_stroke(cr);
  }

  void page(cairo_t* cr, const Sheet& sheet, std::size_t& next_text) const {
    ink(cr, Ink::white);
    cairo_rectangle(cr, 0, 0, sheet.width, sheet.height);
    cairo_fill(cr);
    int open = -1;
    auto flush = [&] {
      if (open >= 0) stroke(cr, sheet.pens[static_cast<std::size_t>(open)]);
      open = -1;
    };
    for (const Item& item : sheet.items) {
      if (const auto* s = std::get_if<Stroke>(&item)) {
        if (open != s->pen) flush();
        open = s->pen;
        add(cr, s->path, sheet.height);
      } else if (const auto* f = std::get_if<Fill>(&item)) {
        flush();
        ink(cr, f->ink);
        add(cr, f->path, sheet.height);
        cairo_fill(cr);
      } else if (const auto* t = std::get_if<Text>(&item)) {
        flush();
        if (t->masked) mask(cr, *t, sheet.height);
        ink(cr, t->ink);
        write(cr, texts[next_text++]);
      }
    }
    flush();
  }
};

Replay::Replay(const std::vector<Sheet>& sheets, const Lettering& lettering)
    : data_(new Data{sheets, nullptr, {}, {}, {}}) {
  if (FT_Init_FreeType(&data_->library)) throw std::runtime_error("no FreeType");
  for (const FontFile& f : lettering.fonts()) {
    FT_Face& face = data_->opened.emplace_back();
    if (FT_New_Face(data_->library, f.path.c_str(), 0, &face)) throw std::runtime_error(f.path);
    data_->faces.push_back(cairo_ft_font_face_create_for_ft_face(face, FT_LOAD_NO_HINTING));
  }
  for (const Sheet& s : sheets)
    for (const Item& item : s.items)
      if (const auto* t = std::get_if<Text>(&item))
        data_->texts.push_back(placed(*t, s.height, lettering));
}

// cairo keeps what it made of the faces until the program ends; so do they.
Replay::~Replay() = default;

std::size_t Replay::draw() const {
  std::size_t size = 0;
  auto count = [](void* sum, const unsigned char*, unsigned n) {
    *static_cast<std::size_t*>(sum) += n;
    return CAIRO_STATUS_SUCCESS;
  };
  cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(count, &size, 1000, 1000);
  std::size_t next_text = 0;
  for (const Sheet& sheet : data_->sheets) {
    cairo_pdf_surface_set_size(surface, sheet.width * points, sheet.height * points);
    cairo_t* cr = cairo_create(surface);
    cairo_scale(cr, points, points);
    cairo_set_tolerance(cr, 0.01);
    cairo_set_fill_rule(cr, CAIRO_FILL_RULE_EVEN_ODD);
    data_->page(cr, sheet, next_text);
    cairo_show_page(cr);
    if (cairo_status(cr) != CAIRO_STATUS_SUCCESS) throw std::runtime_error("cairo failed");
    cairo_destroy(cr);
  }
  cairo_surface_destroy(surface);
  return size;
}

}  // namespace deckquire
