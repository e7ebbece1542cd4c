// SPDX-License-Identifier: MIT
#pragma once

#include <utility>

#include "engine/job/rule.h"

// The document, key by key: the one list from which a job is read, checked, written and compared, and against which the schema is tested.
// `Fields<T>::each(visit)` calls `visit(key, &T::member, rule)` for every key of T, in the order in which keys are written.
namespace railwright::job {

template <class T>
struct Fields;

template <class T>
concept Described = requires {
  sizeof(Fields<T>);
};

using Place = std::pair<Length, Length>;
template <>
struct Fields<Place> {
  static void each(auto&& field) {
    field("east", &Place::first, required(kPlace));
    field("north", &Place::second, required(kPlace));
  }
};

template <>
struct Fields<Point> {
  static void each(auto&& field) {
    field("id", &Point::id, id_of(Kind::point));
    field("east", &Point::east, required(kPlace));
    field("north", &Point::north, required(kPlace));
    field("height", &Point::height, kPlace);
    field("note", &Point::note);
    field("accuracy", &Point::accuracy, kSize);
  }
};

template <>
struct Fields<Arc> {
  static void each(auto&& field) {
    field("turns", &Arc::turns);
    field("radius", &Arc::radius, kSize);
    field("diameter", &Arc::diameter, kSize);
    field("middle_ordinate", &Arc::middle_ordinate, kSize);
    field("turn_deg", &Arc::turn_deg, between(0, 359));
    field("centre", &Arc::centre);
    field("bearing_deg", &Arc::bearing_deg, between(-360, 360));
    field("sides", &Arc::sides, between(0, 100'000));
  }
};

template <>
struct Fields<Leg> {
  static void each(auto&& field) {
    field("id", &Leg::id, id_of(Kind::leg));
    field("from", &Leg::from, required(refers_to(Kind::point)));
    field("to", &Leg::to, required(refers_to(Kind::point)));
    field("fence", &Leg::fence, required(refers_to(Kind::fence)));
    field("animal_side", &Leg::animal_side);
    field("fixed", &Leg::fixed, kSize);
    field("arc", &Leg::arc);
  }
};

template <>
struct Fields<Zone> {
  static void each(auto&& field) {
    field("id", &Zone::id, id_of(Kind::zone));
    field("kind", &Zone::kind);
    field("shape", &Zone::shape);
    field("area", &Zone::area);
    field("leg", &Zone::leg, refers_to(Kind::leg));
    field("from", &Zone::from, kPlace);
    field("to", &Zone::to, kPlace);
    field("tolerance", &Zone::tolerance, kSize);
    field("note", &Zone::note);
  }
};

template <>
struct Fields<Gate> {
  static void each(auto&& field) {
    field("id", &Gate::id, id_of(Kind::gate));
    field("leg", &Gate::leg, required(refers_to(Kind::leg)));
    field("station", &Gate::station, required(kSize));
    field("leaf", &Gate::leaf, required(between(Length::inches(12), Length::feet(40))));
    field("hinge", &Gate::hinge);
    field("swing", &Gate::swing);
    field("hinge_clearance", &Gate::hinge_clearance, kPart);
    field("latch_clearance", &Gate::latch_clearance, kPart);
    field("leaf_mass_kg", &Gate::leaf_mass_kg, between(0, 5000));
    field("supply", &Gate::supply, refers_to(Kind::supply));
    field("ground_clearance", &Gate::ground_clearance, kPart);
  }
};

template <>
struct Fields<SpotHeight> {
  static void each(auto&& field) {
    field("east", &SpotHeight::east, required(kPlace));
    field("north", &SpotHeight::north, required(kPlace));
    field("height", &SpotHeight::height, required(kPlace));
  }
};

template <>
struct Fields<ProfileHeight> {
  static void each(auto&& field) {
    field("leg", &ProfileHeight::leg, required(refers_to(Kind::leg)));
    field("station", &ProfileHeight::station, required(kPlace));
    field("height", &ProfileHeight::height, required(kPlace));
  }
};

template <>
struct Fields<GroundGrid> {
  static void each(auto&& field) {
    field("columns", &GroundGrid::columns, required(between(1, 100'000)));
    field("rows", &GroundGrid::rows, required(between(1, 100'000)));
    field("west", &GroundGrid::west, required(kPlace));
    field("south", &GroundGrid::south, required(kPlace));
    field("cell", &GroundGrid::cell, required(between(Length::mm(1), kFarthest)));
    field("heights_m", &GroundGrid::heights_m, required(between(-1e6, 1e6)));
  }
};

template <>
struct Fields<Ground> {
  static void each(auto&& field) {
    field("profile", &Ground::profile);
    field("spots", &Ground::spots);
    field("grid", &Ground::grid);
    field("accuracy", &Ground::accuracy, kSize);
  }
};

template <>
struct Fields<Origin> {
  static void each(auto&& field) {
    field("latitude_deg", &Origin::latitude_deg, required(between(-90, 90)));
    field("longitude_deg", &Origin::longitude_deg, required(between(-180, 180)));
    field("height_m", &Origin::height_m, between(-1000, 10'000));
  }
};

template <>
struct Fields<Site> {
  static void each(auto&& field) {
    field("origin", &Site::origin);
    field("points", &Site::points);
    field("legs", &Site::legs);
    field("gates", &Site::gates);
    field("zones", &Site::zones);
    field("ground", &Site::ground);
    field("snap", &Site::snap, kSmall);
    field("position_accuracy", &Site::position_accuracy, kSize);
  }
};

template <>
struct Fields<Spacing> {
  static void each(auto&& field) {
    field("mode", &Spacing::mode);
    field("cap", &Spacing::cap, between(Length::inches(12), Length::feet(100)));
    field("pitch", &Spacing::pitch, kSmall);
    field("list", &Spacing::list, between(Length::inches(6), Length::feet(100)));
    field("panel", &Spacing::panel, kSmall);
    field("looks", &Spacing::looks, between(0, 1000));
    field("alike", &Spacing::alike, kPart);
  }
};

template <>
struct Fields<Infill> {
  static void each(auto&& field) {
    field("supply", &Infill::supply, refers_to(Kind::supply));
    field("height", &Infill::height, kSmall);
    field("ground_gap", &Infill::ground_gap, kSmall);
    field("wires", &Infill::wires, between(0, 30));
    field("wire_heights", &Infill::wire_heights, kSmall);
    field("tension_n", &Infill::tension, between(0, 20'000));
  }
};

template <>
struct Fields<Braces> {
  static void each(auto&& field) {
    field("ends", &Braces::ends);
    field("corners", &Braces::corners);
    field("gates", &Braces::gates);
    field("corner_from_deg", &Braces::corner_from_deg, between(0, 180));
    field("bay", &Braces::bay, kSmall);
    field("every", &Braces::every, kSize);
    field("rail_height", &Braces::rail_height, kSmall);
  }
};

template <>
struct Fields<Fence> {
  static void each(auto&& field) {
    field("id", &Fence::id, id_of(Kind::fence));
    field("kind", &Fence::kind);
    field("animal", &Fence::animal, refers_to(Kind::animal));
    field("height", &Fence::height, required(between(Length::inches(12), Length::feet(20))));
    field("rails", &Fence::rails, between(0, 6));
    field("rail_centres", &Fence::rail_centres, kSmall);
    field("line", &Fence::line);
    field("line_tolerance", &Fence::line_tolerance, kPart);
    field("spacing", &Fence::spacing);
    field("rail_pipe", &Fence::rail_pipe, refers_to(Kind::pipe));
    field("line_pipe", &Fence::line_pipe, refers_to(Kind::pipe));
    field("strong_pipe", &Fence::strong_pipe, refers_to(Kind::pipe));
    field("gate_pipe", &Fence::gate_pipe, refers_to(Kind::pipe));
    field("setting", &Fence::setting);
    field("soil", &Fence::soil, refers_to(Kind::soil));
    field("embedment", &Fence::embedment, between(Length(), Length::feet(20)));
    field("strong_embedment", &Fence::strong_embedment, between(Length(), Length::feet(20)));
    field("gate_embedment", &Fence::gate_embedment, between(Length(), Length::feet(20)));
    field("hole", &Fence::hole, kPart);
    field("frost_depth", &Fence::frost_depth, between(Length(), Length::feet(20)));
    field("infill", &Fence::infill);
    field("braces", &Fence::braces);
    field("capped", &Fence::capped);
  }
};

template <>
struct Fields<Cutting> {
  static void each(auto&& field) {
    field("kerf", &Cutting::kerf, between(Length(), Length::inches(2)));
    field("crop", &Cutting::crop, kPart);
    field("saw_step", &Cutting::saw_step, between(Length::from_nm(1000), Length::inches(1)));
    field("keep_from", &Cutting::keep_from, kSmall);
    field("drop_value", &Cutting::drop_value, kShare);
    field("work_limit", &Cutting::work_limit, between(0, 2e9));
    field("spacing_work_limit", &Cutting::spacing_work_limit, between(0, 2e9));
    field("order", &Cutting::order);
  }
};

template <>
struct Fields<StockOffer> {
  static void each(auto&& field) {
    field("name", &StockOffer::name, id_of(Kind::offer));
    field("pipe", &StockOffer::pipe, required(refers_to(Kind::pipe)));
    field("length", &StockOffer::length, required(between(Length::inches(1), Length::feet(200))));
    field("price", &StockOffer::price);
    field("count", &StockOffer::count, between(0, 1'000'000));
    field("source", &StockOffer::source);
  }
};

template <>
struct Fields<Allowances> {
  static void each(auto&& field) {
    field("scatter", &Allowances::scatter, kPart);
    field("squaring", &Allowances::squaring, kPart);
    field("stick_tolerance", &Allowances::stick_tolerance, kPart);
    field("running_short", &Allowances::running_short, between(1e-6, 0.5));
    field("earth_width", &Allowances::earth_width, kPart);
  }
};

template <>
struct Fields<Crew> {
  static void each(auto&& field) {
    field("people", &Crew::people, between(1, 100));
    field("setup_minutes_per_day", &Crew::setup_minutes_per_day, between(0, 1440));
    field("travel_minutes_per_day", &Crew::travel_minutes_per_day, between(0, 1440));
    field("hours_per_day", &Crew::hours_per_day, between(0.5, 24));
    field("hourly", &Crew::hourly, between(0, 10'000));
  }
};

template <>
struct Fields<Trailer> {
  static void each(auto&& field) {
    field("bed", &Trailer::bed, between(Length::feet(1), Length::feet(100)));
    field("payload_kg", &Trailer::payload_kg, between(1, 100'000));
  }
};

template <>
struct Fields<PriceRules> {
  static void each(auto&& field) {
    field("overhead", &PriceRules::overhead, between(0, 10));
    field("tax", &PriceRules::tax, kShare);
    field("profit", &PriceRules::profit, between(0, 10));
    field("currency", &PriceRules::currency);
  }
};

template <>
struct Fields<Pipe> {
  static void each(auto&& field) {
    field("id", &Pipe::id, id_of(Kind::pipe));
    field("diameter", &Pipe::diameter, required(between(Length::mm(5), Length::feet(4))));
    field("wall", &Pipe::wall, required(between(Length::from_nm(100'000), Length::feet(2))));
    field("design_wall_factor", &Pipe::design_wall_factor, between(0.5, 1));
    field("mass_kg_per_m", &Pipe::mass_kg_per_m, required(between(0.01, 2000)));
    field("yield_mpa", &Pipe::yield_mpa, required(between(50, 2000)));
    field("source", &Pipe::source, required());
  }
};

template <>
struct Fields<Fitting> {
  static void each(auto&& field) {
    field("id", &Fitting::id, id_of(Kind::fitting));
    field("kind", &Fitting::kind);
    field("post_diameter", &Fitting::post_diameter, kPart);
    field("rail_diameter", &Fitting::rail_diameter, kPart);
    field("port_angle_deg", &Fitting::port_angle_deg, between(0, 180));
    field("angle_tolerance_deg", &Fitting::angle_tolerance_deg, between(0, 90));
    field("tilt_limit_deg", &Fitting::tilt_limit_deg, between(0, 90));
    field("take_off", &Fitting::take_off, kPart);
    field("bolt_offset", &Fitting::bolt_offset, kPart);
    field("band_height", &Fitting::band_height, kPart);
    field("sleeve_diameter", &Fitting::sleeve_diameter, kPart);
    field("sleeve_depth", &Fitting::sleeve_depth, kPart);
    field("least_engagement", &Fitting::least_engagement, kPart);
    field("axial_push_n", &Fitting::axial_push, between(0, 1e6));
    field("axial_pull_n", &Fitting::axial_pull, between(0, 1e6));
    field("bolts", &Fitting::bolts, between(0, 100));
    field("nuts", &Fitting::nuts, between(0, 100));
    field("price", &Fitting::price);
    field("mass_kg", &Fitting::mass_kg, between(0, 1000));
    field("source", &Fitting::source, required());
  }
};

template <>
struct Fields<Animal> {
  static void each(auto&& field) {
    field("id", &Animal::id, id_of(Kind::animal));
    field("least_height", &Animal::least_height, kSmall);
    field("largest_bottom_gap", &Animal::largest_bottom_gap, kSmall);
    field("smallest_bottom_gap", &Animal::smallest_bottom_gap, kSmall);
    field("largest_opening", &Animal::largest_opening, kSmall);
    field("trap_from", &Animal::trap_from, kSmall);
    field("trap_to", &Animal::trap_to, kSmall);
    field("push_n", &Animal::push, between(0, 100'000));
    field("source", &Animal::source, required());
  }
};

template <>
struct Fields<Soil> {
  static void each(auto&& field) {
    field("id", &Soil::id, id_of(Kind::soil));
    field("lateral_pa_per_m", &Soil::lateral_pa_per_m, between(0, 1e8));
    field("bearing_pa", &Soil::bearing_pa, between(0, 1e9));
    field("isolated_pole_doubled", &Soil::isolated_pole_doubled);
    field("source", &Soil::source, required());
  }
};

template <>
struct Fields<PriceRow> {
  static void each(auto&& field) {
    field("item", &PriceRow::item, id_of(Kind::price));
    field("unit", &PriceRow::unit);
    field("price", &PriceRow::price);
    field("pack", &PriceRow::pack, between(1e-3, 1e6));
    field("source", &PriceRow::source, required());
    field("date", &PriceRow::date);
  }
};

template <>
struct Fields<Supply> {
  static void each(auto&& field) {
    field("id", &Supply::id, id_of(Kind::supply));
    field("kind", &Supply::kind, required());
    field("width", &Supply::width, kSmall);
    field("length", &Supply::length, kSize);
    field("volume_m3", &Supply::volume_m3, between(0, 1000));
    field("mass_kg", &Supply::mass_kg, between(0, 100'000));
    field("strength_n", &Supply::strength_n, between(0, 1e6));
    field("diameter_mm", &Supply::diameter_mm, between(0, 100));
    field("source", &Supply::source, required());
  }
};

template <>
struct Fields<HourRow> {
  static void each(auto&& field) {
    field("operation", &HourRow::operation, id_of(Kind::hour));
    field("unit", &HourRow::unit, required());
    field("minutes", &HourRow::minutes, between(0, 10'000));
    field("source", &HourRow::source, required());
  }
};

template <>
struct Fields<Catalogue> {
  static void each(auto&& field) {
    field("pipes", &Catalogue::pipes);
    field("fittings", &Catalogue::fittings);
    field("animals", &Catalogue::animals);
    field("soils", &Catalogue::soils);
    field("prices", &Catalogue::prices);
    field("supplies", &Catalogue::supplies);
    field("hours", &Catalogue::hours);
  }
};

template <>
struct Fields<Mend> {
  static void each(auto&& field) {
    field("leg", &Mend::leg, required());
    field("station", &Mend::station, required(kSize));
    field("way", &Mend::way);
  }
};

template <>
struct Fields<Choices> {
  static void each(auto&& field) {
    field("fences", &Choices::fences);
    field("cutting", &Choices::cutting);
    field("offers", &Choices::offers);
    field("allowances", &Choices::allowances);
    field("crew", &Choices::crew);
    field("trailer", &Choices::trailer);
    field("price", &Choices::price);
    field("projection", &Choices::projection, kPart);
    field("trim", &Choices::trim, kPart);
    field("clearance_accuracy", &Choices::clearance_accuracy, kSmall);
    field("plumb_tolerance", &Choices::plumb_tolerance, kPart);
    field("mends", &Choices::mends);
    field("overrides", &Choices::overrides);
  }
};

template <>
struct Fields<SetPost> {
  static void each(auto&& field) {
    field("name", &SetPost::name, id_of(Kind::set_post));
    field("leg", &SetPost::leg, required(refers_to(Kind::leg)));
    field("station", &SetPost::station, required(kPlace));
    field("offset", &SetPost::offset, kPlace);
    field("diameter", &SetPost::diameter, between(Length::mm(5), Length::feet(4)));
  }
};

template <>
struct Fields<MeasuredGap> {
  static void each(auto&& field) {
    field("bay", &MeasuredGap::bay, required());
    field("rail", &MeasuredGap::rail, between(1, 6));
    field("gap", &MeasuredGap::gap, required(kSize));
    field("way", &MeasuredGap::way);
  }
};

template <>
struct Fields<CutRail> {
  static void each(auto&& field) {
    field("rail", &CutRail::rail, required());
    field("length", &CutRail::length, required(kSize));
  }
};

template <>
struct Fields<HeldStick> {
  static void each(auto&& field) {
    field("name", &HeldStick::name, id_of(Kind::stick));
    field("pipe", &HeldStick::pipe, required(refers_to(Kind::pipe)));
    field("length", &HeldStick::length, required(between(Length::inches(1), Length::feet(200))));
    field("count", &HeldStick::count, between(0, 1'000'000));
    field("crop", &HeldStick::crop, kPart);
  }
};

template <>
struct Fields<Field> {
  static void each(auto&& field) {
    field("posts", &Field::posts);
    field("gaps", &Field::gaps);
    field("cut", &Field::cut);
    field("sticks", &Field::sticks);
    field("done", &Field::done);
  }
};

template <>
struct Fields<IssuedPost> {
  static void each(auto&& field) {
    field("name", &IssuedPost::name, id_of(Kind::issued_post));
    field("leg", &IssuedPost::leg);  // the leg may be gone by now
    field("station", &IssuedPost::station, kPlace);
    field("retired", &IssuedPost::retired);
  }
};

template <>
struct Fields<IssuedBay> {
  static void each(auto&& field) {
    field("name", &IssuedBay::name, id_of(Kind::issued_bay));
    field("from", &IssuedBay::from);
    field("to", &IssuedBay::to);
    field("retired", &IssuedBay::retired);
  }
};

template <>
struct Fields<Issued> {
  static void each(auto&& field) {
    field("posts", &Issued::posts);
    field("bays", &Issued::bays);
  }
};

template <>
struct Fields<Job> {
  static void each(auto&& field) {
    field("version", &Job::version, between(1, 1));
    field("name", &Job::name);
    field("date", &Job::date);
    field("note", &Job::note);
    field("invented", &Job::invented);
    field("units", &Job::units);
    field("language", &Job::language);
    field("site", &Job::site);
    field("choices", &Job::choices);
    field("field", &Job::field);
    field("issued", &Job::issued);
  }
};

}  // namespace railwright::job
