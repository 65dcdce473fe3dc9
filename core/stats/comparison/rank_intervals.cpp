#include "core/stats/comparison/rank_intervals.h"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

Result<void> checkInput(std::span<const IndependentMean> means, const RankOptions& options) {
    BOOST_OUTCOME_TRY(checkConfidence(options.confidence));
    if (options.draws < 100 || options.draws > 1'000'000) {
        return fail(ErrorCode::OutOfRange, "Ranks: " + std::to_string(options.draws) +
                                               " draws asked for, 100 to 1000000 are possible.");
    }
    std::vector<double> values;
    values.reserve(means.size());
    for (const IndependentMean& mean : means) {
        values.push_back(mean.mean);
        BOOST_OUTCOME_TRY(checkPositive(mean.variance, "Ranks: the variance of a mean"));
        BOOST_OUTCOME_TRY(checkPositive(mean.dof.value, "Ranks: the degrees of freedom of a mean"));
    }
    return checkValues(values, "Ranks", 2);
}

// One simulated data set: how far each mean falls from its truth, and its estimated variance.
class Simulation {
public:
    Simulation(std::span<const IndependentMean> means, std::uint64_t seed)
        : m_means{means}, m_generator{seed} {
        for (Eigen::ArrayXd* values : {&m_errors, &m_variances, &m_squares, &m_largest}) {
            values->setZero(static_cast<Eigen::Index>(means.size()));
        }
    }

    void draw() {
        Eigen::Index i = 0;
        for (const IndependentMean& mean : m_means) {
            const double dof = mean.dof.value;
            m_errors[i] = std::sqrt(mean.variance) * m_normal(m_generator);
            m_variances[i] =
                mean.variance * std::gamma_distribution<double>{0.5 * dof, 2.0 / dof}(m_generator);
            ++i;
        }
    }

    // Largest studentized error of a difference from each mean.
    [[nodiscard]] const Eigen::ArrayXd& largest() {
        m_largest.setZero();
        for (Eigen::Index i = 0; i + 1 < m_errors.size(); ++i) {
            const Eigen::Index later = m_errors.size() - i - 1;
            auto squares = m_squares.head(later);
            squares = (m_errors.tail(later) - m_errors[i]).square() /
                      (m_variances.tail(later) + m_variances[i]);
            m_largest[i] = std::max(m_largest[i], squares.maxCoeff());
            m_largest.tail(later) = m_largest.tail(later).max(squares);
        }
        m_largest = m_largest.sqrt();
        return m_largest;
    }

    // Position of the first of simulated truths, estimate less a t-distributed error.
    [[nodiscard]] std::size_t first() const {
        Eigen::Index best = 0;
        double highest = 0.0;
        Eigen::Index i = 0;
        for (const IndependentMean& mean : m_means) {
            const double truth =
                mean.mean - m_errors[i] * std::sqrt(mean.variance / m_variances[i]);
            if (i == 0 || truth > highest) {
                best = i;
                highest = truth;
            }
            ++i;
        }
        return static_cast<std::size_t>(best);
    }

private:
    std::span<const IndependentMean> m_means;
    std::mt19937_64 m_generator;
    std::normal_distribution<double> m_normal;
    Eigen::ArrayXd m_errors;
    Eigen::ArrayXd m_variances;
    Eigen::ArrayXd m_squares;  // studentized errors of one mean less the later ones
    Eigen::ArrayXd m_largest;
};

// The smallest value that a share `level` of the draws does not exceed.
double quantileOf(std::vector<double>& draws, Confidence confidence) {
    const auto rank = std::min(
        static_cast<std::size_t>(std::ceil(confidence.level * static_cast<double>(draws.size()))),
        draws.size());
    const auto place = draws.begin() + static_cast<std::ptrdiff_t>(rank - 1);
    std::nth_element(draws.begin(), place, draws.end());
    return *place;
}

// Ranks left by the differences that the critical value tells apart.
RankInterval intervalOf(std::span<const IndependentMean> means, std::size_t i, double critical) {
    RankInterval interval{.rank = 1, .lowest = 1, .highest = static_cast<int>(means.size())};
    for (std::size_t j = 0; j < means.size(); ++j) {
        if (j == i) {
            continue;
        }
        const double difference = means[j].mean - means[i].mean;
        const double reach = critical * std::sqrt(means[i].variance + means[j].variance);
        interval.rank += difference > 0.0 || (difference == 0.0 && j < i) ? 1 : 0;
        interval.lowest += difference > reach ? 1 : 0;
        interval.highest -= difference < -reach ? 1 : 0;
    }
    return interval;
}

}  // namespace

Result<Ranking> rankMeans(std::span<const IndependentMean> means, const RankOptions& options,
                          const std::stop_token& stop) {
    BOOST_OUTCOME_TRY(checkInput(means, options));
    Simulation simulation{means, options.seed};
    std::vector<std::vector<double>> largest(means.size());
    std::vector<int> firsts(means.size());
    for (int draw = 0; draw < options.draws; ++draw) {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, "Ranking stopped on request.");
        }
        simulation.draw();
        ++firsts[simulation.first()];
        const auto& errors = simulation.largest();
        for (std::size_t i = 0; i < means.size(); ++i) {
            largest[i].push_back(errors[static_cast<Eigen::Index>(i)]);
        }
    }
    Ranking ranking{.means = {}, .seed = options.seed, .draws = options.draws};
    for (std::size_t i = 0; i < means.size(); ++i) {
        auto interval = intervalOf(means, i, quantileOf(largest[i], options.confidence));
        interval.firstChance = static_cast<double>(firsts[i]) / options.draws;
        ranking.means.push_back(interval);
    }
    return ranking;
}

}  // namespace core::stats
