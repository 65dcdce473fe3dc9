#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"

namespace {

using core::findings::Findings;
using core::words::sentence;
using tests::MadeProject;

/// What to film: implement, hitter, value.
struct Made {
    std::size_t implement{};
    std::string hitter;
    double rpm{};
};

std::vector<Made> randomSeason(unsigned seed) {
    std::mt19937 generator{seed};
    std::normal_distribution<double> noise{0.0, 60.0};
    std::vector<Made> shots;
    for (std::size_t i = 0; i < 5; ++i) {
        for (const char* hitter : {"A", "B"}) {
            for (int k = 0; k < 8; ++k) {
                shots.push_back(
                    {i, hitter, 1500.0 + 60.0 * static_cast<double>(i) + noise(generator)});
            }
        }
    }
    return shots;
}

MadeProject projectOf(const std::vector<Made>& shots) {
    MadeProject project;
    std::vector<core::project::ImplementId> implements;
    for (int i = 0; i < 5; ++i) {
        implements.push_back(project.implement("implement " + std::to_string(i + 1)));
    }
    // Hitters and cells are made as they are met: name them in one order whatever the shots'.
    for (const auto implement : implements) {
        for (const char* hitter : {"A", "B"}) {
            project.cell(implement, hitter);
        }
    }
    for (const Made& shot : shots) {
        project.keep(implements[shot.implement], shot.hitter, shot.rpm, 20.0);
    }
    return project;
}

void expectSameComparison(const Findings& a, const Findings& b) {
    ASSERT_EQ(a.comparisons.size(), b.comparisons.size());
    for (std::size_t c = 0; c < a.comparisons.size(); ++c) {
        const auto& x = a.comparisons[c];
        const auto& y = b.comparisons[c];
        ASSERT_EQ(x.ranked.size(), y.ranked.size());
        for (std::size_t i = 0; i < x.ranked.size(); ++i) {
            EXPECT_EQ(sentence(x.ranked[i], x), sentence(y.ranked[i], y));
            EXPECT_EQ(x.ranked[i].mean.value, y.ranked[i].mean.value);
            EXPECT_EQ(x.ranked[i].letters, y.ranked[i].letters);
            EXPECT_EQ(x.ranked[i].rank->firstChance, y.ranked[i].rank->firstChance);
        }
        ASSERT_EQ(x.pairs.size(), y.pairs.size());
        for (std::size_t i = 0; i < x.pairs.size(); ++i) {
            EXPECT_EQ(sentence(x.pairs[i], a.noticeableStep),
                      sentence(y.pairs[i], b.noticeableStep));
            EXPECT_EQ(x.pairs[i].adjustedP, y.pairs[i].adjustedP);
            EXPECT_EQ(core::words::outlook(x.pairs[i]), core::words::outlook(y.pairs[i]));
        }
    }
}

TEST(FindingsProperties, OrderOfShotsPlaysNoPart) {
    auto shots = randomSeason(7);
    const auto before = projectOf(shots).findings();
    std::shuffle(shots.begin(), shots.end(), std::mt19937{8});
    const auto after = projectOf(shots).findings();
    expectSameComparison(before, after);
    ASSERT_EQ(before.cells.size(), after.cells.size());
    for (std::size_t i = 0; i < before.cells.size(); ++i) {
        EXPECT_EQ(sentence(before.cells[i]), sentence(after.cells[i]));
        EXPECT_EQ(core::words::scatterSentence(before.cells[i]),
                  core::words::scatterSentence(after.cells[i]));
    }
}

TEST(FindingsProperties, ShotSetAsideChangesOnlyItsOwnCell) {
    auto project = projectOf(randomSeason(7));
    const auto before = project.findings();
    project.setAside({20});  // implement 2, hitter A
    const auto after = project.findings();
    ASSERT_EQ(before.cells.size(), after.cells.size());
    int changed = 0;
    for (std::size_t i = 0; i < before.cells.size(); ++i) {
        const auto& cell = before.cells[i];
        if (sentence(cell) != sentence(after.cells[i])) {
            EXPECT_EQ(cell.row.implementName, "implement 2");
            EXPECT_EQ(cell.row.hitterName, "A");
            ++changed;
        }
    }
    EXPECT_EQ(changed, 1);
}

TEST(FindingsProperties, TakingOverFromEarlierFindingsGivesTheSame) {
    auto project = projectOf(randomSeason(9));
    project.set("noticeable_step_rpm", "100");
    const auto before = project.findings();
    project.setAside({20});
    expectSameComparison(project.findings(), project.findings(&before));
    project.set("noticeable_step_rpm", "200");
    expectSameComparison(project.findings(), project.findings(&before));
}

TEST(FindingsProperties, HigherValuesThroughoutMoveMeansAndKeepLetters) {
    auto shots = randomSeason(11);
    const auto before = projectOf(shots).findings();
    for (Made& shot : shots) {
        shot.rpm += 1024.0;  // a power of two: sums stay exact
    }
    const auto after = projectOf(shots).findings();
    for (std::size_t i = 0; i < before.together().ranked.size(); ++i) {
        EXPECT_EQ(before.together().ranked[i].letters, after.together().ranked[i].letters);
        EXPECT_NEAR(after.together().ranked[i].mean.value - before.together().ranked[i].mean.value,
                    1024.0, 1e-9);
    }
}

TEST(FindingsProperties, SameSeedSameRanksOtherSeedNearlySo) {
    const auto snapshot = projectOf(randomSeason(7)).snapshot();
    const auto one = core::findings::findFindings(snapshot, {.seed = 1}).value();
    const auto again = core::findings::findFindings(snapshot, {.seed = 1}).value();
    const auto other = core::findings::findFindings(snapshot, {.seed = 2}).value();
    for (std::size_t i = 0; i < one.together().ranked.size(); ++i) {
        const double chance = one.together().ranked[i].rank->firstChance;
        EXPECT_EQ(chance, again.together().ranked[i].rank->firstChance);
        // 1000 draws: a standard error of at most 0.016 each; five of the difference.
        EXPECT_NEAR(chance, other.together().ranked[i].rank->firstChance, 0.112);
    }
}

TEST(FindingsProperties, CancelledIsSaid) {
    std::stop_source source;
    source.request_stop();
    const auto found =
        core::findings::findFindings(projectOf(randomSeason(7)).snapshot(), {}, source.get_token());
    ASSERT_FALSE(found.has_value());
    EXPECT_EQ(found.error().code, core::ErrorCode::Cancelled);
}

TEST(FindingsProperties, OptionsOutOfRangeAreRefused) {
    const auto found =
        core::findings::findFindings(projectOf(randomSeason(7)).snapshot(), {.draws = 3});
    ASSERT_FALSE(found.has_value());
    EXPECT_EQ(found.error().code, core::ErrorCode::OutOfRange);
}

}  // namespace
