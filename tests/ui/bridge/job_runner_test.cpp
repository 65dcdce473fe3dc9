#include "ui/bridge/job_runner.h"

#include <gtest/gtest.h>

#include <QCoreApplication>
#include <QTest>
#include <QThread>
#include <atomic>
#include <stdexcept>

namespace ui::bridge {
namespace {

constexpr int kWaitMilliseconds = 10000;

using core::Result;

/// Works until it is told to stop.
Result<int> workUntilStopped(JobContext& context) {
    while (!context.stopToken().stop_requested()) {
        QThread::msleep(1);
    }
    return core::fail(core::ErrorCode::Cancelled, "Stopped.");
}

TEST(JobRunner, BringsTheResultHomeToTheThreadOfTheWindow) {
    JobRunner runner{2};
    QObject receiver;
    std::atomic<QThread*> workThread{nullptr};
    QThread* homeThread = nullptr;
    int answer = 0;
    runner.start<int>(
        QStringLiteral("sum"),
        [&](JobContext&) -> Result<int> {
            workThread = QThread::currentThread();
            return 42;
        },
        &receiver,
        [&](Result<int> result) {
            homeThread = QThread::currentThread();
            answer = result.value();
        });
    EXPECT_EQ(runner.jobs().size(), 1);
    ASSERT_TRUE(QTest::qWaitFor([&] { return answer != 0; }, kWaitMilliseconds));
    EXPECT_EQ(answer, 42);
    EXPECT_EQ(homeThread, QThread::currentThread());
    EXPECT_NE(workThread.load(), QThread::currentThread());
    EXPECT_TRUE(runner.jobs().isEmpty());
}

TEST(JobRunner, ACancelledJobComesHomeAsCancelled) {
    JobRunner runner{1};
    QObject receiver;
    std::optional<core::ErrorCode> running;
    std::optional<core::ErrorCode> waiting;
    const auto first = runner.start<int>(QStringLiteral("long"), workUntilStopped, &receiver,
                                         [&](Result<int> r) { running = r.error().code; });
    const auto second = runner.start<int>(
        QStringLiteral("behind"), [](JobContext&) -> Result<int> { return 1; }, &receiver,
        [&](Result<int> r) { waiting = r.error().code; });
    runner.cancel(second);
    runner.cancel(first);
    ASSERT_TRUE(QTest::qWaitFor([&] { return running && waiting; }, kWaitMilliseconds));
    EXPECT_EQ(*running, core::ErrorCode::Cancelled);
    EXPECT_EQ(*waiting, core::ErrorCode::Cancelled);
}

TEST(JobRunner, AJobThatThrowsComesHomeAsAnError) {
    JobRunner runner{1};
    QObject receiver;
    std::optional<core::Error> thrown;
    runner.start<int>(
        QStringLiteral("thrower"),
        [](JobContext&) -> Result<int> { throw std::runtime_error{"sizes differ"}; }, &receiver,
        [&](Result<int> r) { thrown = r.error(); });
    ASSERT_TRUE(QTest::qWaitFor([&] { return thrown.has_value(); }, kWaitMilliseconds));
    EXPECT_EQ(thrown->code, core::ErrorCode::Unexpected);
    EXPECT_NE(thrown->message.find("sizes differ"), std::string::npos);
}

TEST(JobRunner, ShowsProgress) {
    JobRunner runner{1};
    QObject receiver;
    runner.start<int>(
        QStringLiteral("clips"),
        [](JobContext& context) {
            context.report(0.25, QStringLiteral("clip 1 of 4"));
            return workUntilStopped(context);
        },
        &receiver, [](const Result<int>&) {});
    ASSERT_TRUE(
        QTest::qWaitFor([&] { return runner.jobs().at(0).fraction > 0.0; }, kWaitMilliseconds));
    EXPECT_EQ(runner.jobs().at(0).fraction, 0.25);
    EXPECT_EQ(runner.jobs().at(0).step, QStringLiteral("clip 1 of 4"));
    EXPECT_TRUE(runner.jobs().at(0).isRunning);
    runner.cancelAll();
    EXPECT_TRUE(QTest::qWaitFor([&] { return runner.jobs().isEmpty(); }, kWaitMilliseconds));
}

TEST(JobRunner, DropsTheResultOfAReceiverThatIsGone) {
    JobRunner runner{1};
    bool cameHome = false;
    {
        QObject receiver;
        runner.start<int>(
            QStringLiteral("orphan"), [](JobContext&) -> Result<int> { return 1; }, &receiver,
            [&](const Result<int>&) { cameHome = true; });
    }
    ASSERT_TRUE(QTest::qWaitFor([&] { return runner.jobs().isEmpty(); }, kWaitMilliseconds));
    EXPECT_FALSE(cameHome);
}

TEST(JobRunner, CancelsAndJoinsWhenItEnds) {
    QObject receiver;
    bool cameHome = false;
    std::atomic<bool> hasBegun{false};
    {
        JobRunner runner{1};
        runner.start<int>(
            QStringLiteral("long"),
            [&](JobContext& context) {
                hasBegun = true;
                return workUntilStopped(context);
            },
            &receiver, [&](const Result<int>&) { cameHome = true; });
        ASSERT_TRUE(QTest::qWaitFor([&] { return hasBegun.load(); }, kWaitMilliseconds));
    }
    QCoreApplication::processEvents();
    EXPECT_FALSE(cameHome);
}

}  // namespace
}  // namespace ui::bridge
