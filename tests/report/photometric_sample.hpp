#pragma once

#include <cmath>
#include <numbers>
#include <utility>

#include "evenlit/base/result.hpp"
#include "evenlit/photometry/photometric_summary.hpp"

namespace evenlit::sample {

/// An invented luminaire: 1000 cos^2 cd, a lens of 1 x 2 ft, two lamp sets.
inline PhotometricFile photometric_file() {
  PhotometricFile file;
  file.format = "LM-63-2002";
  file.keywords = {{"TEST", "17"}, {"MANUFAC", "Nobody"}, {"LUMCAT", "X-1"}, {"OTHER", "first"}, {"", "free text"}};
  file.lamp_sets = {{1, "LED module", 3000.0, "3000 K", "90", 25.0}, {2, "tube", 2500.0, "", "", {}}};
  file.opening = {Opening::Shape::rectangle, 0.3048, 0.6096, 0};
  file.distribution = {{}, {0, 90, 180, 270, 360}, Eigen::ArrayXXd(19, 5)};
  for (int i = 0; i < 19; ++i) {
    file.distribution.gamma_deg.push_back(5 * i);
    file.distribution.candela.row(i) = i == 18 ? 0 : 1000 * std::pow(std::cos(5 * i * std::numbers::pi / 180), 2);
  }
  return file;
}

inline Problems photometric_warnings() {
  return {{{"a.ies", 3, 1, 1}, "lumens are \x1b[31m0", "write the lumens of one lamp"},
          {{"a.ies", 9, 1, 1}, "odd", ""}};
}

}  // namespace evenlit::sample
