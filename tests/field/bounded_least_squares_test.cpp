#include "evenlit/field/bounded_least_squares.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <fstream>
#include <limits>
#include <random>
#include <sstream>

using namespace evenlit;

namespace {

struct Case {
  Eigen::MatrixXd a;
  Eigen::VectorXd b;
  Eigen::VectorXd lower;
  Eigen::VectorXd upper;
  Eigen::VectorXd solution;
};

double number_of(std::istream& in) {
  std::string word;
  in >> word;
  return word == "inf" ? std::numeric_limits<double>::infinity() : std::stod(word);
}

/// tests/field/bounded_least_squares_cases.txt, whose head tells how it was made.
std::vector<Case> committed_cases() {
  std::ifstream file(EVENLIT_SOURCE_DIR "/tests/field/bounded_least_squares_cases.txt");
  std::stringstream numbers;
  for (std::string line; std::getline(file, line);) {
    if (!line.starts_with('#')) numbers << line << '\n';
  }
  std::vector<Case> cases;
  int rows = 0;
  int columns = 0;
  while (numbers >> rows >> columns) {
    Case one{Eigen::MatrixXd(rows, columns), Eigen::VectorXd(rows), Eigen::VectorXd(columns), Eigen::VectorXd(columns),
             Eigen::VectorXd(columns)};
    for (int row = 0; row < rows; ++row) {
      for (int column = 0; column < columns; ++column) one.a(row, column) = number_of(numbers);
      one.b[row] = number_of(numbers);
    }
    for (Eigen::VectorXd* vector : {&one.lower, &one.upper, &one.solution}) {
      for (double& value : *vector) value = number_of(numbers);
    }
    cases.push_back(std::move(one));
  }
  return cases;
}

/// By how much the conditions of Karush, Kuhn and Tucker are missed, for the columns' and the residual's size.
double optimality_gap(const Case& one, const Eigen::VectorXd& x) {
  const Eigen::VectorXd residual = one.b - one.a * x;
  double gap = 0;
  for (Eigen::Index i = 0; i < x.size(); ++i) {
    const double pull = one.a.col(i).dot(residual) / one.a.col(i).norm() / (1 + one.b.norm());
    const bool is_low = x[i] == one.lower[i];
    const bool is_high = x[i] == one.upper[i];
    CHECK((x[i] >= one.lower[i] && x[i] <= one.upper[i]));
    if (is_low && is_high) continue;
    gap = std::max(gap, is_low ? pull : is_high ? -pull : std::abs(pull));
  }
  return gap;
}

}  // namespace

TEST_CASE("bounded least squares: what SciPy finds in 300 cases", "[moods][reference]") {
  const std::vector<Case> cases = committed_cases();
  REQUIRE(cases.size() == 300);
  for (const Case& one : cases) {
    const Eigen::VectorXd x = bounded_least_squares(one.a, one.b, one.lower, one.upper);
    // The file has twelve digits, the matrices' condition is below 1000.
    CHECK((x - one.solution).cwiseAbs().maxCoeff() < 1e-9);
    CHECK(optimality_gap(one, x) < 1e-12);
  }
}

TEST_CASE("bounded least squares: no variable can move to anything better", "[moods][property]") {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> unit(-1, 1);
  for (int round = 0; round < 500; ++round) {
    const int columns = 1 + static_cast<int>(random() % 20);
    const int rows = columns + static_cast<int>(random() % 10);
    Case one{Eigen::MatrixXd(rows, columns),
             Eigen::VectorXd(rows),
             Eigen::VectorXd::Zero(columns),
             Eigen::VectorXd::Ones(columns),
             {}};
    for (double& value : one.a.reshaped()) value = unit(random);
    for (double& value : one.b) value = 4 * unit(random);
    CHECK(optimality_gap(one, bounded_least_squares(one.a, one.b, one.lower, one.upper)) < 1e-11);
  }
}

TEST_CASE("bounded least squares: within wide bounds it is the plain one", "[moods][exact]") {
  Eigen::MatrixXd a(4, 2);
  a << 1, 2, 3, 4, 5, 6, 7, 9;
  const Eigen::Vector4d b(1, -2, 3, 0);
  const Eigen::VectorXd wide = Eigen::VectorXd::Constant(2, 1e3);
  const Eigen::VectorXd plain = a.householderQr().solve(b);
  CHECK((bounded_least_squares(a, b, -wide, wide) - plain).norm() < 1e-12);
}

TEST_CASE("bounded least squares: equal bounds hold a variable", "[moods][exact]") {
  const Eigen::Matrix2d a = Eigen::Matrix2d::Identity();
  const Eigen::VectorXd x =
      bounded_least_squares(a, Eigen::Vector2d(5, 0.25), Eigen::Vector2d(0.5, 0), Eigen::Vector2d(0.5, 1));
  CHECK(x == Eigen::Vector2d(0.5, 0.25));
}
