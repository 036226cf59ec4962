#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>

#include "benches.hpp"
#include "cases.hpp"
#include "plain_reference.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

constexpr int k_times = 20;

/// A folder that is gone at the end.
class TemporaryFolder {
 public:
  TemporaryFolder() : path_(std::filesystem::temp_directory_path() / fmt::format("evenlit-bench-{}", getpid())) {
    std::filesystem::create_directory(path_);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  [[nodiscard]] std::string file(const char* name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

/// Runs a program to its end, its output thrown away.
///
/// @return its largest resident memory, bytes; ends this program when it fails
double peak_of_run(std::vector<std::string> arguments) {
  std::vector<char*> argv;
  for (auto& argument : arguments) argv.push_back(argument.data());
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int not_started = posix_spawn(&child, argv[0], &actions, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  int status = 0;
  rusage usage{};
  if (not_started != 0 || wait4(child, &status, 0, &usage) != child || status != 0) {
    fmt::print(stderr, "bench: {} did not run as it should\n", arguments[0]);
    std::exit(1);
  }
  constexpr double k_unit = 1024;  // Linux counts ru_maxrss in KiB
  return k_unit * static_cast<double>(usage.ru_maxrss);
}

}  // namespace

CommandCost command_cost() {
  const TemporaryFolder folder;
  const std::vector<std::string> command{EVENLIT_PROGRAM,         "light", demo_job_path(),         "--map",
                                         folder.file("map.png"),  "--csv", folder.file("grid.csv"), "--json",
                                         folder.file("room.json")};
  CommandCost cost;
  cost.timing = alternated(k_times, {[&] { cost.peak_bytes = std::max(cost.peak_bytes, peak_of_run(command)); }})[0];
  const std::vector<std::string> search{EVENLIT_PROGRAM, "search", demo_job_path()};
  cost.search = alternated(3, {[&] { peak_of_run(search); }})[0];
  return cost;
}

void command_bench(const CommandCost& cost) {
  const Case room = demo_job();
  const double patch_m = coarse_mesh(room.scene).patch_size_m;
  Eigen::VectorXd plain_lx;
  const Timing plain =
      alternated(3, {[&] { plain_lx = plain_light(room.scene, room.receivers, patch_m).total_lx(); }})[0];
  print_table(
      fmt::format("The whole command, {} runs: evenlit light scenes/family-room.toml --map --csv --json", k_times),
      {{"", "minimum", "median", "peak memory"},
       {"command", fmt::format("{:.0f} ms", 1e3 * cost.timing.minimum_s),
        fmt::format("{:.0f} ms", 1e3 * cost.timing.median_s), fmt::format("{:.1f} MB", 1e-6 * cost.peak_bytes)},
       {"evenlit search scenes/family-room.toml", fmt::format("{:.0f} ms", 1e3 * cost.search.minimum_s),
        fmt::format("{:.0f} ms", 1e3 * cost.search.median_s), ""},
       {"plain reference, the light alone", fmt::format("{:.0f} ms", 1e3 * plain.minimum_s),
        fmt::format("{:.0f} ms", 1e3 * plain.median_s), ""},
       {"ratio", fmt::format("{:.1f} x", plain.minimum_s / cost.timing.minimum_s),
        fmt::format("{:.1f} x", plain.median_s / cost.timing.median_s), ""}});
}

}  // namespace evenlit::bench
