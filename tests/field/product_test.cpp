#include "product.hpp"

#include <catch2/catch.hpp>

#include "sums.hpp"

using namespace evenlit;

using Matrix = Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

// Against the same sums in double precision. Tolerance: single precision over so many terms of size 1.
TEST_CASE("products of matrices of any size are sums of products", "[field][property]") {
  std::srand(3);
  for (const int rows : {1, 5, 6, 7, 40}) {
    for (const int terms : {1, 511, 512, 513, 1300}) {
      for (const int columns : {1, 8, 16, 17, 70}) {
        const Matrix weights = Matrix::Random(rows, terms);
        const Matrix values = Matrix::Random(terms, columns);
        const Matrix before = Matrix::Random(rows, columns);
        Matrix sums = before;
        add_product(weights, values, sums);
        const Eigen::MatrixXd expected = before.cast<double>() + weights.cast<double>() * values.cast<double>();
        CAPTURE(rows, terms, columns);
        CHECK((sums.cast<double>() - expected).cwiseAbs().maxCoeff() < 1e-6 * terms + 1e-6);
      }
    }
  }
}

TEST_CASE("products take parts of larger matrices", "[field][exact]") {
  const Matrix weights = Matrix::Random(9, 40);
  const Matrix values = Matrix::Random(40, 30);
  Matrix part = Matrix::Zero(9, 30);
  add_product(weights.middleCols(3, 20), values.middleRows(3, 20).middleCols(5, 11), part.middleCols(5, 11));
  const Matrix expected = weights.middleCols(3, 20) * values.middleRows(3, 20).middleCols(5, 11);
  CHECK((part.middleCols(5, 11) - expected).cwiseAbs().maxCoeff() < 1e-5F);
  CHECK(part.leftCols(5).isZero(0));
  CHECK(part.rightCols(14).isZero(0));
}

TEST_CASE("sums of few and of many numbers leave none out", "[field][exact]") {
  for (const int count : {0, 1, 15, 16, 17, 1000}) {
    const Eigen::VectorXf ones = Eigen::VectorXf::Ones(count);
    const Eigen::VectorXf twos = Eigen::VectorXf::Constant(count, 2);
    CHECK(sum_of(ones.data(), count) == static_cast<float>(count));
    CHECK(sum_of_products(twos.data(), ones.data(), count) == static_cast<float>(2 * count));
    CHECK(sum_of_products(twos.data(), twos.data(), ones.data(), count) == static_cast<float>(4 * count));
  }
}
