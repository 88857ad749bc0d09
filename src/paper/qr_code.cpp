#include "paper/qr_code.h"

#include <qrencode.h>

#include <memory>
#include <stdexcept>

namespace deckquire::paper {

QrCode qr_code(const std::string& text) {
  const std::unique_ptr<QRcode, void (*)(QRcode*)> made(
      QRcode_encodeData(static_cast<int>(text.size()), reinterpret_cast<const unsigned char*>(text.data()),
                        0, QR_ECLEVEL_M),
      QRcode_free);
  if (!made) throw std::invalid_argument("no QR code holds this text of " + std::to_string(text.size()) + " bytes");
  QrCode code;
  code.size = made->width;
  const auto modules = static_cast<std::size_t>(made->width) * static_cast<std::size_t>(made->width);
  for (std::size_t i = 0; i < modules; ++i) code.dark.push_back((made->data[i] & 1U) != 0);
  return code;
}

Path qr_path(const QrCode& code, PaperPoint low, double side) {
  const double module = side / code.size;
  Path path;
  for (int row = 0; row < code.size; ++row)
    for (int from = 0; from < code.size; ++from) {
      if (!code.at(row, from)) continue;
      int to = from;
      while (to < code.size && code.at(row, to)) ++to;
      const double top = low.y + side - row * module;
      path.box({{low.x + from * module, top - module}, {low.x + to * module, top}});
      from = to;
    }
  return path;
}

}  // namespace deckquire::paper
