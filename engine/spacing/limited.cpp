// SPDX-License-Identifier: MIT
#include "engine/spacing/limited.h"

#include <algorithm>

namespace railwright::spacing {
namespace {

// Of the whole limit, what one set may spend.
constexpr std::int64_t kSetsInLimit = 8;

}  // namespace

Limited::Limited(const Table& table, Length scatter, std::int64_t work_limit, std::vector<LookRule> rules, const Search& free)
    : table_(table), scatter_(scatter), limit_(work_limit), rules_(std::move(rules)), free_(free) {
  sets_.emplace(table, rules_, free.first_relaxed().least);
}

// The bound of a sum of what the runs cost at least; whole, so rounded up.
Money Limited::as_money(Wide scaled) const {
  const Relaxed& relaxed = free_.first_relaxed();
  const Wide sum = relaxed.rest + scaled;
  return Money::from_units(static_cast<std::int64_t>(sum <= 0 ? 0 : (sum + relaxed.scale - 1) / relaxed.scale));
}

Money Limited::bound() const {
  Money least = found() ? cost_ : Money::from_units(std::int64_t{1} << 60);
  if (searched_) least = std::min(least, *searched_);
  if (search_) least = std::min(least, set_bound_);
  if (!sets_->empty()) least = std::min(least, as_money(sets_->bound()));
  return std::max(free_.bound(), least);
}

bool Limited::step() {
  if (done_) return false;
  if (!search_) {
    next_set();
  } else {
    const bool more = search_->step();
    const bool hopeless = found() && search_->started() && search_->bound() >= cost_;
    if (!more || hopeless) end_set();
  }
  return !done_;
}

void Limited::next_set() {
  const bool beaten = found() && (sets_->empty() || as_money(sets_->bound()) >= cost_);
  if (beaten || (found() && work() >= limit_)) {
    done_ = true;
    return;
  }
  set_bound_ = sets_->empty() ? Money() : as_money(sets_->bound());
  const auto windows = sets_->next();
  if (windows) {
    allowed_ = held_by(table_, rules_, *windows);
    if (!searched_before(allowed_)) search_.emplace(table_, scatter_, std::max<std::int64_t>(1, limit_ / kSetsInLimit), allowed_);
    return;
  }
  if (found()) {
    done_ = true;
    return;
  }
  // Not to be kept, or not found in time: one look more for each fence.
  spent_ += sets_work();
  for (LookRule& rule : rules_) ++rule.limit;
  sets_.emplace(table_, rules_, free_.first_relaxed().least);
}

// Whether a set searched before allows all this.
bool Limited::searched_before(const Allowed& allowed) const {
  const auto holds = [&](const Allowed& other) {
    for (std::size_t r = 0; r < allowed.size(); ++r) {
      for (std::size_t k = 0; k < allowed[r].size(); ++k) {
        if (allowed[r][k] != 0 && other[r][k] == 0) return false;
      }
    }
    return true;
  };
  return std::any_of(seen_.begin(), seen_.end(), holds);
}

void Limited::end_set() {
  // With more windows, unless all their sets are listed, the set's own bound, not that of its search: a choice that takes a dearer window than the set has is below neither, but only the first
  // knows of it.
  const bool single = std::all_of(rules_.begin(), rules_.end(), [](const LookRule& rule) { return rule.limit == 1; });
  const Money least = (single || sets_->whole()) && search_->started() ? std::max(set_bound_, search_->bound()) : set_bound_;
  searched_ = searched_ ? std::min(*searched_, least) : least;
  seen_.push_back(allowed_);
  if (search_->started() && (!found() || search_->cost() < cost_)) {
    best_ = search_->best();
    cost_ = search_->cost();
  }
  spent_ += search_->work();
  search_.reset();
}

}  // namespace railwright::spacing
