#pragma once

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "field/rooms.hpp"
#include "rooms_of_every_kind.hpp"

namespace evenlit::reference {

/// Builds a sample room, part by part.
class RoomBuilder {
 public:
  RoomBuilder(std::string name, const Polygon& plan_m, double ceiling_m, const testing::Reflectances& reflectances = {})
      : room_{std::move(name), testing::room_over(plan_m, ceiling_m, reflectances), {}} {}

  RoomBuilder(std::string name, Scene scene) : room_{std::move(name), std::move(scene), {}} {}

  /// The distribution of the luminaires that follow.
  RoomBuilder& with(IntensityDistribution distribution, const Opening& opening = {}) {
    room_.scene.distributions.push_back(std::move(distribution));
    opening_ = opening;
    return *this;
  }
  RoomBuilder& luminaire(const Eigen::Vector3d& at, double tilt_deg = 0, double toward_deg = 0,
                         double rotation_deg = 0) {
    room_.scene.luminaires.push_back({.position_m = at,
                                      .room_from_luminaire = room_from_luminaire(tilt_deg, toward_deg, rotation_deg),
                                      .opening = opening_,
                                      .distribution = static_cast<int>(room_.scene.distributions.size()) - 1});
    return *this;
  }
  RoomBuilder& cans(const std::vector<Eigen::Vector2d>& places) {
    for (const auto& place : places) luminaire({place.x(), place.y(), room_.scene.ceiling.height_m(place)});
    return *this;
  }

  /// A box over a rectangle of the plan, then turned about its centre.
  RoomBuilder& box(const Eigen::Vector2d& low, const Eigen::Vector2d& high, double bottom_m, double top_m,
                   double reflectance = 0.5, double turn_deg = 0) {
    const double turn = turn_deg * std::numbers::pi / 180;
    boxes_.push_back({.name = "box " + std::to_string(boxes_.size() + 1),
                      .centre_m = (low + high) / 2,
                      .half_m = (high - low) / 2,
                      .along = {std::cos(turn), std::sin(turn)},
                      .bottom_m = bottom_m,
                      .top_m = top_m,
                      .reflectance = reflectance});
    return *this;
  }

  RoomBuilder& at(const Eigen::Vector3d& point, const Eigen::Vector3d& normal = Eigen::Vector3d::UnitZ()) {
    room_.receivers.push_back({point, normal.normalized()});
    return *this;
  }
  RoomBuilder& on_work_plane(const std::vector<Eigen::Vector2d>& places) {
    for (const auto& place : places) at({place.x(), place.y(), k_work_plane_m});
    return *this;
  }
  /// An upright facet at eye height.
  RoomBuilder& facing(const Eigen::Vector2d& place, const Eigen::Vector2d& toward) {
    return at({place.x(), place.y(), k_eye_m}, {toward.x(), toward.y(), 0});
  }
  RoomBuilder& on_ceiling(const Eigen::Vector2d& place) {
    return at({place.x(), place.y(), room_.scene.ceiling.highest_m}, -Eigen::Vector3d::UnitZ());
  }

  SampleRoom done() {
    place_boxes(room_.scene, std::move(boxes_));
    return std::move(room_);
  }

 private:
  static constexpr double k_work_plane_m = 0.762;
  static constexpr double k_eye_m = 1.2;

  SampleRoom room_;
  std::vector<Box> boxes_;
  Opening opening_;
};

}  // namespace evenlit::reference
