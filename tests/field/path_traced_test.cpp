#include <catch2/catch.hpp>

#include "evenlit/field/response.hpp"
#include "reference/path_tracer.hpp"
#include "reference/rooms_of_every_kind.hpp"

using namespace evenlit;
using namespace evenlit::reference;

namespace {

/// Twice as many paths again and again, until the standard error is 0.3 % at every receiver, or 0.05 lx in the dark.
TracedLight well_traced_light(const SampleRoom& room) {
  constexpr int k_most_paths = 8192;
  for (Sampling sampling{.paths = 512};; sampling.paths *= 2) {
    TracedLight light = traced_light(room.scene, room.receivers, sampling);
    const bool is_good = (light.standard_error_lx <= 0.003 * light.total_lx + 0.05).all();
    if (is_good || sampling.paths == k_most_paths) return light;
  }
}

}  // namespace

// An independent program (Monte Carlo, Embree's rays): no patches, factors or solver, and light is followed the other
// way. Tolerance: four standard errors of the one (the chance of a false alarm is 6e-5 a receiver, 4e-4 with the error
// itself estimated from 32 replicates), the stated error of the other, and 0.1 lx, the last digit of a good meter.
TEST_CASE("rooms of every kind agree with light followed along random paths", "[field][reference]") {
  for (const SampleRoom& room : rooms_of_every_kind()) {
    const Response r = response(room.scene, room.receivers);
    const Field field = field_at(r, Eigen::VectorXd::Ones(r.direct_lx.cols()));
    const TracedLight traced = well_traced_light(room);
    CAPTURE(room.name);
    for (Eigen::Index i = 0; i < std::ssize(room.receivers); ++i) {
      CAPTURE(i, room.receivers[i].position_m.transpose(), traced.standard_error_lx[i], field.error_lx[i]);
      const double margin_lx = 4 * traced.standard_error_lx[i] + field.error_lx[i] + 0.1;
      CHECK(field.total_lx[i] == Approx(traced.total_lx[i]).margin(margin_lx).epsilon(0));
    }
    // Margins so wide that any value would agree are no evidence, nor is light that was lost on its way.
    CHECK((traced.standard_error_lx <= 0.003 * traced.total_lx + 0.05).all());
    CHECK((field.error_lx.array() <= 0.04 * traced.total_lx + 0.1).all());
    CHECK(static_cast<double>(traced.escaped) <= 1e-6 * static_cast<double>(traced.rays));
  }
}
