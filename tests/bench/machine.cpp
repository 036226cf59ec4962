#include "machine.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <thread>
#include <vector>

#include "evenlit/base/parallel.hpp"
#include "table.hpp"
#include "timing.hpp"

// This file alone is compiled with fused multiply-adds.

namespace evenlit::bench {
namespace {

std::string processor() {
  std::ifstream info("/proc/cpuinfo");
  for (std::string line; std::getline(info, line);) {
    if (line.starts_with("model name")) return line.substr(line.find(':') + 2);
  }
  return "unknown";
}

int threads() {
#ifdef EVENLIT_THREADS
  return static_cast<int>(std::thread::hardware_concurrency());
#else
  return 1;
#endif
}

#if defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__)
#define EVENLIT_FUSED(instructions) __attribute__((target_clones(instructions, "default")))
#else
#define EVENLIT_FUSED(instructions)
#endif

/// The widest registers of two kinds of processor. One with narrower registers works on pieces.
typedef float Lanes8 __attribute__((vector_size(32)));
typedef float Lanes16 __attribute__((vector_size(64)));

template <class Lanes>
float sum_of(const Lanes& lanes) {
  float sum = 0;
  for (std::size_t k = 0; k < sizeof(Lanes) / sizeof(float); ++k) sum += lanes[k];
  return sum;
}

/// Ten independent chains hide the latency of two units of four or five cycles.
constexpr int k_chains = 10;

EVENLIT_FUSED("fma") float chains_of_8(int steps, float factor) {
  Lanes8 a0{1}, a1{2}, a2{3}, a3{4}, a4{5}, a5{6}, a6{7}, a7{8}, a8{9}, a9{10};
  const Lanes8 f = Lanes8{} + factor;
  for (int step = 0; step < steps; ++step) {
    a0 = a0 * f + f, a1 = a1 * f + f, a2 = a2 * f + f, a3 = a3 * f + f, a4 = a4 * f + f;
    a5 = a5 * f + f, a6 = a6 * f + f, a7 = a7 * f + f, a8 = a8 * f + f, a9 = a9 * f + f;
  }
  return sum_of<Lanes8>(a0 + a1 + a2 + a3 + a4 + a5 + a6 + a7 + a8 + a9);
}

EVENLIT_FUSED("avx512f") float chains_of_16(int steps, float factor) {
  Lanes16 a0{1}, a1{2}, a2{3}, a3{4}, a4{5}, a5{6}, a6{7}, a7{8}, a8{9}, a9{10};
  const Lanes16 f = Lanes16{} + factor;
  for (int step = 0; step < steps; ++step) {
    a0 = a0 * f + f, a1 = a1 * f + f, a2 = a2 * f + f, a3 = a3 * f + f, a4 = a4 * f + f;
    a5 = a5 * f + f, a6 = a6 * f + f, a7 = a7 * f + f, a8 = a8 * f + f, a9 = a9 * f + f;
  }
  return sum_of<Lanes16>(a0 + a1 + a2 + a3 + a4 + a5 + a6 + a7 + a8 + a9);
}

typedef float LanesInArray __attribute__((vector_size(32), aligned(4), may_alias));

/// @param count a multiple of 32
EVENLIT_FUSED("fma") float sum_of_all(const float* data, std::size_t count) {
  Lanes8 a{}, b{}, c{}, d{};
  for (std::size_t k = 0; k < count; k += 32) {
    const auto* lanes = reinterpret_cast<const LanesInArray*>(data + k);
    a += lanes[0], b += lanes[1], c += lanes[2], d += lanes[3];
  }
  return sum_of<Lanes8>((a + b) + (c + d));
}

}  // namespace

std::string machine_text() {
  return fmt::format("compiler   g++ {}\nflags      {}\nprocessor  {}\nthreads    {}\n", __VERSION__,
                     EVENLIT_COMPILE_FLAGS, processor(), threads());
}

Limits measured_limits() {
  constexpr int k_runs = 7;
  constexpr int k_steps = 2'000'000;
  constexpr std::size_t k_block = 1 << 23;
  const int blocks = 4 * threads();
  const std::vector<float> data(k_block * blocks, 1.0F);
  std::vector<float> results(blocks);
  volatile float factor = 0.5F;

  const auto timings = alternated(
      k_runs,
      {[&] { parallel_for(threads(), [&](int i) { results[i] = chains_of_8(k_steps, factor); }); },
       [&] { parallel_for(threads(), [&](int i) { results[i] = chains_of_16(k_steps, factor); }); },
       [&] { results[0] = chains_of_8(k_steps, factor); }, [&] { results[0] = chains_of_16(k_steps, factor); },
       [&] { parallel_for(blocks, [&](int i) { results[i] = sum_of_all(data.data() + i * k_block, k_block); }); }});
  const double steps = static_cast<double>(k_steps) * k_chains;
  const auto peak = [&](int first, int count) {
    return count * std::max(8 * steps / timings[first].minimum_s, 16 * steps / timings[first + 1].minimum_s);
  };
  return {peak(0, threads()), peak(2, 1), static_cast<double>(data.size() * sizeof(float)) / timings[4].minimum_s};
}

void print_limits(const Limits& limits) {
  print_table(fmt::format("Limits of this machine, {} threads, measured", threads()),
              {{"", ""},
               {"fused multiply-adds, single precision", fmt::format("{:.1f} G/s", 1e-9 * limits.multiply_adds_per_s)},
               {"the same, one thread", fmt::format("{:.1f} G/s", 1e-9 * limits.one_thread_multiply_adds_per_s)},
               {"reading from memory", fmt::format("{:.1f} GB/s", 1e-9 * limits.read_bytes_per_s)}});
}

}  // namespace evenlit::bench
