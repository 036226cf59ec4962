#include "evenlit/field/meter_fit.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "evenlit/field/bounded_least_squares.hpp"
#include "student_t.hpp"

namespace evenlit {
namespace {

using Eigen::Index;
using Eigen::Matrix4d;
using Eigen::Vector4d;
using Eigen::VectorXd;

constexpr double k_confidence = 0.95;

/// Readings cannot scatter less: the display's last digit and the engine's own error.
constexpr double k_least_scatter = 0.01;

double median(VectorXd values) {
  const auto middle = values.begin() + values.size() / 2;
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

/// Standard deviation of normal values of which few may be anything.
double robust_deviation(const VectorXd& residuals) {
  constexpr double k_normal = 1.4826;  // 1 / the upper quartile of the normal distribution
  return k_normal * median(residuals.cwiseAbs());
}

/// Readings over what is fitted to them so far, so that all scatter alike, near there linear in the factor and the
/// shifts.
struct Linear {
  Eigen::MatrixXd columns;  ///< one of the factor, three of the shifts
  VectorXd values;          ///< what they are to add up to

  [[nodiscard]] VectorXd residuals(const Vector4d& fitted) const { return values - columns * fitted; }
};

struct Bounds {
  Vector4d lower;
  Vector4d upper;
};

/// The most likely factor and shifts.
///
/// @param weights of the readings, 0...1
/// @param scatter of a reading of weight 1, relative
Vector4d most_likely(const Linear& linear, const Bounds& bounds, const VectorXd& weights, double scatter) {
  const Index count = linear.values.size();
  Eigen::MatrixXd a = Eigen::MatrixXd::Zero(count + 3, 4);
  VectorXd b = VectorXd::Zero(count + 3);
  const VectorXd scales = weights.cwiseSqrt() / scatter;
  a.topRows(count) = scales.asDiagonal() * linear.columns;
  b.head(count) = scales.cwiseProduct(linear.values);
  a.bottomRightCorner(3, 3).diagonal().setConstant(1 / k_reflectance_doubt);
  return bounded_least_squares(a, b, bounds.lower, bounds.upper);
}

/// What is not known of the factor and the shifts when the scatter is.
Matrix4d covariance_of(const Linear& linear, const VectorXd& weights, double scatter) {
  Matrix4d information = linear.columns.transpose() * weights.asDiagonal() * linear.columns / (scatter * scatter);
  information.diagonal().tail<3>().array() += 1 / (k_reflectance_doubt * k_reflectance_doubt);
  return information.inverse();
}

/// Unknowns that the readings, rather than what was known before, decide: 1...4.
double decided_unknowns(const Matrix4d& covariance) {
  return 4 - covariance.diagonal().tail<3>().sum() / (k_reflectance_doubt * k_reflectance_doubt);
}

/// Residuals of a fit that few readings far off hardly move.
VectorXd robust_residuals(const Linear& linear, const Bounds& bounds) {
  constexpr double k_huber = 1.345;
  constexpr int k_rounds = 20;
  VectorXd weights = VectorXd::Ones(linear.values.size());
  const double middle = median(linear.values);
  double scatter = std::max(robust_deviation(linear.values.array() - middle), k_least_scatter);
  VectorXd residuals;
  for (int round = 0; round < k_rounds; ++round) {
    residuals = linear.residuals(most_likely(linear, bounds, weights, scatter));
    scatter = std::max(robust_deviation(residuals), k_least_scatter);
    for (Index i = 0; i < weights.size(); ++i) {
      weights[i] = std::min(1.0, k_huber * scatter / std::max(std::abs(residuals[i]), 1e-300));
    }
  }
  return residuals;
}

/// 1 for what goes with the rest, 0 for what does not: Rosner's test, of at most a third.
///
/// @param least what is nearer to the rest than this goes with it anyway
VectorXd weights_without_outliers(const VectorXd& residuals, double least) {
  constexpr double k_false_alarms = 0.01;
  VectorXd weights = VectorXd::Ones(residuals.size());
  const auto count = static_cast<int>(residuals.size());
  if (count < k_fewest_for_outliers) return weights;
  VectorXd left = weights;
  for (int found = 1; found <= count / 3; ++found) {
    const double number = left.sum();
    const double mean = left.dot(residuals) / number;
    const VectorXd uneven = left.cwiseProduct((residuals.array() - mean).matrix());
    const double deviation = std::sqrt(uneven.squaredNorm() / (number - 1));
    Index farthest = 0;
    const double most = uneven.cwiseAbs().maxCoeff(&farthest);
    const double t = student_t_two_sided(1 - k_false_alarms / number, static_cast<int>(number) - 2);
    const double allowed = (number - 1) * t / std::sqrt((number - 2 + t * t) * number);
    left[farthest] = 0;
    if (most > allowed * deviation && most > least) weights = left;
  }
  return weights;
}

/// Everything fitted to the readings that are compared.
struct Fitted {
  Vector4d unknowns;  ///< factor, shifts
  Matrix4d covariance;
  double scatter = 0;  ///< relative
  double freedom = 1;
  VectorXd weights;  ///< 0 for outliers
};

/// With its scatter, which is found from what is left.
Fitted fitted(const Linear& linear, const Bounds& bounds, const VectorXd& weights) {
  constexpr int k_rounds = 10;
  Fitted fit{.weights = weights};
  fit.scatter = k_least_scatter;
  fit.freedom = weights.sum() - 1;
  for (int round = 0; round < k_rounds; ++round) {
    fit.unknowns = most_likely(linear, bounds, weights, fit.scatter);
    const VectorXd residuals = weights.cwiseProduct(linear.residuals(fit.unknowns));
    fit.covariance = covariance_of(linear, weights, fit.scatter);
    fit.freedom = std::max(1.0, weights.sum() - decided_unknowns(fit.covariance));
    fit.scatter = std::max(residuals.norm() / std::sqrt(fit.freedom), k_least_scatter);
  }
  return fit;
}

class Fitting {
 public:
  Fitting(const MeterProblem& problem, std::vector<Index> compared)
      : problem_(problem), compared_(std::move(compared)), predicted_lx_(problem.by_can_lx.rowwise().sum()) {
    over_prediction_ = problem.reading_lx(compared_).cwiseQuotient(predicted_lx_(compared_));
    fits_surfaces_ = over_prediction_.size() >= k_fewest_for_surfaces;
  }

  /// Gauss-Newton: each round asks for the light at the shifts of the last.
  [[nodiscard]] Fitted all() {
    constexpr int k_rounds = 8;
    constexpr double k_still = 1e-4;
    Vector4d at(median(over_prediction_), 0, 0, 0);
    Fitted fit;
    for (int round = 0; round < k_rounds; ++round) {
      const Linear linear = linear_at(at);
      // A sensor a hand's width off its mark reads otherwise by up to this: common practice, no source.
      constexpr double k_usual = 0.1;
      const VectorXd residuals = robust_residuals(linear, bounds());
      fit = fitted(linear, bounds(), weights_without_outliers(residuals, k_usual));
      const double step = (fit.unknowns - at).cwiseAbs().maxCoeff();
      at = fit.unknowns;
      if (!fits_surfaces_ || step < k_still) break;
    }
    return fit;
  }

  [[nodiscard]] const VectorXd& over_prediction() const { return over_prediction_; }
  [[nodiscard]] bool fits_surfaces() const { return fits_surfaces_; }

  /// What is fitted to the readings over the predictions.
  [[nodiscard]] VectorXd expected(const Fitted& fit) const { return fit.unknowns[0] * light(fit.unknowns.tail<3>()); }

 private:
  /// Over the prediction.
  [[nodiscard]] VectorXd light(const Shifts& shifts) const {
    if (!fits_surfaces_) return VectorXd::Ones(over_prediction_.size());
    const VectorXd light_lx = problem_.light_lx(shifts);
    return light_lx(compared_).cwiseQuotient(predicted_lx_(compared_));
  }

  [[nodiscard]] Linear linear_at(const Vector4d& at) const {
    const double factor = std::max(at[0], 1e-3);  // all readings may be 0
    const Shifts shifts = at.tail<3>();
    const VectorXd here = light(shifts);
    Linear linear{Eigen::MatrixXd::Zero(over_prediction_.size(), 4), over_prediction_.cwiseQuotient(here) / factor};
    linear.columns.col(0).setConstant(1 / factor);
    if (!fits_surfaces_) return linear;
    for (int i = 0; i < 3; ++i) {
      const double step = step_within(i, shifts[i]);
      if (step == 0) continue;
      const VectorXd moved = light(shifts + step * Shifts::Unit(i));
      linear.columns.col(1 + i) = (moved - here).cwiseQuotient(here) / step;
    }
    linear.values += linear.columns.rightCols<3>() * shifts;
    return linear;
  }

  /// Large against the noise of a coarse mesh, towards the farther bound.
  [[nodiscard]] double step_within(int i, double shift) const {
    constexpr double k_step = 0.05;
    const double up = problem_.most_shift[i] - shift;
    const double down = shift - problem_.least_shift[i];
    return up >= down ? std::min(k_step, up) : -std::min(k_step, down);
  }

  [[nodiscard]] Bounds bounds() const {
    Bounds bounds{Vector4d::Zero(), Vector4d::Zero()};
    bounds.upper[0] = std::numeric_limits<double>::infinity();
    if (fits_surfaces_) {
      bounds.lower.tail<3>() = problem_.least_shift;
      bounds.upper.tail<3>() = problem_.most_shift;
    }
    return bounds;
  }

  const MeterProblem& problem_;
  std::vector<Index> compared_;
  VectorXd predicted_lx_;
  VectorXd over_prediction_;
  bool fits_surfaces_ = false;
};

/// The meter may be off by its accuracy one way for all readings, besides what scatters.
Interval factor_interval(double value, double scattered, double meter_accuracy) {
  const double half = std::hypot(scattered, meter_accuracy * value);
  return {value, std::max(0.0, value - half), value + half};
}

FittedFactor fitted_factor(const VectorXd& over_prediction, const VectorXd& weights, double meter_accuracy) {
  const double count = weights.sum();
  const double mean = weights.dot(over_prediction) / count;
  const VectorXd uneven = weights.cwiseProduct((over_prediction.array() - mean).matrix());
  const double deviation = std::sqrt(uneven.squaredNorm() / (count - 1));
  const double t = student_t_two_sided(k_confidence, static_cast<int>(count) - 1);
  return {.value = factor_interval(mean, t * deviation / std::sqrt(count), meter_accuracy),
          .scatter = mean > 0 ? deviation / mean : 0};
}

FittedSurfaces fitted_surfaces(const Fitted& fit, const MeterProblem& problem) {
  const double t = student_t_two_sided(k_confidence, static_cast<int>(fit.freedom));
  FittedSurfaces surfaces;
  for (int i = 0; i < 3; ++i) {
    const double value = fit.unknowns[1 + i];
    const double deviation = std::sqrt(fit.covariance(1 + i, 1 + i));
    surfaces.shifts[static_cast<std::size_t>(i)] = {
        .value = {value, std::max(value - t * deviation, problem.least_shift[i]),
                  std::min(value + t * deviation, problem.most_shift[i])},
        .is_told = deviation <= k_reflectance_doubt / 2};
  }
  const double factor = fit.unknowns[0];
  surfaces.factor = factor_interval(factor, t * std::sqrt(fit.covariance(0, 0)), problem.meter_accuracy);
  surfaces.scatter = fit.scatter;
  return surfaces;
}

VectorXd from_mean(const VectorXd& values) { return values.array() - values.mean(); }

/// The can whose missing light explains a reading that is too low by half or more, and all readings best; the factor,
/// which some of it was taken for, is left open.
///
/// @param residuals relative, of the readings compared
/// @param shares    of each can in the light that is predicted there
std::optional<SuspectCan> suspect_can(const VectorXd& residuals, const Eigen::MatrixXd& shares, Index outlier) {
  const VectorXd uneven = from_mean(residuals);
  std::optional<SuspectCan> suspect;
  double best = 0;
  for (Index can = 0; can < shares.cols(); ++can) {
    const VectorXd share = from_mean(shares.col(can));
    if (share[outlier] <= 0) continue;
    const double missing = std::clamp(-share.dot(uneven) / share.squaredNorm(), 0.0, 1.0);
    const VectorXd left = uneven + missing * share;
    const double gain = uneven.squaredNorm() - left.squaredNorm();
    if (left[outlier] < uneven[outlier] / 2 || gain <= best) continue;
    best = gain;
    suspect = {static_cast<int>(can), missing};
  }
  return suspect;
}

}  // namespace

MeterFit meter_fit(const MeterProblem& problem) {
  MeterFit result;
  std::vector<Index> compared;
  const VectorXd predicted_lx = problem.by_can_lx.rowwise().sum();
  for (Index i = 0; i < predicted_lx.size(); ++i) {
    result.readings.push_back({.predicted_lx = predicted_lx[i]});
    if (predicted_lx[i] < k_least_compared_lx) continue;
    result.readings.back().deviation = problem.reading_lx[i] / predicted_lx[i] - 1;
    compared.push_back(i);
  }
  if (compared.empty()) return result;

  Fitting fitting(problem, compared);
  const Fitted fit = fitting.all();
  const VectorXd expected = fitting.expected(fit);
  const VectorXd residuals = (fitting.over_prediction() - expected).cwiseQuotient(expected.cwiseMax(1e-9));
  const Eigen::MatrixXd shares =
      predicted_lx(compared).cwiseInverse().asDiagonal() * problem.by_can_lx(compared, Eigen::all);
  for (std::size_t i = 0; i < compared.size(); ++i) {
    const auto at = static_cast<Index>(i);
    ComparedReading& reading = result.readings[static_cast<std::size_t>(compared[i])];
    reading.residual = residuals[at];
    reading.is_outlier = fit.weights[at] == 0;
    if (reading.is_outlier && reading.residual < 0) reading.suspect = suspect_can(residuals, shares, at);
  }
  const VectorXd& over_prediction = fitting.over_prediction();
  result.average = fit.weights.dot(over_prediction) / fit.weights.sum() - 1;
  if (fit.weights.sum() < k_fewest_for_factor) return result;
  result.factor = fitted_factor(over_prediction, fit.weights, problem.meter_accuracy);
  if (fitting.fits_surfaces()) result.surfaces = fitted_surfaces(fit, problem);
  return result;
}

}  // namespace evenlit
