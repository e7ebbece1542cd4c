// SPDX-License-Identifier: MIT
// Prints one line a job: its name and a digest of its plan's JSON. Built natively and for WebAssembly; ./check compares the two outputs.
//   print_plans COUNT [JOB.json ...]
//   print_plans json SEED              the whole plan of one drawn job, to see where two builds part
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>

#include "data/shipped.h"
#include "engine/job/read.h"
#include "engine/plan/plan.h"
#include "tests/plan/generated_jobs.h"

namespace {

// FNV-1a of the whole text: a differing byte anywhere shows.
unsigned long long digest(const std::string& text) {
  unsigned long long state = 14695981039346656037ull;
  for (const char letter : text) state = (state ^ static_cast<unsigned char>(letter)) * 1099511628211ull;
  return state;
}

void print_plan(const railwright::job::Job& job, const railwright::job::Catalogue& shipped) {
  const std::string json = railwright::plan_json(job, railwright::make_plan(job, shipped));
  std::printf("%016llx %zu %s\n", digest(json), json.size(), job.name.c_str());
}

}  // namespace

int main(int argc, char** argv) {
  const railwright::job::Catalogue shipped = railwright::data::shipped();
  if (argc > 2 && std::string(argv[1]) == "json") {
    const railwright::job::Job job = railwright::testing::draw_job(static_cast<unsigned>(std::atoi(argv[2])));
    std::printf("%s\n", railwright::plan_json(job, railwright::make_plan(job, shipped)).c_str());
    return 0;
  }
  const int count = argc > 1 ? std::atoi(argv[1]) : 0;
  for (int seed = 1; seed <= count; ++seed) print_plan(railwright::testing::draw_job(static_cast<unsigned>(seed)), shipped);
  for (int i = 2; i < argc; ++i) {
    std::ifstream file(argv[i], std::ios::binary);
    const std::string bytes((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    const railwright::job::ReadJob read = railwright::job::read_job(bytes);
    if (!read.sound()) {
      std::printf("unsound %s\n", argv[i]);
      return 1;
    }
    print_plan(read.job, shipped);
  }
  return 0;
}
