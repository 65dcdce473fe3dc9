#pragma once

#include <cstddef>
#include <vector>

#include "core/plan/random_order.h"

/// Orders of n treatments (here: implements) from the design of experiments. A design is a list of
/// rows; each row names every treatment 0 … n-1 once.
namespace core::plan {

using Design = std::vector<std::vector<std::size_t>>;

/// The cyclic Latin square of n rows: row i is i, i+1, …, i+n-1 modulo n. Every treatment is once
/// in every row and once in every place. n > 0.
[[nodiscard]] Design cyclicSquare(std::size_t n);

/// The design of Williams (E. J. Williams, "Experimental designs balanced for the estimation of
/// residual effects of treatments", Aust. J. Sci. Res. A 2 (1949) 149-168). The first row is
/// 0, 1, n-1, 2, n-2, …, and row i adds i modulo n; for odd n the rows in reverse follow as a
/// second square. Every treatment is equally often in every place, and every ordered pair of
/// different treatments stands side by side equally often: once with n even (n rows), twice with n
/// odd (2n rows). n > 0.
[[nodiscard]] Design williamsDesign(std::size_t n);

/// The cyclic square with rows, places and names in random order (not every Latin square can come
/// of it).
[[nodiscard]] Design randomLatinSquare(std::size_t n, RandomOrder& random);

/// The design of Williams with rows and names in random order, which keeps both balances.
[[nodiscard]] Design randomWilliamsDesign(std::size_t n, RandomOrder& random);

}  // namespace core::plan
