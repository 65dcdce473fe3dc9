#include "core/spin/turn_counts.h"

#include <algorithm>
#include <cmath>

#include "core/base/expects.h"

namespace core::spin {
namespace {

// Room for rounding when a whole number is taken from a quotient of times.
constexpr double kSlack = 1e-9;

class Search {
public:
    Search(const timebase::BoundedPoint& start, const std::vector<CountedReturn>& returns,
           double shortestPeriod, std::size_t limit)
        : m_start{start}, m_returns{returns}, m_shortest{shortestPeriod}, m_limit{limit} {}

    std::vector<std::vector<int>> from(int firstTurns) {
        extend(firstTurns, m_shortest, 1e300);
        return std::move(m_found);
    }

private:
    // Adds `turns` for the next return when a period in [low, high] allows it, then goes on.
    void extend(int turns, double low, double high) {
        const auto& mark = m_returns[m_turns.size()];
        low = std::max(low, (mark.low - m_start.high) / turns);
        high = std::min(high, (mark.high - m_start.low) / turns);
        if (low > high || m_found.size() >= m_limit) {
            return;
        }
        m_turns.push_back(turns);
        if (m_turns.size() == m_returns.size()) {
            keepIfConsistent();
        } else {
            const auto& next = m_returns[m_turns.size()];
            if (next.turns) {
                extend(*next.turns, low, high);
            } else {
                const auto least =
                    std::max(turns + 1.0, std::ceil((next.low - m_start.high) / high - kSlack));
                const double most = std::floor((next.high - m_start.low) / low + kSlack);
                for (double n = least; n <= most && m_found.size() < m_limit; ++n) {
                    extend(static_cast<int>(n), low, high);
                }
            }
        }
        m_turns.pop_back();
    }

    void keepIfConsistent() {
        const auto bounds = timebase::slopeBounds(pointsOf(m_start, m_returns, m_turns));
        if (bounds && !bounds.value().isContradiction() &&
            bounds.value().high > m_shortest * (1.0 + kSlack)) {
            m_found.push_back(m_turns);
        }
    }

    const timebase::BoundedPoint& m_start;
    const std::vector<CountedReturn>& m_returns;
    double m_shortest;
    std::size_t m_limit;
    std::vector<int> m_turns;
    std::vector<std::vector<int>> m_found;
};

}  // namespace

std::vector<std::vector<int>> consistentTurns(const timebase::BoundedPoint& start,
                                              const std::vector<CountedReturn>& returns,
                                              int firstTurns, Seconds shortestPeriod,
                                              std::size_t limit) {
    CORE_EXPECTS(!returns.empty() && firstTurns >= 1 && shortestPeriod.seconds > 0.0);
    return Search{start, returns, shortestPeriod.seconds, limit}.from(firstTurns);
}

std::vector<timebase::BoundedPoint> pointsOf(const timebase::BoundedPoint& start,
                                             const std::vector<CountedReturn>& returns,
                                             const std::vector<int>& turns) {
    CORE_EXPECTS(returns.size() == turns.size());
    std::vector<timebase::BoundedPoint> points{{0.0, start.low, start.high}};
    for (std::size_t i = 0; i < returns.size(); ++i) {
        points.push_back({static_cast<double>(turns[i]), returns[i].low, returns[i].high});
    }
    return points;
}

}  // namespace core::spin
