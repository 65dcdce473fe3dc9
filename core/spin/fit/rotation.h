#pragma once

#include <Eigen/Core>

/// Rotation algebra of the fit. Module-internal: uses Eigen types.
///
/// A rotation vector r turns by |r| radians, right-handed about r/|r|. Vectors are columns in
/// camera coordinates (x right, y down, z forward; a right-handed frame).
namespace core::spin::fit {

/// [v]x, the matrix with [v]x w = v x w.
[[nodiscard]] Eigen::Matrix3d crossMatrix(const Eigen::Vector3d& v);

/// Rotation matrix of a rotation vector (Rodrigues' formula; series below 1e-8 rad).
[[nodiscard]] Eigen::Matrix3d rotationFromVector(const Eigen::Vector3d& rotationVector);

/// Right Jacobian J of the rotation vector: R(r + d) = R(r) R(J d) to first order in d
/// (Chirikjian, Stochastic Models, Information Theory, and Lie Groups, vol. 2, 2012, eq. 10.86).
[[nodiscard]] Eigen::Matrix3d rightJacobian(const Eigen::Vector3d& rotationVector);

}  // namespace core::spin::fit
