// SPDX-License-Identifier: MIT
#include <sys/resource.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>

#include "bench/cutting/classes.h"
#include "bench/cutting/models.h"
#include "engine/cutting/checker.h"
#include "engine/cutting/greedy.h"

// cutting_bench --export FOLDER CLASS[:CASE] [DRAW]   solves, writes each case as an integer program for the peers and prints one line a case
// cutting_bench [-v] [-q] [-d DRAW] [-w WORK] [CLASS[:CASE]...]   solves every case of the classes (whose name holds CASE), each within the class's time, checks every plan
//                                                       and prints one line a class; -v one a case, -q quick effort, -d other instances by the same rules,
//                                                       -w ends each case by work instead of time, so that the same is computed everywhere.
namespace railwright::bench {
namespace {

struct Flags {
  bool verbose = false;
  bool quick = false;
  std::uint64_t draw = 0;
  std::int64_t work = 0;  // 0: time ends a case
};

struct Result {
  bool proved = false;
  double seconds = 0;
  double gap = 0;
};

// Processor time: the engine runs on one thread, and other work on the machine does not count.
double now() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

Result run(const Case& item, double allowed, const Flags& flags) {
  const double start = now();
  cutting::Options options;
  options.effort = flags.quick ? cutting::Effort::quick : cutting::Effort::full;
  options.work_limit = 1'000'000'000;
  if (flags.work > 0) {
    options.work_limit = flags.work;
  } else {
    options.on_progress = [&](const cutting::Progress&) { return now() - start < allowed * 0.98; };
  }
  const cutting::Plan plan = cutting::solve(item.instance, options);
  Result result{plan.proved, now() - start, 0};
  if (!plan.proved) result.gap = plan.found ? static_cast<double>((plan.cost - plan.bound).units()) / static_cast<double>(plan.cost.units()) : 1;
  for (const std::string& fault : cutting::check_plan(item.instance, plan)) std::printf("FAULT %s: %s\n", item.name.c_str(), fault.c_str());
  if (flags.verbose)
    std::printf("  %-16s cost %12lld bound %12lld %s gap %.4f%% %8.3f s work %lld setups %d\n", item.name.c_str(), static_cast<long long>(plan.cost.units()),
                static_cast<long long>(plan.bound.units()), plan.proved ? "proved  " : "unproved", 100 * result.gap, result.seconds,
                static_cast<long long>(plan.work), plan.setups);
  return result;
}

void run_class(const std::string& wanted, const Flags& flags) {
  const std::size_t colon = wanted.find(':');
  const std::string name = wanted.substr(0, colon);
  const Class c = make_class(name, flags.draw);
  int proved = 0;
  double worst_gap = 0;
  std::vector<double> seconds;
  for (const Case& item : c.cases) {
    if (colon != std::string::npos && item.name.find(wanted.substr(colon + 1)) == std::string::npos) continue;
    const Result result = run(item, c.seconds, flags);
    proved += result.proved;
    worst_gap = std::max(worst_gap, result.gap);
    seconds.push_back(result.seconds);
  }
  if (seconds.empty()) return;
  std::sort(seconds.begin(), seconds.end());
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  std::printf("%-14s cases %4zu proved %4d (%5.1f%%) worst gap %.4f%% median %.4f s longest %.3f s memory %ld MB\n", name.c_str(), seconds.size(), proved,
              100.0 * proved / static_cast<double>(seconds.size()), 100 * worst_gap, seconds[seconds.size() / 2], seconds.back(), usage.ru_maxrss / 1024);
  std::fflush(stdout);
}

void export_class(const std::string& folder, const std::string& wanted, std::uint64_t draw) {
  const std::size_t colon = wanted.find(':');
  const Class c = make_class(wanted.substr(0, colon), draw);
  int serial = 0;
  for (const Case& item : c.cases) {
    ++serial;
    if (colon != std::string::npos && item.name.find(wanted.substr(colon + 1)) == std::string::npos) continue;
    const double start = now();
    cutting::Options options;
    options.work_limit = 1'000'000'000;
    options.on_progress = [&](const cutting::Progress&) { return now() - start < c.seconds; };
    const cutting::Plan plan = cutting::solve(item.instance, options);
    const double seconds = now() - start;
    const cutting::Model model(item.instance);
    const cutting::Solution greedy = cutting::greedy(model, cutting::whole_task(model));
    std::string kind;
    const std::string text = integer_program(item.instance, kind);
    std::string path = "-";
    if (!text.empty()) {
      path = folder + "/" + std::to_string(serial) + ".lp";
      std::FILE* file = std::fopen(path.c_str(), "w");
      if (file == nullptr) continue;
      std::fwrite(text.data(), 1, text.size(), file);
      std::fclose(file);
    }
    std::printf("%s %s %lld %lld %d %lld %.5f %s\n", item.name.c_str(), kind.c_str(), static_cast<long long>(plan.cost.units()),
                static_cast<long long>(plan.bound.units()), plan.proved ? 1 : 0, static_cast<long long>(greedy.found ? greedy.cost : 0), seconds, path.c_str());
  }
}

}  // namespace
}  // namespace railwright::bench

int main(int argc, char** argv) {
  if ((argc == 4 || argc == 5) && std::strcmp(argv[1], "--export") == 0) {
    railwright::bench::export_class(argv[2], argv[3], argc == 5 ? std::strtoull(argv[4], nullptr, 10) : 0);
    return 0;
  }
  railwright::bench::Flags flags;
  std::vector<std::string> names;
  for (int i = 1; i < argc; ++i) {
    if (std::strcmp(argv[i], "-v") == 0) {
      flags.verbose = true;
    } else if (std::strcmp(argv[i], "-q") == 0) {
      flags.quick = true;
    } else if (std::strcmp(argv[i], "-d") == 0 && i + 1 < argc) {
      flags.draw = std::strtoull(argv[++i], nullptr, 10);
    } else if (std::strcmp(argv[i], "-w") == 0 && i + 1 < argc) {
      flags.work = std::strtoll(argv[++i], nullptr, 10);
    } else {
      names.push_back(argv[i]);
    }
  }
  if (names.empty()) names = railwright::bench::class_names();
  for (const std::string& name : names) railwright::bench::run_class(name, flags);
}
