#include "kernel.hpp"

#include "evenlit/base/vectorised.hpp"

namespace evenlit {
namespace {

EVENLIT_VECTORISED
void kernel_loop(const Facet f, const float* __restrict x, const float* __restrict y, const float* __restrict z,
                 const float* __restrict area, float sx, float sy, float sz, int count, float* __restrict out) {
  for (int k = 0; k < count; ++k) {
    const float dx = x[k] - f.x;
    const float dy = y[k] - f.y;
    const float dz = z[k] - f.z;
    const float r2 = dx * dx + dy * dy + dz * dz;
    const float arriving = dx * f.nx + dy * f.ny + dz * f.nz;
    const float leaving = -(dx * sx + dy * sy + dz * sz);
    const float seen = (arriving > 0 ? arriving : 0) * (leaving > 0 ? leaving : 0);
    constexpr float k_tiny = 1e-20F;  // keeps a node at the facet itself, where `seen` is 0, from 0/0
    out[k] = seen * area[k] / (std::numbers::pi_v<float> * r2 * r2 + k_tiny);
  }
}

}  // namespace

void point_kernel(const Facet& facet, const Nodes& nodes, int begin, int end, const Eigen::Vector3f& source,
                  float* out) {
  kernel_loop(facet, nodes.x_m.data() + begin, nodes.y_m.data() + begin, nodes.z_m.data() + begin,
              nodes.area_m2.data() + begin, source.x(), source.y(), source.z(), end - begin, out);
}

}  // namespace evenlit
