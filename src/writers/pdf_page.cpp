#include "writers/pdf_page.h"

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <map>
#include <stdexcept>
#include <tuple>

#include "writers/extents.h"
#include "writers/guard.h"
#include "writers/passes.h"

namespace deckquire::writers {
namespace {

using namespace paper;

constexpr double points_per_mm = 72 / 25.4;

template <auto destroy>
struct Destroy {
  template <class T>
  void operator()(T* p) const {
    destroy(p);
  }
};
using Surface = std::unique_ptr<cairo_surface_t, Destroy<cairo_surface_destroy>>;
using Context = std::unique_ptr<cairo_t, Destroy<cairo_destroy>>;
using FontFace = std::unique_ptr<cairo_font_face_t, Destroy<cairo_font_face_destroy>>;
using ScaledFont = std::unique_ptr<cairo_scaled_font_t, Destroy<cairo_scaled_font_destroy>>;
using FontOptions = std::unique_ptr<cairo_font_options_t, Destroy<cairo_font_options_destroy>>;

void check(cairo_status_t status, const std::string& where) {
  if (status != CAIRO_STATUS_SUCCESS)
    throw std::runtime_error(fmt::format("{}: {}", where, cairo_status_to_string(status)));
}

// cairo keeps faces in a cache of its own for as long as it likes, so each face owns its library
// and bytes, and no two faces share anything.
struct OwnedFace {
  std::string bytes;
  FT_Library library = nullptr;
  FT_Face face = nullptr;
  ~OwnedFace() {
    if (face) FT_Done_Face(face);
    if (library) FT_Done_FreeType(library);
  }
};

FontFace open_face(const FontFile& file) {
  static cairo_user_data_key_t owner;
  auto owned = std::make_unique<OwnedFace>();
  owned->bytes = file.bytes;
  const auto* bytes = reinterpret_cast<const FT_Byte*>(owned->bytes.data());
  if (FT_Init_FreeType(&owned->library) ||
      FT_New_Memory_Face(owned->library, bytes, static_cast<FT_Long>(owned->bytes.size()), 0,
                         &owned->face))
    throw std::runtime_error(fmt::format("font {} cannot be opened", file.path));
  FontFace face(cairo_ft_font_face_create_for_ft_face(owned->face, FT_LOAD_NO_HINTING));
  auto drop = [](void* p) { delete static_cast<OwnedFace*>(p); };
  check(cairo_font_face_set_user_data(face.get(), &owner, owned.get(), drop), file.path);
  owned.release();
  return face;
}

struct Colour {
  double r = 0, g = 0, b = 0;
};

Colour parse_colour(const std::string& ink) {
  auto part = [&](std::size_t at) {
    return static_cast<double>(std::stoi(ink.substr(at, 2), nullptr, 16)) / 255.0;
  };
  return {part(1), part(3), part(5)};
}

std::size_t bytes_of_character(unsigned char lead) {
  return lead < 0x80 ? 1 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;
}

}  // namespace

struct Faces::Data {
  std::vector<FontFace> faces;
};

Faces::Faces(const Lettering& lettering) : lettering_(lettering), data_(std::make_unique<Data>()) {
  for (const FontFile& file : lettering.fonts()) data_->faces.push_back(open_face(file));
}

Faces::~Faces() = default;

namespace {

/// Draws items in their order, except that what has one ink commutes: strokes are gathered by pen
/// and letters by font until another ink comes. cairo is much quicker with few large operations.
class PagePen {
 public:
  PagePen(cairo_t* cr, const Sheet& sheet, const DocumentInfo& info, const Faces& faces)
      : cr_(cr),
        sheet_(sheet),
        faces_(faces),
        options_(cairo_font_options_create()),
        strokes_(sheet.pens.size()) {
    for (std::size_t i = 0; i < inks_.size(); ++i) inks_[i] = parse_colour(info.inks[i]);
    cairo_font_options_set_hint_metrics(options_.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options_.get(), CAIRO_HINT_STYLE_NONE);
    cairo_scale(cr_, points_per_mm, points_per_mm);
    cairo_set_tolerance(cr_, 0.01);
    cairo_set_fill_rule(cr_, CAIRO_FILL_RULE_EVEN_ODD);
    // Square ends close the corners of separate lines; cairo is slow over round ones.
    cairo_set_miter_limit(cr_, 2);
    cover_page();
  }

  void operator()(const Stroke& s) {
    take_up(sheet_.pens[s.pen].ink);
    strokes_[s.pen].push_back(&s.path);
  }
  void operator()(const Fill& f) {
    take_up(f.ink);
    add(f.path);
    cairo_fill(cr_);
  }
  void operator()(const Text& t) {
    if (t.masked) mask(t);
    take_up(t.ink);
    gather(t);
  }
  void operator()(const GroupStart&) {}
  void operator()(const GroupEnd&) {}

  /// Draws what is gathered.
  void flush() {
    for (std::size_t i = 0; i < strokes_.size(); ++i) stroke(sheet_.pens[i], strokes_[i]);
    for (auto& [font, letters] : letters_) show(letters);
  }

 private:
  /// Letters of one font, height and angle.
  struct Letters {
    ScaledFont font;
    std::string text;
    std::vector<cairo_glyph_t> glyphs;
    std::vector<cairo_text_cluster_t> clusters;
  };

  cairo_t* cr_;
  const Sheet& sheet_;
  const Faces& faces_;
  FontOptions options_;
  std::array<Colour, 6> inks_;
  Ink ink_ = Ink::white;
  std::vector<std::vector<const Path*>> strokes_;               // by pen
  std::map<std::tuple<int, double, double>, Letters> letters_;  // by font, height, angle

  // cairo's bookkeeping stays quick only when the box of the first operation covers the page: two
  // white specks at its corners, for parts of a sheet must not hide each other.
  void cover_page() {
    constexpr double speck = 0.01;
    cairo_set_source_rgb(cr_, 1, 1, 1);
    cairo_rectangle(cr_, 0, 0, speck, speck);
    cairo_rectangle(cr_, sheet_.width - speck, sheet_.height - speck, speck, speck);
    cairo_fill(cr_);
  }

  void take_up(Ink i) {
    if (ink_ == i) return;
    flush();
    ink_ = i;
    const Colour& c = inks_[static_cast<std::size_t>(i)];
    cairo_set_source_rgb(cr_, c.r, c.g, c.b);
  }

  double down(PaperPoint p) const { return sheet_.height - p.y; }

  void add(const Path& path) {
    const PaperPoint* p = path.points.data();
    for (Op op : path.ops) {
      switch (op) {
        case Op::move:
          cairo_move_to(cr_, p->x, down(*p));
          break;
        case Op::line:
          cairo_line_to(cr_, p->x, down(*p));
          break;
        case Op::curve:
          cairo_curve_to(cr_, p->x, down(*p), p[1].x, down(p[1]), p[2].x, down(p[2]));
          break;
        case Op::close:
          cairo_close_path(cr_);
          break;
      }
      p += op == Op::close ? 0 : op == Op::curve ? 3 : 1;
    }
  }

  void stroke(const Pen& pen, std::vector<const Path*>& paths) {
    if (paths.empty()) return;
    for (const Path* path : paths) add(*path);
    paths.clear();
    cairo_set_line_width(cr_, pen.width);
    cairo_set_dash(cr_, pen.dash.data(), static_cast<int>(pen.dash.size()), 0);
    cairo_set_line_cap(cr_, pen.dash.empty() ? CAIRO_LINE_CAP_SQUARE : CAIRO_LINE_CAP_BUTT);
    cairo_stroke(cr_);
  }

  void mask(const Text& t) {
    take_up(Ink::white);
    for (PaperPoint p : mask_corners(t)) cairo_line_to(cr_, p.x, down(p));
    cairo_fill(cr_);
  }

  double size(int font, double height) const {
    return height / faces_.lettering().fonts()[static_cast<std::size_t>(font)].cap_height;
  }

  Letters& letters(int font, const Text& t) {
    Letters& found = letters_[{font, t.height, t.angle}];
    if (found.font) return found;
    cairo_matrix_t matrix, ctm;
    const double em = size(font, t.height);
    cairo_matrix_init_scale(&matrix, em, em);
    cairo_matrix_rotate(&matrix, -t.angle);
    cairo_get_matrix(cr_, &ctm);
    cairo_font_face_t* face = faces_.data().faces[static_cast<std::size_t>(font)].get();
    found.font.reset(cairo_scaled_font_create(face, &matrix, &ctm, options_.get()));
    return found;
  }

  void gather(const Text& t) {
    const double c = std::cos(t.angle), s = std::sin(t.angle);
    double along = 0;
    const std::vector<Run> runs = faces_.lettering().runs(t.text);
    for (const Run& run : runs) {
      Letters& to = letters(run.font, t);
      // The parts of a text of several fonts follow one another, so that readers find it whole.
      if (runs.size() > 1) show(to);
      const double em = size(run.font, t.height);
      for (std::size_t i = 0; i < run.glyphs.size(); ++i) {
        to.glyphs.push_back({run.glyphs[i], t.at.x + along * c, down(t.at) - along * s});
        along += run.advances[i] * em;
      }
      add_clusters(run, to);
      if (runs.size() > 1) show(to);
    }
  }

  void add_clusters(const Run& run, Letters& to) const {
    to.text += run.text;
    for (std::size_t i = 0; i < run.text.size();) {
      const std::size_t n = bytes_of_character(static_cast<unsigned char>(run.text[i]));
      to.clusters.push_back({static_cast<int>(n), 1});
      i += n;
    }
    if (to.clusters.size() != to.glyphs.size())
      throw std::runtime_error(
          fmt::format("sheet {}: text '{}' is not one glyph a character", sheet_.number, run.text));
  }

  void show(Letters& l) {
    if (l.glyphs.empty()) return;
    cairo_set_scaled_font(cr_, l.font.get());
    cairo_show_text_glyphs(cr_, l.text.data(), static_cast<int>(l.text.size()), l.glyphs.data(),
                           static_cast<int>(l.glyphs.size()), l.clusters.data(),
                           static_cast<int>(l.clusters.size()),
                           static_cast<cairo_text_cluster_flags_t>(0));
    l.text.clear();
    l.glyphs.clear();
    l.clusters.clear();
  }
};

cairo_status_t to_memory(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

// Without a stated date cairo writes the time of day, which is no part of the drawing.
constexpr const char* no_date = "2000-01-01T00:00:00Z";

void draw_page(cairo_surface_t* surface, const Sheet& sheet, const std::vector<const Item*>& items,
               const DocumentInfo& info, const Faces& faces) {
  Context context(cairo_create(surface));
  PagePen pen(context.get(), sheet, info, faces);
  for (const Item* item : items) std::visit(pen, *item);
  pen.flush();
  cairo_show_page(context.get());
  check(cairo_status(context.get()), "sheet " + sheet.number);
}

}  // namespace

PagesPdf pages_pdf(std::span<const Sheet> sheets, const DocumentInfo& info, const Faces& faces) {
  PagesPdf pages;
  // The size is set again for every page.
  Surface surface(cairo_pdf_surface_create_for_stream(to_memory, &pages.bytes, 1, 1));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, no_date);
  for (const Sheet& sheet : sheets) {
    guard(sheet, info);
    cairo_pdf_surface_set_size(surface.get(), sheet.width * points_per_mm,
                               sheet.height * points_per_mm);
    std::vector<Pass> passes = passes_of(sheet);
    if (passes.empty()) passes.emplace_back();  // an empty sheet is a page too
    pages.layers.emplace_back();
    for (const Pass& pass : passes) {
      draw_page(surface.get(), sheet, pass.items, info, faces);
      pages.layers.back().push_back(pass.layer);
    }
  }
  cairo_surface_finish(surface.get());
  check(cairo_surface_status(surface.get()), "PDF pages");
  return pages;
}

}  // namespace deckquire::writers
