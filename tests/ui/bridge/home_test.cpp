#include "ui/bridge/home.h"

#include <gtest/gtest.h>

#include <QCoreApplication>
#include <QTest>
#include <QThread>
#include <thread>

namespace ui::bridge {
namespace {

constexpr int kWaitForCallsMs = 10000;
constexpr std::size_t kCalls = 1000;

TEST(Home, MakesTheCallsOfAnotherThreadInItsOwnInTheirOrder) {
    QObject receiver;
    const Home home{receiver};
    std::vector<std::size_t> made;
    QThread* where = nullptr;
    std::jthread{[&] {
        for (std::size_t k = 0; k < kCalls; ++k) {
            home.post([&, k] {
                made.push_back(k);
                where = QThread::currentThread();
            });
        }
    }}.join();
    EXPECT_TRUE(made.empty()) << "nothing before the event loop turns";
    ASSERT_TRUE(QTest::qWaitFor([&] { return made.size() == kCalls; }, kWaitForCallsMs));
    EXPECT_EQ(where, QThread::currentThread());
    EXPECT_TRUE(std::is_sorted(made.begin(), made.end()));
}

TEST(Home, DropsWhatComesWhenItIsClosedAndWhatWaitsWhenTheReceiverGoes) {
    auto receiver = std::make_unique<QObject>();
    const Home home{*receiver};
    int made = 0;
    const auto held = std::make_shared<int>(0);
    home.post([&made, held] { ++made; });
    home.close();
    home.post([&made, held] { ++made; });
    receiver.reset();
    EXPECT_EQ(held.use_count(), 1);
    QCoreApplication::processEvents();
    EXPECT_EQ(made, 0);
}

TEST(Home, ACallMayTakeTheReceiverAway) {
    auto receiver = std::make_unique<QObject>();
    const Home home{*receiver};
    int made = 0;
    home.post([&] {
        home.close();
        receiver.reset();
        ++made;
    });
    home.post([&] { ++made; });
    QCoreApplication::processEvents();
    EXPECT_EQ(made, 1);
}

}  // namespace
}  // namespace ui::bridge
