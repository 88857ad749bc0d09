// Codes read by another library than the one that made them.
#include "paper/qr_code.h"

#include <doctest/doctest.h>
#include <zbar.h>

#include <algorithm>
#include <cmath>

#include "support/dice.h"

namespace deckquire::paper {
namespace {

/// The code as a grey picture, `pixels` a module, read back; empty where nothing is found.
std::string read_back(const Path& path, double side, int modules, int pixels) {
  const int quiet = qr_quiet * pixels, n = modules * pixels + 2 * quiet;
  std::vector<unsigned char> grey(static_cast<std::size_t>(n) * static_cast<std::size_t>(n), 255);
  const double scale = modules * pixels / side;
  // Rectangles of four corners, as qr_path makes them.
  for (std::size_t i = 0; i + 4 <= path.points.size(); i += 4) {
    const PaperPoint a = path.points[i], b = path.points[i + 2];
    const auto pixel = [&](double v) { return static_cast<int>(std::lround(v * scale)); };
    for (int y = pixel(std::min(a.y, b.y)); y < pixel(std::max(a.y, b.y)); ++y)
      for (int x = pixel(std::min(a.x, b.x)); x < pixel(std::max(a.x, b.x)); ++x)
        grey[static_cast<std::size_t>(n - 1 - quiet - y) * static_cast<std::size_t>(n) +
             static_cast<std::size_t>(quiet + x)] = 0;
  }
  zbar::ImageScanner scanner;
  scanner.set_config(zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 1);
  zbar::Image image(static_cast<unsigned>(n), static_cast<unsigned>(n), "Y800", grey.data(), grey.size());
  if (scanner.scan(image) != 1) return "";
  return image.symbol_begin()->get_data();
}

}  // namespace

TEST_CASE("QR code: what is in it is read by another decoder, at two pixels a module") {
  testing::Dice dice{3};
  for (int trial = 0; trial < 40; ++trial) {
    std::string text = "0417-";
    const std::string letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-. abc";
    for (int i = dice.upto(40); i >= 0; --i)
      text += letters[static_cast<std::size_t>(dice.upto(static_cast<int>(letters.size())))];
    const QrCode code = qr_code(text);
    CHECK(read_back(qr_path(code, {0, 0}, 20), 20, code.size, 2) == text);
  }
}

TEST_CASE("QR code: sizes are those of the standard, a text too long is refused") {
  CHECK(qr_code("0417-001").size == 21);  // version 1; ISO/IEC 18004, table 7, from memory
  CHECK((qr_code(std::string(200, 'x')).size - 17) % 4 == 0);
  CHECK_THROWS_AS(qr_code(""), std::invalid_argument);
  CHECK_THROWS_AS(qr_code(std::string(5000, 'x')), std::invalid_argument);
}

}  // namespace deckquire::paper
