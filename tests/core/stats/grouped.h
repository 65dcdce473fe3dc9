#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "core/stats/comparison/one_way.h"
#include "core/stats/sample/moments.h"
#include "tests/support/reference_csv.h"

namespace tests {

/// The means of groups of at least two values, with the variance s^2/n each.
inline std::vector<core::stats::IndependentMean> independentMeans(
    const std::vector<core::stats::Moments>& groups) {
    std::vector<core::stats::IndependentMean> means;
    means.reserve(groups.size());
    for (const auto& group : groups) {
        means.push_back(core::stats::independentMean(group));
    }
    return means;
}

/// The means of groups with one variance for all.
inline core::stats::EstimatedMeans meansOfOneVariance(
    const std::vector<core::stats::Moments>& groups) {
    const auto anova = core::stats::oneWayAnova(groups).value();
    core::stats::EstimatedMeans estimates{.dof = anova.test.dof.denominator};
    estimates.covariance.assign(groups.size() * groups.size(), 0.0);
    for (std::size_t i = 0; i < groups.size(); ++i) {
        estimates.means.push_back(static_cast<double>(groups[i].mean));
        estimates.covariance[i * groups.size() + i] =
            anova.meanSquareWithin / static_cast<double>(groups[i].count);
    }
    return estimates;
}

/// Values of a table sorted into groups in the order in which their names first appear.
struct Grouped {
    std::vector<std::string> names;
    std::vector<std::vector<double>> values;

    static Grouped load(const std::string& file, const std::string& groupColumn,
                        const std::string& valueColumn) {
        const auto table = ReferenceTable::load(file);
        Grouped grouped;
        for (std::size_t row = 0; row < table.rowCount(); ++row) {
            grouped.at(table.text(row, groupColumn)).push_back(table.number(row, valueColumn));
        }
        return grouped;
    }

    std::vector<double>& at(const std::string& name) {
        const auto found = std::find(names.begin(), names.end(), name);
        if (found == names.end()) {
            names.push_back(name);
            return values.emplace_back();
        }
        return values[static_cast<std::size_t>(found - names.begin())];
    }

    [[nodiscard]] std::size_t indexOf(const std::string& name) const {
        return static_cast<std::size_t>(std::find(names.begin(), names.end(), name) -
                                        names.begin());
    }

    [[nodiscard]] std::vector<core::stats::Moments> moments() const {
        return core::stats::momentsOfGroups(values);
    }
};

}  // namespace tests
