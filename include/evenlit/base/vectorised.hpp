#pragma once

/// Marks a function whose loops the compiler turns into vector instructions, once for every processor that can run the
/// program and once for newer ones; which copy runs is settled at program start.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define EVENLIT_VECTORISED __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define EVENLIT_VECTORISED
#endif
