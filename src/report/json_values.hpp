#pragma once

#include <Eigen/Core>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "evenlit/base/result.hpp"

namespace evenlit {

// What the JSON reports have in common.

using Json = nlohmann::ordered_json;

/// Six significant digits. No JSON number can be infinite or not a number; null says that there is none.
Json number(double value);
Json number(const std::optional<double>& value);

Json numbers(const Eigen::Ref<const Eigen::VectorXd>& values);

/// To 0.1 mm.
Json length(double metres);

/// An object a warning.
Json remarks(const Problems& warnings);

/// The bytes of a report, UTF-8, ended by a line feed.
std::string json_text(const Json& report);

}  // namespace evenlit
