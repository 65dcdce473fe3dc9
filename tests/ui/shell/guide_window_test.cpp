#include "ui/shell/guide_window.h"

#include <gtest/gtest.h>

#include <QApplication>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScrollBar>
#include <QStandardPaths>
#include <QTest>
#include <QTextBlock>

#include "core/guide/guide.h"
#include "tests/support/demo_copy.h"
#include "tests/support/named_widget.h"
#include "ui/shell/guide_viewer.h"
#include "ui/shell/main_window.h"

namespace ui::shell {
namespace {

constexpr int kPatienceMs = 60000;  // on a busy machine

/// The guide by itself, in the hands of a person.
class GuideWindowTest : public ::testing::Test {
protected:
    GuideWindowTest() {
        window.showPage(QStringLiteral("first-shot"));
        window.show();
    }
    void SetUp() override { ASSERT_TRUE(QTest::qWaitForWindowActive(&window, kPatienceMs)); }
    QListWidget& contents() { return tests::namedWidget<QListWidget>(window, "guide_contents"); }
    QLineEdit& search() { return tests::namedWidget<QLineEdit>(window, "guide_search"); }
    GuideViewer& viewer() { return tests::namedWidget<GuideViewer>(window, "guide_page"); }
    QString heading() { return viewer().document()->firstBlock().text(); }

    GuideWindow window;
};

TEST_F(GuideWindowTest, ContentsAreWalkedByKeysAndThereIsAWayBack) {
    EXPECT_EQ(heading(), QStringLiteral("First shot"));
    EXPECT_FALSE(tests::namedWidget<QPushButton>(window, "guide_back").isEnabled());
    contents().setFocus();
    QTest::keyClick(&contents(), Qt::Key_Down);
    EXPECT_EQ(window.pageName(), QStringLiteral("mark-the-ball"));
    EXPECT_EQ(heading(), QStringLiteral("How to mark a ball"));
    QTest::keyClick(&window, Qt::Key_Left, Qt::AltModifier);
    EXPECT_EQ(window.pageName(), QStringLiteral("first-shot"));
    EXPECT_EQ(contents().currentRow(), 0);
}

TEST_F(GuideWindowTest, SearchLeadsToTheSection) {
    QTest::keyClick(&window, Qt::Key_F, Qt::ControlModifier);
    ASSERT_TRUE(search().hasFocus());
    QTest::keyClicks(&search(), QStringLiteral("true capture rate"));
    ASSERT_GT(contents().count(), 0);
    EXPECT_EQ(contents().item(0)->text(), QStringLiteral("The true capture rate\n    How to film"));
    QTest::mouseClick(contents().viewport(), Qt::LeftButton, {},
                      contents().visualItemRect(contents().item(0)).center());
    EXPECT_EQ(window.pageName(), QStringLiteral("how-to-film"));
    EXPECT_GT(viewer().verticalScrollBar()->value(), 0);
    search().clear();
    EXPECT_GT(contents().count(), 10);
    QTest::keyClicks(&search(), QStringLiteral("zebra"));
    EXPECT_EQ(contents().count(), 1);
    EXPECT_EQ(contents().item(0)->flags(), Qt::NoItemFlags);
    QTest::keyClick(&window, Qt::Key_Escape);
    EXPECT_TRUE(search().text().isEmpty());
    EXPECT_TRUE(window.isVisible());
    QTest::keyClick(&window, Qt::Key_Escape);
    EXPECT_FALSE(window.isVisible());
}

TEST_F(GuideWindowTest, APageIsThereOnceAtEveryWidth) {
    for (const auto& page : core::guide::pages()) {
        window.showPage(QString::fromStdString(page.name));
        for (const int width : {640, 1400, 1000}) {
            window.resize(width, 700);
            QCoreApplication::processEvents();
            const QString text = viewer().toPlainText();
            EXPECT_EQ(text.count(QString::fromStdString(page.title) + u'\n'), 1)
                << page.name << " at " << width;
        }
    }
}

TEST_F(GuideWindowTest, DrawingsAreShownInTheColourOfText) {
    window.showPage(QStringLiteral("mark-the-ball"));
    const auto picture =
        viewer()
            .document()
            ->resource(QTextDocument::ImageResource, QUrl{QStringLiteral("drawings/markings.svg")})
            .value<QImage>();
    ASSERT_FALSE(picture.isNull());
    EXPECT_GT(picture.width(), 300);
}

TEST_F(GuideWindowTest, APictureOfTheWindowIsAsWideAsTheColumn) {
    window.showPage(QStringLiteral("results"));
    for (const int width : {640, 1000}) {
        window.resize(width, 700);
        QCoreApplication::processEvents();
        const auto picture = viewer()
                                 .document()
                                 ->resource(QTextDocument::ImageResource,
                                            QUrl{QStringLiteral("pictures/findings.png")})
                                 .value<QImage>();
        ASSERT_FALSE(picture.isNull());
        EXPECT_GT(picture.width(), 200) << width;
        EXPECT_LT(picture.width() / picture.devicePixelRatio(), viewer().viewport()->width());
    }
}

TEST(GuideOfTheProgram, F1OpensThePageThatFitsTheScreen) {
    QStandardPaths::setTestModeEnabled(true);
    QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
    const tests::DemoCopy demo;
    MainWindow main;
    main.show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&main, kPatienceMs));
    const auto pageAfterF1 = [&main] {
        main.activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(&main, kPatienceMs));
        QTest::keyClick(&main, Qt::Key_F1);
        const auto* guide = main.findChild<GuideWindow*>();
        return guide != nullptr && guide->isVisible() ? guide->pageName() : QString{};
    };
    EXPECT_EQ(pageAfterF1(), QStringLiteral("first-shot"));
    ASSERT_TRUE(main.openProject(demo.project()));
    using Screen = MainWindow::Screen;
    for (const auto& [screen, page] :
         {std::pair{Screen::Plan, QStringLiteral("one-day")},
          std::pair{Screen::Footage, QStringLiteral("clips-and-shots")},
          std::pair{Screen::Reading, QStringLiteral("read-a-shot")},
          std::pair{Screen::Doubts, QStringLiteral("doubts")},
          std::pair{Screen::Findings, QStringLiteral("results")}}) {
        main.showScreen(screen);
        EXPECT_EQ(pageAfterF1(), page);
    }
}

}  // namespace
}  // namespace ui::shell
