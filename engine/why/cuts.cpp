// SPDX-License-Identifier: MIT
// Sticks and their marks, what the cut plan costs, and what spacing chosen with the cutting saves.
#include "engine/why/asked.h"

namespace railwright::why {
namespace {

struct Found {
  const takeoff::PipeCuts* pipe = nullptr;
  const cutting::Stick* stick = nullptr;
};

// Sticks are numbered from 1 through all pipes, as the plan lists them.
Found stick_numbered(const Plan& plan, const std::string& number) {
  int k = 0;
  for (const takeoff::PipeCuts& pipe : plan.cuts) {
    for (const cutting::Stick& stick : pipe.plan.sticks) {
      if (std::to_string(++k) == number) return {&pipe, &stick};
    }
  }
  return {};
}

// A rail is shown in its bay, a post as itself.
std::string place_of(const Plan& plan, const takeoff::PipeCuts& pipe, int piece) {
  const takeoff::PieceSource& source = pipe.pieces[static_cast<std::size_t>(piece)];
  if (source.kind == takeoff::PieceKind::post) return plan.layout.posts[static_cast<std::size_t>(source.index)].name;
  const fittings::Rail& rail = plan.assembly.rails[static_cast<std::size_t>(source.index)];
  return plan.layout.bays[static_cast<std::size_t>(rail.bay)].name;
}

void add_pieces(const Asked& asked, const Found& found, std::size_t number, Answer& into) {
  for (std::size_t k = 0; k < number && k < found.stick->pieces.size(); ++k) {
    const int piece = found.stick->pieces[k];
    const cutting::Piece& row = found.pipe->instance.pieces()[static_cast<std::size_t>(piece)];
    const bool post = found.pipe->pieces[static_cast<std::size_t>(piece)].kind == takeoff::PieceKind::post;
    into.inputs.push_back(each(row.label, value_of(row.length), 1, {}, (post ? "post/" : "rail/") + row.label + "/length"));
    into.where.push_back(place_of(asked.plan, *found.pipe, piece));
  }
}

std::optional<Answer> stick(const Asked& asked) {
  const Found found = stick_numbered(asked.plan, asked.thing);
  if (found.stick == nullptr) return std::nullopt;
  const cutting::Rules& rules = found.pipe->instance.rules();
  const cutting::Stock& stock = found.pipe->instance.stocks()[static_cast<std::size_t>(found.stick->stock)];
  const std::size_t pieces = found.stick->pieces.size();
  if (asked.part == "drop") {
    Answer made =
        answer(asked, value_of(found.stick->drop), "max(usable - sum() - cuts * kerf, 0)",
               {input("usable", found.pipe->instance.usable(stock)), count("cuts", static_cast<std::int64_t>(pieces)), input("kerf", rules.kerf)}, "cut_marks");
    add_pieces(asked, found, pieces, made);
    return made;
  }
  for (std::size_t k = 0; k < found.stick->marks.size(); ++k) {
    if (asked.part != "mark" + std::to_string(k + 1)) continue;
    Answer made = answer(asked, value_of(found.stick->marks[k]), "start + sum() + cuts * kerf",
                         {input("start", found.pipe->instance.start()), count("cuts", static_cast<std::int64_t>(k)), input("kerf", rules.kerf)}, "cut_marks");
    add_pieces(asked, found, k + 1, made);
    return made;
  }
  return std::nullopt;
}

void list_sticks(const job::Job&, const Plan& plan, const Listed& add) {
  int number = 0;
  for (const takeoff::PipeCuts& pipe : plan.cuts) {
    for (const cutting::Stick& row : pipe.plan.sticks) {
      const std::string name = std::to_string(++number);
      for (std::size_t k = 1; k <= row.marks.size(); ++k) add(name, "mark" + std::to_string(k));
      add(name, "drop");
    }
  }
}

// Sticks bought or taken from the rack, less what their kept drops are worth.
Answer cost_of_pipe(const Asked& asked, const takeoff::PipeCuts& pipe) {
  Answer made = answer(asked, value_of(pipe.plan.cost), "sum() - drops",
                       {input("drops", Money::from_units(pipe.plan.cost_before_drops.units() - pipe.plan.cost.units()))},
                       pipe.plan.proved ? "cutting_proved" : "cutting_open");
  const std::vector<cutting::Stock>& stocks = pipe.instance.stocks();
  for (std::size_t k = 0; k < stocks.size(); ++k) {
    std::int64_t used = 0;
    for (const cutting::Stick& row : pipe.plan.sticks) used += static_cast<std::size_t>(row.stock) == k ? row.count : 0;
    if (used > 0) made.inputs.push_back(each(stocks[k].name, value_of(stocks[k].price), static_cast<double>(used)));
  }
  return made;
}

Answer sticks_of_pipe(const Asked& asked, const takeoff::PipeCuts& pipe) {
  Answer made = answer(asked, pipe.plan.sticks_used, "sum()", {}, pipe.plan.proved ? "cutting_proved" : "cutting_open");
  const std::vector<cutting::Stock>& stocks = pipe.instance.stocks();
  for (std::size_t k = 0; k < stocks.size(); ++k) {
    std::int64_t used = 0;
    for (const cutting::Stick& row : pipe.plan.sticks) used += static_cast<std::size_t>(row.stock) == k ? row.count : 0;
    if (used > 0) made.inputs.push_back(each(stocks[k].name, used));
  }
  return made;
}

Answer of_all(const Asked& asked) {
  Money cost, bound;
  std::int64_t sticks = 0, setups = 0;
  std::vector<Input> inputs;
  bool proved = true;
  for (const takeoff::PipeCuts& pipe : asked.plan.cuts) {
    cost += pipe.plan.cost;
    bound += pipe.plan.bound;
    sticks += pipe.plan.sticks_used;
    setups += pipe.plan.setups;
    proved = proved && pipe.plan.proved;
    const Value own = asked.part == "sticks"   ? Value(pipe.plan.sticks_used)
                      : asked.part == "setups" ? Value(std::int64_t{pipe.plan.setups})
                                               : value_of(asked.part == "cost" ? pipe.plan.cost : pipe.plan.bound);
    inputs.push_back(each(pipe.pipe, own, 1, {}, "cut/" + pipe.pipe + "/" + asked.part));
  }
  const Value value = asked.part == "sticks" ? Value(sticks) : asked.part == "setups" ? Value(setups) : value_of(asked.part == "cost" ? cost : bound);
  return answer(asked, value, "sum()", std::move(inputs), proved ? "cutting_proved" : "cutting_open");
}

std::optional<Answer> cut(const Asked& asked) {
  if (asked.part != "cost" && asked.part != "bound" && asked.part != "sticks" && asked.part != "setups") return std::nullopt;
  if (asked.thing == "all") return of_all(asked);
  const int index = index_where(asked.plan.cuts, [&](const takeoff::PipeCuts& row) { return row.pipe == asked.thing; });
  if (index < 0) return std::nullopt;
  const takeoff::PipeCuts& pipe = asked.plan.cuts[static_cast<std::size_t>(index)];
  if (asked.part == "cost") return cost_of_pipe(asked, pipe);
  if (asked.part == "sticks") return sticks_of_pipe(asked, pipe);
  if (asked.part == "setups") return plainly(asked, number("counted", pipe.plan.setups, ""), "cut_plan");
  return plainly(asked, input("bound", pipe.plan.bound), "cutting_bound");
}

void list_cuts(const job::Job&, const Plan& plan, const Listed& add) {
  if (plan.cuts.empty()) return;
  for (const char* part : {"cost", "bound", "sticks", "setups"}) {
    add("all", part);
    for (const takeoff::PipeCuts& pipe : plan.cuts) add(pipe.pipe, part);
  }
}

std::optional<Answer> spacing_figure(const Asked& asked) {
  if (!asked.plan.spacing || asked.thing != "all") return std::nullopt;
  const spacing::Choice& choice = *asked.plan.spacing;
  const char* source = choice.proved ? "spacing_proved" : "spacing_open";
  if (asked.part == "cost") return plainly(asked, input("chosen", choice.cost), source);
  if (asked.part == "plain") return plainly(asked, input("plain", choice.plain), "spacing_plain");
  if (asked.part == "bound") return plainly(asked, input("bound", choice.bound), "spacing_bound");
  if (asked.part != "saved") return std::nullopt;
  return answer(asked, value_of(Money::from_units(choice.plain.units() - choice.cost.units())), "plain - chosen",
                {figure("spacing/all/plain", "plain", choice.plain), figure("spacing/all/cost", "chosen", choice.cost)}, source);
}

void list_spacing(const job::Job&, const Plan& plan, const Listed& add) {
  if (!plan.spacing) return;
  for (const char* part : {"cost", "plain", "bound", "saved"}) add("all", part);
}

}  // namespace

const Family kSticks{"stick", stick, list_sticks};
const Family kCuts{"cut", cut, list_cuts};
const Family kSpacing{"spacing", spacing_figure, list_spacing};

}  // namespace railwright::why
