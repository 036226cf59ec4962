#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/result.hpp"
#include "evenlit/field/response.hpp"

namespace evenlit {

/// What the command line of `evenlit light` asks for.
struct LightRequest {
  std::filesystem::path job;
  std::optional<std::filesystem::path> map;
  std::optional<std::filesystem::path> floor;
  std::optional<std::filesystem::path> elevations;
  std::optional<std::filesystem::path> section;
  std::optional<std::filesystem::path> json;
  std::optional<std::filesystem::path> csv;
  std::optional<std::filesystem::path> readings;
  std::optional<double> top_lx;
  std::optional<int> through;  ///< number of the can that the section goes through
  int width_px = 0;
  bool per_can = false;
  bool surfaces = false;
  Accuracy accuracy;
  bool is_rough = false;  ///< cut by `rough_mesh` instead
  bool help = false;      ///< show `light_help()` and do nothing else
};

/// @param arguments what stands after the command's name
Result<LightRequest> light_request(const std::vector<std::string>& arguments);

std::string light_help();

}  // namespace evenlit
