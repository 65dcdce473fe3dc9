#include "core/stats/comparison/rank_intervals.h"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

Result<void> checkInput(const LinkedMeans& linked, const RankOptions& options) {
    BOOST_OUTCOME_TRY(checkConfidence(options.confidence));
    if (options.draws < 100 || options.draws > 1'000'000) {
        return fail(ErrorCode::OutOfRange,
                    said("Ranks: {} draws asked for, 100 to 1000000 are possible.", options.draws));
    }
    std::vector<double> values;
    values.reserve(linked.means.size());
    for (const IndependentMean& mean : linked.means) {
        values.push_back(mean.mean);
        BOOST_OUTCOME_TRY(checkPositive(mean.variance, toSay("Ranks: the variance of a mean")));
        BOOST_OUTCOME_TRY(
            checkPositive(mean.dof.value, toSay("Ranks: the degrees of freedom of a mean")));
    }
    const std::size_t count = values.size();
    if ((!linked.covariance.empty() && linked.covariance.size() != count * count) ||
        (count > 0 && linked.shared.size() % count != 0)) {
        return fail(
            ErrorCode::InvalidInput,
            said("Ranks: the covariance and the shared parts must have a row for each mean."));
    }
    return checkValues(values, toSay("Ranks"), 2);
}

// What of the errors goes together, as matrices. Immutable.
class Links {
public:
    explicit Links(const LinkedMeans& linked) {
        const auto count = static_cast<Eigen::Index>(linked.means.size());
        using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
        if (!linked.shared.empty()) {
            const auto parts = static_cast<Eigen::Index>(linked.shared.size()) / count;
            m_shared = Eigen::Map<const RowMajor>{linked.shared.data(), count, parts};
        }
        m_apart.setZero(count, count);
        m_together.setZero(count, count);
        for (Eigen::Index i = 0; i < count && m_shared.size() > 0; ++i) {
            m_apart.col(i) = (m_shared.rowwise() - m_shared.row(i)).rowwise().squaredNorm();
        }
        if (!linked.covariance.empty()) {
            m_together = Eigen::Map<const RowMajor>{linked.covariance.data(), count, count};
            const Eigen::LLT<Eigen::MatrixXd> root{m_together};
            m_isCovariance = root.info() == Eigen::Success;
            m_root = root.matrixL();
            m_together.diagonal().setZero();
        }
    }

    [[nodiscard]] bool isModel() const { return m_root.size() > 0; }
    [[nodiscard]] bool isCovariance() const { return m_isCovariance; }
    [[nodiscard]] const Eigen::MatrixXd& root() const { return m_root; }
    [[nodiscard]] const Eigen::MatrixXd& shared() const { return m_shared; }
    // Variance of the difference of two means from their shared parts, and covariance without them.
    [[nodiscard]] auto apart(Eigen::Index i, Eigen::Index later) const {
        return m_apart.col(i).tail(later).array();
    }
    [[nodiscard]] auto together(Eigen::Index i, Eigen::Index later) const {
        return m_together.col(i).tail(later).array();
    }
    [[nodiscard]] double pairVariance(std::span<const IndependentMean> means, std::size_t i,
                                      std::size_t j) const {
        const auto row = static_cast<Eigen::Index>(i);
        const auto column = static_cast<Eigen::Index>(j);
        return means[i].variance + means[j].variance - 2.0 * m_together(row, column) +
               m_apart(row, column);
    }

private:
    Eigen::MatrixXd m_shared;
    Eigen::MatrixXd m_apart;
    Eigen::MatrixXd m_together;
    Eigen::MatrixXd m_root;
    bool m_isCovariance{true};
};

// One simulated data set: how far each mean falls from its truth, and its estimated variance.
class Simulation {
public:
    Simulation(std::span<const IndependentMean> means, const Links& links, std::uint64_t seed)
        : m_means{means}, m_links{links}, m_generator{seed} {
        for (Eigen::ArrayXd* values :
             {&m_own, &m_errors, &m_variances, &m_squares, &m_largest, &m_normals}) {
            values->setZero(static_cast<Eigen::Index>(means.size()));
        }
        m_parts.setZero(links.shared().cols());
    }

    void draw() {
        if (m_links.isModel()) {
            drawModel();
        } else {
            drawEach();
        }
        m_errors = m_own;
        if (m_parts.size() > 0) {
            for (double& part : m_parts) {
                part = m_normal(m_generator);
            }
            m_errors += (m_links.shared() * m_parts.matrix()).array();
        }
    }

    // For each mean the largest studentized error of its difference from another mean.
    const Eigen::ArrayXd& largest() {
        const auto count = m_errors.size();
        m_largest.setZero();
        for (Eigen::Index i = 0; i + 1 < count; ++i) {
            const auto later = count - i - 1;
            auto squares = m_squares.tail(later);
            squares = (m_errors.tail(later) - m_errors[i]).square() /
                      (m_variances.tail(later) + m_variances[i] + m_links.apart(i, later) -
                       2.0 * m_scale * m_links.together(i, later));
            m_largest[i] = std::max(m_largest[i], squares.maxCoeff());
            m_largest.tail(later) = m_largest.tail(later).max(squares);
        }
        m_largest = m_largest.sqrt();
        return m_largest;
    }

    // Position of the first of simulated truths, estimate less a t-distributed error and what is
    // shared.
    [[nodiscard]] std::size_t first() const {
        Eigen::Index best = 0;
        double highest = 0.0;
        Eigen::Index i = 0;
        for (const IndependentMean& mean : m_means) {
            const double truth = mean.mean - m_own[i] * std::sqrt(mean.variance / m_variances[i]) -
                                 (m_errors[i] - m_own[i]);
            if (i == 0 || truth > highest) {
                best = i;
                highest = truth;
            }
            ++i;
        }
        return static_cast<std::size_t>(best);
    }

private:
    void drawEach() {
        Eigen::Index i = 0;
        for (const IndependentMean& mean : m_means) {
            m_own[i] = std::sqrt(mean.variance) * m_normal(m_generator);
            m_variances[i] = mean.variance * scaleOf(mean.dof.value);
            ++i;
        }
    }

    void drawModel() {
        for (double& normal : m_normals) {
            normal = m_normal(m_generator);
        }
        m_own = (m_links.root() * m_normals.matrix()).array();
        m_scale = scaleOf(m_means.front().dof.value);
        Eigen::Index i = 0;
        for (const IndependentMean& mean : m_means) {
            m_variances[i++] = mean.variance * m_scale;
        }
    }

    // Estimated over true variance.
    double scaleOf(double dof) {
        constexpr double kAsGoodAsKnown = 1e9;
        return dof < kAsGoodAsKnown
                   ? std::gamma_distribution<double>{0.5 * dof, 2.0 / dof}(m_generator)
                   : 1.0;
    }

    std::span<const IndependentMean> m_means;
    const Links& m_links;
    std::mt19937_64 m_generator;
    std::normal_distribution<double> m_normal;
    double m_scale{1.0};
    Eigen::ArrayXd m_own;     // errors without what is shared
    Eigen::ArrayXd m_errors;  // with it
    Eigen::ArrayXd m_variances;
    Eigen::ArrayXd m_squares;  // studentized errors of one mean less the later ones
    Eigen::ArrayXd m_largest;
    Eigen::ArrayXd m_normals;
    Eigen::ArrayXd m_parts;
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
RankInterval intervalOf(std::span<const IndependentMean> means, const Links& links, std::size_t i,
                        double critical) {
    RankInterval interval{.rank = 1, .lowest = 1, .highest = static_cast<int>(means.size())};
    for (std::size_t j = 0; j < means.size(); ++j) {
        if (j == i) {
            continue;
        }
        const double difference = means[j].mean - means[i].mean;
        const double reach = critical * std::sqrt(links.pairVariance(means, i, j));
        interval.rank += difference > 0.0 || (difference == 0.0 && j < i) ? 1 : 0;
        interval.lowest += difference > reach ? 1 : 0;
        interval.highest -= difference < -reach ? 1 : 0;
    }
    return interval;
}

}  // namespace

Result<Ranking> rankMeans(std::span<const IndependentMean> means, const RankOptions& options,
                          const std::stop_token& stop) {
    return rankMeans(LinkedMeans{means, {}, {}}, options, stop);
}

Result<Ranking> rankMeans(const LinkedMeans& linked, const RankOptions& options,
                          const std::stop_token& stop) {
    BOOST_OUTCOME_TRY(checkInput(linked, options));
    const auto means = linked.means;
    const Links links{linked};
    if (!links.isCovariance()) {
        return fail(ErrorCode::InvalidInput,
                    said("Ranks: the covariance is not positive definite."));
    }
    Simulation simulation{means, links, options.seed};
    std::vector<std::vector<double>> largest(means.size());
    std::vector<int> firsts(means.size());
    for (int draw = 0; draw < options.draws; ++draw) {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, said("Ranking stopped on request."));
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
        auto interval = intervalOf(means, links, i, quantileOf(largest[i], options.confidence));
        interval.firstChance = static_cast<double>(firsts[i]) / options.draws;
        ranking.means.push_back(interval);
    }
    return ranking;
}

}  // namespace core::stats
