#include "resized.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "evenlit/base/parallel.hpp"
#include "evenlit/base/srgb.hpp"

namespace evenlit {
namespace {

/// What a pixel takes of a run of pixels; the weights add up to 1.
struct Taps {
  int first = 0;
  std::vector<float> weights;
};

/// Along one side, from `from` pixels to `to`.
std::vector<Taps> taps_of(int from, int to) {
  const double step = static_cast<double>(from) / to;
  std::vector<Taps> all(static_cast<std::size_t>(to));
  for (int i = 0; i < to; ++i) {
    Taps& taps = all[static_cast<std::size_t>(i)];
    if (step < 1) {
      const double at = std::clamp((i + 0.5) * step - 0.5, 0.0, from - 1.0);
      taps.first = std::min(static_cast<int>(at), std::max(0, from - 2));
      const auto share = static_cast<float>(at - taps.first);
      taps.weights = from > 1 ? std::vector<float>{1 - share, share} : std::vector<float>{1};
      continue;
    }
    const double begin = i * step;
    const double end = std::min(begin + step, static_cast<double>(from));
    taps.first = static_cast<int>(begin);
    for (int k = taps.first; k < end; ++k) {
      taps.weights.push_back(static_cast<float>((std::min(end, k + 1.0) - std::max(begin, 1.0 * k)) / (end - begin)));
    }
  }
  return all;
}

struct Light {
  float red = 0;
  float green = 0;
  float blue = 0;

  void add(const Light& light, float weight) {
    red += weight * light.red;
    green += weight * light.green;
    blue += weight * light.blue;
  }
};

std::array<float, 256> light_of_levels() {
  std::array<float, 256> light{};
  for (int level = 0; level < 256; ++level)
    light[static_cast<std::size_t>(level)] = static_cast<float>(decoded(level / 255.0));
  return light;
}

/// Levels by the square root of light, in equal steps so small that each level has some.
constexpr int k_roots = 4096;

std::array<std::uint8_t, k_roots> levels_of_roots() {
  std::array<std::uint8_t, k_roots> levels{};
  for (int i = 0; i < k_roots; ++i) {
    const double root = i / (k_roots - 1.0);
    levels[static_cast<std::size_t>(i)] = static_cast<std::uint8_t>(std::lround(255 * encoded(root * root)));
  }
  return levels;
}

}  // namespace

Image resized(const Image& image, int width, int height) {
  if (width == image.width && height == image.height) return image;
  static const std::array<float, 256> k_light = light_of_levels();
  static const std::array<std::uint8_t, k_roots> k_levels = levels_of_roots();
  const auto level = [](float light) {
    const float root = std::sqrt(std::clamp(light, 0.0F, 1.0F));
    return k_levels[static_cast<std::size_t>(root * (k_roots - 1) + 0.5F)];
  };
  const std::vector<Taps> columns = taps_of(image.width, width);
  const std::vector<Taps> rows = taps_of(image.height, height);
  Image result{width, height, std::vector<Rgb>(static_cast<std::size_t>(width) * height)};
  parallel_for(height, [&](int y) {
    const Taps& down = rows[static_cast<std::size_t>(y)];
    std::vector<Light> line(static_cast<std::size_t>(image.width));
    for (std::size_t k = 0; k < down.weights.size(); ++k) {
      const Rgb* row = &image.at(0, down.first + static_cast<int>(k));
      for (std::size_t x = 0; x < line.size(); ++x) {
        line[x].add({k_light[row[x].red], k_light[row[x].green], k_light[row[x].blue]}, down.weights[k]);
      }
    }
    for (int x = 0; x < width; ++x) {
      const Taps& across = columns[static_cast<std::size_t>(x)];
      Light light;
      for (std::size_t k = 0; k < across.weights.size(); ++k) {
        light.add(line[static_cast<std::size_t>(across.first) + k], across.weights[k]);
      }
      result.at(x, y) = {level(light.red), level(light.green), level(light.blue)};
    }
  });
  return result;
}

}  // namespace evenlit
