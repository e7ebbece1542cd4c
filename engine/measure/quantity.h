// SPDX-License-Identifier: MIT
#pragma once

#include <compare>

namespace railwright::measure {

// A physical quantity in its SI unit (`Tag` keeps kinds apart: a Force is no Moment). Only same kinds add; products are spelled
// out as functions below, so that force times force cannot be taken for a force.
template <class Tag>
class Quantity {
 public:
  constexpr Quantity() = default;
  static constexpr Quantity si(double value) { return Quantity(value); }
  constexpr double si() const { return value_; }
  constexpr Quantity operator-() const { return Quantity(-value_); }
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value_ + b.value_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value_ - b.value_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return a * k; }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.value_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
  friend constexpr bool operator==(Quantity a, Quantity b) = default;
  friend constexpr auto operator<=>(Quantity a, Quantity b) = default;

 private:
  constexpr explicit Quantity(double value) : value_(value) {}
  double value_ = 0;
};

using Force = Quantity<struct ForceTag>;        // newton
using Moment = Quantity<struct MomentTag>;      // newton metre
using Pressure = Quantity<struct PressureTag>;  // pascal (stress too)
using Mass = Quantity<struct MassTag>;          // kilogram
using LineLoad = Quantity<struct LineLoadTag>;  // newton per metre
using Volume = Quantity<struct VolumeTag>;      // cubic metre
using Angle = Quantity<struct AngleTag>;        // radian

// Exact definitions: NIST SP 811:2008, appendix B.8 and section 4.2 (1 lb = 0.453 592 37 kg; g_n = 9.806 65 m/s2; 1 in = 0.0254 m).
inline constexpr double kKilogramPerPound = 0.45359237;
inline constexpr double kStandardGravity = 9.80665;
inline constexpr double kMetrePerInch = 0.0254;
inline constexpr double kMetrePerFoot = 0.3048;
inline constexpr double kPi = 3.14159265358979323846;

constexpr Force pounds_force(double lbf) { return Force::si(lbf * (kKilogramPerPound * kStandardGravity)); }
constexpr double in_pounds_force(Force f) { return f.si() / (kKilogramPerPound * kStandardGravity); }
constexpr Mass pounds(double lb) { return Mass::si(lb * kKilogramPerPound); }
constexpr double in_pounds(Mass m) { return m.si() / kKilogramPerPound; }
constexpr Pressure psi(double v) { return Pressure::si(v * (kKilogramPerPound * kStandardGravity) / (kMetrePerInch * kMetrePerInch)); }
constexpr double in_psi(Pressure p) { return p.si() * (kMetrePerInch * kMetrePerInch) / (kKilogramPerPound * kStandardGravity); }
constexpr Pressure psf(double v) { return psi(v / 144.0); }
constexpr Force weight(Mass m) { return Force::si(m.si() * kStandardGravity); }
constexpr Volume cubic_feet(double v) { return Volume::si(v * kMetrePerFoot * kMetrePerFoot * kMetrePerFoot); }
constexpr double in_cubic_feet(Volume v) { return v.si() / (kMetrePerFoot * kMetrePerFoot * kMetrePerFoot); }
constexpr Angle degrees(double d) { return Angle::si(d * (kPi / 180.0)); }
constexpr double in_degrees(Angle a) { return a.si() * (180.0 / kPi); }
// Slopes are rise per run (dimensionless), never degrees, so that no transcendental is needed.

}  // namespace railwright::measure
