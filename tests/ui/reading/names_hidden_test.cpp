#include <gtest/gtest.h>

#include <QLabel>
#include <QTest>
#include <set>

#include "core/project/shuffled_order.h"
#include "tests/ui/reading/reading_project.h"
#include "ui/reading/card/reading_card.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/shot_strip.h"

namespace ui::reading {
namespace {

using core::project::ShotId;

constexpr int kWindowMilliseconds = 10000;  // on a busy machine

/// Reading without knowing whose shot it is, on a project with six films of 5 frames a turn.
class NamesHidden : public ::testing::Test {
protected:
    void SetUp() override { show(); }

    void show() {
        screen.reset();
        screen = std::make_unique<ReadingScreen>(project.store(), project.requester(), nullptr);
        screen->resize(1366, 690);
        screen->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(screen.get(), kWindowMilliseconds));
        screen->openFirstShot();
    }
    void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier, int times = 1) {
        for (int k = 0; k < times; ++k) {
            QTest::keyClick(screen.get(), key, modifiers);
        }
    }
    [[nodiscard]] ShotId open() const { return screen->desk().view().shot.id; }
    [[nodiscard]] std::vector<ShotId> listed() const {
        std::vector<ShotId> shots;
        for (int row = 0; row < screen->strip().model().rowCount(); ++row) {
            shots.push_back(screen->strip().model().shotAt(row));
        }
        return shots;
    }
    [[nodiscard]] std::vector<ShotId> shuffled() {
        const auto snapshot = project.store().snapshot();
        std::vector<ShotId> shots;
        for (const auto* shot : shotsShuffled(*snapshot)) {
            shots.push_back(shot->id);
        }
        return shots;
    }
    /// Everything that labels, list and tooltips say.
    [[nodiscard]] QString allWords() const {
        QString words;
        for (const auto* label : screen->findChildren<QLabel*>()) {
            words += label->text() + label->toolTip() + u'\n';
        }
        const auto& model = screen->strip().model();
        for (int row = 0; row < model.rowCount(); ++row) {
            for (const int role :
                 {static_cast<int>(Qt::DisplayRole), static_cast<int>(Qt::ToolTipRole),
                  static_cast<int>(ShotListModel::CellRole)}) {
                words += model.data(model.index(row), role).toString() + u'\n';
            }
        }
        return words;
    }

    tests::ReadingProject project{{{}, {}, {}, {}, {}, {}}};
    std::unique_ptr<ReadingScreen> screen;
};

TEST_F(NamesHidden, NothingOnTheScreenSaysWhoseShotItIs) {
    const auto cell = QStringLiteral("String set 1");
    ASSERT_TRUE(allWords().contains(cell));
    ASSERT_TRUE(allWords().contains(QStringLiteral("ball_0.mp4")));
    press(Qt::Key_H, Qt::ControlModifier);
    for (int shot = 0; shot < 6; ++shot) {
        EXPECT_FALSE(allWords().contains(cell)) << allWords().toStdString();
        EXPECT_FALSE(allWords().contains(QStringLiteral("ball_"))) << allWords().toStdString();
        press(Qt::Key_PageDown);
    }
    press(Qt::Key_H, Qt::ControlModifier);
    EXPECT_TRUE(allWords().contains(cell));
}

TEST_F(NamesHidden, ShotsComeInAnOrderOfTheirOwnAlsoAfterARestart) {
    const auto ofTheFilm = listed();
    press(Qt::Key_H, Qt::ControlModifier);
    const auto order = listed();
    EXPECT_EQ(order, shuffled());
    EXPECT_NE(order, ofTheFilm);
    EXPECT_EQ(std::set<ShotId>(order.begin(), order.end()),
              std::set<ShotId>(ofTheFilm.begin(), ofTheFilm.end()));
    show();
    EXPECT_TRUE(screen->areNamesHidden());
    EXPECT_EQ(listed(), order);
    EXPECT_EQ(open(), order.front());
    EXPECT_FALSE(allWords().contains(QStringLiteral("String set 1")));
    press(Qt::Key_H, Qt::ControlModifier);
    EXPECT_EQ(listed(), ofTheFilm);
    show();
    EXPECT_FALSE(screen->areNamesHidden());
}

TEST_F(NamesHidden, KeepingGoesOnInThatOrder) {
    press(Qt::Key_H, Qt::ControlModifier);
    const auto order = listed();
    screen->openShot(order[0]);
    for (const ShotId shot : order) {
        ASSERT_EQ(open(), shot);
        press(Qt::Key_S);
        press(Qt::Key_Right, Qt::NoModifier, 5);
        press(Qt::Key_R);
        press(Qt::Key_Return);
    }
    EXPECT_EQ(open(), order.back());
    for (std::size_t film = 0; film < order.size(); ++film) {
        EXPECT_EQ(project.shotNow(film).standing, core::project::ShotStanding::Kept);
    }
}

}  // namespace
}  // namespace ui::reading
