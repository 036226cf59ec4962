#include "room_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "evenlit/base/number.hpp"

namespace evenlit {

std::string reflectance_text(double reflectance) { return "LRV " + shortest_text(std::round(1000 * reflectance) / 10); }

std::string light_source_text(const CanType& type, const PhotometricFile& file) {
  if (type.beam) return fmt::format("a made beam of {} degrees", shortest_text(type.beam->beam_angle_deg));
  for (const char* name : {"LUMINAIRE", "LUMCAT"}) {
    if (const auto words = keyword(file, name); !words.empty()) return std::string(words);
  }
  return type.file.substr(type.file.find_last_of("/\\") + 1);
}

std::optional<double> watts_of(const CanType& type, const PhotometricFile& file) {
  return type.watts ? type.watts : lamps_of(file).watts;
}

bool is_upright_rectangle(const Shape& room) {
  const Polygon& c = room.corners_m;
  return c.size() == 4 && c[0] == Eigen::Vector2d(0, 0) && c[1].y() == 0 && c[3].x() == 0 &&
         c[2] == Eigen::Vector2d(c[1].x(), c[3].y());
}

bool hangs(const Can& can) { return can.height_m || can.drop_m.value_or(0) > 0; }

}  // namespace evenlit
