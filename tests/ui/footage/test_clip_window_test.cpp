#include "ui/footage/test_clip_window.h"

#include <gtest/gtest.h>

#include <QDropEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QTest>
#include <algorithm>
#include <fstream>

#include "tests/support/must.h"
#include "tests/support/named_widget.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

/// The window for test clips on a rendered film whose ball is 74 mm across
/// (tests/data/footage/slow_240in30_tagged.json). What it says is what the use case says.
namespace ui::footage {
namespace {

using tests::must;
constexpr int kJudgePatience = 120000;  // milliseconds, for reading on a busy machine

class TestClipWindowTest : public ::testing::Test {
protected:
    void SetUp() override {
        window.show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(&window, kJudgePatience));
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(window, name);
    }
    void drop(const std::filesystem::path& file) {
        QMimeData data;
        data.setUrls({QUrl::fromLocalFile(QString::fromStdString(file.string()))});
        QDragEnterEvent enter{{200, 200}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
        QCoreApplication::sendEvent(&window, &enter);
        ASSERT_TRUE(enter.isAccepted());
        QDropEvent event{{200, 200}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
        QCoreApplication::sendEvent(&window, &event);
    }
    [[nodiscard]] bool waitForEnd() {
        return QTest::qWaitFor([this] { return child<QPushButton>("test_choose").isEnabled(); },
                               kJudgePatience);
    }
    [[nodiscard]] bool isShown(std::string_view words) {
        const auto labels = window.findChildren<QLabel*>();
        const QString text = QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
        return std::any_of(labels.begin(), labels.end(),
                           [&text](const QLabel* label) { return label->text() == text; });
    }

    tests::TemporaryFolder folder;
    std::filesystem::path film{tests::dataFolder() / "footage" / "slow_240in30_tagged.mp4"};
    bridge::JobRunner jobs{1};
    TestClipWindow window{jobs, {}};
};

TEST_F(TestClipWindowTest, SaysPointByPointWhatTheUseCaseSaysAndPrintsIt) {
    EXPECT_FALSE(child<QPushButton>("test_print").isEnabled());
    QTest::keyClicks(&child<QLineEdit>("test_diameter"), QStringLiteral("74"));
    drop(film);
    EXPECT_FALSE(child<QPushButton>("test_choose").isEnabled());
    ASSERT_TRUE(waitForEnd());
    core::project::Session session;
    session.ballDiameterMm = 74.0;
    const auto judged =
        core::intake::judgeTestClip(must(core::intake::readFilm(film, session, {})), session);
    EXPECT_TRUE(isShown(verdictSentence(judged)));
    ASSERT_EQ(judged.points.size(), 12U);
    for (const auto& point : judged.points) {
        EXPECT_TRUE(isShown(titleOf(point.kind))) << titleOf(point.kind);
        EXPECT_TRUE(isShown(point.value)) << point.value;
        EXPECT_TRUE(point.advice.empty() || isShown(point.advice)) << point.advice;
    }
    const auto pdf = folder.path() / "test.pdf";
    window.print(QString::fromStdString(pdf.string()));
    std::string begin(5, ' ');
    std::ifstream{pdf}.read(begin.data(), 5);
    EXPECT_EQ(begin, "%PDF-");
}

TEST_F(TestClipWindowTest, WithoutTheDiameterTheRateIsToBeCheckedAndItIsJudgedAgainWithIt) {
    drop(film);
    ASSERT_TRUE(waitForEnd());
    const std::string advice = "State the ball's diameter, so that the ball's fall can check it.";
    EXPECT_TRUE(isShown(advice));
    QTest::keyClicks(&child<QLineEdit>("test_diameter"), QStringLiteral("74"));
    QTest::keyClick(&child<QLineEdit>("test_diameter"), Qt::Key_Return);
    ASSERT_TRUE(waitForEnd());
    EXPECT_FALSE(isShown(advice));
}

TEST_F(TestClipWindowTest, WhatIsNoFilmIsSaidAndAnotherCanBeChosen) {
    const auto notes = folder.path() / "notes.mp4";
    std::ofstream{notes} << "wind from the left\n";
    drop(notes);
    ASSERT_TRUE(waitForEnd());
    EXPECT_EQ(child<QLabel>("test_headline").text(), QStringLiteral("notes.mp4 cannot be judged"));
    EXPECT_FALSE(child<QPushButton>("test_print").isEnabled());
}

TEST_F(TestClipWindowTest, ANumberThatCannotBeIsSaidAndNothingIsRead) {
    QTest::keyClicks(&child<QLineEdit>("test_rate"), QStringLiteral("1e99"));
    drop(film);
    EXPECT_TRUE(child<QPushButton>("test_choose").isEnabled());
    EXPECT_EQ(child<QLineEdit>("test_rate").text(), QStringLiteral("1e99"));
    EXPECT_TRUE(child<QLabel>("test_words").text().contains(QStringLiteral("1e99")));
}

}  // namespace
}  // namespace ui::footage
