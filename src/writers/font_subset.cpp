#include "writers/font_subset.h"

#include <fmt/format.h>
#include <hb-subset.h>
#include <zlib.h>

#include <stdexcept>
#include <vector>

namespace deckquire::writers {
namespace {

template <auto destroy>
struct Destroy {
  template <class T>
  void operator()(T* p) const {
    destroy(p);
  }
};
using Face = std::unique_ptr<hb_face_t, Destroy<hb_face_destroy>>;
using Blob = std::unique_ptr<hb_blob_t, Destroy<hb_blob_destroy>>;
using Input = std::unique_ptr<hb_subset_input_t, Destroy<hb_subset_input_destroy>>;

std::uint32_t read32(const std::string& s, std::size_t at) {
  std::uint32_t v = 0;
  for (std::size_t i = 0; i < 4; ++i) v = v << 8 | static_cast<unsigned char>(s.at(at + i));
  return v;
}

std::uint32_t read16(const std::string& s, std::size_t at) {
  return static_cast<std::uint32_t>(static_cast<unsigned char>(s.at(at)) << 8 |
                                    static_cast<unsigned char>(s.at(at + 1)));
}

void put16(std::string& s, std::uint32_t v) {
  s += static_cast<char>(v >> 8 & 0xff);
  s += static_cast<char>(v & 0xff);
}

void put32(std::string& s, std::size_t v) {
  put16(s, static_cast<std::uint32_t>(v >> 16));
  put16(s, static_cast<std::uint32_t>(v & 0xffff));
}

std::size_t padded4(std::size_t n) {
  return (n + 3) / 4 * 4;
}

std::string deflated(const std::string& table) {
  uLongf size = compressBound(table.size());
  std::string out(size, '\0');
  const int rc = compress2(reinterpret_cast<Bytef*>(out.data()), &size,
                           reinterpret_cast<const Bytef*>(table.data()), table.size(), 6);
  if (rc != Z_OK) throw std::runtime_error("a font table cannot be compressed");
  out.resize(size);
  return out.size() < table.size() ? out : table;
}

struct SfntTable {
  std::uint32_t tag = 0, checksum = 0;
  std::string bytes;
};

std::vector<SfntTable> tables_of(const std::string& sfnt) {
  std::vector<SfntTable> tables;
  const std::size_t count = read16(sfnt, 4);
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t entry = 12 + 16 * i;
    tables.push_back({read32(sfnt, entry), read32(sfnt, entry + 4),
                      sfnt.substr(read32(sfnt, entry + 8), read32(sfnt, entry + 12))});
  }
  return tables;
}

}  // namespace

std::string wrap_woff(const std::string& sfnt) {
  const auto tables = tables_of(sfnt);
  std::size_t at = 44 + 20 * tables.size(), total = 12 + 16 * tables.size();
  std::string directory, body;
  for (const SfntTable& t : tables) {
    const std::string packed = deflated(t.bytes);
    put32(directory, t.tag);
    put32(directory, at + body.size());
    put32(directory, packed.size());
    put32(directory, t.bytes.size());
    put32(directory, t.checksum);
    body += packed;
    body.resize(padded4(body.size()), '\0');
    total += padded4(t.bytes.size());
  }
  std::string head = "wOFF" + sfnt.substr(0, 4);
  put32(head, at + body.size());
  put16(head, static_cast<std::uint32_t>(tables.size()));
  put16(head, 0);
  put32(head, total);
  head.resize(44, '\0');  // version, metadata and private data: none
  return head + directory + body;
}

struct FontCutter::Data {
  Face face;
  std::string path;
};

FontCutter::FontCutter(const paper::FontFile& file) : data_(std::make_unique<Data>()) {
  Blob blob(hb_blob_create(file.bytes.data(), static_cast<unsigned>(file.bytes.size()),
                           HB_MEMORY_MODE_READONLY, nullptr, nullptr));
  data_->face.reset(hb_face_create(blob.get(), 0));
  data_->path = file.path;
}

FontCutter::~FontCutter() = default;
FontCutter::FontCutter(FontCutter&&) noexcept = default;

std::string FontCutter::woff(const std::set<std::uint32_t>& characters) {
  Input input(hb_subset_input_create_or_fail());
  if (!input) throw std::runtime_error("no memory for a font subset");
  for (std::uint32_t c : characters) hb_set_add(hb_subset_input_unicode_set(input.get()), c);
  hb_subset_input_set_flags(input.get(), HB_SUBSET_FLAGS_NO_HINTING);
  hb_set_t* drop = hb_subset_input_set(input.get(), HB_SUBSET_SETS_DROP_TABLE_TAG);
  for (const char* tag : {"GSUB", "GPOS", "GDEF", "kern", "DSIG", "FFTM", "gasp", "hdmx", "LTSH"})
    hb_set_add(drop, hb_tag_from_string(tag, 4));
  Face cut(hb_subset_or_fail(data_->face.get(), input.get()));
  if (!cut) throw std::runtime_error(fmt::format("font {} cannot be cut down", data_->path));
  Blob blob(hb_face_reference_blob(cut.get()));
  unsigned size = 0;
  const char* bytes = hb_blob_get_data(blob.get(), &size);
  return wrap_woff({bytes, size});
}

}  // namespace deckquire::writers
