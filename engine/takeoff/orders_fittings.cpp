// SPDX-License-Identifier: MIT
#include "engine/takeoff/orders.h"

namespace railwright::takeoff {

namespace {

void order_parts(Orders& orders, const std::vector<std::int64_t>& used) {
  for (std::size_t k = 0; k < used.size(); ++k) {
    const job::Fitting& fitting = orders.in.catalogue.fittings[k];
    Need need;
    need.item = fitting.id;
    need.group = "fittings";
    need.unit = "each";
    need.why = "fittings";
    need.needed = static_cast<double>(used[k]);
    need.each_kg = fitting.mass_kg;
    need.own_price = fitting.price;
    need.own_priced = fitting.price != Money();
    orders.counted(need, orders.losses.fitting);
  }
}

void order_small(Orders& orders, const std::string& kind, const std::string& why, std::int64_t count) {
  if (count == 0) return;
  Need need = orders.need_of(orders.supply(kind), kind, "bolts", why);
  need.needed = static_cast<double>(count);
  orders.counted(need, orders.losses.bolt);
}

void order_caps(Orders& orders) {
  std::map<Length, std::int64_t> caps;
  for (std::size_t k = 0; k < orders.posts.size(); ++k) {
    const setout::Post& post = orders.in.layout.posts[k];
    const bool wanted = orders.has_fence(post.fence) && orders.fence(post.fence).capped && orders.remaining.post(static_cast<int>(k));
    if (wanted) ++caps[post.diameter];
  }
  for (const auto& [diameter, count] : caps) {
    Need need = orders.need_of(orders.supply("cap", diameter), "cap", "caps", "caps");
    need.needed = static_cast<double>(count);
    orders.counted(need, orders.losses.cap);
  }
}

}  // namespace

void order_fittings(Orders& orders) {
  std::vector<std::int64_t> used(orders.in.catalogue.fittings.size());
  std::int64_t bolts = 0, nuts = 0;
  for (const fittings::Use& use : orders.in.assembly.uses) {
    if (!orders.remaining.use(use)) continue;
    const auto k = static_cast<std::size_t>(use.fitting);
    ++used[k];
    bolts += orders.in.catalogue.fittings[k].bolts;
    nuts += orders.in.catalogue.fittings[k].nuts;
  }
  order_parts(orders, used);
  order_small(orders, "bolt", "bolts", bolts);
  order_small(orders, "nut", "nuts", nuts);
  order_caps(orders);
}

}  // namespace railwright::takeoff
