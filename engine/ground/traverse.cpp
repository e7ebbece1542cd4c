// SPDX-License-Identifier: MIT
#include "engine/ground/traverse.h"

#include <cmath>

#include "engine/ground/trig.h"
#include "engine/measure/quantity.h"

namespace railwright::ground {
namespace {

using measure::Vec2;

constexpr double kRadian = measure::kPi / 180;

Vec2 step_of(const Course& course) {
  const SineCosine toward = sine_cosine(course.azimuth_deg);
  return Vec2{toward.sine, toward.cosine} * course.distance;
}

std::vector<Vec2> steps_of(const std::vector<Course>& courses) {
  std::vector<Vec2> steps;
  steps.reserve(courses.size());
  for (const Course& course : courses) steps.push_back(step_of(course));
  return steps;
}

Vec2 sum(const std::vector<Vec2>& steps) {
  Vec2 total;
  for (const Vec2 step : steps) total = total + step;
  return total;
}

void compass_rule(std::vector<Vec2>& steps, const std::vector<Course>& courses, Vec2 miss, double perimeter) {
  for (std::size_t i = 0; i < steps.size(); ++i) steps[i] = steps[i] - miss * (courses[i].distance / perimeter);
}

// A symmetric 2 x 2 matrix and the solution of M k = w.
struct Symmetric {
  double xx = 0, xy = 0, yy = 0;
  Vec2 solve(Vec2 w) const {
    const double determinant = xx * yy - xy * xy;
    if (!(determinant > 1e-12 * xx * yy)) {  // all courses in one line: spread along it
      const double trace = xx + yy;
      return trace > 0 ? w * (1 / trace) : Vec2{};
    }
    return Vec2{yy * w.x - xy * w.y, xx * w.y - xy * w.x} * (1 / determinant);
  }
};

// Covariance of one step: its distance varies along it, its direction across it.
Symmetric covariance(Vec2 step, double distance, const CourseError& error) {
  const double along = error.distance + error.distance_ppm * 1e-6 * distance;
  const double across = error.azimuth_deg * kRadian * distance;
  const Vec2 u = measure::direction(step);
  const double a = along * along, c = across * across;
  return {a * u.x * u.x + c * u.y * u.y, (a - c) * u.x * u.y, a * u.y * u.y + c * u.x * u.x};
}

// Conditioned least squares: minimise v' Q^-1 v subject to the steps summing to what they should make. The two conditions give
// one 2 x 2 system whatever the number of courses. The covariances are taken at the observed steps, and the conditions are linear
// in the steps, so one pass is exact for this model; a second would only rotate the covariances by the corrections.
void least_squares(std::vector<Vec2>& steps, const std::vector<Course>& courses, Vec2 miss, const CourseError& error) {
  std::vector<Symmetric> all;
  Symmetric total;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    all.push_back(covariance(steps[i], courses[i].distance, error));
    total = {total.xx + all[i].xx, total.xy + all[i].xy, total.yy + all[i].yy};
  }
  const Vec2 k = total.solve(miss);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    steps[i] = steps[i] - Vec2{all[i].xx * k.x + all[i].xy * k.y, all[i].xy * k.x + all[i].yy * k.y};
  }
}

Result<void> check(const std::vector<Course>& courses) {
  if (courses.empty()) return fail("traverse.empty");
  for (std::size_t i = 0; i < courses.size(); ++i) {
    const std::string place = std::to_string(i + 1);
    if (!(courses[i].distance > 0) || !(courses[i].distance < 1e9)) {
      return fail("traverse.distance", place, {{"distance", courses[i].distance}});
    }
    if (!std::isfinite(courses[i].azimuth_deg)) return fail("traverse.azimuth", place);
  }
  return {};
}

Closure closure_of(const std::vector<Vec2>& steps, const std::vector<Course>& courses, Vec2 should_make) {
  const Vec2 miss = sum(steps) - should_make;
  Closure result;
  result.latitude = miss.y;
  result.departure = miss.x;
  result.linear = measure::norm(miss);
  for (const Course& course : courses) result.perimeter += course.distance;
  // A misclosure below a billionth of the walk is rounding, not survey.
  if (result.linear > 1e-12 * result.perimeter) result.ratio = result.perimeter / result.linear;
  return result;
}

}  // namespace

Closure closure(const std::vector<Course>& courses, Vec2 should_make) { return closure_of(steps_of(courses), courses, should_make); }

Result<Traverse> traverse(const std::vector<Course>& courses, const TraverseOptions& options) {
  if (const auto good = check(courses); !good) return tl::unexpected(good.error());
  std::vector<Vec2> steps = steps_of(courses);
  Traverse result;
  if (options.end) {
    const Vec2 should_make = *options.end - options.start;
    result.closure = closure_of(steps, courses, should_make);
    const Closure& c = result.closure;
    if (c.ratio > 0 && c.ratio < options.worst_ratio) {
      return fail("traverse.does_not_close", std::to_string(suspect(courses, should_make) + 1),
                  {{"linear", c.linear}, {"perimeter", c.perimeter}, {"ratio", c.ratio}});
    }
    const Vec2 miss{c.departure, c.latitude};
    if (options.adjustment == Adjustment::compass) compass_rule(steps, courses, miss, c.perimeter);
    if (options.adjustment == Adjustment::least_squares) least_squares(steps, courses, miss, options.error);
  }
  result.points.push_back(options.start);
  for (const Vec2 step : steps) {
    result.points.push_back(result.points.back() + step);
    result.courses.push_back({step.y, step.x, measure::norm(step), azimuth_deg(step.x, step.y)});
  }
  if (options.end && options.adjustment != Adjustment::none) result.points.back() = *options.end;
  return result;
}

std::size_t suspect(const std::vector<Course>& courses, Vec2 should_make) {
  const std::vector<Vec2> steps = steps_of(courses);
  const Vec2 miss = measure::direction(sum(steps) - should_make);
  std::size_t best = 0;
  double most = -1;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const double match = measure::on_grid(std::abs(measure::dot(miss, measure::direction(steps[i]))));
    if (match > most) {
      most = match;
      best = i;
    }
  }
  return best;
}

double area(const std::vector<Vec2>& points) {
  if (points.size() < 3) return 0;
  double twice = 0;
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    twice += measure::cross(points[i] - points[0], points[i + 1] - points[0]);
  }
  return std::abs(twice) / 2;
}

std::vector<DoubleMeridian> double_meridian_distances(const std::vector<AdjustedCourse>& courses) {
  std::vector<DoubleMeridian> rows;
  double distance = 0, last = 0;
  for (const AdjustedCourse& course : courses) {
    distance += last + course.departure;
    rows.push_back({distance, distance * course.latitude});
    last = course.departure;
  }
  return rows;
}

std::vector<double> azimuths_from_deflections(double first_deg, const std::vector<double>& turns_deg) {
  std::vector<double> azimuths{turn_deg(first_deg)};
  for (const double turn : turns_deg) azimuths.push_back(turn_deg(azimuths.back() + turn));
  return azimuths;
}

}  // namespace railwright::ground
