#pragma once

#include <Eigen/Core>
#include <memory>
#include <optional>
#include <vector>

#include "evenlit/room/scene.hpp"

struct RTCDeviceTy;
struct RTCSceneTy;

namespace evenlit::reference {

/// A scene's surfaces as rays meet them, in Embree: every face whole, also where a box stands on it, because no ray
/// gets there. It knows nothing of plan, ceiling height or boxes.
class RayScene {
 public:
  explicit RayScene(const std::vector<Surface>& surfaces);

  struct Hit {
    Eigen::Vector3d point_m;
    int surface;  ///< index
  };

  /// The first surface that a ray meets; empty where it leaves through a seam.
  [[nodiscard]] std::optional<Hit> first_hit(const Eigen::Vector3d& from, const Eigen::Vector3d& direction) const;

  /// Whether nothing is met from `from` to a touch before `to`.
  [[nodiscard]] bool is_clear(const Eigen::Vector3d& from, const Eigen::Vector3d& to) const;

 private:
  std::shared_ptr<RTCDeviceTy> device_;
  std::shared_ptr<RTCSceneTy> scene_;
};

}  // namespace evenlit::reference
