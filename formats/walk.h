// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "engine/ground/traverse.h"
#include "engine/job/finding.h"
#include "engine/job/job.h"
#include "engine/measure/length.h"
#include "engine/measure/result.h"

namespace railwright::formats {

// What a file turned out to be. The kind is found in the content; the name of a file says nothing.
enum class WalkKind { gpx, geojson, kml, survey_points, tape_legs, level_notes };

struct WalkOptions {
  // Unit of lengths in a CSV whose header and cells state none.
  measure::BareNumber unit = measure::BareNumber::feet;
  // How a traverse that comes back is closed, and for least squares the expected error of a course (metres).
  ground::Adjustment adjustment = ground::Adjustment::compass;
  ground::CourseError course_error;
};

// A walk as parts of a job: points, legs, gates, heights and, for files in latitude and longitude, the origin. Legs carry the fence named in
// the file or none. `false_east/north` were taken off the coordinates of a survey far from its origin; a grid in the same
// coordinates needs the same (`read_grid`).
struct WalkedSite {
  job::Site site;
  WalkKind kind = WalkKind::survey_points;
  std::string name;  // of the track, collection or document
  measure::Length false_east, false_north;
  Findings findings;  // notes and warnings: `walk.*`
};

// Reads a walk from any of
//  GPX 1.1        tracks, routes and waypoints (GPX 1.0 too). Routes and waypoints become points as they are; a dense track goes through the corner finder
//                 (engine/ground/track.h) and carries its error. Waypoints near the line name its points; one called "gate ..." is a gate.
//  GeoJSON        RFC 7946: every geometry; properties `name`, `fence`, `gate` (width of its leaf).
//  KML 2.2        Placemarks with Point, LineString, LinearRing, Polygon, MultiGeometry; gx:Track.
//  CSV of points  header with east, north and, if known, height; or latitude, longitude; or station, offset, rise. Optional columns: name, line, note. Units in
//                 the header (`east_ft`, `easting (m)`) or the cells. Comma, semicolon or tab; quoted fields; decimal comma with semicolons.
//  CSV of legs    bearing or azimuth, or deflection; distance along the slope or level; rise or slope; temperature. Optional: from, to, note (courses.h).
//  CSV of levels  station, backsight, intermediate, foresight, known: one leg with its heights (level_notes.h).
// A walk that ends within reach of its start is a loop; ends near another leg are brought onto it (a tee).
// Errors name `line`, `element` or JSON pointer as place: `file.*`, `walk.unknown_kind`, `walk.no_line` (fewer than two places), `walk.not_xml`,
// `walk.not_json`, `walk.too_deep`, `walk.bad_number`, `walk.not_degrees`, `walk.too_wide` (over 200 km), `walk.too_many_points`, `csv.*`, `survey.*`,
// and those of geodesy, track, traverse, bearing, levels.
Result<WalkedSite> read_walk(std::string_view bytes, const WalkOptions& options = {});

// ESRI ASCII grid: ncols, nrows, xllcorner or xllcenter, yllcorner or yllcenter, cellsize, NODATA_value (optional), rows from the north.
// Errors: `file.*`, `grid.header` (value key), `grid.size` (over 16 million cells), `grid.count`, `grid.bad_number`, `grid.degrees` (a cell in degrees).
// `unit`: of coordinates and heights, metres unless the grid's projection says feet.
Result<job::GroundGrid> read_grid(std::string_view bytes, measure::Length false_east = {}, measure::Length false_north = {},
                                  measure::Length unit = measure::Length::mm(1000));

}  // namespace railwright::formats
