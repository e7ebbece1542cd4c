// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>

#include "engine/job/catalogue.h"
#include "engine/job/job.h"
#include "formats/walk.h"

// A complete job from a few choices: what `railwright new` and the page's first screen make.
namespace railwright::formats {

struct StartChoices {
  std::string name;
  std::string animal = "cattle";
  std::optional<measure::Length> height;  // none: the animal's least height
  std::optional<int> rails;               // none: as few as close the animal's largest opening, else mesh
  std::optional<measure::Length> pitch;   // widest bay; none: 8 ft
  std::string pipe = "2-3/8";             // id of a pipe, or the beginning of one
  std::optional<job::FenceKind> kind;
  job::UnitSystem units = job::UnitSystem::feet_inches;
  bool strengthen = true;  // raise depths, sizes and brace bays until the plan's own checks pass
};

struct StartedJob {
  job::Job job;
  Findings findings;  // of the walk, and `start.*`
};

// Without a walk the job has a small invented paddock to draw over. Defaults, each changed in the job afterwards: rails and line posts of one pipe, the next
// size up for end, corner, tee, brace and gate posts; sticks of 21, 24 and 32 ft that the trailer carries, at the price book's price by the foot;
// concrete-set in clay; the infill rows of the catalogue that fit the height (common practice, no source). Depths, sizes and brace bays are then raised
// until the plan's own checks pass (strengthen.h); what stays over is told.
// Errors: `start.animal`, `start.pipe` (value choices: what there is), `start.rails` (1 to 6), `start.height` (2 to 10 ft), `start.pitch` (3 to 20 ft), `start.no_infill`.
Result<StartedJob> start_job(const StartChoices& choices, const job::Catalogue& catalogue, const WalkedSite* walk = nullptr,
                             const job::GroundGrid* grid = nullptr);

// The grid as read (`read_grid` without a false origin) brought onto the walk's plane and cut to what the walk needs: by the walk's false origin, or, for a
// walk in latitude and longitude, from UTM in the zone of the walk. Error `grid.elsewhere`: it covers no place of the walk.
Result<job::GroundGrid> grid_for(const WalkedSite& walk, const job::GroundGrid& grid);

}  // namespace railwright::formats
