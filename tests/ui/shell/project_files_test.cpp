#include "ui/shell/project_files.h"

#include <gtest/gtest.h>

#include <QAction>
#include <QApplication>
#include <QMessageBox>
#include <QPushButton>
#include <QSignalSpy>
#include <QStandardPaths>
#include <QTest>
#include <fstream>

#include "tests/support/demo_copy.h"
#include "ui/shell/backups_window.h"
#include "ui/shell/main_window.h"

/// The doors of the window to what is done with whole project files.
namespace ui::shell {
namespace {

namespace fs = std::filesystem;

constexpr int kLongMilliseconds = 60000;

class ProjectFilesTest : public ::testing::Test {
protected:
    ProjectFilesTest() {
        QStandardPaths::setTestModeEnabled(true);
        QCoreApplication::setOrganizationName(QStringLiteral("turnmark-tests"));
        window.show();
    }
    [[nodiscard]] ProjectFiles& files() { return *window.findChild<ProjectFiles*>(); }
    [[nodiscard]] QAction& action(const char* name) {
        return *window.findChild<QAction*>(QString::fromLatin1(name));
    }
    /// The words of the message that comes, which is closed.
    [[nodiscard]] static QString message() {
        QMessageBox* box = nullptr;
        const bool came = QTest::qWaitFor(
            [&] {
                box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
                return box != nullptr;
            },
            kLongMilliseconds);
        if (!came) {
            ADD_FAILURE() << "no message came";
            return {};
        }
        QString text = box->text();
        box->reject();
        return text;
    }
    /// Every tenth page from the middle on, but not those before it, holds rubbish.
    void damage() const {
        std::fstream file{demo.project(), std::ios::binary | std::ios::in | std::ios::out};
        const auto size = static_cast<std::streamoff>(fs::file_size(demo.project()));
        constexpr std::streamoff kPage = 4096;
        const std::string rubbish(kPage, '\x5a');
        for (std::streamoff at = size / 2 / kPage * kPage; at + kPage <= size; at += 10 * kPage) {
            file.seekp(at);
            file.write(rubbish.data(), kPage);
        }
    }

    tests::DemoCopy demo;
    MainWindow window;
};

TEST_F(ProjectFilesTest, OfADamagedProjectIsSavedWhatCanBeRead) {
    damage();
    ASSERT_FALSE(window.openProject(demo.project()));
    auto* rescue = window.findChild<QPushButton*>(QStringLiteral("damaged_rescue"));
    auto* backups = window.findChild<QPushButton*>(QStringLiteral("damaged_backups"));
    ASSERT_NE(rescue, nullptr);
    ASSERT_NE(backups, nullptr);
    QTest::mouseClick(backups, Qt::LeftButton);
    auto* copies = window.findChild<BackupsWindow*>();
    ASSERT_NE(copies, nullptr);
    copies->close();
    QTest::mouseClick(rescue, Qt::LeftButton);
    auto* question = QApplication::activeModalWidget();
    ASSERT_NE(question, nullptr);
    EXPECT_EQ(question->windowTitle(), QStringLiteral("Save what can be read"));
    question->close();
    const fs::path saved = demo.folder() / "saved.turnmark";
    files().rescue(demo.project(), saved);
    const QString said = message();
    EXPECT_TRUE(said.contains(QStringLiteral("stays as it is"))) << said.toStdString();
    EXPECT_TRUE(said.contains(QStringLiteral("Lost, with the steps to undo:")))
        << said.toStdString();
    ASSERT_NE(window.store(), nullptr);
    EXPECT_EQ(window.store()->file(), saved);
    EXPECT_FALSE(window.store()->snapshot()->shots.isEmpty());
}

TEST_F(ProjectFilesTest, AProjectIsPackedAndUnpackedElsewhere) {
    EXPECT_FALSE(action("project.pack").isEnabled());
    ASSERT_TRUE(window.openProject(demo.project()));
    action("project.pack").trigger();
    ASSERT_NE(QApplication::activeModalWidget(), nullptr);
    EXPECT_EQ(QApplication::activeModalWidget()->windowTitle(), QStringLiteral("Pack the project"));
    QApplication::activeModalWidget()->close();
    const fs::path packed = demo.folder() / "day.tar";
    files().pack(demo.project(), packed, core::pack::Footage::None);
    EXPECT_TRUE(message().contains(QString::fromStdString(packed.string())));
    const auto shots = window.store()->snapshot()->shots.size();
    files().unpack(packed, demo.folder() / "elsewhere");
    ASSERT_TRUE(QTest::qWaitFor(
        [&] {
            return window.store() != nullptr &&
                   window.store()->file().parent_path() == demo.folder() / "elsewhere";
        },
        kLongMilliseconds));
    EXPECT_EQ(window.store()->snapshot()->shots.size(), shots);
    files().unpack(packed, demo.folder() / "elsewhere");
    EXPECT_TRUE(message().contains(QStringLiteral("Nothing was unpacked")));
}

TEST_F(ProjectFilesTest, HelpSaysWhatProgramThisIs) {
    for (QAction* each : window.findChildren<QAction*>()) {
        if (each->text() == QStringLiteral("&About")) {
            each->trigger();
        }
    }
    const QString text = message();
    for (const char* part : {"Turnmark ", "commit ", "FFmpeg ", "OpenCV ", "SQLite ", "Qt "}) {
        EXPECT_TRUE(text.contains(QLatin1String{part})) << part;
    }
}

}  // namespace
}  // namespace ui::shell
