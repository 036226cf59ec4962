#include "pictured.hpp"

#include "evenlit/view/pixel_parts.hpp"

namespace evenlit {

std::vector<WholePixel> whole_pixels(const Scene& scene, const std::vector<LuminaireLook>& looks,
                                     const Camera& camera) {
  const auto faces = shown_faces(scene, looks, camera.eye_m);
  const auto rows = pixel_parts(faces, camera);
  std::vector<WholePixel> pixels;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    for (const PixelPart& part : rows[row]) {
      const ShownFace& face = faces[part.face];
      if (part.weight < 1 || face.kind != ShownFace::Kind::surface) continue;
      pixels.push_back({static_cast<Eigen::Index>(row) * camera.size.width + part.column, face.surface,
                        part.position_m.cast<double>()});
    }
  }
  return pixels;
}

}  // namespace evenlit
