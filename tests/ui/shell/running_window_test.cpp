#include "ui/shell/running_window.h"

#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QLocalSocket>
#include <QSignalSpy>
#include <QTest>
#include <future>

#include "tests/support/process.h"

namespace ui::shell {
namespace {

/// Sockets of a person's own, so that no window of the machine is met.
class RunningWindowTest : public ::testing::Test {
protected:
    void SetUp() override {
        ASSERT_TRUE(QFile::setPermissions(
            QString::fromStdString(m_folder.path().string()),
            QFileDevice::ReadOwner | QFileDevice::WriteOwner | QFileDevice::ExeOwner));
        m_before = qgetenv("XDG_RUNTIME_DIR");
        qputenv("XDG_RUNTIME_DIR", QByteArray::fromStdString(m_folder.path().string()));
    }
    void TearDown() override { qputenv("XDG_RUNTIME_DIR", m_before); }

    /// A second start, on a thread of its own as another process would be.
    static bool isTaken(const QString& file) {
        auto start = std::async(std::launch::async, [file] {
            return RunningWindow{QStringLiteral(":7")}.hasTaken(file);
        });
        while (start.wait_for(std::chrono::milliseconds{5}) != std::future_status::ready) {
            QCoreApplication::processEvents();
        }
        return start.get();
    }

    tests::TemporaryFolder m_folder;

private:
    QByteArray m_before;
};

TEST_F(RunningWindowTest, TheFirstStartMeetsNobody) {
    EXPECT_FALSE(isTaken(QStringLiteral("p.turnmark")));
}

TEST_F(RunningWindowTest, ASecondStartHandsItsProjectOver) {
    RunningWindow running{QStringLiteral(":7")};
    ASSERT_TRUE(running.listen());
    const QSignalSpy asked{&running, &RunningWindow::asked};
    EXPECT_TRUE(isTaken(QStringLiteral("Schläger Nr. 3.turnmark")));
    EXPECT_TRUE(isTaken({}));
    ASSERT_EQ(asked.count(), 2);
    EXPECT_EQ(asked[0][0].toString(),
              QDir::current().absoluteFilePath(QStringLiteral("Schläger Nr. 3.turnmark")));
    EXPECT_TRUE(asked[1][0].toString().isEmpty());
}

TEST_F(RunningWindowTest, AnotherDisplayHasAWindowOfItsOwn) {
    RunningWindow running{QStringLiteral(":8")};
    ASSERT_TRUE(running.listen());
    EXPECT_FALSE(isTaken(QStringLiteral("p.turnmark")));
}

TEST_F(RunningWindowTest, TheSocketOfAKilledWindowIsTakenOver) {
    {
        RunningWindow first{QStringLiteral(":7")};
        ASSERT_TRUE(first.listen());
        // What a kill leaves: the file of the socket, with nobody behind it.
        const auto entries = QDir{QString::fromStdString(m_folder.path().string())}.entryInfoList(
            QDir::System | QDir::Files);
        ASSERT_EQ(entries.size(), 1);
        QFile::rename(entries[0].filePath(), entries[0].filePath() + QLatin1String(".kept"));
    }
    const auto kept = QDir{QString::fromStdString(m_folder.path().string())}.entryInfoList(
        QDir::System | QDir::Files);
    ASSERT_EQ(kept.size(), 1);
    QFile::rename(kept[0].filePath(), kept[0].filePath().chopped(5));
    EXPECT_FALSE(isTaken({}));
    RunningWindow second{QStringLiteral(":7")};
    EXPECT_TRUE(second.listen());
    EXPECT_TRUE(isTaken({}));
}

TEST_F(RunningWindowTest, WhatIsNoPathIsNotTaken) {
    RunningWindow running{QStringLiteral(":7")};
    ASSERT_TRUE(running.listen());
    const QSignalSpy asked{&running, &RunningWindow::asked};
    const auto entries = QDir{QString::fromStdString(m_folder.path().string())}.entryInfoList(
        QDir::System | QDir::Files);
    ASSERT_EQ(entries.size(), 1);
    QLocalSocket stranger;
    stranger.connectToServer(entries[0].filePath());
    ASSERT_TRUE(stranger.waitForConnected(1000));
    stranger.write(QByteArray(100000, 'x'));
    stranger.flush();
    ASSERT_TRUE(QTest::qWaitFor(
        [&stranger] { return stranger.state() == QLocalSocket::UnconnectedState; }));
    EXPECT_EQ(asked.count(), 0);
}

}  // namespace
}  // namespace ui::shell
