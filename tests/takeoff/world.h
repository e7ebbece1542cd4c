// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "engine/takeoff/orders.h"
#include "engine/takeoff/takeoff.h"

// Small fences written out by hand, so that every figure of a bill can be followed with a pencil.
namespace railwright::takeoff {

inline Length in(double value) { return Length::from_inches(value); }

inline job::Catalogue catalogue() {
  job::Catalogue c;
  c.pipes = {{"2-3/8", in(2.375), in(0.154), 0.93, 5.44, 241, "test"}, {"2-7/8", in(2.875), in(0.203), 0.93, 8.63, 241, "test"}};
  job::Fitting end;
  end.id = "end";
  end.kind = job::FittingKind::end;
  end.band_height = in(1.5);
  end.bolts = 2;
  end.nuts = 2;
  end.price = Money::cents(600);
  end.mass_kg = 0.5;
  job::Fitting through = end;
  through.id = "through";
  through.kind = job::FittingKind::through;
  through.bolts = through.nuts = 3;
  through.price = Money::cents(800);
  c.fittings = {end, through};
  job::Supply bag;
  bag.id = "80 lb bag";
  bag.kind = "concrete-bag";
  bag.volume_m3 = measure::cubic_feet(0.60).si();  // a trade reference page for columns and posts
  bag.mass_kg = measure::pounds(80).si();
  c.supplies = {bag};
  c.prices = {{"80 lb bag", "bag", Money::cents(550), 1, "test", ""}};
  return c;
}

inline job::Fence rail_fence() {
  job::Fence fence;
  fence.id = "paddock";
  fence.kind = job::FenceKind::rails;
  fence.height = in(54);
  fence.rails = 3;
  fence.rail_pipe = fence.line_pipe = "2-3/8";
  fence.strong_pipe = fence.gate_pipe = "2-7/8";
  return fence;
}

// A straight level leg of equal bays between two end posts.
struct World {
  job::Job job;
  job::Catalogue catalogue = takeoff::catalogue();
  setout::Layout layout;
  grade::Heights heights;
  fittings::Assembly assembly;
  std::vector<PipeCuts> cuts;
  Findings findings;

  explicit World(int bays, Length pitch = Length::feet(8), job::Fence fence = rail_fence()) {
    job.choices.fences = {std::move(fence)};
    job.choices.allowances.squaring = Length();
    job.choices.allowances.scatter = Length();
    set_out(bays, pitch);
    hang_rails();
  }

  void set_out(int bays, Length pitch) {
    for (int k = 0; k <= bays; ++k) {
      const bool end = k == 0 || k == bays;
      setout::Post post;
      post.name = "a" + std::to_string(k);
      post.kind = end ? setout::PostKind::end : setout::PostKind::line;
      post.pipe = end ? "2-7/8" : "2-3/8";
      post.diameter = end ? in(2.875) : in(2.375);
      layout.posts.push_back(post);
    }
    for (int k = 0; k < bays; ++k) {
      setout::Bay bay;
      bay.name = "a." + std::to_string(k + 1);
      bay.from = k;
      bay.to = k + 1;
      bay.pitch = pitch;
      bay.gap = pitch - (layout.posts[k].diameter + layout.posts[k + 1].diameter) / 2;
      layout.bays.push_back(bay);
    }
    heights.bays.resize(static_cast<std::size_t>(bays));
  }

  // Three rails a bay, each 3 in shorter than its gap; one end part at an end post, one through part at a line post, at each of three heights.
  void hang_rails() {
    const job::Fence& fence = job.choices.fences[0];
    const int bays = static_cast<int>(layout.bays.size());
    for (int b = 0; b < bays; ++b) {
      for (int r = 1; r <= fence.rails; ++r) {
        fittings::Rail rail;
        rail.name = layout.bays[b].name + "/" + std::to_string(r);
        rail.bay = b;
        rail.number = r;
        rail.pipe = fence.rail_pipe;
        rail.cut = rail.length = layout.bays[b].gap - in(3);
        assembly.rails.push_back(rail);
      }
    }
    for (int p = 0; p <= bays; ++p) {
      const bool end = p == 0 || p == bays;
      for (int r = fence.rails; r >= 1; --r) {
        fittings::Use use;
        use.post = p;
        use.fitting = end ? 0 : 1;
        use.height = in(54.0 * (fence.rails + 1 - r) / fence.rails - 2.375 / 2);
        if (p > 0) use.serves.push_back({p - 1, r, false});
        if (p < bays) use.serves.push_back({p, r, true});
        assembly.uses.push_back(use);
      }
    }
  }

  void offer(const std::string& name, const std::string& pipe, Length length, Money price) {
    job.choices.offers.push_back({name, pipe, length, price, {}, "test"});
  }

  std::vector<PostSize> sizes() { return size_posts(job, catalogue, layout, heights, assembly, findings); }
  void cut() {
    cuts = gather_pieces(job, catalogue, layout, assembly, sizes(), findings);
    cutting::Options options;
    options.work_limit = 200;
    for (PipeCuts& pipe : cuts) pipe.plan = cutting::solve(pipe.instance, options);
  }
  Takeoff take() { return take_off({job, catalogue, layout, heights, assembly, cuts}, sizes(), findings); }
  bool found(const std::string& code, const std::string& where = {}) const {
    for (const Finding& finding : findings) {
      if (finding.code == code && (where.empty() || finding.where == where)) return true;
    }
    return false;
  }
};

inline const OrderLine* line_of(const Takeoff& takeoff, const std::string& item) {
  for (const OrderLine& line : takeoff.orders) {
    if (line.item == item) return &line;
  }
  return nullptr;
}

}  // namespace railwright::takeoff
