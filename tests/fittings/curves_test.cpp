// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "engine/fittings/assembly.h"
#include "tests/grade/line_fixture.h"

namespace railwright::fittings {
namespace {

using namespace testing_line;

struct Built {
  setout::Layout layout;
  Assembly assembly;
  Findings findings;
};

// A round pen of so many sides of about 7 ft; through and corner parts stand 5 degrees off.
Built pen(int sides) {
  job::Job job = three_rails();
  job.site.legs[0].to = "A";
  job.site.legs[0].arc.emplace();
  job.site.legs[0].arc->radius = Length::inches(sides * 84 * 7 / 44);  // circumference over 2 pi, by 22/7
  job.site.legs[0].arc->sides = sides;
  Built built;
  built.layout = setout::set_out(job, rows(), {}, ground::profiles(job.site, built.findings), built.findings);
  const grade::Heights heights = grade::rail_heights(job, rows(), built.layout, {}, built.findings);
  built.assembly = assemble(job, rows(), built.layout, heights, {}, built.findings);
  return built;
}

int uses_of(const Built& built, job::FittingKind kind) {
  int count = 0;
  for (const Use& use : built.assembly.uses) count += rows().fittings[static_cast<std::size_t>(use.fitting)].kind == kind ? 1 : 0;
  return count;
}

bool none_fits(const Built& built) {
  for (const Finding& f : built.findings) {
    if (f.code == "fittings.none_fits") return true;
  }
  return false;
}

// n sides turn 360/n at every post. 90 sides turn 4 degrees: straight-through parts take it, three a post. 60 sides turn 6: past their tolerance,
// so every rail end has a part of its own. Four turn 90: corner parts.
TEST(Curves, TheTurnChoosesThePart) {
  const struct {
    int sides;
    job::FittingKind kind;
    int per_post;
  } cases[] = {{90, job::FittingKind::through, 3},
               {72, job::FittingKind::through, 3},
               {60, job::FittingKind::end, 6},
               {12, job::FittingKind::end, 6},
               {4, job::FittingKind::corner, 3}};
  for (const auto& c : cases) {
    const Built built = pen(c.sides);
    SCOPED_TRACE(c.sides);
    EXPECT_FALSE(none_fits(built));
    ASSERT_EQ(built.layout.posts.size(), static_cast<std::size_t>(c.sides));
    EXPECT_DOUBLE_EQ(built.layout.posts[1].deflection_deg, 360.0 / c.sides);
    EXPECT_EQ(uses_of(built, c.kind), c.sides * c.per_post);
    EXPECT_EQ(built.assembly.uses.size(), static_cast<std::size_t>(c.sides * c.per_post));
    // The rail is the chord less the posts and the parts' take-offs, not the arc.
    for (const Rail& rail : built.assembly.rails) {
      const setout::Bay& bay = built.layout.bays[static_cast<std::size_t>(rail.bay)];
      EXPECT_EQ(rail.gap, bay.pitch - kPipe);
      if (c.kind != job::FittingKind::end) {  // two parts at a level are stacked, which tilts the rails a little
        EXPECT_EQ(rail.length, bay.pitch - kPipe - Length::inches(3));
      }
      EXPECT_LT(bay.pitch, bay.end - bay.start);
    }
  }
}

}  // namespace
}  // namespace railwright::fittings
