// Quantities with units. A quantity is made with a unit and leaves with a unit; nothing in between
// sees a bare number, so millimetres and inches cannot be mixed up.
#pragma once

#include <compare>
#include <cstdint>

namespace deckquire {

/// A length of the bridge or of a panel, held as a whole number of nanometres, so that sums are
/// exact (1 mm = 1 000 000 nm, 1/64 in = 396 875 nm) and lengths may be compared and hashed.
/// Lengths on paper are another thing: see paper/sheet.h.
/// Range: about +-9 million kilometres; the project reader admits far less.
class Length {
 public:
  constexpr Length() = default;
  static constexpr Length from_nanometres(std::int64_t n) { return Length(n); }
  constexpr std::int64_t in_nanometres() const { return nm_; }
  constexpr double in_mm() const { return static_cast<double>(nm_) / 1e6; }
  constexpr double in_m() const { return static_cast<double>(nm_) / 1e9; }
  constexpr double in_inches() const { return static_cast<double>(nm_) / 25.4e6; }
  constexpr double in_feet() const { return static_cast<double>(nm_) / 304.8e6; }

  friend constexpr auto operator<=>(Length, Length) = default;
  constexpr Length operator-() const { return Length(-nm_); }
  friend constexpr Length operator+(Length a, Length b) { return Length(a.nm_ + b.nm_); }
  friend constexpr Length operator-(Length a, Length b) { return Length(a.nm_ - b.nm_); }
  friend constexpr Length operator*(Length a, std::int64_t k) { return Length(a.nm_ * k); }
  friend constexpr Length operator*(std::int64_t k, Length a) { return Length(a.nm_ * k); }
  friend constexpr Length operator*(Length a, int k) { return Length(a.nm_ * k); }
  friend constexpr Length operator*(int k, Length a) { return Length(a.nm_ * k); }
  /// Rounded to the nearest nanometre.
  friend constexpr Length operator*(Length a, double k) {
    return rounded(static_cast<double>(a.nm_) * k);
  }
  friend constexpr Length operator*(double k, Length a) { return a * k; }
  /// Rounded to the nearest nanometre.
  friend constexpr Length operator/(Length a, double k) {
    return rounded(static_cast<double>(a.nm_) / k);
  }
  friend constexpr double operator/(Length a, Length b) {
    return static_cast<double>(a.nm_) / static_cast<double>(b.nm_);
  }
  constexpr Length& operator+=(Length b) { return *this = *this + b; }
  constexpr Length& operator-=(Length b) { return *this = *this - b; }

  /// Nearest whole nanometre, halves away from zero. The caller has checked the range.
  static constexpr Length rounded(double nanometres) {
    return Length(static_cast<std::int64_t>(nanometres + (nanometres < 0 ? -0.5 : 0.5)));
  }

 private:
  constexpr explicit Length(std::int64_t n) : nm_(n) {}
  std::int64_t nm_ = 0;
};

constexpr Length mm(double v) {
  return Length::rounded(v * 1e6);
}
constexpr Length metres(double v) {
  return Length::rounded(v * 1e9);
}
constexpr Length inches(double v) {
  return Length::rounded(v * 25.4e6);
}
constexpr Length feet(double v) {
  return Length::rounded(v * 304.8e6);
}
constexpr Length abs(Length a) {
  return a < Length() ? -a : a;
}

/// A quantity other than a length: a double in the SI unit that its tag names.
template <class Tag>
class Quantity {
 public:
  constexpr Quantity() = default;
  static constexpr Quantity si(double v) { return Quantity(v); }
  constexpr double in_si() const { return v_; }
  friend constexpr auto operator<=>(Quantity, Quantity) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.v_ + b.v_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.v_ - b.v_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.v_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.v_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.v_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.v_ / b.v_; }
  constexpr Quantity& operator+=(Quantity b) { return *this = *this + b; }
  constexpr Quantity& operator-=(Quantity b) { return *this = *this - b; }

 private:
  constexpr explicit Quantity(double v) : v_(v) {}
  double v_ = 0;
};

using Area = Quantity<struct AreaTag>;                // m2
using Volume = Quantity<struct VolumeTag>;            // m3
using Mass = Quantity<struct MassTag>;                // kg
using Density = Quantity<struct DensityTag>;          // kg/m3
using AreaDensity = Quantity<struct AreaDensityTag>;  // kg/m2
using Angle = Quantity<struct AngleTag>;              // rad
using Pressure = Quantity<struct PressureTag>;        // Pa
using Force = Quantity<struct ForceTag>;              // N
using Temperature = Quantity<struct TemperatureTag>;  // degrees Celsius
using RainRate = Quantity<struct RainRateTag>;        // m/s

constexpr Mass operator*(Volume v, Density d) {
  return Mass::si(v.in_si() * d.in_si());
}
constexpr Mass operator*(Area a, AreaDensity d) {
  return Mass::si(a.in_si() * d.in_si());
}
constexpr Volume operator*(Area a, Length t) {
  return Volume::si(a.in_si() * t.in_m());
}
constexpr Area operator*(Length a, Length b) {
  return Area::si(a.in_m() * b.in_m());
}

constexpr double pi = 3.14159265358979323846;
constexpr Angle degrees(double v) {
  return Angle::si(v * pi / 180.0);
}

}  // namespace deckquire
