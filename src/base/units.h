// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <compare>

/// Units as types: quantities of different units do not mix. A pixel length becomes millimetres
/// only by dividing by a scale; millimetres become micrometres only by the named function.
/// Checked: tests/base/units_test.cpp (static_assert).
namespace swarfbook {

template <class Tag> class Quantity {
  public:
    constexpr Quantity() = default;
    explicit constexpr Quantity(double value) : value_(value) {}
    [[nodiscard]] constexpr double value() const { return value_; }
    constexpr auto operator<=>(const Quantity&) const = default;
    constexpr Quantity operator-() const { return Quantity(-value_); }
    constexpr Quantity operator+(Quantity o) const { return Quantity(value_ + o.value_); }
    constexpr Quantity operator-(Quantity o) const { return Quantity(value_ - o.value_); }
    constexpr Quantity& operator+=(Quantity o) { return *this = *this + o; }
    constexpr Quantity operator*(double k) const { return Quantity(value_ * k); }
    constexpr Quantity operator/(double k) const { return Quantity(value_ / k); }
    /// Ratio of two quantities of one unit: a pure number.
    constexpr double operator/(Quantity o) const { return value_ / o.value_; }

  private:
    double value_ = 0.0;
};

template <class Tag> constexpr Quantity<Tag> operator*(double k, Quantity<Tag> q) {
    return q * k;
}

using Millimetres = Quantity<struct MillimetresTag>;
using Micrometres = Quantity<struct MicrometresTag>;
using Pixels = Quantity<struct PixelsTag>;
using PixelsPerMillimetre = Quantity<struct PixelsPerMillimetreTag>;
using SquareMillimetres = Quantity<struct SquareMillimetresTag>;
using SquareCentimetres = Quantity<struct SquareCentimetresTag>;
using Degrees = Quantity<struct DegreesTag>;
using Kilometres = Quantity<struct KilometresTag>;

constexpr Micrometres toMicrometres(Millimetres l) {
    return Micrometres(l.value() * 1000.0);
}
constexpr Millimetres toMillimetres(Micrometres l) {
    return Millimetres(l.value() / 1000.0);
}
constexpr SquareCentimetres toSquareCentimetres(SquareMillimetres a) {
    return SquareCentimetres(a.value() / 100.0);
}
constexpr Millimetres operator/(Pixels l, PixelsPerMillimetre s) {
    return Millimetres(l.value() / s.value());
}
constexpr Pixels operator*(Millimetres l, PixelsPerMillimetre s) {
    return Pixels(l.value() * s.value());
}
constexpr SquareMillimetres operator*(Millimetres a, Millimetres b) {
    return SquareMillimetres(a.value() * b.value());
}

/// A value with its standard uncertainty (k = 1), both in the same unit.
template <class Unit> struct Measured {
    Unit value{};
    Unit standardUncertainty{};
};

/// A point of the upright photo, pixels; the centre of the top-left pixel is (0, 0).
struct PointInPhoto {
    double u = 0.0;
    double v = 0.0;
};

/// A point on the card's plane, millimetres from the card's outer top-left corner, y down.
struct PointOnCard {
    double x = 0.0;
    double y = 0.0;
};

} // namespace swarfbook
