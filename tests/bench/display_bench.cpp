#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

#include "accuracy.hpp"
#include "benches.hpp"
#include "evenlit/view/display.hpp"
#include "evenlit/view/veil.hpp"
#include "one_thread.hpp"
#include "table.hpp"

namespace evenlit::bench {
namespace {

constexpr int k_width = 1280;
constexpr int k_height = 720;
constexpr double k_tan_half_width = 0.8;

/// From dark to thrice the screen's white, neither hue nor light the same in any two pixels side by side.
LuminancePicture shaded_picture() {
  LuminancePicture picture{k_width, k_height, {}};
  for (auto& channel : picture.rgb_cd_m2) channel.resize(k_width * k_height);
  for (int i = 0; i < k_width * k_height; ++i) {
    const float light =
        100 * (1 + std::sin(0.011F * static_cast<float>(i % k_width))) * (static_cast<float>(i) / (k_width * k_height));
    picture.rgb_cd_m2[0][i] = 1.3F * light;
    picture.rgb_cd_m2[1][i] = (1 + 0.1F * std::sin(0.37F * static_cast<float>(i))) * light;
    picture.rgb_cd_m2[2][i] = 0.6F * light;
  }
  return picture;
}

/// Twelve cans in three rows, as someone looking down a room sees them.
std::vector<GlareSource> openings() {
  std::vector<GlareSource> sources;
  for (int i = 0; i < 12; ++i) {
    const Eigen::Vector3f to(-0.75F + 0.5F * static_cast<float>(i % 4), -0.4F + 0.12F * static_cast<float>(i / 4), 1);
    sources.push_back({.direction = to.normalized(), .facing_lx = 10, .radius_deg = 1.2});
  }
  return sources;
}

double plain_encoded(double linear) {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

/// What `displayed` does for the white of a screen, pixel by pixel as its formulas are printed.
Image plain_display(const LuminancePicture& picture, const Exposure& exposure) {
  Image image{picture.width, picture.height, {}};
  for (Eigen::Index i = 0; i < picture.rgb_cd_m2[0].size(); ++i) {
    const Eigen::Array3d rgb(picture.rgb_cd_m2[0][i], picture.rgb_cd_m2[1][i], picture.rgb_cd_m2[2][i]);
    const double cd_m2 = 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
    const double light = std::min(exposure.scale_m2_per_cd * cd_m2, exposure.white);
    const double grey = shoulder(light, exposure.white);
    Eigen::Array3d seen = cd_m2 > 0 ? (rgb * (grey / cd_m2)).eval() : Eigen::Array3d::Zero().eval();
    if (seen.maxCoeff() > 1) {
      // What cannot be shown fades as the root of what is needed, to 0.35 at least, and grows darker by the rest.
      seen = grey + (seen - grey) * std::max(std::sqrt((1 - grey) / (seen.maxCoeff() - grey)), 0.35);
      seen /= std::max(1.0, seen.maxCoeff());
    }
    const auto level = [&](int channel) {
      return static_cast<std::uint8_t>(255 * plain_encoded(std::clamp(seen[channel], 0.0, 1.0)) + 0.5);
    };
    image.pixels.push_back({level(0), level(1), level(2)});
  }
  return image;
}

/// The veil of white openings by the published formula at each pixel, for someone who looks along +z.
Eigen::ArrayXd plain_veil(const std::vector<GlareSource>& sources) {
  Eigen::ArrayXd veil = Eigen::ArrayXd::Zero(k_width * k_height);
  const double pixel = 2 * k_tan_half_width / k_width;
  for (int i = 0; i < k_width * k_height; ++i) {
    const Eigen::Vector3d at((i % k_width + 0.5 - 0.5 * k_width) * pixel, (i / k_width + 0.5 - 0.5 * k_height) * pixel,
                             1);
    const Eigen::Vector3d to_pixel = at.normalized();
    for (const GlareSource& source : sources) {
      const Eigen::Vector3d to = source.direction.cast<double>();
      const double deg = 180 / std::numbers::pi * std::acos(std::min(1.0, to_pixel.dot(to)));
      veil[i] += source.facing_lx * to.z() * veil_cd_m2_per_lx(std::max(deg, source.radius_deg), Eye{});
    }
  }
  return veil;
}

int largest_difference(const Image& one, const Image& other) {
  int largest = 0;
  for (std::size_t i = 0; i < one.pixels.size(); ++i) {
    const Rgb& a = one.pixels[i];
    const Rgb& b = other.pixels[i];
    for (const int differs : {a.red - b.red, a.green - b.green, a.blue - b.blue}) {
      largest = std::max(largest, std::abs(differs));
    }
  }
  return largest;
}

}  // namespace

bool display_bench() {
  const OneThread limit;
  const LuminancePicture picture = shaded_picture();
  const std::vector<GlareSource> sources = openings();
  const Eigen::Matrix3f axes = Eigen::Matrix3f::Identity();
  Exposure exposed;
  Image image;
  Image plain_image;
  const Cost exposing = least_cost([&] { exposed = exposure({&picture, 1}, Eigen::Vector3d::Ones()); });
  const Cost showing = least_cost([&] { image = displayed(picture, exposed); });
  const Cost plain_showing = least_cost([&] { plain_image = plain_display(picture, exposed); });
  LuminancePicture veil{k_width, k_height, {}};
  const Cost veiling = least_cost([&] {
    for (auto& channel : veil.rgb_cd_m2) channel.setZero(k_width * k_height);
    veil = veiled(std::move(veil), axes, k_tan_half_width, sources);
  });
  Eigen::ArrayXd exact_veil;
  const Cost plain_veiling = least_cost([&] { exact_veil = plain_veil(sources); });

  const int levels = largest_difference(image, plain_image);
  const double veil_share = (veil.rgb_cd_m2[1].cast<double>() / exact_veil - 1).abs().maxCoeff();
  const bool agrees = levels <= 1 && veil_share <= 0.007;
  const auto row = [](const std::string& name, const Cost& ours, const Cost& plain, const std::string& differs) {
    return std::vector<std::string>{name, fmt::format("{:.1f}", 1e3 * ours.processor_s),
                                    fmt::format("{:.0f}", 1e3 * plain.processor_s),
                                    fmt::format("{:.0f} x", plain.processor_s / ours.processor_s), differs};
  };
  print_table(fmt::format("A picture of {} x {} pixels, CPU time in ms against formulas pixel by pixel; its exposure "
                          "{:.1f} ms{}",
                          k_width, k_height, 1e3 * exposing.processor_s, agrees ? "" : " FAILED"),
              {{"", "ours", "plain", "faster", "differ by"},
               row("luminances to pixels", showing, plain_showing, fmt::format("{} level", levels)),
               row("veil of 12 openings", veiling, plain_veiling, percent(veil_share))});
  return agrees;
}

}  // namespace evenlit::bench
