// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "engine/job/fields.h"
#include "engine/job/read.h"
#include "engine/job/same.h"

namespace railwright::job {
namespace {

// Fills every key of a document with a value that its rule allows.
class Filler {
 public:
  explicit Filler(std::uint64_t seed) : random_(seed) {}

  template <Described T>
  void fill(T& object, const Rule& = {}) {
    Fields<T>::each([&](const char*, auto member, Rule rule = {}) { fill(object.*member, rule); });
  }

 private:
  double share() { return static_cast<double>(random_() >> 11) * 0x1p-53; }
  double within(const Rule& rule, const Rule& fallback) {
    const Rule r = rule.bounded ? rule : fallback;
    return r.least + (r.most - r.least) * share();
  }

  template <class T>
  void fill(std::vector<T>& list, const Rule& rule) {
    list.resize(random_() % 4);
    for (T& item : list) fill(item, rule);
  }
  template <class T>
  void fill(std::optional<T>& value, const Rule& rule) {
    if (random_() % 2 == 0) fill(value.emplace(), rule);
  }
  template <class E>
  requires std::is_enum_v<E>
  void fill(E& choice, const Rule&) { choice = static_cast<E>(random_() % Words<E>::all.size()); }
  template <class Tag>
  void fill(measure::Quantity<Tag>& quantity, const Rule& rule) {
    quantity = measure::Quantity<Tag>::si(within(rule, kAmount));
  }
  void fill(std::string& text, const Rule&) {
    const char* const letters[] = {"a", "B", "7", "\"", "\\", "/", "\xC3\xA9", "\xF0\x9F\x90\xB4", "-", "~"};
    text = "x";
    for (std::uint64_t n = random_() % 8; n > 0; --n) text += letters[random_() % 10];
  }
  void fill(bool& flag, const Rule&) { flag = random_() % 2 == 0; }
  void fill(int& count, const Rule& rule) { count = static_cast<int>(std::floor(within(rule, kAmount))); }
  void fill(long& count, const Rule& rule) { count = static_cast<long>(std::floor(within(rule, kAmount))); }
  void fill(double& number, const Rule& rule) { number = within(rule, kAmount); }
  void fill(float& height, const Rule& rule) {
    height = random_() % 5 == 0 ? std::numeric_limits<float>::quiet_NaN() : static_cast<float>(within(rule, kAmount));
  }
  void fill(Length& length, const Rule& rule) {
    auto nm = static_cast<std::int64_t>(within(rule, kSize));
    const std::int64_t on_tape = nm - nm % 396'875;
    if (random_() % 2 == 0 && static_cast<double>(on_tape) >= rule.least) nm = on_tape;
    length = Length::from_nm(nm);
  }
  void fill(Money& money, const Rule& rule) { money = Money::from_units(static_cast<std::int64_t>(within(rule, kAmount) * 10'000)); }

  std::mt19937_64 random_;
};

bool is_about_kinds(const Finding& finding) {
  for (const char* code : {"job.unknown_key", "job.missing_key", "job.not_", "job.needs_unit", "length.", "money.", "job.bad_id", "job.out_of_range",
                           "job.length_out_of_range", "job.count_out_of_range"}) {
    if (finding.code.rfind(code, 0) == 0) return finding.code != "job.not_descending";
  }
  return false;
}

TEST(WriteJob, ReadsBackTheSame) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Job job;
    Filler(seed).fill(job);
    const std::string text = write_job(job);
    const ReadJob read = read_job(text);
    ASSERT_TRUE(same(read.job, job)) << seed << '\n' << text;
    ASSERT_EQ(write_job(read.job), text) << seed;
    for (const Finding& finding : read.findings) {
      ASSERT_FALSE(is_about_kinds(finding) && finding.code != "job.missing_key") << seed << finding.code << finding.where;
    }
  }
}

TEST(WriteJob, LeavesDefaultsOutAndKeepsOneThingALine) {
  Job job;
  job.site.points = {{"A", Length(), Length(), std::nullopt, ""}, {"B", Length::feet(120), Length(), Length::mm(1500), "gate here"}};
  job.site.legs = {{"L", "A", "B", "f", Side::left, {}}};
  job.site.ground.grid = GroundGrid{2, 2, Length(), Length(), Length::mm(10'000), {1.1f, 2.0f, NAN, -3.25f}};
  EXPECT_EQ(write_job(job), R"({
  "version": 1,
  "site": {
    "points": [
      {"id": "A", "east": "0 in", "north": "0 in"},
      {"id": "B", "east": "120 ft", "north": "0 in", "height": "1.5 m", "note": "gate here"}
    ],
    "legs": [
      {"id": "L", "from": "A", "to": "B", "fence": "f"}
    ],
    "ground": {
      "grid": {
        "columns": 2,
        "rows": 2,
        "west": "0 in",
        "south": "0 in",
        "cell": "10 m",
        "heights_m": [1.1, 2.0, null, -3.25]
      }
    }
  }
}
)");
}

TEST(WriteJob, BytesThatAreNoTextDoNotThrow) {
  Job job;
  job.name = "\xFF";
  EXPECT_NE(write_job(job).find("name"), std::string::npos);
}

// Spoilt documents: a reader that survives these survives a torn file.
TEST(ReadJob, SurvivesSpoiltBytes) {
  std::mt19937_64 random(42);
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    Job job;
    Filler(seed).fill(job);
    const std::string text = write_job(job);
    for (int i = 0; i < 40; ++i) {
      std::string spoilt = text;
      for (std::uint64_t n = random() % 3 + 1; n > 0; --n) {
        spoilt[random() % spoilt.size()] = static_cast<char>(random() % 256);
      }
      if (i % 5 == 0) spoilt.resize(random() % spoilt.size());
      for (const Finding& finding : read_job(spoilt).findings) ASSERT_FALSE(finding.code.empty());
    }
  }
}

}  // namespace
}  // namespace railwright::job
