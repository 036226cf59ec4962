#pragma once

#include <vector>

#include "evenlit/base/progress.hpp"
#include "evenlit/field/direct.hpp"
#include "evenlit/field/response.hpp"
#include "evenlit/room/visibility.hpp"
#include "transposed.hpp"

namespace evenlit {

/// What stays the same however finely a room is cut, and the steps from the luminaires' light to the receivers'
/// (METHOD.md). The scene and the receivers must outlive it.
class Solver {
 public:
  Solver(const Scene& scene, const std::vector<Receiver>& receivers);

  /// The light straight from the luminaires.
  void add_direct(Response& response) const;

  /// The light of the room's surfaces.
  void add_indirect(const MeshDetail& detail, const Progress& progress, Response& response) const;

 private:
  /// Patch by patch first; then the second reflection is resolved within patches by gathering the first at all nodes;
  /// then receivers gather that.
  void add_for_many_receivers(const MeshDetail& detail, const Progress& progress, Response& response) const;

  /// The same steps turned about: what receivers owe to each node first, then the luminaires' light on nodes, some of
  /// each at a time.
  void add_for_many_luminaires(const MeshDetail& detail, const Progress& progress, Response& response) const;

  /// @param first the receiver that the first row of the weights is for
  void add_light(const CutRoom& room, const MeshDetail& detail, const Transposed& weights, Eigen::Index first,
                 Response& response) const;

  const Scene& scene_;
  const std::vector<Receiver>& receivers_;
  Visibility visibility_;
  std::vector<DirectLight> lights_;
  std::vector<DirectLight> lights_on_surfaces_;
};

}  // namespace evenlit
