#include "ray_scene.hpp"

#include <embree3/rtcore.h>

#include <algorithm>
#include <limits>

#include "triangles.hpp"

namespace evenlit::reference {
namespace {

using Eigen::Vector3d;

/// What is this near the end of a segment, as a share of its length, is where it leads to: rays are single precision.
constexpr float k_end = 1e-4F;

void attach(RTCDevice device, RTCScene scene, const std::vector<Triangle>& faces, unsigned id) {
  RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
  auto* corner = static_cast<float*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                                             3 * sizeof(float), 3 * faces.size()));
  auto* index = static_cast<unsigned*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                                               3 * sizeof(unsigned), faces.size()));
  for (const auto& face : faces) {
    for (const Vector3d& point : face)
      corner = std::ranges::transform(point, corner, [](double x) { return static_cast<float>(x); }).out;
  }
  for (unsigned i = 0; i < 3 * faces.size(); ++i) index[i] = i;
  rtcCommitGeometry(geometry);
  rtcAttachGeometryByID(scene, geometry, id);
  rtcReleaseGeometry(geometry);
}

RTCRay ray_along(const Vector3d& from, const Vector3d& direction, float far) {
  const Eigen::Vector3f o = from.cast<float>();
  const Eigen::Vector3f d = direction.cast<float>();
  return {.org_x = o.x(),
          .org_y = o.y(),
          .org_z = o.z(),
          .tnear = 0,
          .dir_x = d.x(),
          .dir_y = d.y(),
          .dir_z = d.z(),
          .time = 0,
          .tfar = far,
          .mask = ~0U,
          .id = 0,
          .flags = 0};
}

}  // namespace

RayScene::RayScene(const std::vector<Surface>& surfaces)
    : device_(rtcNewDevice(nullptr), rtcReleaseDevice), scene_(rtcNewScene(device_.get()), rtcReleaseScene) {
  rtcSetSceneFlags(scene_.get(), RTC_SCENE_FLAG_ROBUST);
  for (std::size_t i = 0; i < surfaces.size(); ++i) {
    attach(device_.get(), scene_.get(), triangles(surfaces[i].corners_m, surfaces[i].normal), static_cast<unsigned>(i));
  }
  rtcCommitScene(scene_.get());
}

std::optional<RayScene::Hit> RayScene::first_hit(const Vector3d& from, const Vector3d& direction) const {
  RTCRayHit query{.ray = ray_along(from, direction, std::numeric_limits<float>::infinity()), .hit = {}};
  query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  rtcIntersect1(scene_.get(), &context, &query);
  if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID) return std::nullopt;
  return Hit{from + static_cast<double>(query.ray.tfar) * direction, static_cast<int>(query.hit.geomID)};
}

bool RayScene::is_clear(const Vector3d& from, const Vector3d& to) const {
  RTCRay ray = ray_along(from, to - from, 1 - k_end);
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  rtcOccluded1(scene_.get(), &context, &ray);
  return ray.tfar >= 0;
}

}  // namespace evenlit::reference
