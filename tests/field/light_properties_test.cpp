#include <Eigen/Geometry>
#include <algorithm>
#include <catch2/catch.hpp>

#include "evenlit/field/response.hpp"
#include "reference/face_points.hpp"
#include "reference/rooms_of_every_kind.hpp"
#include "rooms.hpp"

#ifdef EVENLIT_THREADS
#include <tbb/global_control.h>
#endif

using namespace evenlit;
using namespace evenlit::reference;
using Eigen::Vector3d;

namespace {

/// The light of a diffuse point of 1000 pi lm that faces along a facet's normal, in place of all luminaires.
Field light_from(const Receiver& source, Scene scene, const std::vector<Receiver>& receivers) {
  scene.luminaires.clear();
  scene.distributions.clear();
  testing::add_point(scene, source.position_m, testing::cosine_power(1000, 1));
  scene.luminaires[0].room_from_luminaire =
      Eigen::Quaterniond::FromTwoVectors(-Vector3d::UnitZ(), source.normal).toRotationMatrix();
  return field_at(response(scene, receivers), Eigen::VectorXd::Ones(1));
}

/// Whether the point is before a face, but so near that its light makes a spot there smaller than the mesh.
bool is_by_a_face(const Scene& scene, const Vector3d& point) {
  constexpr double k_hand_m = 0.1;
  return std::ranges::any_of(scene.surfaces, [&](const Surface& surface) {
    const double height = surface.normal.dot(point - surface.corners_m[0]);
    return height > 1e-6 && height < k_hand_m;
  });
}

bool all_shine_down(const Scene& scene) {
  return std::ranges::all_of(scene.luminaires, [&](const Luminaire& luminaire) {
    return luminaire.position_m.z() == scene.ceiling.highest_m && luminaire.room_from_luminaire(2, 2) == 1;
  });
}

}  // namespace

// Helmholtz: light takes the same way back. A small diffuse source and a small facet may change places in any room, all
// reflections included. Tolerance: what the engine says of its error both times.
TEST_CASE("a diffuse point and a facet may change places", "[field][property]") {
  int count = 0;
  for (const auto& [name, scene, receivers] : rooms_of_every_kind()) {
    for (Eigen::Index i = 0; i + 3 < std::ssize(receivers); i += 4) {
      if (is_by_a_face(scene, receivers[i].position_m) || is_by_a_face(scene, receivers[i + 3].position_m)) continue;
      const Field there = light_from(receivers[i], scene, receivers);
      const Field back = light_from(receivers[i + 3], scene, receivers);
      const double margin_lx = there.error_lx[i + 3] + back.error_lx[i];
      CAPTURE(name, i, margin_lx);
      CHECK(there.total_lx[i + 3] == Approx(back.total_lx[i]).margin(margin_lx + 1e-6).epsilon(0));
      ++count;
    }
  }
  CHECK(count > 15);
}

// The balance of light with another reflectance on every kind of face: what they absorb is what is sent out. Told the
// other way round, a room that glows evenly looks the same from everywhere. The solver closes it to 1e-6, patch by
// patch; the light at points is good to the 0.05 % that the engine states at the least, and the quadrature over hot
// spots and shadow edges is given as much.
TEST_CASE("empty rooms under cans absorb what is sent out", "[field][exact]") {
  int count = 0;
  for (const auto& [name, scene, receivers] : rooms_of_every_kind()) {
    if (!scene.boxes.empty() || !all_shine_down(scene)) continue;
    const FacePoints points = face_points(scene.surfaces, 2);
    const Field field =
        field_at(response(scene, points.receivers), Eigen::VectorXd::Ones(std::ssize(scene.luminaires)));
    double sent_lm = 0;
    for (const auto& luminaire : scene.luminaires) sent_lm += lumens(scene.distributions[luminaire.distribution]);
    double absorbed_lm = 0;
    for (int i = 0; i < static_cast<int>(scene.surfaces.size()); ++i) {
      absorbed_lm += (1 - scene.surfaces[i].reflectance) * sum_over(points, field.total_lx, i);
    }
    CAPTURE(name);
    CHECK(absorbed_lm == Approx(sent_lm).epsilon(1e-3));
    ++count;
  }
  CHECK(count > 7);
}

TEST_CASE("twice the intensities are twice the light", "[field][property]") {
  const auto room = rooms_of_every_kind().at(7);
  Scene brighter = room.scene;
  for (auto& distribution : brighter.distributions) distribution = scaled(distribution, 2);
  const Response once = response(room.scene, room.receivers, coarse_mesh(room.scene));
  const Response twice = response(brighter, room.receivers, coarse_mesh(room.scene));
  CHECK(twice.direct_lx == 2 * once.direct_lx);  // a factor of two is exact in binary
  CHECK((twice.indirect_lx - 2 * once.indirect_lx).cwiseAbs().maxCoeff() <= 1e-6 * once.indirect_lx.maxCoeff());
}

#ifdef EVENLIT_THREADS
TEST_CASE("the light does not depend on the number of threads, not by a bit", "[field][property]") {
  const auto rooms = rooms_of_every_kind();
  for (const std::size_t i : {std::size_t{1}, std::size_t{8}, std::size_t{11}}) {
    const auto& [name, scene, receivers] = rooms[i];
    const Response usual = response(scene, receivers);
    for (const std::size_t threads : {1, 3}) {
      const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
      const Response limited = response(scene, receivers);
      CAPTURE(name, threads);
      CHECK(limited.direct_lx == usual.direct_lx);
      CHECK(limited.indirect_lx == usual.indirect_lx);
      CHECK(limited.first_change_lx == usual.first_change_lx);
      CHECK(limited.second_change_lx == usual.second_change_lx);
    }
  }
}
#endif

// Two ways through the same sums: from the luminaires to the receivers, and, where luminaires outnumber receivers,
// back. Tolerance: single precision, and that luminaires are then taken alone, so that the mesh must be the same.
TEST_CASE("few receivers and many luminaires get the same light as many receivers and few luminaires",
          "[field][property]") {
  const MeshDetail even{.patch_size_m = 0.9, .unevenness = 1e9};
  for (const auto& [name, scene, receivers] : rooms_of_every_kind()) {
    Scene many = scene;
    while (many.luminaires.size() < 12) {
      many.luminaires.insert(many.luminaires.end(), scene.luminaires.begin(), scene.luminaires.end());
    }
    const std::vector<Receiver> few(receivers.begin(), receivers.begin() + 6);
    const Response back = response(many, few, even);
    const Response forth = response(scene, receivers, even);
    const Eigen::Index cans = std::ssize(scene.luminaires);
    const double light_lx = std::max(1.0, forth.indirect_lx.maxCoeff());
    const auto difference = [&](const Eigen::MatrixXd& one, const Eigen::MatrixXd& other) {
      return (one.leftCols(cans) - other.topRows(6)).cwiseAbs().maxCoeff() / light_lx;
    };
    CAPTURE(name);
    CHECK(back.patches == forth.patches);
    CHECK(back.direct_lx.leftCols(cans) == forth.direct_lx.topRows(6));
    CHECK(difference(back.indirect_lx, forth.indirect_lx) < 1e-5);
    CHECK(difference(back.first_change_lx, forth.first_change_lx) < 1e-5);
    CHECK(difference(back.second_change_lx, forth.second_change_lx) < 1e-5);
    CHECK(difference(back.uncertain_lx, forth.uncertain_lx) < 1e-5);
    CHECK((back.missed - forth.missed.head(6)).cwiseAbs().maxCoeff() < 1e-5);
    CHECK(back.indirect_lx.rightCols(cans).isApprox(back.indirect_lx.leftCols(cans), 1e-6));
  }
}
