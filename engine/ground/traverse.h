// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/measure/geometry.h"
#include "engine/measure/result.h"

// A traverse: courses walked one after the other, each with an azimuth and a level distance. Latitude is the step north, departure the step
// east. Lengths are in one unit throughout (metres in a job; the published examples use feet), angles in degrees clockwise from north.
namespace railwright::ground {

struct Course {
  double azimuth_deg = 0;
  double distance = 0;   // level
  std::string from, to;  // names of its points; may be empty
};

// How far a walk misses the place where it should have ended.
//  Source: C. Ghilani, P. Wolf, Elementary Surveying, chapter "Traverse computations": linear misclosure and relative precision.
struct Closure {
  double latitude = 0, departure = 0;  // sum of the steps less what they should be
  double linear = 0;                   // sqrt(latitude^2 + departure^2)
  double perimeter = 0;                // sum of the distances
  double ratio = 0;                    // perimeter / linear; 0 when it closes exactly
};

enum class Adjustment { none, compass, least_squares };

// Expected error of one course, one sigma. Used by least squares only.
struct CourseError {
  double distance = 0.01;         // fixed part
  double distance_ppm = 0;        // part growing with the distance
  double azimuth_deg = 1.0 / 60;  // of the direction
};

struct AdjustedCourse {
  double latitude = 0, departure = 0, distance = 0, azimuth_deg = 0;
};

struct Traverse {
  std::vector<measure::Vec2> points;  // one more than the courses, the first at `start`
  std::vector<AdjustedCourse> courses;
  Closure closure;  // before adjustment
};

// Sum of the courses against `misses`, the step they should make together (0,0 for a loop). O(n).
Closure closure(const std::vector<Course>& courses, measure::Vec2 should_make = {});

struct TraverseOptions {
  measure::Vec2 start;
  std::optional<measure::Vec2> end;  // where the walk must end; the start for a loop; none: nothing to close on, nothing adjusted
  Adjustment adjustment = Adjustment::compass;
  CourseError error;
  double worst_ratio = 50;  // a misclosure above 1/50 of the walk is a blunder, not an error to be spread
};

// Points of the walk, adjusted to close.
//  compass (Bowditch) rule: each course takes its share of the misclosure in proportion to its length;
//  least squares: the corrections of directions and distances with the least sum of squares, each over its expected error, that close the walk
//    (conditioned adjustment, iterated; Ghilani, Adjustment Computations, chapter "Adjustment of conditional equations"). With errors along
//    and across each course equal and growing with the root of its length, it is the compass rule (property, tested).
// Errors: `traverse.empty`, `traverse.distance` (negative, zero or not finite; place: number of the course), `traverse.azimuth`,
// `traverse.does_not_close` (values linear, perimeter, ratio: a course is missing, doubled or mistyped; see `suspect`).
Result<Traverse> traverse(const std::vector<Course>& courses, const TraverseOptions& options);

// The course most likely to hold a blunder: the one whose direction best matches the misclosure's (a wrong length). Common practice, no source.
std::size_t suspect(const std::vector<Course>& courses, measure::Vec2 should_make = {});

// Area inside the points, whose last joins the first: half the sum of cross products (the coordinate form of double meridian distances). Never negative.
double area(const std::vector<measure::Vec2>& points);

// Double meridian distances and double areas of the adjusted courses, as a field book lists them; their sum is twice the area, negative
// for a walk clockwise.
struct DoubleMeridian {
  double distance = 0, double_area = 0;
};
std::vector<DoubleMeridian> double_meridian_distances(const std::vector<AdjustedCourse>& courses);

// Courses that cross, first and second, in order: the sides of a walk through `points` that share an inner place. Sides that share a point do not cross
// there. `closed`: the last point joins the first. O(n log n) on a walk that keeps to itself, O(n^2) at worst.
std::vector<std::pair<std::size_t, std::size_t>> crossings(const std::vector<measure::Vec2>& points, bool closed);

// Azimuths of courses from the first azimuth and the turn at each following point (right positive). One more entry than turns.
std::vector<double> azimuths_from_deflections(double first_deg, const std::vector<double>& turns_deg);

}  // namespace railwright::ground
