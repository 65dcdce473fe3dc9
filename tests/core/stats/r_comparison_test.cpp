// Random data sets that a live R makes and analyses (r_reference.R, base R only), analysed again
// here. Nothing of R's results is stored, so a change on either side shows.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/stats/comparison/contrast.h"
#include "core/stats/comparison/covariance_analysis.h"
#include "core/stats/comparison/deleted_residuals.h"
#include "core/stats/comparison/one_way.h"
#include "core/stats/comparison/power.h"
#include "core/stats/comparison/random_effects.h"
#include "core/stats/comparison/two_way.h"
#include "core/stats/model/studentized_range.h"
#include "core/stats/readers/correlation.h"
#include "core/stats/sample/moderated_variance.h"
#include "core/stats/sample/robust_location.h"
#include "tests/core/stats/digits.h"
#include "tests/core/stats/grouped.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::stats;
using tests::agrees;

constexpr double kSharedDigits = 8.0;

using Numbers = std::vector<double>;

using Blocks = std::vector<std::pair<std::string, Numbers>>;

// What the script wrote; nothing where there is no R. It runs once for all tests of a process.
const std::optional<Blocks>& blocksOfR() {
    static const std::optional<Blocks> blocks = []() -> std::optional<Blocks> {
        const tests::TemporaryFolder folder;
        const auto script = tests::dataFolder() / ".." / "core" / "stats" / "r_reference.R";
        try {
            const auto run = tests::runProgram({"Rscript", script.string(), folder.path()});
            EXPECT_EQ(run.status, 0) << run.errors;
        } catch (const std::runtime_error&) {
            return std::nullopt;
        }
        Blocks read;
        std::ifstream file{folder.file("r.txt")};
        for (std::string line; std::getline(file, line);) {
            std::istringstream fields{line};
            auto& block = read.emplace_back();
            fields >> block.first;
            for (std::string number; fields >> number;) {
                block.second.push_back(std::stod(number));
            }
        }
        return read;
    }();
    return blocks;
}

// Runs of blocks that belong together: each begins with the block of the name asked for.
class RComparison : public testing::Test {
protected:
    void SetUp() override {
        if (!blocksOfR()) {
            GTEST_SKIP() << "Rscript is not installed: the comparison with a live R was left out";
        }
        ASSERT_GT(blocksOfR()->size(), 200U);
    }

    // All cases that begin with `first` and hold a block `needed`, as maps from name to numbers.
    [[nodiscard]] static std::vector<std::map<std::string, Numbers>> cases(
        const std::string& first, const std::string& needed) {
        std::vector<std::map<std::string, Numbers>> found;
        for (const auto& [name, numbers] : *blocksOfR()) {
            if (name == "twoway" || name == "groups" || name == "measured" || name == "p" ||
                name == "power" || name == "ptukey" || name == "variances" || name == "residuals") {
                found.emplace_back();
            }
            found.back()[name] = numbers;
        }
        std::erase_if(
            found, [&](const auto& one) { return !one.contains(first) || !one.contains(needed); });
        return found;
    }
};

std::vector<Numbers> grouped(const Numbers& groups, const Numbers& values) {
    std::vector<Numbers> result;
    for (std::size_t i = 0; i < groups.size(); ++i) {
        const auto group = static_cast<std::size_t>(groups[i]);
        result.resize(std::max(result.size(), group + 1));
        result[group].push_back(values[i]);
    }
    return result;
}

std::vector<TwoWayCell> cellsOf(const std::map<std::string, Numbers>& data) {
    std::map<std::pair<std::size_t, std::size_t>, Numbers> sorted;
    for (std::size_t i = 0; i < data.at("values").size(); ++i) {
        sorted[{static_cast<std::size_t>(data.at("twoway")[i]),
                static_cast<std::size_t>(data.at("columns")[i])}]
            .push_back(data.at("values")[i]);
    }
    std::vector<TwoWayCell> cells;
    for (const auto& [place, values] : sorted) {
        cells.push_back({.row = place.first, .column = place.second, .moments = momentsOf(values)});
    }
    return cells;
}

void expectAll(const Numbers& computed, const Numbers& expected, const char* what) {
    ASSERT_EQ(computed.size(), expected.size()) << what;
    for (std::size_t i = 0; i < expected.size(); ++i) {
        EXPECT_TRUE(agrees(computed[i], expected[i], kSharedDigits)) << what << ' ' << i;
    }
}

Numbers linesOf(const TwoWayAnova& anova) {
    const auto& interaction = anova.interaction.value();
    return {anova.rows.sumSquares,  anova.columns.sumSquares,  interaction.sumSquares,
            anova.rows.test.pValue, anova.columns.test.pValue, interaction.test.pValue};
}

TEST_F(RComparison, TwoWayTypesTwoAndThree) {
    const auto all = cases("twoway", "three");
    ASSERT_EQ(all.size(), 12U);
    for (const auto& data : all) {
        const auto cells = cellsOf(data);
        expectAll(linesOf(analyseTwoWay(cells, SumsOfSquares::TypeTwo).value()), data.at("two"),
                  "type two");
        expectAll(linesOf(analyseTwoWay(cells, SumsOfSquares::TypeThree).value()), data.at("three"),
                  "type three");
    }
}

TEST_F(RComparison, MarginalMeans) {
    for (const auto& data : cases("twoway", "means")) {
        const auto cells = cellsOf(data);
        const auto full = marginalMeans(cells, Factor::Row, MeanModel::WithInteraction).value();
        Numbers computed = full.means;
        for (std::size_t i = 0; i < full.means.size(); ++i) {
            computed.push_back(std::sqrt(full.covariance[i * full.means.size() + i]));
        }
        expectAll(computed, data.at("means"), "marginal means");
        expectAll(marginalMeans(cells, Factor::Row, MeanModel::Additive).value().means,
                  data.at("additive"), "additive means");
    }
}

TEST_F(RComparison, OneWayTests) {
    const auto all = cases("groups", "oneway");
    ASSERT_EQ(all.size(), 10U);
    for (const auto& data : all) {
        const auto groups = grouped(data.at("groups"), data.at("values"));
        const auto moments = momentsOfGroups(groups);
        const auto classic = oneWayAnova(moments).value().test;
        const auto welch = welchAnova(tests::independentMeans(moments)).value();
        const auto forsythe = leveneTest(groups, DeviationCentre::Median).value();
        const std::vector<IndependentMean> pair{independentMean(moments[0]),
                                                independentMean(moments[1])};
        const Numbers weights{1.0, -1.0};
        const auto t = contrast(pair, weights).value();
        expectAll(
            {classic.f, classic.pValue, welch.f, welch.dof.denominator.value, welch.pValue,
             forsythe.f, forsythe.pValue, t.dof.value, t.pValue, t.interval.low, t.interval.high},
            data.at("oneway"), "one-way");
    }
}

TEST_F(RComparison, Covariate) {
    const auto all = cases("groups", "ancova");
    ASSERT_EQ(all.size(), 8U);
    for (const auto& data : all) {
        const auto x = grouped(data.at("groups"), data.at("covariate"));
        const auto y = grouped(data.at("groups"), data.at("values"));
        std::vector<PairedValues> groups;
        for (std::size_t i = 0; i < x.size(); ++i) {
            groups.push_back({x[i], y[i]});
        }
        const auto result = analyseCovariance(groups).value();
        expectAll({result.slope.estimate, result.slope.interval.low, result.slope.interval.high,
                   result.groups.f, result.groups.pValue, result.equalSlopes->f,
                   result.equalSlopes->pValue},
                  data.at("ancova"), "covariance");
        Numbers adjusted = result.adjusted.means;
        for (std::size_t i = 0; i < x.size(); ++i) {
            adjusted.push_back(std::sqrt(result.adjusted.covariance[i * x.size() + i]));
        }
        expectAll(adjusted, data.at("adjusted"), "adjusted means");
    }
}

TEST_F(RComparison, Correlation) {
    for (const auto& data : cases("groups", "correlation")) {
        const PairedValues pairs{data.at("covariate"), data.at("values")};
        const auto r = pearson(pairs).value();
        expectAll({r.coefficient, r.pValue, r.interval->low, r.interval->high,
                   spearman(pairs).value().coefficient},
                  data.at("correlation"), "correlation");
    }
}

TEST_F(RComparison, LineAndHodgesLehmann) {
    for (const auto& data : cases("groups", "line")) {
        const auto line = fitStraightLine({data.at("covariate"), data.at("values")}).value();
        expectAll(
            {line.intercept, line.interceptError, line.slope.estimate, line.slope.standardError,
             line.slope.pValue, line.slope.interval.low, line.slope.interval.high},
            data.at("line"), "line");
        expectAll({robustTwins(data.at("values")).value().hodgesLehmann}, data.at("hodges"),
                  "Hodges-Lehmann");
    }
}

TEST_F(RComparison, RestrictedLikelihood) {
    const auto all = cases("measured", "reml");
    ASSERT_EQ(all.size(), 8U);
    for (const auto& data : all) {
        const auto fit = estimateRandomEffects({data.at("measured"), data.at("uncertainties")},
                                               BetweenEstimator::Reml)
                             .value();
        expectAll({fit.betweenVariance, fit.mean, fit.interval.low, fit.interval.high},
                  data.at("reml"), "random effects");
    }
}

// R stops its own quadrature of ptukey near 1e-8; where it errs by more (few degrees of freedom and
// many groups) SciPy and mpmath rule, see studentized_range_test.cpp.
TEST_F(RComparison, StudentizedRangeWhereRIsExact) {
    const auto all = cases("ptukey", "ptukey");
    ASSERT_EQ(all.size(), 1U);
    const Numbers& rows = all.front().at("ptukey");
    for (std::size_t i = 0; i + 3 < rows.size(); i += 4) {
        if (rows[i + 1] >= 20.0) {
            continue;  // many groups: R is off by 3e-8 to 3e-7
        }
        const StudentizedRange range{static_cast<int>(rows[i + 1])};
        EXPECT_NEAR(range.cdf(rows[i], {rows[i + 2]}), rows[i + 3], 1e-8)
            << "q " << rows[i] << " k " << rows[i + 1] << " v " << rows[i + 2];
    }
}

TEST_F(RComparison, Power) {
    const auto all = cases("power", "power");
    ASSERT_EQ(all.size(), 10U);
    for (const auto& data : all) {
        const Numbers& row = data.at("power");  // n, step, deviation, alpha, power
        const StepDesign step{
            .step = row[1], .standardDeviation = row[2], .alpha = row[3], .isOneSided = false};
        EXPECT_TRUE(agrees(powerForStep(step, row[0]).value(), row[4], kSharedDigits)) << row[0];
    }
}

// The root of trigamma is found to the tolerance of R's uniroot.
TEST_F(RComparison, VariancesModeratedByWhatAllSay) {
    const auto all = cases("variances", "moderated");
    ASSERT_EQ(all.size(), 8U);
    for (const auto& data : all) {
        std::vector<SampleVariance> samples;
        for (std::size_t i = 0; i < data.at("own").size(); ++i) {
            samples.push_back({data.at("variances")[i], {data.at("own")[i]}});
        }
        Numbers variances;
        Numbers dofs;
        const auto moderated = moderatedVariances(samples).value();
        for (const SampleVariance& each : moderated) {
            variances.push_back(each.variance);
            dofs.push_back(each.dof.value);
        }
        variances.insert(variances.end(), dofs.begin(), dofs.end());
        expectAll(variances, data.at("moderated"), "moderated");
    }
}

TEST_F(RComparison, DeletedResidualsOfAnAdditiveTable) {
    const auto all = cases("residuals", "deleted");
    ASSERT_EQ(all.size(), 8U);
    for (const auto& data : all) {
        std::vector<CrossedMean> cells;
        for (std::size_t i = 0; i < data.at("row").size(); ++i) {
            cells.push_back(
                {static_cast<std::size_t>(data.at("row")[i]),
                 static_cast<std::size_t>(data.at("column")[i]),
                 {data.at("residuals")[i], data.at("variance")[i], {data.at("degrees")[i]}}});
        }
        Numbers values;
        Numbers errors;
        Numbers dofs;
        const auto residuals = deletedResiduals(cells).value();
        for (const auto& each : residuals) {
            ASSERT_TRUE(each.has_value());
            values.push_back(each->value);
            errors.push_back(each->standardError);
            dofs.push_back(each->dof.value);
        }
        values.insert(values.end(), errors.begin(), errors.end());
        values.insert(values.end(), dofs.begin(), dofs.end());
        expectAll(values, data.at("deleted"), "deleted residuals");
    }
}

}  // namespace
