#include "bench/plain_reference.hpp"

#include <catch2/catch.hpp>

#include "evenlit/field/response.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;
using Eigen::Vector2d;

namespace {

struct Room {
  Polygon plan_m;
  std::vector<Vector2d> cans_m;
};

const Room k_l_shape{{{0, 0}, {5.4, 0}, {5.4, 2.8}, {3.0, 2.8}, {3.0, 4.8}, {0, 4.8}},
                     {{0.8, 0.9}, {2.6, 0.9}, {4.5, 0.7}, {0.8, 2.6}, {2.3, 2.8}, {1.5, 4.2}}};
const Room k_cut_corner{{{0, 0}, {4, 0}, {4, 2}, {3, 3}, {0, 3}}, {{0.8, 0.9}, {3.2, 0.9}, {0.8, 2.2}, {2.3, 2.2}}};

std::vector<Receiver> inside(const Polygon& plan, std::vector<Receiver> receivers) {
  std::erase_if(receivers, [&](const Receiver& r) { return !is_inside(plan, r.position_m.head<2>()); });
  return receivers;
}

}  // namespace

// An independent program: other patches (triangles), other factors, another solver. Tolerance: what both say of their
// own numerical errors, point by point, and nothing more.
TEST_CASE("rooms that are no rectangles agree with a plain radiosity at every point", "[field][reference]") {
  const Room room = GENERATE(k_l_shape, k_cut_corner);
  CAPTURE(room.plan_m.size());
  Scene scene = room_over(room.plan_m, 2.5);
  for (const auto& can : room.cans_m) add_point(scene, {can.x(), can.y(), 2.5}, cosine_power(380, 3));
  const auto receivers = inside(room.plan_m, upward_grid(5.4, 4.8, 0.8, 18, 16));
  const Field field = field_at(response(scene, receivers), Eigen::VectorXd::Ones(std::ssize(room.cans_m)));
  const Field plain = bench::plain_field(scene, receivers, 0.175);
  for (std::size_t i = 0; i < receivers.size(); ++i) {
    const auto k = static_cast<Eigen::Index>(i);
    CAPTURE(receivers[i].position_m.transpose());
    CHECK(field.total_lx[k] == Approx(plain.total_lx[k]).margin(field.error_lx[k] + plain.error_lx[k]).epsilon(0));
  }
  // An error so large that any value would agree is no evidence.
  CHECK((field.error_lx.array() / field.total_lx.array()).maxCoeff() < 0.02);
  CHECK((plain.error_lx.array() / plain.total_lx.array()).maxCoeff() < 0.02);
}
