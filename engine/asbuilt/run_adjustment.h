// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

// Least squares over the posts of one run: where they stand and how they lean, from gaps taped at several heights.
namespace railwright::asbuilt {

// What is known of a post before taping. Metres; lean is offset along the run per metre of height.
struct PostPrior {
  double place_sigma = 0;  // of the post about its planned (or recorded) station
  double lean_sigma = 0;
};

// One taped gap between posts `bay` and `bay + 1` of the run, as its excess over the plan.
struct GapObservation {
  int bay = 0;
  double height_from = 0, height_to = 0;  // of the reading above ground at the two posts
  double excess = 0;                      // measured less planned
  double sigma = 0;
  bool used = true;  // false: only compared, does not pull on the answer
};

struct ObservationCheck {
  double surprise = 0;  // measured less what everything else expects
  double sigma = 0;     // of that
};

struct RunAdjustment {
  std::vector<double> place;             // per post: off its prior station, along the run
  std::vector<double> lean;              // per post: top towards the run's end
  std::vector<ObservationCheck> checks;  // as the observations
};

// Model: excess = (place + height lean) of the far post less that of the near post. Unknowns are weighted by their priors, gaps by their sigma; the
// normal equations are block tridiagonal with 2 x 2 blocks and are solved with the blocks of their inverse in O(posts + observations).
// A single false reading is found by its surprise over that surprise's own sigma (Baarda's test statistic: W. Baarda, "A testing procedure for use in geodetic networks",
// Netherlands Geodetic Commission, 1968).
// Properties: (1) exact observations of a moved post give surprises that are nil but for the pull of the priors; (2) mirroring the run mirrors the answer.
// Preconditions: priors.size() >= 2, all sigmas positive, 0 <= bay < priors.size() - 1.
RunAdjustment adjust_run(const std::vector<PostPrior>& priors, const std::vector<GapObservation>& observations);

}  // namespace railwright::asbuilt
