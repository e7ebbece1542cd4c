// SPDX-License-Identifier: MIT
#include "tests/sheets/paddock.h"

#include <fstream>
#include <iterator>

namespace railwright::sheets::testing {
namespace {

using measure::Length;
using measure::Money;

const Length kPitch = Length::sixty_fourths(89 * 64 + 16);  // 7 ft 5 1/4 in
const Length kDiameter = Length::sixty_fourths(152);        // 2 3/8 in

void add_catalogue(job::Catalogue& c) {
  c.pipes.push_back({"2-3/8 sch40", kDiameter, Length::sixty_fourths(10), 0.93, 5.447, 241, "invented"});
  for (const auto kind : {job::FittingKind::end, job::FittingKind::through, job::FittingKind::corner}) {
    job::Fitting f;
    f.id = kind == job::FittingKind::end ? "end 2-3/8" : kind == job::FittingKind::through ? "through 2-3/8" : "corner 2-3/8";
    f.kind = kind;
    c.fittings.push_back(f);
  }
}

struct Builder {
  Paddock out;
  PaddockSize size;

  std::string named(const std::string& name) const { return size.prefix + name; }
  double ground(double x, double y) const { return 0.02 * x + 0.01 * y; }

  int add_post(const std::string& name, setout::PostKind kind, double x, double y) {
    setout::Post p;
    p.name = named(name);
    p.kind = kind;
    p.at = {x, y};
    p.pipe = "2-3/8 sch40";
    p.diameter = kDiameter;
    p.ground = ground(x, y);
    out.plan.layout.posts.push_back(p);
    takeoff::PostSize s;
    s.above_ground = Length::inches(63);
    s.embedment = Length::inches(30);
    s.length = s.above_ground + s.embedment + Length::inches(1);
    s.hole_diameter = Length::sixty_fourths(608);
    s.hole_depth = Length::inches(32);
    s.concrete_m3 = 0.045;
    out.plan.takeoff.posts.push_back(s);
    return static_cast<int>(out.plan.layout.posts.size()) - 1;
  }

  void add_rails(int bay) {
    const auto& b = out.plan.layout.bays[static_cast<std::size_t>(bay)];
    grade::BayHeights heights;
    for (int k = 1; k <= size.rails; ++k) {
      const Length up = Length::inches(60) * (size.rails - k + 1) / size.rails - kDiameter / 2;
      const auto at = [&](int post) { return Length::from_metres(out.plan.layout.posts[static_cast<std::size_t>(post)].ground) + up; };
      heights.rails.push_back({at(b.from), at(b.to)});
      fittings::Rail rail;
      rail.name = b.name + "/" + std::to_string(k);
      rail.bay = bay;
      rail.number = k;
      rail.pipe = "2-3/8 sch40";
      rail.gap = b.gap;
      rail.take_off = Length::inches(3);
      rail.length = rail.cut = b.gap - Length::inches(3);
      rail.measured = size.measured;
      out.plan.assembly.rails.push_back(rail);
    }
    out.plan.heights.bays.push_back(heights);
  }

  // One leg of equal bays from one corner to the next; the gate, if any, takes the place of bay `gate`.
  void add_leg(int leg, int from, int to, int bays, int gate) {
    auto& layout = out.plan.layout;
    const setout::Vec2 a = layout.posts[static_cast<std::size_t>(from)].at, b = layout.posts[static_cast<std::size_t>(to)].at;
    const Length length = kPitch * bays;
    const setout::Vec2 along{(b.x - a.x) / length.metres(), (b.y - a.y) / length.metres()};
    layout.legs.push_back({a, b, length, along});
    ground::Profile profile;
    profile.source = ground::Source::levelled;
    profile.points = {{0, ground(a.x, a.y)}, {length.metres(), ground(b.x, b.y)}};
    layout.profiles.push_back(profile);
    layout.posts[static_cast<std::size_t>(from)].on.push_back({leg, Length()});
    const std::string id = out.job.site.legs[static_cast<std::size_t>(leg)].id;
    setout::Run run;
    run.leg = leg;
    run.from = from;
    run.first_bay = static_cast<int>(layout.bays.size());
    int before = from;
    for (int k = 1; k <= bays; ++k) {
      const bool at_gate = gate > 0 && (k == gate || k == gate + 1);
      const int post = k == bays
                           ? to
                           : add_post(at_gate ? (k == gate ? "Gh" : "Gl") : id + std::to_string(k), at_gate ? setout::PostKind::gate : setout::PostKind::line,
                                      a.x + along.x * (kPitch * k).metres(), a.y + along.y * (kPitch * k).metres());
      layout.posts[static_cast<std::size_t>(post)].on.push_back({leg, kPitch * k});
      add_bay(leg, id, k, before, post, gate > 0 && k == gate + 1);
      if (at_gate || k == bays) end_run(run, post);
      before = post;
    }
  }

  void add_bay(int leg, const std::string& id, int k, int from, int to, bool is_gate) {
    auto& layout = out.plan.layout;
    setout::Bay bay;
    bay.name = named(id) + "." + std::to_string(k);
    bay.kind = is_gate ? setout::BayKind::gate : setout::BayKind::fence;
    bay.leg = leg;
    bay.run = is_gate ? -1 : static_cast<int>(layout.runs.size());
    bay.from = from;
    bay.to = to;
    bay.start = kPitch * (k - 1);
    bay.end = kPitch * k;
    bay.pitch = kPitch;
    bay.gap = kPitch - kDiameter;
    bay.gate = is_gate ? "G" : "";
    layout.bays.push_back(bay);
    if (is_gate) {
      out.plan.heights.bays.push_back({});
    } else {
      add_rails(static_cast<int>(layout.bays.size()) - 1);
    }
  }

  void end_run(setout::Run& run, int post) {
    auto& layout = out.plan.layout;
    run.bay_count = static_cast<int>(layout.bays.size()) - run.first_bay;
    run.to = post;
    run.name = layout.posts[static_cast<std::size_t>(run.from)].name + "-" + layout.posts[static_cast<std::size_t>(post)].name;
    const bool opening = layout.bays.back().kind == setout::BayKind::gate;
    if (!opening) layout.runs.push_back(run);
    run.from = post;
    run.first_bay = static_cast<int>(layout.bays.size());
  }

  void add_uses() {
    const auto& layout = out.plan.layout;
    for (int p = 0; p < static_cast<int>(layout.posts.size()); ++p)
      for (int k = size.rails; k >= 1; --k) {
        fittings::Use use;
        use.post = p;
        for (int b = 0; b < static_cast<int>(layout.bays.size()); ++b) {
          const auto& bay = layout.bays[static_cast<std::size_t>(b)];
          if (bay.kind == setout::BayKind::gate) continue;
          if (bay.from == p) use.serves.push_back({b, k, true});
          if (bay.to == p) use.serves.push_back({b, k, false});
        }
        if (use.serves.empty()) continue;
        use.fitting = use.serves.size() == 1 ? 0 : layout.posts[static_cast<std::size_t>(p)].kind == setout::PostKind::corner ? 2 : 1;
        use.height = Length::inches(60) * (size.rails - k + 1) / size.rails - kDiameter / 2;
        use.below_top = Length::inches(60) * (k - 1) / size.rails;
        out.plan.assembly.uses.push_back(use);
      }
  }

  void add_cuts() {
    std::vector<cutting::Piece> pieces;
    std::vector<takeoff::PieceSource> sources;
    const auto& rails = out.plan.assembly.rails;
    for (std::size_t r = 0; r < rails.size(); ++r) {
      pieces.push_back({rails[r].name, rails[r].cut, 1, rails[r].bay});
      sources.push_back({takeoff::PieceKind::rail, static_cast<int>(r)});
    }
    auto instance = cutting::Instance::build({{"21 ft stick", Length::feet(21), Money::cents(7680), {}}}, pieces,
                                             {Length::sixty_fourths(8), {}, {}, Length::feet(4), Money::cents(180), Length::feet(1)});
    cutting::Plan plan;
    plan.found = true;
    for (std::size_t r = 0; r < rails.size(); r += 2) {
      cutting::Stick stick;
      Length at;
      for (std::size_t i = r; i < std::min(r + 2, rails.size()); ++i) {
        stick.pieces.push_back(static_cast<int>(i));
        at += rails[i].cut;
        stick.marks.push_back(at);
        at += Length::sixty_fourths(8);
      }
      stick.drop = Length::feet(21) - at;
      stick.kept = true;
      plan.sticks.push_back(stick);
    }
    plan.sticks_used = static_cast<std::int64_t>(plan.sticks.size());
    plan.cost = Money::cents(7680) * plan.sticks_used;
    plan.bound = plan.cost - Money::cents(310);
    plan.setups = 1;
    out.plan.cuts.push_back({"2-3/8 sch40", *instance, plan, {{takeoff::StockKind::offered, 0, Length::feet(21), {}, true}}, sources});
  }

  void add_orders() {
    auto& t = out.plan.takeoff;
    const auto add = [&](const std::string& item, const std::string& group, double needed, double pack, std::int64_t cents, double kg) {
      takeoff::OrderLine line;
      line.item = item;
      line.group = group;
      line.unit = group == "pipe" ? "stick" : "each";
      line.needed = needed;
      line.spare = 2;
      line.order = needed + 2;
      line.pack = pack;
      line.running_short = 0.031;
      line.price = Money::cents(cents);
      line.amount = Money::cents(cents) * static_cast<std::int64_t>(line.order);
      line.mass_kg = kg * line.order;
      line.why = "sticks";
      t.orders.push_back(line);
      t.load.mass_kg += line.mass_kg;
    };
    add(named("21 ft stick of 2-3/8 sch40"), "pipe", 60, 1, 7680, 34.9);
    add("through 2-3/8", "fittings", 120, 1, 1195, 1.4);
    add("corner 2-3/8", "fittings", 12, 1, 1395, 1.6);
    add("carriage bolt 3/8", "bolts", 264, 50, 42, 0.05);
    add("cap 2-3/8", "caps", 40, 1, 250, 0.19);
    add("concrete bag 80 lb", "concrete", 106, 1, 690, 36.3);
    t.hours = {{"dig", 40, 20, 13.3}, {"set", 40, 12, 8}, {"band", 132, 1, 2.2}};
    t.person_hours = 23.5;
    t.days = 1.5;
    t.load = {3, t.load.mass_kg, Length::feet(21), 4, true};
    t.price = {Money::whole(8000), Money::whole(900), Money::whole(890), Money(), Money(), Money::whole(9790), Money::cents(3250), "USD"};
  }

  void add_checks_and_findings() {
    Check c{
        "rail_bending", named("AB.3"), 412, 1630, 0.253, "N m", "M = P l / 4; phi M_n = 0.9 F_y Z", "AISC 360 section F8; AISC Manual Table 3-23", true, {}};
    out.plan.checks.push_back(c);
    c = {"post_embedment",
         named("C"),
         0.84,
         0.762,
         1.102,
         "m",
         "d = 0.5 A (1 + (1 + 4.36 h / A)^0.5), A = 2.34 P / (S1 b)",
         "IBC 2012 section 1807.3.2.1",
         false,
         {}};
    out.plan.checks.push_back(c);
    out.plan.findings.push_back({"setout.no_dig", Severity::warning, named("AB4"), {{"zone", std::string("W1")}, {"pitch", value_of(Length::feet(7))}}});
    out.plan.findings.push_back({"test.plain", Severity::note, named("AB.2"), {{"least", value_of(Length::inches(14))}}});
  }

  void add_site() {
    auto& job = out.job;
    job.name = named("Hollow Oak donkey paddock");
    job.date = "4 May 2031";
    job.invented = true;
    job.units = size.metric ? job::UnitSystem::metric : job::UnitSystem::feet_inches;
    job::Fence fence;
    fence.id = "rails";
    fence.height = Length::inches(60);
    fence.rails = size.rails;
    job.choices.fences.push_back(fence);
    const char* corners[] = {"A", "B", "C", "D", "A"};
    for (int i = 0; i < 4; ++i) {
      job::Leg leg;
      leg.id = std::string(corners[i]) + corners[i + 1];
      leg.from = corners[i];
      leg.to = corners[i + 1];
      job.site.legs.push_back(leg);
    }
    job::Gate gate;
    gate.id = "G";
    gate.leg = "AB";
    gate.leaf = kPitch - Length::inches(7);
    job.site.gates.push_back(gate);
    job::Zone water;
    water.id = "W1";
    water.kind = job::ZoneKind::water;
    water.tolerance = Length::inches(24);
    water.shape = {{Length::feet(-4), Length::feet(20)}, {Length::feet(40), Length::feet(36)}, {Length::feet(300), Length::feet(44)}};
    job.site.zones.push_back(water);
    out.plan.layout.zones.push_back(water);
  }

  void build() {
    add_site();
    add_catalogue(out.plan.catalogue);
    const double w = (kPitch * size.bays_long).metres(), h = (kPitch * size.bays_short).metres();
    const int a = add_post("A", setout::PostKind::corner, 0, 0), b = add_post("B", setout::PostKind::corner, w, 0);
    const int c = add_post("C", setout::PostKind::corner, w, h), d = add_post("D", setout::PostKind::corner, 0, h);
    add_leg(0, a, b, size.bays_long, 3);
    add_leg(1, b, c, size.bays_short, 0);
    add_leg(2, c, d, size.bays_long, 0);
    add_leg(3, d, a, size.bays_short, 0);
    add_uses();
    add_cuts();
    add_orders();
    add_checks_and_findings();
    out.plan.stakes = stakeout::stake_out(out.job.site, out.plan.layout);
    out.plan.fingerprint = "0123456789ab";
  }
};

std::string read_file(const std::string& path) {
  std::ifstream in(std::string(RAILWRIGHT_SOURCE_DIR) + "/" + path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

Paddock paddock(const PaddockSize& size) {
  Builder builder;
  builder.size = size;
  builder.build();
  return builder.out;
}

Words english() {
  Words words;
  for (const char* path : {"words/en.json", "words/en/sheets.json", "words/en/units.json", "words/en/setout.json"}) words.add(*Words::parse(read_file(path)));
  return words;
}

}  // namespace railwright::sheets::testing
