#include "core/jobs/time_left.h"

#include <algorithm>
#include <functional>
#include <queue>

namespace core::jobs {

double secondsLeft(const std::vector<PieceAtWork>& atWork, const std::vector<double>& waiting,
                   double secondsPerWeight, std::size_t workers) {
    std::priority_queue<double, std::vector<double>, std::greater<>> ends;
    double last = 0.0;
    const auto end = [&](double seconds) {
        ends.push(seconds);
        last = std::max(last, seconds);
    };
    for (const PieceAtWork& piece : atWork) {
        end(std::max(0.0, piece.weight * secondsPerWeight - piece.seconds));
    }
    while (ends.size() < std::max<std::size_t>(1, workers)) {
        ends.push(0.0);
    }
    for (const double weight : waiting) {
        const double free = ends.top();
        ends.pop();
        end(free + weight * secondsPerWeight);
    }
    return last;
}

}  // namespace core::jobs
