#include "paper/lettering.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_ADVANCES_H
#include FT_OUTLINE_H
#include FT_TRUETYPE_TABLES_H

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "base/files.h"
#include "paper/font_files.h"
#include "paper/utf8.h"

namespace deckquire::paper {

namespace {

struct Glyph {
  int font = -1;  // none has it
  std::uint32_t index = 0;
  double advance = 0;  // em
  double width = 0;    // in capital heights
};

constexpr std::size_t plane_size = 0x10000;  // the basic multilingual plane

/// FreeType objects live only while the tables are read.
class Face {
 public:
  Face(const std::string& path, const std::string& bytes) {
    if (FT_Init_FreeType(&library_) != 0) throw FontError("FreeType does not start");
    const auto* data = reinterpret_cast<const FT_Byte*>(bytes.data());
    if (FT_New_Memory_Face(library_, data, static_cast<FT_Long>(bytes.size()), 0, &face_) != 0) {
      FT_Done_FreeType(library_);
      throw FontError(path + " is not a font file that can be read");
    }
  }
  ~Face() {
    FT_Done_Face(face_);
    FT_Done_FreeType(library_);
  }
  Face(const Face&) = delete;
  Face& operator=(const Face&) = delete;
  FT_Face operator->() const { return face_; }
  operator FT_Face() const { return face_; }

 private:
  FT_Library library_ = nullptr;
  FT_Face face_ = nullptr;
};

double em_of(FT_Face face, FT_Long units) {
  return static_cast<double>(units) / static_cast<double>(face->units_per_EM);
}

/// Extent of a glyph's outline in em, and whether it is a bare quadrilateral.
struct Shape {
  double width = 0, height = 0;
  bool quadrilateral = false;
};

Shape shape_of(FT_Face face, FT_UInt glyph) {
  if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) != 0) return {};
  const FT_Outline& outline = face->glyph->outline;
  FT_BBox box{};
  FT_Outline_Get_CBox(&face->glyph->outline, &box);
  return {em_of(face, box.xMax - box.xMin), em_of(face, box.yMax - box.yMin),
          outline.n_contours == 1 && outline.n_points == 4};
}

/// A letter drawn as a solid block: some files fill code points they do not have with one. Bars and
/// dashes are quadrilaterals too, but thin; block symbols (from U+2000) are meant.
bool is_solid_block(FT_Face face, std::uint32_t code, FT_UInt glyph) {
  if (code >= 0x2000) return false;
  const Shape s = shape_of(face, glyph);
  return s.quadrilateral && s.width > 0.25 && s.height > 0.25;
}

void require_usable(const Face& face, const std::string& path) {
  if (!FT_IS_SCALABLE(face.operator->()) || face->units_per_EM == 0)
    throw FontError(path + " is not an outline font");
  if (FT_HAS_MULTIPLE_MASTERS(face.operator->()))
    throw FontError(path + " is a variable font; lettering needs one with fixed widths");
  if (FT_Select_Charmap(face, FT_ENCODING_UNICODE) != 0)
    throw FontError(path + " has no Unicode character table");
  const auto* os2 = static_cast<const TT_OS2*>(FT_Get_Sfnt_Table(face, FT_SFNT_OS2));
  if (os2 != nullptr && (os2->fsType & 0x000F) == 0x0002)
    throw FontError(path + " forbids embedding in documents");
}

double capital_height(const Face& face, const std::string& path) {
  const double h = shape_of(face, FT_Get_Char_Index(face, 'H')).height;
  if (h <= 0) throw FontError(path + " has no capital H to measure");
  return h;
}

/// Enters every character of the face that no earlier font draws.
void add_glyphs(const Face& face, int font, bool last, std::vector<Glyph>& plane) {
  FT_UInt index = 0;
  for (FT_ULong code = FT_Get_First_Char(face, &index); index != 0;
       code = FT_Get_Next_Char(face, code, &index)) {
    if (code >= plane_size || plane[code].font >= 0) continue;
    if (!last && is_solid_block(face, static_cast<std::uint32_t>(code), index)) continue;
    FT_Fixed advance = 0;
    if (FT_Get_Advance(face, index, FT_LOAD_NO_SCALE, &advance) != 0) continue;
    plane[code] = {font, index, em_of(face, advance), 0};
  }
}

}  // namespace

struct Lettering::Data {
  std::vector<FontFile> fonts;
  std::vector<Glyph> plane = std::vector<Glyph>(plane_size);

  bool has(char32_t c) const { return c < plane_size && plane[c].font >= 0; }
  const Glyph& glyph(char32_t c) const { return plane[has(c) ? c : U'?']; }
};

Lettering::Lettering(const std::vector<std::string>& files) {
  auto data = std::make_unique<Data>();
  for (const std::string& name : files) {
    FontFile font;
    font.path = find_font_file(name, font_folders());
    font.bytes = read_file(font.path);
    const Face face(font.path, font.bytes);
    require_usable(face, font.path);
    font.family = face->family_name != nullptr ? face->family_name : "";
    font.units_per_em = face->units_per_EM;
    font.cap_height = capital_height(face, font.path);
    add_glyphs(face, static_cast<int>(data->fonts.size()), data->fonts.size() + 1 == files.size(),
               data->plane);
    data->fonts.push_back(std::move(font));
  }
  // Each font has its own size for one capital height.
  for (Glyph& g : data->plane)
    if (g.font >= 0) g.width = g.advance / data->fonts[static_cast<std::size_t>(g.font)].cap_height;
  if (!data->has(U'?')) throw FontError("lettering needs a font file that has '?'; none was given");
  data_ = std::move(data);
}

Lettering::~Lettering() = default;
Lettering::Lettering(Lettering&&) noexcept = default;

const std::vector<FontFile>& Lettering::fonts() const {
  return data_->fonts;
}

double Lettering::width(std::string_view text, double height) const {
  double sum = 0;
  for (std::size_t at = 0; at < text.size();) sum += data_->glyph(next_code_point(text, at)).width;
  return sum * height;
}

std::vector<Run> Lettering::runs(std::string_view text) const {
  std::vector<Run> out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t start = at;
    const char32_t c = next_code_point(text, at);
    const Glyph& g = data_->glyph(c);
    if (out.empty() || out.back().font != g.font) out.push_back({g.font, {}, {}, {}});
    Run& run = out.back();
    run.glyphs.push_back(g.index);
    run.advances.push_back(g.advance);
    run.text += data_->has(c) ? std::string(text.substr(start, at - start)) : "?";
  }
  return out;
}

std::string Lettering::missing(std::string_view text) const {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t start = at;
    if (data_->has(next_code_point(text, at))) continue;
    const std::string_view character = text.substr(start, at - start);
    if (out.find(character) == std::string::npos) out += character;
  }
  return out;
}

}  // namespace deckquire::paper
