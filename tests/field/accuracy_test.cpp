#include <catch2/catch.hpp>

#include "evenlit/field/response.hpp"
#include "evenlit/field/rough_mesh.hpp"
#include "reference/rooms_of_every_kind.hpp"

using namespace evenlit;
using namespace evenlit::reference;

namespace {

Field full_field(const Response& response) {
  return field_at(response, Eigen::VectorXd::Ones(response.direct_lx.cols()));
}

}  // namespace

// What a response promises of itself, against the same rooms cut much finer (whose own error, by the path tracer's
// word, is far below what is compared here).
TEST_CASE("in rooms of every kind light is as accurate as asked for, and says how accurate it is",
          "[field][property]") {
  const Accuracy wanted;
  int receivers = 0;
  int within_wanted = 0;
  int within_stated = 0;
  double stated_lx = 0;
  double off_lx = 0;
  for (const SampleRoom& room : rooms_of_every_kind()) {
    MeshDetail fine = coarse_mesh(room.scene);
    fine.patch_size_m *= 0.4;
    fine.unevenness *= 0.05;
    const Eigen::ArrayXd better_lx = full_field(response(room.scene, room.receivers, fine)).total_lx.array();
    const Field field = full_field(response(room.scene, room.receivers, wanted));
    const Eigen::ArrayXd off = (field.total_lx.array() - better_lx).abs();
    const Eigen::ArrayXd stated = field.error_lx.array();
    receivers += static_cast<int>(off.size());
    within_wanted += static_cast<int>((off <= (wanted.share * better_lx).max(wanted.floor_lx)).count());
    within_stated += static_cast<int>((off <= stated).count());
    stated_lx += stated.sum();
    off_lx += off.sum();
    CAPTURE(room.name);
    CHECK((off <= 3 * stated).all());  // never more than three times too small
  }
  CHECK(within_wanted >= 0.95 * receivers);
  CHECK(within_stated >= 0.95 * receivers);
  CHECK(stated_lx < 6 * off_lx);  // nor uselessly wide
}

TEST_CASE("a rough look tells how light falls, and how wrong it may be", "[field][property]") {
  int receivers = 0;
  int within_a_twentieth = 0;
  int within_stated = 0;
  for (const SampleRoom& room : rooms_of_every_kind()) {
    const Eigen::ArrayXd better_lx = full_field(response(room.scene, room.receivers, Accuracy{})).total_lx.array();
    const Field rough = full_field(response(room.scene, room.receivers, rough_mesh(room.scene)));
    const Eigen::ArrayXd off = (rough.total_lx.array() - better_lx).abs();
    receivers += static_cast<int>(off.size());
    within_a_twentieth += static_cast<int>((off <= (0.05 * better_lx).max(1)).count());
    within_stated += static_cast<int>((off <= rough.error_lx.array()).count());
  }
  CHECK(within_a_twentieth >= 0.95 * receivers);
  CHECK(within_stated >= 0.9 * receivers);  // fewer than at the usual accuracy: patches are as large as furniture
}
