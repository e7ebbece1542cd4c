// SPDX-License-Identifier: MIT
#include <map>
#include <set>

#include "engine/job/check.h"

namespace railwright::job {
namespace {

class Sense {
 public:
  explicit Sense(Findings& findings) : findings_(findings) {}

  void check(const Job& job) {
    each("/site/legs", job.site.legs, [&](const Leg& leg) { check(leg, places_of(job.site)); });
    each("/site/zones", job.site.zones, [&](const Zone& zone) { check(zone); });
    if (job.site.ground.grid) check(*job.site.ground.grid);
    each("/choices/fences", job.choices.fences, [&](const Fence& fence) { check(fence); });
    check_gaps(job.field.gaps);
  }

  void check(const Catalogue& catalogue, const std::string& where) {
    each(where + "/pipes", catalogue.pipes, [&](const Pipe& pipe) {
      if (2 * pipe.wall > pipe.diameter) report("/wall", "job.wall_too_thick", {{"id", pipe.id}});
    });
    each(where + "/animals", catalogue.animals, [&](const Animal& animal) {
      if (animal.trap_to < animal.trap_from) report("/trap_to", "job.trap_backwards", {{"id", animal.id}});
    });
  }

 private:
  using Places = std::map<std::string, Place>;

  void report(const std::string& below, const char* code, Values values = {}) {
    findings_.push_back({code, Severity::stop, where_ + below, std::move(values)});
  }

  template <class T, class Visit>
  void each(const std::string& where, const std::vector<T>& list, Visit visit) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      where_ = where + '/' + std::to_string(i);
      visit(list[i]);
    }
  }

  const Places& places_of(const Site& site) {
    if (places_.empty()) {
      for (const Point& point : site.points) places_.try_emplace(point.id, Place{point.east, point.north});
    }
    return places_;
  }

  void check(const Leg& leg, const Places& places) {
    const bool circle = leg.from == leg.to && !leg.from.empty();
    if (leg.arc) check(*leg.arc, leg.id, circle);
    if (circle && leg.arc) return;
    if (circle) {
      return report("/to", "job.leg_to_itself", {{"leg", leg.id}});
    }
    const auto from = places.find(leg.from), to = places.find(leg.to);
    if (from == places.end() || to == places.end() || from->second != to->second) return;
    report("/to", "job.leg_without_length", {{"leg", leg.id}, {"from", leg.from}, {"to", leg.to}});
  }

  // A curve has one size, and nothing that only the other kind of curve has.
  void check(const Arc& arc, const std::string& leg, bool circle) {
    const bool radius = arc.radius > Length(), diameter = arc.diameter > Length(), rise = arc.middle_ordinate > Length();
    const bool turn = arc.turn_deg > 0;
    const auto refuse = [&](const char* key) {
      report(std::string("/arc/") + key, circle ? "job.arc_of_bends" : "job.arc_of_circles", {{"leg", leg}, {"key", std::string(key)}});
    };
    if (radius && diameter) report("/arc/diameter", "job.arc_twice", {{"leg", leg}});
    if (circle && rise) refuse("middle_ordinate");
    if (circle && turn) refuse("turn_deg");
    if (!circle && arc.centre) refuse("centre");
    if (!circle && rise && (radius || diameter || turn)) report("/arc/middle_ordinate", "job.arc_twice", {{"leg", leg}});
    if (!(radius || diameter || (circle ? arc.centre.has_value() : rise || turn))) report("/arc", "job.arc_no_size", {{"leg", leg}});
    if (circle && (arc.sides == 1 || arc.sides == 2)) report("/arc/sides", "job.arc_few_sides", {{"leg", leg}});
  }

  void check(const Zone& zone) {
    if (!zone.leg.empty()) {
      if (!zone.shape.empty()) return report("/leg", "job.zone_twice", {{"zone", zone.id}, {"leg", zone.leg}});
      if (zone.to < zone.from) report("/to", "job.zone_backwards", {{"zone", zone.id}, {"from", value_of(zone.from)}, {"to", value_of(zone.to)}});
      return;
    }
    const std::size_t least = zone.area ? 3 : 1;
    if (zone.shape.size() >= least) return;
    report("/shape", "job.too_few_places", {{"given", count(zone.shape.size())}, {"least", count(least)}});
  }

  void check(const GroundGrid& grid) {
    const std::int64_t needed = std::int64_t{grid.columns} * grid.rows;
    if (count(grid.heights_m.size()) == needed) return;
    where_ = "/site/ground/grid";
    report("/heights_m", "job.grid_count", {{"given", count(grid.heights_m.size())}, {"needed", needed}});
  }

  void check(const Fence& fence) {
    const bool wires_only = fence.kind == FenceKind::wire;
    if (!wires_only && fence.rails < 1) report("/rails", "job.no_rails");
    if (wires_only && fence.rails > 0) report("/rails", "job.rails_on_wire_fence");
    check_pipes(fence);
    check_infill(fence);
    check_descending("/rail_centres", fence.rail_centres, fence.rails, fence.height);
    check_descending("/infill/wire_heights", fence.infill.wire_heights, fence.infill.wires, fence.height);
    if (fence.spacing.mode == SpacingMode::list && fence.spacing.list.empty()) {
      report("/spacing/list", "job.empty_list");
    }
    if (fence.spacing.pitch > fence.spacing.cap) {
      report("/spacing/pitch", "job.pitch_over_cap", {{"pitch", value_of(fence.spacing.pitch)}, {"cap", value_of(fence.spacing.cap)}});
    }
  }

  void check_pipes(const Fence& fence) {
    if (fence.rails > 0 && fence.rail_pipe.empty()) missing("/rail_pipe", "rail_pipe");
    if (fence.line_pipe.empty()) return missing("/line_pipe", "line_pipe");
    if (fence.strong_pipe.empty()) missing("/strong_pipe", "strong_pipe");
    if (fence.gate_pipe.empty()) missing("/gate_pipe", "gate_pipe");
  }

  void check_infill(const Fence& fence) {
    const bool strung = fence.kind == FenceKind::strained || fence.kind == FenceKind::wire;
    if (fence.kind != FenceKind::rails && fence.infill.supply.empty()) missing("/infill/supply", "supply");
    if (strung && fence.infill.wires == 0) missing("/infill/wires", "wires");
  }

  void missing(const char* below, const char* key) { report(below, "job.missing_key", {{"key", std::string(key)}}); }

  // Heights given one by one: as many as there are rails or wires, each lower than the one before, none above the fence.
  void check_descending(const char* below, const std::vector<Length>& heights, int wanted, Length top) {
    if (heights.empty()) return;
    if (count(heights.size()) != wanted) {
      return report(below, "job.height_count", {{"given", count(heights.size())}, {"needed", std::int64_t{wanted}}});
    }
    Length last = top;
    for (std::size_t i = 0; i < heights.size(); ++i) {
      if (heights[i] < last || (i == 0 && heights[i] == last)) {
        last = heights[i];
        continue;
      }
      report(below + ('/' + std::to_string(i)), "job.not_descending", {{"height", value_of(heights[i])}});
    }
  }

  void check_gaps(const std::vector<MeasuredGap>& gaps) {
    std::set<std::pair<std::string, int>> seen;
    each("/field/gaps", gaps, [&](const MeasuredGap& gap) {
      if (seen.emplace(gap.bay, gap.rail).second) return;
      report("", "job.gap_twice", {{"bay", gap.bay}, {"rail", std::int64_t{gap.rail}}});
    });
  }

  static std::int64_t count(std::size_t n) { return static_cast<std::int64_t>(n); }

  Findings& findings_;
  std::string where_;
  Places places_;
};

}  // namespace

void check_sense(const Job& job, Findings& findings) {
  Sense(findings).check(job);
  check_sense(job.choices.overrides, "/choices/overrides", findings);
}

void check_sense(const Catalogue& catalogue, const std::string& where, Findings& findings) { Sense(findings).check(catalogue, where); }

}  // namespace railwright::job
