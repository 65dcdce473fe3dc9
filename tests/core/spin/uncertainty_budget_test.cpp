#include "core/spin/uncertainty_budget.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <sstream>

#include "tests/support/reference_csv.h"

namespace core::spin {
namespace {

constexpr double kBudgetDigits = 1e-9;  // relative; the tables have twelve digits
constexpr double kInfinity = std::numeric_limits<double>::infinity();

BudgetRow row(std::string name, double sigma, double sensitivity, double dof = kInfinity) {
    BudgetRow result;
    result.name = std::move(name);
    result.sigma = sigma;
    result.sensitivity = sensitivity;
    result.degreesOfFreedom = dof;
    return result;
}

std::vector<double> numbersIn(const std::string& list) {
    std::vector<double> numbers;
    std::istringstream stream{list};
    for (std::string part; std::getline(stream, part, ';');) {
        numbers.push_back(part == "inf" ? kInfinity : std::stod(part));
    }
    return numbers;
}

struct Input {
    double estimate{};
    double sigma{};
    double dof{};
};

std::map<std::string, Input> gumH1Inputs() {
    const auto table = tests::ReferenceTable::load("uncertainty/gum_h1_inputs.csv");
    std::map<std::string, Input> inputs;
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const double dof = table.number(i, "dof");
        inputs[table.text(i, "input")] = {table.number(i, "estimate"), table.number(i, "u"),
                                          std::isnan(dof) ? kInfinity : dof};
    }
    return inputs;
}

std::map<std::string, double> gumH1Expected() {
    const auto table = tests::ReferenceTable::load("uncertainty/gum_h1_expected.csv");
    std::map<std::string, double> expected;
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        expected[table.text(i, "quantity")] = table.number(i, "computed_from_rounded_inputs");
    }
    return expected;
}

// JCGM 100:2008, H.1: the length difference d has three components.
UncertaintyBudget differenceOfGumH1(std::map<std::string, Input>& in) {
    std::vector<BudgetRow> rows;
    for (const char* name : {"d_bar", "d_1", "d_2"}) {
        rows.push_back(row(name, in[name].sigma, 1.0, in[name].dof));
    }
    return completeBudget(rows, "nm").value();
}

TEST(UncertaintyBudget, EndGaugeOfGumH1) {
    auto in = gumH1Inputs();
    auto expected = gumH1Expected();
    const auto d = differenceOfGumH1(in);
    EXPECT_NEAR(d.combined, expected["u(d) (nm)"], kBudgetDigits * d.combined);
    EXPECT_NEAR(d.effectiveDegreesOfFreedom, expected["dof of u(d)"], 1e-8);
    const double length = in["l_s"].estimate;
    const auto& alpha = in["delta_alpha"];
    const auto& theta = in["delta_theta"];
    const auto budget = completeBudget(
        {row("l_s", in["l_s"].sigma, 1.0, in["l_s"].dof),
         row("d", d.combined, 1.0, d.effectiveDegreesOfFreedom),
         row("delta_alpha", alpha.sigma, -length * in["theta_bar"].estimate, alpha.dof),
         row("delta_theta", theta.sigma, -length * in["alpha_s"].estimate, theta.dof)},
        "nm");
    const auto& b = budget.value();
    EXPECT_NEAR(b.rows[2].contribution, expected["contribution delta_alpha (nm)"], 1e-6);
    EXPECT_NEAR(b.rows[3].contribution, expected["contribution delta_theta (nm)"], 1e-6);
    EXPECT_NEAR(b.combined, expected["uc (nm)"], 1e-6);
    EXPECT_NEAR(b.effectiveDegreesOfFreedom, expected["nu_eff"], 1e-6);
}

TEST(UncertaintyBudget, WelchSatterthwaiteCases) {
    // JCGM 100:2008, G.4.1 and further published cases, see the column `how`.
    const auto table = tests::ReferenceTable::load("uncertainty/welch_satterthwaite.csv");
    ASSERT_GT(table.rowCount(), 3U);
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const auto sigmas = numbersIn(table.text(i, "u"));
        const auto dofs = numbersIn(table.text(i, "dof"));
        std::vector<BudgetRow> rows;
        for (std::size_t k = 0; k < sigmas.size(); ++k) {
            rows.push_back(row("input", sigmas[k], -1.0, dofs[k]));
        }
        const auto budget = completeBudget(rows, "1").value();
        EXPECT_NEAR(budget.combined, table.number(i, "uc"), kBudgetDigits * budget.combined);
        EXPECT_NEAR(budget.effectiveDegreesOfFreedom, table.number(i, "nu_eff"), 1e-8);
    }
}

// The bounded distribution a row of the table names; none for the others.
std::optional<Distribution> boundedKind(const std::string& name) {
    const std::map<std::string, Distribution> kinds{{"rectangular", Distribution::Rectangular},
                                                    {"triangular", Distribution::Triangular},
                                                    {"arcsine (U-shaped)", Distribution::Arcsine}};
    const auto kind = kinds.find(name);
    if (kind != kinds.end()) {
        return kind->second;
    }
    return name.starts_with("trapezoid") ? std::optional{Distribution::Trapezoidal} : std::nullopt;
}

TEST(UncertaintyBudget, DivisorsOfBoundedQuantities) {
    // JCGM 100:2008, 4.3.7 to 4.3.9.
    const auto table = tests::ReferenceTable::load("uncertainty/type_b_divisors.csv");
    int checked = 0;
    for (std::size_t i = 0; i < table.rowCount(); ++i) {
        const std::string& name = table.text(i, "distribution");
        if (const auto kind = boundedKind(name)) {
            const auto equals = name.find('=');
            const double beta =
                equals == std::string::npos ? 1.0 : std::stod(name.substr(equals + 1));
            const bool isFull = table.text(i, "width").starts_with("full");
            const double a = table.number(i, "a") * (isFull ? 0.5 : 1.0);
            EXPECT_NEAR(sigmaFromHalfWidth(*kind, a, beta), table.number(i, "u"), kBudgetDigits);
            ++checked;
        }
    }
    EXPECT_EQ(checked, 8);
}

TEST(UncertaintyBudget, SharesSumToOneAndOwnContributionIsKept) {
    auto curved = row("curved", 1.0, 3.0);
    curved.contribution = 4.0;
    const auto budget =
        completeBudget({curved, row("plain", 1.5, -2.0), row("none", 0.0, 0.0)}, "");
    EXPECT_DOUBLE_EQ(budget.value().combined, 5.0);  // 3, 4, 5
    EXPECT_DOUBLE_EQ(budget.value().rows[0].share, 16.0 / 25.0);
    EXPECT_DOUBLE_EQ(budget.value().rows[1].share, 9.0 / 25.0);
    EXPECT_DOUBLE_EQ(budget.value().rows[2].share, 0.0);
}

TEST(UncertaintyBudget, BadRowsAreRefusedByName) {
    const auto negative = completeBudget({row("bad one", -1.0, 1.0)}, "");
    EXPECT_EQ(negative.error().code, ErrorCode::OutOfRange);
    EXPECT_NE(negative.error().message.find("bad one"), std::string::npos);
    EXPECT_EQ(completeBudget({row("x", 1.0, 1.0, 0.0)}, "").error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(completeBudget({row("x", kInfinity, 1.0)}, "").error().code, ErrorCode::NotFinite);
}

}  // namespace
}  // namespace core::spin
