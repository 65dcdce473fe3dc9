#pragma once

#include <cstddef>
#include <vector>

/// How long work takes that several do at once.
namespace core::jobs {

/// A piece that is being worked on.
struct PieceAtWork {
    double weight{};
    double seconds{};  ///< since it was begun
};

/// Seconds until everything is done: a piece takes `secondsPerWeight` times its weight, and the
/// pieces that wait (their weights, in their order) are each begun by the first who is free. A
/// piece that has taken longer than that is taken to end now.
/// Common practice, no source (list scheduling).
[[nodiscard]] double secondsLeft(const std::vector<PieceAtWork>& atWork,
                                 const std::vector<double>& waiting, double secondsPerWeight,
                                 std::size_t workers);

}  // namespace core::jobs
