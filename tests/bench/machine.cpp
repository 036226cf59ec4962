#include "machine.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <thread>
#include <vector>

#include "evenlit/base/parallel.hpp"
#include "timing.hpp"
#include "vectorised.hpp"

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

/// Which copy runs is settled at program start, as in the engine; AVX2 alone would not bring fused multiply-adds.
#if defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__)
#define EVENLIT_FUSED __attribute__((target_clones("avx512f", "arch=haswell", "default")))
#else
#define EVENLIT_FUSED
#endif

/// 16 floats: one register of the widest kind, two or four of the narrower ones.
typedef float Lanes __attribute__((vector_size(64)));
constexpr int k_lanes = 16;

float sum_of(const Lanes& lanes) {
  float sum = 0;
  for (int k = 0; k < k_lanes; ++k) sum += lanes[k];
  return sum;
}

/// Six independent chains: enough to hide the latency of narrow units, few enough for the registers of AVX2.
constexpr int k_few_chains = 6;
EVENLIT_FUSED float few_chains(int steps, float factor) {
  Lanes a0{1}, a1{2}, a2{3}, a3{4}, a4{5}, a5{6};
  const Lanes f = Lanes{} + factor;
  for (int step = 0; step < steps; ++step) {
    a0 = a0 * f + f, a1 = a1 * f + f, a2 = a2 * f + f, a3 = a3 * f + f, a4 = a4 * f + f, a5 = a5 * f + f;
  }
  return sum_of(a0 + a1 + a2 + a3 + a4 + a5);
}

/// Ten, for AVX-512 with twice the registers.
constexpr int k_many_chains = 10;
EVENLIT_FUSED float many_chains(int steps, float factor) {
  Lanes a0{1}, a1{2}, a2{3}, a3{4}, a4{5}, a5{6}, a6{7}, a7{8}, a8{9}, a9{10};
  const Lanes f = Lanes{} + factor;
  for (int step = 0; step < steps; ++step) {
    a0 = a0 * f + f, a1 = a1 * f + f, a2 = a2 * f + f, a3 = a3 * f + f, a4 = a4 * f + f;
    a5 = a5 * f + f, a6 = a6 * f + f, a7 = a7 * f + f, a8 = a8 * f + f, a9 = a9 * f + f;
  }
  return sum_of(a0 + a1 + a2 + a3 + a4 + a5 + a6 + a7 + a8 + a9);
}

EVENLIT_VECTORISED float sum_of_all(const Lanes* data, std::size_t count) {
  Lanes a{}, b{}, c{}, d{};
  for (std::size_t k = 0; k < count; k += 4) {
    a += data[k], b += data[k + 1], c += data[k + 2], d += data[k + 3];
  }
  return sum_of((a + b) + (c + d));
}

}  // namespace

std::string machine_text() {
  return fmt::format("compiler   g++ {}\nflags      {}\nprocessor  {}\nthreads    {}\n", __VERSION__,
                     EVENLIT_COMPILE_FLAGS, processor(), threads());
}

Limits measured_limits() {
  constexpr int k_runs = 7;
  constexpr int k_steps = 2'000'000;
  constexpr std::size_t k_block = 1 << 20;  // of 64 bytes each
  const int blocks = 4 * threads();
  const std::vector<Lanes> data(k_block * blocks);
  std::vector<float> results(blocks);
  volatile float factor = 0.5F;

  const auto timings = alternated(
      k_runs,
      {[&] { parallel_for(threads(), [&](int i) { results[i] = few_chains(k_steps, factor); }); },
       [&] { parallel_for(threads(), [&](int i) { results[i] = many_chains(k_steps, factor); }); },
       [&] { parallel_for(blocks, [&](int i) { results[i] = sum_of_all(data.data() + i * k_block, k_block); }); }});
  const double lanes = static_cast<double>(k_steps) * k_lanes * threads();
  return {std::max(lanes * k_few_chains / timings[0].minimum_s, lanes * k_many_chains / timings[1].minimum_s),
          static_cast<double>(data.size() * sizeof(Lanes)) / timings[2].minimum_s};
}

}  // namespace evenlit::bench
