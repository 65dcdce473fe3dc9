#include "ui/publish/publish_screen.h"

#include <gtest/gtest.h>

#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QSignalSpy>
#include <QTest>
#include <QUrl>
#include <filesystem>
#include <stdexcept>

#include "core/doubts/doubt_material.h"
#include "core/findings/settings.h"
#include "core/publish/credits.h"
#include "core/publish/last_published.h"
#include "tests/support/named_widget.h"
#include "tests/support/process.h"
#include "tests/ui/findings/findings_project.h"
#include "tests/ui/publish/opened_places.h"

/// The last step on a project of three implements and two hitters, driven as a person would.
namespace ui::publish {
namespace {

constexpr int kWaitMilliseconds = 180000;  // for drawing every figure on a busy machine

class PublishScreenTest : public ::testing::Test {
protected:
    void SetUp() override {
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope,
                           QString::fromStdString(settings.path().string()));
        open();
    }
    void TearDown() override { QCoreApplication::setOrganizationName({}); }
    void open(QSize size = {1366, 660}) {
        screen = std::make_unique<PublishScreen>(*project.store, jobs);
        screen->resize(size);
        screen->setDoubts(doubts());
        screen->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(screen.get()));
    }
    [[nodiscard]] core::doubts::DoubtsPtr doubts() const {
        const auto material = core::doubts::gatherAll(*project.store).value();
        const auto found = core::findings::findFindings(*material.snapshot, {}, {}).value();
        return std::make_shared<const core::doubts::Doubts>(
            core::doubts::findDoubts(material, found));
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(*screen, name);
    }
    [[nodiscard]] QStringList points() const {
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);  // rows that went
        QStringList titles;
        for (const auto* label : screen->findChildren<QLabel*>(QStringLiteral("open_point"))) {
            titles << label->text();
        }
        return titles;
    }
    [[nodiscard]] QCheckBox& box(const char* word) {
        for (auto* found : screen->findChildren<QCheckBox*>()) {
            if (found->text().remove(QLatin1Char{'&'}).contains(QLatin1String{word})) {
                return *found;
            }
        }
        throw std::runtime_error(std::string{"no box about "} + word);
    }
    void publishTo(const std::filesystem::path& target) {
        QSignalSpy said{screen.get(), &PublishScreen::said};
        screen->publishTo(QString::fromStdString(target.string()));
        ASSERT_TRUE(said.wait(kWaitMilliseconds));
    }

    tests::TemporaryFolder settings;
    tests::TemporaryFolder folder;
    tests::FindingsProject project;
    bridge::JobRunner jobs{1};
    std::unique_ptr<PublishScreen> screen;
};

TEST_F(PublishScreenTest, WhatThePageSaysFirstIsShownBeforeAnythingIsWritten) {
    auto& title = child<QLabel>("preview_title");
    ASSERT_TRUE(QTest::qWaitFor([&] { return !title.text().isEmpty(); }, kWaitMilliseconds));
    // Three implements, two hitters, six shots a cell (findings_project.h).
    EXPECT_TRUE(child<QLabel>("preview_under")
                    .text()
                    .startsWith(QStringLiteral("3 implements, 2 hitters, 36 shots that count")));
    auto& sentences = child<QLabel>("preview_sentences");
    EXPECT_TRUE(child<QLabel>("preview_first").text().contains(QStringLiteral("implement 3")));
    EXPECT_TRUE(sentences.text().contains(QStringLiteral("No doubt is open.")))
        << sentences.text().toStdString();
    auto& files = child<QLabel>("preview_files");
    EXPECT_TRUE(files.text().contains(QStringLiteral("figures as SVG and PNG")));
    EXPECT_FALSE(files.text().contains(QStringLiteral("film")));
    EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
    QTest::mouseClick(&box("film"), Qt::LeftButton, {}, {8, box("film").height() / 2});
    EXPECT_TRUE(QTest::qWaitFor([&] { return files.text().contains(QStringLiteral("36 films")); },
                                kWaitMilliseconds))
        << files.text().toStdString();
}

TEST_F(PublishScreenTest, ADoubtMoreIsInWhatIsShownOfThePage) {
    auto& sentences = child<QLabel>("preview_sentences");
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return sentences.text().contains(QStringLiteral("No doubt is open.")); },
        kWaitMilliseconds));
    const auto shot = project.keepShot(1500.0);
    ASSERT_TRUE(project.store->setDoubtful(shot, true));
    screen->setDoubts(doubts());
    EXPECT_TRUE(QTest::qWaitFor(
        [&] { return sentences.text().contains(QStringLiteral("doubts about 1 shot")); },
        kWaitMilliseconds))
        << sentences.text().toStdString();
}

TEST_F(PublishScreenTest, WritesThePageAndOpensItAndItsFolder) {
    const auto target = folder.path() / "for others";
    EXPECT_FALSE(child<QPushButton>("open_page").isVisible());
    publishTo(target);
    const std::string about = tests::bytesOf(target / "about.csv");
    EXPECT_NE(about.find("open_doubts_shots,0,"), std::string::npos) << about;
    EXPECT_TRUE(child<QLabel>("published").text().contains(QStringLiteral("index.html")));
    EXPECT_TRUE(std::filesystem::exists(target / "index.html"));
    EXPECT_TRUE(std::filesystem::exists(target / "findings.pdf"));
    tests::OpenedPlaces desktop;
    QTest::mouseClick(&child<QPushButton>("open_page"), Qt::LeftButton);
    QTest::mouseClick(&child<QPushButton>("show_folder"), Qt::LeftButton);
    const QString at = QString::fromStdString(target.string());
    EXPECT_EQ(desktop.opened, (QList<QUrl>{QUrl::fromLocalFile(at + QStringLiteral("/index.html")),
                                           QUrl::fromLocalFile(at)}));
}

TEST_F(PublishScreenTest, WhatWasPublishedIsNotedInTheProject) {
    EXPECT_FALSE(core::publish::lastPublished(*project.store->snapshot()).has_value());
    const auto target = folder.path() / "for others";
    publishTo(target);
    const auto last = core::publish::lastPublished(*project.store->snapshot());
    ASSERT_TRUE(last.has_value());
    EXPECT_EQ(last->folder, target.string());
    EXPECT_EQ(last->on, core::publish::today());
    const auto found = core::findings::findFindings(*project.store->snapshot(), {}, {}).value();
    EXPECT_EQ(last->fingerprint, found.fingerprint);
    EXPECT_FALSE(project.store->undoText().value_or("").starts_with("published"));
}

TEST_F(PublishScreenTest, WhatIsOpenIsSaidBeforeAndLeadsThere) {
    EXPECT_TRUE(points().contains(QStringLiteral("No noticeable step is set")));
    EXPECT_TRUE(points().contains(QStringLiteral("Every shot is decided")));
    const auto& answer = child<QLabel>("answer");
    EXPECT_TRUE(answer.text().startsWith(QStringLiteral("Ready, with")))
        << answer.text().toStdString();

    const auto shot = project.keepShot(1510.0);
    ASSERT_TRUE(project.store->reopen(shot));
    screen->setDoubts(doubts());
    EXPECT_TRUE(points().contains(QStringLiteral("1 shot is not read")));
    QSignalSpy way{screen.get(), &PublishScreen::wayChosen};
    for (auto* button : screen->findChildren<QPushButton*>()) {
        if (button->text() == QLatin1String("Reading") && way.isEmpty()) {
            QTest::mouseClick(button, Qt::LeftButton);
        }
    }
    ASSERT_EQ(way.count(), 1);
    EXPECT_EQ(way.front().front().value<OpenPoint::Way>(), OpenPoint::Way::Reading);

    ASSERT_TRUE(core::findings::setNoticeableStep(*project.store, core::Rpm{300.0}));
    EXPECT_TRUE(points().contains(QStringLiteral("Noticeable step: 300 rpm")));
    EXPECT_FALSE(points().contains(QStringLiteral("No noticeable step is set")));
}

TEST_F(PublishScreenTest, AuthorIsEnteredOnceAndKeptInTheProject) {
    auto& author = child<QLineEdit>("author");
    QTest::keyClicks(&author, QStringLiteral("Bench team "));
    QTest::keyClick(&author, Qt::Key_Return);
    EXPECT_EQ(core::publish::creditsOf(*project.store->snapshot()).author, "Bench team");
    auto credits = core::publish::creditsOf(*project.store->snapshot());
    credits.licence = "CC BY 4.0";
    ASSERT_TRUE(core::publish::keepCredits(*project.store, credits));
    EXPECT_EQ(child<QLineEdit>("licence").text(), QStringLiteral("CC BY 4.0"));
    open();  // a new screen
    EXPECT_EQ(child<QLineEdit>("author").text(), QStringLiteral("Bench team"));
    publishTo(folder.path() / "out");
    const std::string page = tests::bytesOf(folder.path() / "out" / "index.html");
    EXPECT_NE(page.find("By Bench team. Licence: CC BY 4.0."), std::string::npos);
}

TEST_F(PublishScreenTest, AButtonPressedWhileWhatWasTypedIsBeingKeptLeadsItsWay) {
    auto& author = child<QLineEdit>("author");
    author.setFocus();
    QTest::keyClicks(&author, QStringLiteral("Bench team"));
    QSignalSpy way{screen.get(), &PublishScreen::wayChosen};
    QPushButton* toFindings = nullptr;
    for (auto* button : screen->findChildren<QPushButton*>()) {
        toFindings = button->text() == QLatin1String("Findings") ? button : toFindings;
    }
    ASSERT_NE(toFindings, nullptr);
    // Through the window, as the desktop sends it: the press takes the focus from the field.
    const QPoint at = toFindings->mapTo(screen.get(), toFindings->rect().center());
    QTest::mouseClick(screen->windowHandle(), Qt::LeftButton, {}, at);
    EXPECT_EQ(core::publish::creditsOf(*project.store->snapshot()).author, "Bench team");
    ASSERT_EQ(way.count(), 1);
    EXPECT_EQ(way.front().front().value<OpenPoint::Way>(), OpenPoint::Way::Findings);
}

TEST_F(PublishScreenTest, ChoicesAreKept) {
    EXPECT_FALSE(box("names").isChecked());
    QTest::mouseClick(&box("names"), Qt::LeftButton, {}, {8, box("names").height() / 2});
    open();  // a new screen
    EXPECT_TRUE(box("names").isChecked());
    EXPECT_FALSE(box("film").isChecked());
}

TEST_F(PublishScreenTest, NothingIsWiderThanASmallWindow) {
    for (const QSize size : {QSize{960, 440}, QSize{1024, 600}, QSize{1366, 660}}) {
        open(size);
        EXPECT_EQ(screen->size(), size);
        for (const auto* button : screen->findChildren<QPushButton*>()) {
            const int right = button->mapTo(screen.get(), QPoint{button->width(), 0}).x();
            EXPECT_TRUE(button->isHidden() || right <= size.width())
                << button->text().toStdString() << " at " << size.width();
        }
    }
}

TEST(PublishScreenEmpty, TellsTheNextStepAndPublishesNothing) {
    const tests::TemporaryFolder folder;
    auto store = core::project::Store::create(folder.path() / "empty.turnmark");
    ASSERT_TRUE(store.has_value());
    bridge::JobRunner jobs{1};
    PublishScreen screen{*store.value(), jobs};
    screen.show();
    EXPECT_EQ(tests::namedWidget<QLabel>(screen, "answer").text(),
              QStringLiteral("Nothing to publish yet"));
    EXPECT_FALSE(tests::namedWidget<QPushButton>(screen, "publish").isEnabled());
}

}  // namespace
}  // namespace ui::publish
