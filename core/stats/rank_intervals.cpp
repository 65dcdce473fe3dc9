#include "core/stats/rank_intervals.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "core/stats/checks.h"

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
        : m_means{means},
          m_generator{seed},
          m_errors(means.size()),
          m_variances(means.size()),
          m_largest(means.size()) {}

    void draw() {
        for (std::size_t i = 0; i < m_means.size(); ++i) {
            const double dof = m_means[i].dof.value;
            m_errors[i] = std::sqrt(m_means[i].variance) * m_normal(m_generator);
            m_variances[i] = m_means[i].variance *
                             std::gamma_distribution<double>{0.5 * dof, 2.0 / dof}(m_generator);
        }
    }

    // Largest studentized error of a difference from each mean.
    [[nodiscard]] const std::vector<double>& largest() {
        std::fill(m_largest.begin(), m_largest.end(), 0.0);
        for (std::size_t i = 0; i < m_means.size(); ++i) {
            double most = m_largest[i];
            for (std::size_t j = i + 1; j < m_means.size(); ++j) {
                const double error = m_errors[i] - m_errors[j];
                const double squared = error * error / (m_variances[i] + m_variances[j]);
                most = std::max(most, squared);
                m_largest[j] = std::max(m_largest[j], squared);
            }
            m_largest[i] = std::sqrt(most);
        }
        return m_largest;
    }

    // Position of the first of simulated truths, estimate less a t-distributed error.
    [[nodiscard]] std::size_t first() const {
        std::size_t best = 0;
        double highest = 0.0;
        for (std::size_t i = 0; i < m_means.size(); ++i) {
            const double truth =
                m_means[i].mean - m_errors[i] * std::sqrt(m_means[i].variance / m_variances[i]);
            if (i == 0 || truth > highest) {
                best = i;
                highest = truth;
            }
        }
        return best;
    }

private:
    std::span<const IndependentMean> m_means;
    std::mt19937_64 m_generator;
    std::normal_distribution<double> m_normal;
    std::vector<double> m_errors;
    std::vector<double> m_variances;
    std::vector<double> m_largest;
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
            largest[i].push_back(errors[i]);
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
