#pragma once

#include <Eigen/Core>

namespace evenlit {

/// The x between bounds for which |A x - b| is least, by an active set: variables leave their bounds one by one where
/// that lessens the residual, and go back to a bound where they would pass it. Exact up to rounding: at the end no
/// variable can move without the residual growing (the conditions of Karush, Kuhn and Tucker).
///
/// @param a     of full column rank
/// @param lower no more than `upper`, finite
/// @param upper may be infinite
/// @source P. B. Stark, R. L. Parker, "Bounded-variable least-squares: an algorithm and applications", Computational
///         Statistics 10 (1995), from memory
Eigen::VectorXd bounded_least_squares(const Eigen::MatrixXd& a, const Eigen::VectorXd& b, const Eigen::VectorXd& lower,
                                      const Eigen::VectorXd& upper);

}  // namespace evenlit
