#include "json_values.hpp"

#include <cmath>

#include "significant.hpp"

namespace evenlit {

Json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  const double rounded = significant(std::abs(value), 6);
  return value < 0 ? -rounded : rounded;
}

Json number(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }

Json numbers(const Eigen::Ref<const Eigen::VectorXd>& values) {
  Json array = Json::array();
  for (const double value : values) array.push_back(number(value));
  return array;
}

Json length(double metres) { return std::round(metres * 1e4) / 1e4 + 0.0; }

Json remarks(const Problems& warnings) {
  Json array = Json::array();
  for (const Problem& warning : warnings) {
    array.push_back({{"file", warning.place.file},
                     {"line", warning.place.line},
                     {"column", warning.place.column},
                     {"what", warning.what},
                     {"hint", warning.hint}});
  }
  return array;
}

std::string json_text(const Json& report) { return report.dump(1, ' ', false, Json::error_handler_t::replace) + '\n'; }

}  // namespace evenlit
