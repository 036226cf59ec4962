#include "kernel.hpp"

#include <numbers>

#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

EVENLIT_VECTORISED
void kernel_loop(const float* from, const float* facing, const float* __restrict x, const float* __restrict y,
                 const float* __restrict z, const float* __restrict nx, const float* __restrict ny,
                 const float* __restrict nz, const float* __restrict area, int count, float* __restrict out) {
  const float fx = from[0], fy = from[1], fz = from[2];
  const float gx = facing[0], gy = facing[1], gz = facing[2];
  for (int k = 0; k < count; ++k) {
    const float dx = x[k] - fx;
    const float dy = y[k] - fy;
    const float dz = z[k] - fz;
    const float r2 = dx * dx + dy * dy + dz * dz;
    const float arriving = dx * gx + dy * gy + dz * gz;
    const float leaving = -(dx * nx[k] + dy * ny[k] + dz * nz[k]);
    const float seen = (arriving > 0 ? arriving : 0) * (leaving > 0 ? leaving : 0);
    constexpr float k_tiny = 1e-20F;  // keeps a node at the facet itself, where `seen` is 0, from 0/0
    out[k] = seen * area[k] / (std::numbers::pi_v<float> * r2 * r2 + k_tiny);
  }
}

}  // namespace

void point_kernel(const Facet& facet, const Nodes& nodes, int begin, int end, float* out) {
  kernel_loop(facet.point.data(), facet.normal.data(), nodes.x_m.data() + begin, nodes.y_m.data() + begin,
              nodes.z_m.data() + begin, nodes.nx.data() + begin, nodes.ny.data() + begin, nodes.nz.data() + begin,
              nodes.area_m2.data() + begin, end - begin, out);
}

}  // namespace evenlit
