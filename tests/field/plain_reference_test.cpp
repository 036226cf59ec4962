#include "bench/plain_reference.hpp"

#include <catch2/catch.hpp>

#include "evenlit/field/response.hpp"
#include "rooms.hpp"

using namespace evenlit;
using namespace evenlit::testing;

namespace {

const Polygon k_l_shape{{0, 0}, {5.4, 0}, {5.4, 2.8}, {3.0, 2.8}, {3.0, 4.8}, {0, 4.8}};
const Polygon k_cut_corner{{0, 0}, {4, 0}, {4, 2}, {3, 3}, {0, 3}};

Field ours(const Scene& scene, const std::vector<Receiver>& receivers) {
  return field_at(response(scene, receivers), Eigen::VectorXd::Ones(static_cast<int>(scene.luminaires.size())));
}

std::vector<Receiver> inside(const Polygon& plan, std::vector<Receiver> receivers) {
  std::erase_if(receivers, [&](const Receiver& r) { return !is_inside(plan, r.position_m.head<2>()); });
  return receivers;
}

}  // namespace

// An independent program: other patches (triangles), other factors, another solver. Tolerance: what both say of their
// own numerical errors, point by point, and nothing more.
TEST_CASE("rooms that are no rectangles agree with a plain radiosity at every point", "[field][reference]") {
  const auto plan = GENERATE(k_l_shape, k_cut_corner);
  CAPTURE(plan.size());
  Scene scene = room_over(plan, 2.5);
  add_point(scene, {0.8, 0.9, 2.5}, cosine_power(380, 3));
  add_point(scene, {2.3, 2.2, 2.5}, cosine_power(380, 3));
  const auto receivers = inside(plan, upward_grid(5.4, 4.8, 0.8, 9, 8));
  const Field field = ours(scene, receivers);
  const Field plain = bench::plain_field(scene, receivers, 0.25);
  for (std::size_t i = 0; i < receivers.size(); ++i) {
    const auto k = static_cast<Eigen::Index>(i);
    CAPTURE(receivers[i].position_m.transpose());
    CHECK(field.total_lx[k] == Approx(plain.total_lx[k]).margin(field.error_lx[k] + plain.error_lx[k]).epsilon(0));
  }
  // An error so large that any value would agree is no evidence.
  CHECK((field.error_lx.array() / field.total_lx.array()).maxCoeff() < 0.02);
  CHECK((plain.error_lx.array() / plain.total_lx.array()).maxCoeff() < 0.02);
}
