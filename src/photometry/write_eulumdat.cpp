#include "write_eulumdat.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "evenlit/base/number.hpp"
#include "evenlit/base/utf8.hpp"
#include "evenlit/photometry/zonal_cavity.hpp"
#include "written_table.hpp"
#include "written_text.hpp"

namespace evenlit {
namespace {

constexpr std::array k_room_indices = {0.60, 0.80, 1.00, 1.25, 1.50, 2.00, 2.50, 3.00, 4.00, 5.00};

/// One value or text a line.
class Lines {
 public:
  void add(std::string_view text) { text_.append(text).append("\r\n"); }
  void add(double value) { add(shortest_text(value)); }
  void add(const std::vector<double>& angles) {
    for (const double deg : angles) add(written_angle(deg));
  }
  std::string take() { return std::move(text_); }

 private:
  std::string text_;
};

/// A table with the planes of its symmetry indicator.
struct Written {
  int symmetry = 0;           ///< Isym
  std::vector<double> c_deg;  ///< of the full circle, without 360
  IntensityDistribution stored;
};

std::vector<double> without_360(std::vector<double> c_deg) {
  if (c_deg.back() == 360) c_deg.pop_back();
  return c_deg;
}

/// Planes from 270 over 0 to 90.
IntensityDistribution from_270_to_90(const IntensityDistribution& d) {
  const IntensityDistribution before = planes_between(d, 270, 359.9999999);
  const IntensityDistribution after = planes_between(d, 0, 90);
  IntensityDistribution planes{d.gamma_deg, before.c_deg, {}};
  planes.c_deg.insert(planes.c_deg.end(), after.c_deg.begin(), after.c_deg.end());
  planes.candela.resize(d.candela.rows(), before.candela.cols() + after.candela.cols());
  planes.candela << before.candela, after.candela;
  return planes;
}

Written all_planes(const IntensityDistribution& d) {
  return {0, without_360(d.c_deg), planes_between(d, 0, 359.9999999)};
}

/// @param distribution of type C
Written written_table(const IntensityDistribution& distribution) {
  const Symmetry symmetry = symmetry_of(distribution);
  if (symmetry == Symmetry::rotational) return {1, {0}, distribution};
  const IntensityDistribution d = with_planes_at(distribution, {90, 180, 270});
  const auto c_deg = without_360(d.c_deg);
  switch (symmetry) {
    case Symmetry::about_c0:
      return {2, c_deg, planes_between(d, 0, 180)};
    case Symmetry::about_c90: {
      // The place of C 270 in the list is fixed by the number of planes: only where both halves have as many.
      const bool is_even = c_deg.size() % 4 == 0 && c_deg[c_deg.size() / 4 * 3] == 270;
      return is_even ? Written{3, c_deg, from_270_to_90(d)} : all_planes(d);
    }
    case Symmetry::quadrant:
      return {4, c_deg, planes_between(d, 0, 90)};
    default:
      return all_planes(distribution);
  }
}

/// The step between equidistant angles, 0 where they are not.
double common_step(const std::vector<double>& deg, double next_deg) {
  const double step = (deg.size() > 1 ? deg[1] : next_deg) - deg[0];
  for (std::size_t i = 1; i <= deg.size(); ++i) {
    const double following = i < deg.size() ? deg[i] : next_deg;
    if (std::abs(following - deg[i - 1] - step) > 1e-6) return 0;
  }
  return step;
}

/// Texts on one line of at most as many letters as the format has room for.
class TextFields {
 public:
  std::string cut(std::string_view text, std::size_t width) {
    auto lines = broken_lines(text, width);
    is_cut_ = is_cut_ || lines.size() > 1;
    std::ranges::replace_if(
        lines.front(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
    return lines.front();
  }

  /// Whether any was longer.
  bool is_cut() const { return is_cut_; }

 private:
  bool is_cut_ = false;
};

double millimetres(double metres) { return std::round(metres * 1e4) / 10; }

/// Length along C 90 and width along C 0; a round shape has width 0, and a line counts as 1 mm wide.
void add_plan_sizes(Lines& lines, const Opening& size) {
  const bool is_disc = size.shape == Opening::Shape::disc;
  const bool has_size = size.shape != Opening::Shape::point;
  const double thinnest_mm = has_size ? 1 : 0;
  lines.add(std::max(millimetres(size.width_m), thinnest_mm));
  lines.add(is_disc ? 0 : std::max(millimetres(size.length_m), thinnest_mm));
}

void add_sizes(Lines& lines, const PhotometricFile& file) {
  const Opening& housing = file.housing ? *file.housing : file.opening;
  add_plan_sizes(lines, housing);
  lines.add(millimetres(housing.height_m));
  add_plan_sizes(lines, file.opening);
  for (int side = 0; side < 4; ++side) lines.add(millimetres(file.opening.height_m));
}

void add_lamps(Lines& lines, const LampSet& lamps, double flux_lm, TextFields& texts) {
  lines.add("1");
  lines.add(lamps.lumens ? lamps.lamps : -lamps.lamps);
  lines.add(texts.cut(lamps.type, 24));
  lines.add(flux_lm);
  lines.add(texts.cut(lamps.colour, 16));
  lines.add(texts.cut(lamps.rendering, 6));
  lines.add(lamps.watts.value_or(0));
}

}  // namespace

Noted<std::string> eulumdat_bytes(const PhotometricFile& file) {
  Noted<std::string> made;
  TextFields texts;
  if (file.lamp_sets.size() > 1) {
    made.warnings.push_back({{}, "the intensities are for one lamp set: the others are left out", ""});
  }
  if (file.tilt) made.warnings.push_back({{}, "EULUMDAT has no tilt factors: they are left out", ""});

  const IntensityDistribution planes = in_c_planes(file.distribution, {}, "EULUMDAT has no such planes", made.warnings);
  const IntensityDistribution distribution = reaching(planes, 0, planes.gamma_deg.back() <= 90 ? 90 : 180);
  const Written table = written_table(distribution);
  const double luminaire_lm = lumens(distribution);
  const LampSet& lamps = lamps_of(file);
  const double rated_lm = lamps.lumens.value_or(luminaire_lm > 0 ? luminaire_lm : 1000);
  const double flux_lm = lamps.lumens ? rated_lm : std::max(0.01, std::round(rated_lm * 100) / 100);
  const ZonalFlux flux = zonal_flux(distribution);
  const double down_percent = total(flux) > 0 ? 100 * (1 - flux.up / total(flux)) : 0;

  Lines lines;
  lines.add(texts.cut(keyword(file, "MANUFAC"), 78));
  lines.add(table.symmetry == 1 ? "1" : "3");
  lines.add(table.symmetry);
  lines.add(static_cast<double>(table.c_deg.size()));
  lines.add(table.symmetry == 1 ? 0 : common_step(table.c_deg, 360));
  lines.add(static_cast<double>(table.stored.gamma_deg.size()));
  lines.add(
      common_step({table.stored.gamma_deg.begin(), table.stored.gamma_deg.end() - 1}, table.stored.gamma_deg.back()));
  for (const auto& [name, width] : std::array<std::pair<std::string_view, std::size_t>, 5>{
           {{"TEST", 78}, {"LUMINAIRE", 78}, {"LUMCAT", 78}, {"_FILENAME", 8}, {"ISSUEDATE", 78}}}) {
    lines.add(texts.cut(keyword(file, name), width));
  }
  add_sizes(lines, file);
  lines.add(fixed_text(down_percent, 1));
  lines.add(fixed_text(100 * luminaire_lm / flux_lm, 1));
  lines.add("1");  // conversion factor
  lines.add("0");  // tilt of the luminaire during measurement
  add_lamps(lines, lamps, flux_lm, texts);
  for (const double k : k_room_indices) lines.add(fixed_text(direct_ratio(flux, 5 / k), 3));
  lines.add(table.c_deg);
  lines.add(table.stored.gamma_deg);
  const Eigen::ArrayXXd per_klm = table.stored.candela * (1000 / flux_lm);
  const int decimals = decimals_for(per_klm.maxCoeff());
  for (const double value : per_klm.reshaped()) lines.add(fixed_text(value, decimals));
  made.value = lines.take();
  if (texts.is_cut()) made.warnings.push_back({{}, "texts longer than EULUMDAT has room for are cut", ""});
  return made;
}

}  // namespace evenlit
