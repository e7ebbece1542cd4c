// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "engine/ground/geodesy.h"
#include "tests/formats/samples.h"

namespace railwright::formats {
namespace {

using measure::Length;

std::string code_of(const std::string& bytes) {
  const auto walk = read_walk(bytes);
  return walk ? "read" : walk.error().code;
}

// The same text as UTF-16 with a byte order mark.
std::string utf16(const std::string& ascii, bool big) {
  std::string out = big ? "\xFE\xFF" : "\xFF\xFE";
  for (const char c : ascii) {
    if (big) out += '\0';
    out += c;
    if (!big) out += '\0';
  }
  return out;
}

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size())) text.replace(at, what.size(), with);
  return text;
}

TEST(Walk, GpxRouteBecomesPointsAsTheyAre) {
  const auto walk = read_walk(kRoute);
  ASSERT_TRUE(walk) << walk.error().code;
  EXPECT_EQ(walk->kind, WalkKind::gpx);
  EXPECT_EQ(walk->name, "Invented paddock");
  const job::Site& site = walk->site;
  ASSERT_EQ(site.points.size(), 3u);
  EXPECT_EQ(site.points[0].id, "NW");
  EXPECT_EQ(site.points[2].note, "Far end of the long lane");  // too long for a name on a drawing
  ASSERT_EQ(site.legs.size(), 2u);
  ASSERT_TRUE(site.origin);
  EXPECT_EQ(site.points[0].height, Length::mm(210500));
  // Legs against the geodesic, lifted to the origin's height.
  const auto line = ground::geodesic({45, 7, 0}, {45.001, 7.0006, 0});
  ASSERT_TRUE(line);
  EXPECT_NEAR(leg_length(site, 0), line->length * (1 + 210 / 6.37e6), 0.001);
  ASSERT_EQ(site.gates.size(), 1u);
  EXPECT_EQ(site.gates[0].leaf, Length::feet(12));
  EXPECT_EQ(site.gates[0].leg, site.legs[0].id);
  EXPECT_TRUE(told(walk->findings, "walk.approximate"));
}

TEST(Walk, GpxWaypointsAloneMakeTheLine) {
  std::string gpx = "<gpx version=\"1.1\" xmlns=\"http://www.topografix.com/GPX/1/1\">";
  for (const char* wpt :
       {"<wpt lat=\"45\" lon=\"7\"/>", "<wpt lat=\"45\" lon=\"7.001\"/>", "<wpt lat=\"45.001\" lon=\"7.001\"/>", "<wpt lat=\"45\" lon=\"7\"/>"})
    gpx += wpt;
  const auto walk = read_walk(gpx + "</gpx>");
  ASSERT_TRUE(walk);
  EXPECT_EQ(walk->site.points.size(), 3u);  // the last joins the first
  EXPECT_EQ(walk->site.legs.size(), 3u);
  EXPECT_EQ(walk->site.points[2].id, "C");
  EXPECT_EQ(walk->site.legs[2].id, "CA");
}

TEST(Walk, GeoJsonLoopTeeFencesAndGate) {
  const auto walk = read_walk(kGeoJson);
  ASSERT_TRUE(walk) << walk.error().code << walk.error().place;
  EXPECT_EQ(walk->kind, WalkKind::geojson);
  const job::Site& site = walk->site;
  ASSERT_EQ(site.points.size(), 6u);
  ASSERT_EQ(site.legs.size(), 5u);
  EXPECT_EQ(site.legs[0].fence, "mesh");
  EXPECT_EQ(site.legs[4].fence, "lane");
  // The lane's foot, drawn 11 cm off, now lies on the first side.
  EXPECT_LT(measure::abs(site.points[4].north), Length::mm(5));
  ASSERT_EQ(site.gates.size(), 1u);
  EXPECT_EQ(site.gates[0].leaf, Length::feet(10));
  EXPECT_EQ(site.gates[0].leg, site.legs[0].id);
}

TEST(Walk, KmlLineAndGate) {
  const auto walk = read_walk(kKml);
  ASSERT_TRUE(walk) << walk.error().code;
  EXPECT_EQ(walk->kind, WalkKind::kml);
  EXPECT_EQ(walk->name, "Invented yard");
  EXPECT_EQ(walk->site.points.size(), 3u);
  EXPECT_EQ(walk->site.gates.size(), 1u);
  EXPECT_FALSE(walk->site.points[0].height);  // a drawn 0 is no height
}

TEST(Walk, SurveyPointsInFeetAreExact) {
  const auto walk = read_walk(kPlaces);
  ASSERT_TRUE(walk) << walk.error().code << walk.error().place;
  const job::Site& site = walk->site;
  ASSERT_EQ(site.points.size(), 3u);
  EXPECT_EQ(site.points[1].east, Length::feet(200));
  EXPECT_EQ(site.points[2].north, Length::feet(150));
  EXPECT_EQ(*site.points[2].height, Length::feet(104) + Length::inches(6));
  ASSERT_EQ(site.legs.size(), 3u);  // closed: A2 stands on A
  ASSERT_EQ(site.gates.size(), 1u);
  EXPECT_EQ(site.gates[0].station, Length::feet(100));
}

TEST(Walk, TheSameSurveyInOtherClothes) {
  const auto plain = read_walk(kPlaces);
  ASSERT_TRUE(plain);
  const std::string clothes[] = {"\xEF\xBB\xBF" + kPlaces,
                                 replaced(kPlaces, "\n", "\r\n"),
                                 replaced(kPlaces, "\n", "\r"),
                                 utf16(kPlaces, true),
                                 utf16(kPlaces, false),
                                 utf16(kPlaces, false).substr(2),
                                 replaced(replaced(kPlaces, ",", ";"), "104.5", "104,5"),
                                 replaced(kPlaces, ",", "\t")};
  for (const std::string& bytes : clothes) {
    const auto walk = read_walk(bytes);
    ASSERT_TRUE(walk) << walk.error().code << " " << walk.error().place;
    job::Job a, b;
    a.site = plain->site;
    b.site = walk->site;
    EXPECT_EQ(job::write_job(a), job::write_job(b));
  }
}

TEST(Walk, UnitsComeFromHeaderCellsOrTheOption) {
  const auto cells = read_walk("E,N\n0,0\n\"12 ft 6 in\",0\n");
  ASSERT_TRUE(cells) << cells.error().code;
  EXPECT_EQ(cells->site.points[1].east, Length::inches(150));
  EXPECT_TRUE(told(cells->findings, "walk.unit_assumed"));
  WalkOptions metric;
  metric.unit = measure::BareNumber::metres;
  const auto option = read_walk("E,N\n0,0\n12.5,0\n", metric);
  ASSERT_TRUE(option);
  EXPECT_EQ(option->site.points[1].east, Length::mm(12500));
  const auto header = read_walk("Easting (m),Northing (m)\n0,0\n12.5,0\n");
  ASSERT_TRUE(header);
  EXPECT_EQ(header->site.points[1].east, Length::mm(12500));
  EXPECT_FALSE(told(header->findings, "walk.unit_assumed"));
}

TEST(Walk, FarSurveysGetAFalseOrigin) {
  const auto walk = read_walk("easting (m),northing (m)\n1757012.25,5917020.5\n1757112.25,5917020.5\n");
  ASSERT_TRUE(walk);
  EXPECT_EQ(walk->false_east, Length::mm(1757000000));
  EXPECT_EQ(walk->site.points[0].east, Length::mm(12250));
  EXPECT_EQ(walk->site.points[1].north, Length::mm(20500));
  EXPECT_TRUE(told(walk->findings, "walk.shifted"));
}

TEST(Walk, TapedLegsCloseByTheCompassRule) {
  const auto walk = read_walk(kCourses);
  ASSERT_TRUE(walk) << walk.error().code << walk.error().place;
  EXPECT_EQ(walk->kind, WalkKind::tape_legs);
  EXPECT_EQ(walk->site.points.size(), 4u);
  EXPECT_EQ(walk->site.legs.size(), 4u);
  EXPECT_TRUE(told(walk->findings, "walk.closure"));
  EXPECT_GT(walk->site.position_accuracy, Length());
  // Slope 150.5 with a rise of 3: 150.4701 level, less its share of the misclosure.
  EXPECT_NEAR(leg_length(walk->site, 1) / 0.3048, 150.4701, 0.1);
}

TEST(Walk, ALoopThatMissesItsStartIsToldSo) {
  const auto walk = read_walk("bearing,distance_ft\nN 90 E,200\nN 0 E,150\nS 90 W,200\nS 0 E,120\n");
  ASSERT_TRUE(walk) << walk.error().code << walk.error().place;
  EXPECT_EQ(walk->site.points.size(), 5u);  // 30 ft short in 670: more than 1/50, so open
  EXPECT_TRUE(told(walk->findings, "walk.left_open"));
  const auto line = read_walk("bearing,distance_ft\nN 90 E,200\nN 80 E,150\nN 85 E,200\n");
  ASSERT_TRUE(line) << line.error().code << line.error().place;
  EXPECT_FALSE(told(line->findings, "walk.left_open"));
}

TEST(Walk, TapedLegsCarryGates) {
  const auto walk = read_walk(
      "bearing,distance_ft,to,note\nN 90 E,200,B,gate 12 ft at 60 ft; puerta 4 ft a 100\nN 0 E,150,C,gate 10 ft\nS 90 W,200,D,old oak\nS 0 E,150,A,gate 8 ft "
      "at 900 ft\n",
      {});
  ASSERT_TRUE(walk);
  const auto& gates = walk->site.gates;
  ASSERT_EQ(gates.size(), 4u);
  EXPECT_EQ(gates[0].leg, walk->site.legs[0].id);
  EXPECT_NEAR(gates[0].station.metres(), 60 * 0.3048, 1e-3);
  EXPECT_EQ(gates[0].leaf, Length::feet(12));
  EXPECT_NEAR(gates[1].station.metres(), 100 * 0.3048, 1e-3);
  EXPECT_EQ(gates[1].leaf, Length::feet(4));
  EXPECT_EQ(gates[2].leg, walk->site.legs[1].id);
  EXPECT_NEAR(gates[2].station.metres(), 75 * 0.3048, 1e-3);
  EXPECT_NEAR(gates[3].station.metres(), 75 * 0.3048, 1e-3);  // beyond the leg: its middle
  EXPECT_EQ(std::count_if(walk->findings.begin(), walk->findings.end(), [](const Finding& f) { return f.code == "walk.gate_in_the_middle"; }), 2);
  EXPECT_EQ(walk->site.points[3].note, "old oak");
  EXPECT_TRUE(walk->site.points[1].note.empty());
}

TEST(Walk, DeflectionsAndLevelDistances) {
  const auto walk = read_walk("deflection,level distance (m)\n,100\nR 90,50\nL 90,30\n");
  ASSERT_TRUE(walk) << walk.error().code << walk.error().place;
  ASSERT_EQ(walk->site.points.size(), 4u);
  EXPECT_EQ(walk->site.points[3].east, Length::mm(50000));
  EXPECT_EQ(walk->site.points[3].north, Length::mm(130000));
}

TEST(Walk, StationsBecomeOneLevelledLeg) {
  const auto walk = read_walk(kStations);
  ASSERT_TRUE(walk) << walk.error().code;
  ASSERT_EQ(walk->site.legs.size(), 1u);
  EXPECT_EQ(walk->site.points[1].east, Length::feet(125) + Length::inches(6));
  ASSERT_EQ(walk->site.ground.profile.size(), 3u);
  EXPECT_EQ(walk->site.ground.profile[1].height, Length::inches(18));
}

TEST(Walk, BadFilesAreNamed) {
  const auto gpx = [](const std::string& inside) { return "<gpx version=\"1.1\">" + inside + "</gpx>"; };
  const struct {
    std::string bytes;
    const char* code;
  } rows[] = {{"", "file.empty"},
              {" \n\t ", "file.empty"},
              {"\xEF\xBB\xBF", "file.empty"},
              {std::string("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16), "file.binary"},
              {"PK\x03\x04rest", "file.archive"},
              {"%PDF-1.7 text", "file.binary"},
              {"<html><body/></html>", "walk.unknown_kind"},
              {gpx("<rte><rtept lat=\"1\""), "walk.not_xml"},
              {gpx(""), "walk.no_line"},
              {gpx("<wpt lat=\"45\" lon=\"7\"/>"), "walk.no_line"},
              {gpx("<rte><rtept lat=\"45\" lon=\"7\"/></rte>"), "walk.no_line"},
              {gpx("<rte><rtept lat=\"NaN\" lon=\"7\"/><rtept lat=\"45\" lon=\"7\"/></rte>"), "walk.bad_number"},
              {gpx("<rte><rtept lat=\"1e308\" lon=\"7\"/><rtept lat=\"45\" lon=\"7\"/></rte>"), "walk.bad_number"},
              {gpx("<rte><rtept lat=\"-110.5\" lon=\"45\"/><rtept lat=\"-110.6\" lon=\"45\"/></rte>"), "geodesy.latitude"},
              {gpx("<rte><rtept lat=\"5917020\" lon=\"1757012\"/><rtept lat=\"5917021\" lon=\"1757012\"/></rte>"), "walk.not_degrees"},
              {gpx("<rte><rtept lat=\"0\" lon=\"0\"/><rtept lat=\"45\" lon=\"7\"/></rte>"), "walk.too_wide"},
              {"{\"type\": \"FeatureCollection\"", "walk.not_json"},
              {"{\"type\": \"Sculpture\", \"coordinates\": []}", "walk.not_geojson"},
              {"[1, 2]", "walk.not_geojson"},
              {std::string(100000, '['), "walk.too_deep"},
              {"{\"type\": \"LineString\", \"coordinates\": [[7, 45], [\"x\", 45]]}", "walk.bad_number"},
              {"{\"type\": \"LineString\", \"coordinates\": [[7, 45], [7, 1e400]]}", "walk.not_json"},
              {"{\"type\": \"LineString\", \"coordinates\": [[7, 45], [7, 45]]}", "walk.no_line"},
              {"hello", "csv.no_header"},
              {"east,north\n", "csv.no_rows"},
              {"apples,pears\n1,2\n", "csv.unknown_columns"},
              {"east,north\n1,two\n3,4\n", "csv.length"},
              {"east,north\n1,NaN\n3,4\n", "csv.length"},
              {"east,north\n1,1e308\n3,4\n", "csv.length"},
              {"east,north\n\"1,2\n", "csv.open_quote"},
              {"east,north\n1,2,3\n", "csv.too_many_cells"},
              {"east,north\n1,2\n", "walk.no_line"},
              {"bearing,distance\nup,10\n", "bearing.not_a_bearing"},
              {"bearing,distance\n0,0\n", "traverse.distance"},
              {"bearing,slope,rise\n0,10,11\n", "tape.rise"},
              {"lat,lon\n91,7\n45,7\n", "geodesy.latitude"},
              {kGrid, "walk.is_grid"}};
  for (const auto& row : rows) EXPECT_EQ(code_of(row.bytes), row.code) << row.bytes.substr(0, 80);
  EXPECT_EQ(code_of(std::string((64u << 20) + 1, ' ')), "file.too_large");
  const auto error = read_walk("east,north\n0,0\n1,two\n").error();
  EXPECT_EQ(error.place, "3, north");
}

// A document type that would blow up by entity expansion stays unexpanded.
TEST(Walk, EntitiesAreNotExpanded) {
  const std::string bomb =
      "<!DOCTYPE g [<!ENTITY a \"xxxxxxxxxx\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">]><gpx><metadata><name>&b;</name></metadata>"
      "<rte><rtept lat=\"45\" lon=\"7\"/><rtept lat=\"45\" lon=\"7.001\"/></rte></gpx>";
  const auto walk = read_walk(bomb);
  ASSERT_TRUE(walk) << walk.error().code;
  EXPECT_EQ(walk->name, "&b;");
}

TEST(Grid, RowsAreReversedAndMissingCellsKept) {
  const auto grid = read_grid(kGrid);
  ASSERT_TRUE(grid) << grid.error().code;
  EXPECT_EQ(grid->columns, 3);
  EXPECT_EQ(grid->west, Length());
  EXPECT_EQ(grid->heights_m[0], 4);
  EXPECT_TRUE(grid->heights_m[1] != grid->heights_m[1]);
  EXPECT_EQ(grid->heights_m[5], 3);
}

TEST(Grid, BadGridsAreNamed) {
  const auto code = [](const std::string& bytes) { return read_grid(bytes).error().code; };
  EXPECT_EQ(code("ncols 0\nnrows 2\n"), "grid.header");
  EXPECT_EQ(code(replaced(kGrid, "cellsize 10", "cellsize 0.0001")), "grid.degrees");
  EXPECT_EQ(code(replaced(kGrid, "cellsize 10", "cellsize nan")), "grid.header");
  EXPECT_EQ(code(kGrid + "7"), "grid.count");
  EXPECT_EQ(code(replaced(kGrid, "1 2 3", "1 2")), "grid.count");
  EXPECT_EQ(code(replaced(kGrid, "1 2 3", "1 2 x")), "grid.bad_number");
  EXPECT_EQ(code(replaced(kGrid, "ncols 3", "ncols 99999")), "grid.count");
  EXPECT_EQ(code(replaced(replaced(kGrid, "ncols 3", "ncols 99999"), "nrows 2", "nrows 99999")), "grid.size");
  EXPECT_EQ(code(""), "file.empty");
}

}  // namespace
}  // namespace railwright::formats
