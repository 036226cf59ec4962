#include <catch2/catch.hpp>

#include "evenlit/field/response.hpp"
#include "reference/path_tracer.hpp"
#include "reference/rooms_of_every_kind.hpp"

using namespace evenlit;
using namespace evenlit::reference;

// An independent program (Monte Carlo, Embree's rays): no patches, factors or solver, and light is followed the other
// way. Tolerance: four standard errors of the one (the chance of a false alarm is 6e-5 a receiver, 4e-4 with the error
// itself estimated from 32 replicates), the stated error of the other, and 0.1 lx, a tenth of the least change of light
// that a meter for field use shows.
TEST_CASE("rooms of every kind agree with light followed along random paths", "[field][reference]") {
  for (const auto& [name, scene, receivers] : rooms_of_every_kind()) {
    const Response r = response(scene, receivers);
    const Field field = field_at(r, Eigen::VectorXd::Ones(r.direct_lx.cols()));
    const TracedLight traced = traced_light(scene, receivers, {.paths = 1024});
    for (std::size_t i = 0; i < receivers.size(); ++i) {
      const auto k = static_cast<Eigen::Index>(i);
      CAPTURE(name, i, receivers[i].position_m.transpose(), traced.standard_error_lx[k], field.error_lx[k]);
      const double margin_lx = 4 * traced.standard_error_lx[k] + field.error_lx[k] + 0.1;
      CHECK(field.total_lx[k] == Approx(traced.total_lx[k]).margin(margin_lx).epsilon(0));
    }
    // Margins so wide that any value would agree are no evidence, nor is light that was lost on its way.
    CAPTURE(name);
    CHECK((traced.standard_error_lx <= 0.01 * traced.total_lx + 0.1).all());
    CHECK((field.error_lx.array() <= 0.04 * traced.total_lx + 0.1).all());
    CHECK(static_cast<double>(traced.escaped) <= 1e-6 * static_cast<double>(traced.rays));
  }
}
