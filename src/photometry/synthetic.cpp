#include "evenlit/photometry/synthetic.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

#include "evenlit/base/number.hpp"
#include "sphere.hpp"

namespace evenlit {
namespace {

/// Of a chord from the curve, as a fraction of the peak, at the points where the two are compared; what lies between
/// these stays within the declared 1e-4.
constexpr double k_largest_deviation = 9e-5;
/// Exponents q of a smooth beam: below, the centre is a cusp; above, the beam is a disc with an edge.
constexpr double k_smallest_q = 0.75;
constexpr double k_smallest_batwing_q = 1.2;
constexpr double k_largest_q = 20;
constexpr double k_batwing_q = 2;

/// The intensity over the peak's, as a function of gamma.
class Curve {
 public:
  explicit Curve(const SyntheticBeam& beam)
      : cut_off_deg_(beam.cut_off_deg),
        peak_deg_(beam.batwing ? beam.batwing->peak_deg : 0),
        centre_(beam.batwing ? beam.batwing->centre_fraction : 1),
        w_peak_(-log_cos(peak_deg_)),
        w_half_(w(beam.beam_angle_deg / 2)),
        q_(beam.batwing ? k_batwing_q : 1) {
    if (beam.field_angle_deg) q_ = std::log(std::log2(10)) / std::log(w(*beam.field_angle_deg / 2) / w_half_);
  }

  double operator()(double gamma_deg) const {
    if (gamma_deg >= cut_off_deg_) return 0;
    if (gamma_deg < peak_deg_) {
      const double rise = std::sin(gamma_deg / peak_deg_ * std::numbers::pi / 2);
      return centre_ + (1 - centre_) * rise * rise;
    }
    return std::exp(-std::numbers::ln2 * std::pow(std::max(0.0, w(gamma_deg)) / w_half_, q_));
  }

  double q() const { return q_; }

  /// The field angle of the beam if its exponent were q.
  double field_angle_deg(double q) const {
    const double w_tenth = w_half_ * std::pow(std::log2(10), 1 / q) + w_peak_;
    return 2 * std::acos(std::exp(-w_tenth)) / k_rad_per_deg * cut_off_deg_ / 90;
  }

 private:
  double log_cos(double gamma_deg) const { return std::log(std::cos(gamma_deg * 90 / cut_off_deg_ * k_rad_per_deg)); }
  double w(double gamma_deg) const { return -log_cos(gamma_deg) - w_peak_; }

  double cut_off_deg_;
  double peak_deg_;
  double centre_;
  double w_peak_;
  double w_half_;
  double q_;
};

bool follows_chord(const Curve& curve, double from_deg, double to_deg) {
  const double from = curve(from_deg);
  const double to = curve(to_deg);
  return std::ranges::all_of(std::array{0.25, 0.5, 0.75}, [&](double way) {
    return std::abs(curve(std::lerp(from_deg, to_deg, way)) - std::lerp(from, to, way)) <= k_largest_deviation;
  });
}

/// Appends the knots after `from_deg`, up to and with `to_deg`, halving every interval whose chord leaves the curve.
void append_knots(std::vector<double>& knots, const Curve& curve, double from_deg, double to_deg) {
  if (follows_chord(curve, from_deg, to_deg)) {
    knots.push_back(to_deg);
    return;
  }
  const double middle_deg = std::midpoint(from_deg, to_deg);
  append_knots(knots, curve, from_deg, middle_deg);
  append_knots(knots, curve, middle_deg, to_deg);
}

std::vector<double> knots_of(const SyntheticBeam& beam, const Curve& curve) {
  std::vector<double> stations{beam.batwing ? beam.batwing->peak_deg : 0, beam.beam_angle_deg / 2};
  if (beam.field_angle_deg) stations.push_back(*beam.field_angle_deg / 2);
  stations.push_back(beam.cut_off_deg);
  std::vector<double> knots{0};
  for (const double station : stations) {
    if (station > knots.back()) append_knots(knots, curve, knots.back(), station);
  }
  const double end_of_table = beam.cut_off_deg <= 90 ? 90 : 180;
  if (knots.back() < end_of_table) knots.push_back(end_of_table);
  return knots;
}

/// What is wrong with a number on its own, or empty.
std::string range_fault(std::string_view name, double value, double least, double most) {
  if (value >= least && value <= most) return {};
  return fmt::format("{} {} is outside {} to {}", name, shortest_text(value), shortest_text(least),
                     shortest_text(most));
}

Problem faulty(const Place& place, std::string what, std::string hint = {}) {
  return {place, std::move(what), std::move(hint)};
}

/// Numbers that are out of range by themselves, or out of order.
Problems faults(const SyntheticBeam& beam, const Place& place) {
  Problems problems;
  const auto check = [&](std::string fault) {
    if (!fault.empty()) problems.push_back(faulty(place, std::move(fault)));
  };
  if (!(beam.lumens > 0 && beam.lumens <= 1e7)) {
    check(fmt::format("lumens {} are not above 0 and at most 10000000", shortest_text(beam.lumens)));
  }
  check(range_fault("beam angle", beam.beam_angle_deg, 5, 150));
  check(range_fault("cut-off", beam.cut_off_deg, 5, 180));
  if (beam.batwing) {
    check(range_fault("peak", beam.batwing->peak_deg, 1, 75));
    check(range_fault("intensity at the centre", beam.batwing->centre_fraction, 0, 1));
  }
  if (!problems.empty()) return problems;

  const double half_deg = beam.beam_angle_deg / 2;
  if (half_deg >= beam.cut_off_deg) {
    problems.push_back(
        faulty(place,
               fmt::format("the light ends {} degrees from straight down, before half the beam angle of {}",
                           shortest_text(beam.cut_off_deg), shortest_text(beam.beam_angle_deg)),
               fmt::format("a cut-off above {} fits", shortest_text(half_deg))));
  }
  if (beam.batwing && beam.batwing->peak_deg > 0.95 * half_deg) {
    problems.push_back(faulty(place,
                              fmt::format("the peak at {} degrees is not inside the beam of {}",
                                          shortest_text(beam.batwing->peak_deg), shortest_text(beam.beam_angle_deg)),
                              fmt::format("a peak at {} or less fits", shortest_text(0.95 * half_deg))));
  }
  return problems;
}

/// A field angle that no smooth beam has beside the beam angle.
Problems field_faults(const SyntheticBeam& beam, const Place& place) {
  if (!beam.field_angle_deg) return {};
  SyntheticBeam without = beam;
  without.field_angle_deg.reset();
  const Curve curve(without);
  const double least = curve.field_angle_deg(k_largest_q);
  const double most = curve.field_angle_deg(beam.batwing ? k_smallest_batwing_q : k_smallest_q);
  if (*beam.field_angle_deg >= least && *beam.field_angle_deg <= most) return {};
  return {faulty(place,
                 fmt::format("field angle {} does not go with a beam angle of {}", shortest_text(*beam.field_angle_deg),
                             shortest_text(beam.beam_angle_deg)),
                 fmt::format("a smooth beam has a field angle of {} to {} there",
                             fixed_text(std::ceil(least * 10) / 10, 1), fixed_text(std::floor(most * 10) / 10, 1)))};
}

std::string description(const SyntheticBeam& beam) {
  std::string text = fmt::format("Synthetic beam, {} lm, beam angle {} deg", shortest_text(beam.lumens),
                                 shortest_text(beam.beam_angle_deg));
  if (beam.field_angle_deg) text += fmt::format(", field angle {} deg", shortest_text(*beam.field_angle_deg));
  if (beam.cut_off_deg != 90) text += fmt::format(", cut-off {} deg", shortest_text(beam.cut_off_deg));
  if (beam.batwing) {
    text += fmt::format(", peak at {} deg, centre {} of it", shortest_text(beam.batwing->peak_deg),
                        shortest_text(beam.batwing->centre_fraction));
  }
  return text;
}

}  // namespace

Result<IntensityDistribution> synthetic_beam(const SyntheticBeam& beam, const Place& place) {
  Problems problems = faults(beam, place);
  if (problems.empty()) problems = field_faults(beam, place);
  if (!problems.empty()) return tl::unexpected(std::move(problems));

  const Curve curve(beam);
  IntensityDistribution distribution{.gamma_deg = knots_of(beam, curve), .c_deg = {0}, .candela = {}};
  distribution.candela.resize(std::ssize(distribution.gamma_deg), 1);
  std::ranges::transform(distribution.gamma_deg, distribution.candela.data(), curve);
  const double unit_lumens = lumens(distribution);
  return scaled(std::move(distribution), beam.lumens / unit_lumens);
}

Result<PhotometricFile> synthetic_file(const SyntheticBeam& beam, const Place& place) {
  auto distribution = synthetic_beam(beam, place);
  if (!distribution) return tl::unexpected(distribution.error());
  PhotometricFile file;
  constexpr int k_simulated = 10;
  file.format = "synthetic beam";
  file.generation = k_simulated;
  file.keywords = {{"TEST", "none: computed from a formula, not measured"},
                   {"TESTLAB", "none"},
                   {"ISSUEDATE", "none"},
                   {"MANUFAC", "none"},
                   {"LUMINAIRE", description(beam)}};
  file.distribution = std::move(*distribution);
  return file;
}

}  // namespace evenlit
