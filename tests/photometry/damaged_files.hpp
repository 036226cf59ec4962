#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <string>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_file.hpp"

namespace evenlit::testing {

/// The file with one to three of its bytes replaced.
inline std::string damaged(std::string bytes, std::mt19937& random) {
  const auto flips = 1 + random() % 3;
  for (unsigned flip = 0; flip < flips; ++flip) bytes[random() % bytes.size()] = static_cast<char>(random() % 256);
  return bytes;
}

/// Requires of what a reader gives that it is either sound light or a reason. Returns whether the bytes were read.
inline bool is_light_or_a_reason(const Result<Noted<PhotometricFile>>& read, const std::string& bytes) {
  if (!read) {
    REQUIRE_FALSE(read.error().empty());
    REQUIRE_FALSE(text_of(read.error(), bytes).empty());
    return false;
  }
  const auto& file = read->value;
  const auto& d = file.distribution;
  REQUIRE(d.gamma_deg.size() >= 2);
  REQUIRE(std::is_sorted(d.gamma_deg.begin(), d.gamma_deg.end(), std::less_equal<>{}));
  REQUIRE(std::is_sorted(d.c_deg.begin(), d.c_deg.end(), std::less_equal<>{}));
  REQUIRE((d.gamma_deg.front() >= 0 && d.gamma_deg.back() <= 180));
  REQUIRE((d.candela >= 0).all());
  REQUIRE((d.candela <= 1e9).all());
  REQUIRE(std::isfinite(lumens(d)));
  REQUIRE(file.lamp_set < file.lamp_sets.size());
  for (const auto& lamps : file.lamp_sets) REQUIRE(lamps.lamps >= 1);
  for (const auto& sizes : {file.opening, file.housing.value_or(Opening{})}) {
    REQUIRE((sizes.width_m >= 0 && sizes.length_m >= 0 && sizes.height_m >= 0));
    REQUIRE(std::isfinite(sizes.width_m + sizes.length_m + sizes.height_m));
  }
  REQUIRE_FALSE((!read->warnings.empty() && text_of(read->warnings, bytes).empty()));
  return true;
}

}  // namespace evenlit::testing
