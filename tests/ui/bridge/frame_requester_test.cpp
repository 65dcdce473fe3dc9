#include "ui/bridge/frame_requester.h"

#include <gtest/gtest.h>

#include <QSignalSpy>
#include <QTest>
#include <QThread>
#include <thread>

#include "tests/ui/bridge/drawn_frame.h"

namespace ui::bridge {
namespace {

using core::Result;
using core::media::FramePtr;
using core::timebase::FrameIndex;

constexpr int kDecodeMilliseconds = 10000;
constexpr int kQuietMilliseconds = 100;  // long enough for a reply that must not come

/// A service that answers when the test says so, on a thread of its own.
class ScriptedService : public core::media::FrameService {
public:
    struct Request {
        FrameIndex frame;
        Callback callback;
    };

    ClipId openClip(const std::filesystem::path&, core::media::ClipIndex) override {
        return ++openings;
    }
    void closeClip(ClipId) override { ++closings; }
    FramePtr ready(ClipId, FrameIndex) override { return nullptr; }
    FramePtr nearestReady(ClipId, FrameIndex) override { return nullptr; }
    void request(ClipId, FrameIndex frame, Direction, Callback callback) override {
        requests.push_back({frame, std::move(callback)});
    }
    void prepare(ClipId, FrameIndex first, FrameIndex last, Callback onEach) override {
        for (FrameIndex frame = first; onEach && frame <= last; ++frame.value) {
            prepared.push_back({frame, onEach});
        }
    }
    void forgetPrepared() override { prepared.clear(); }
    Result<FramePtr> fetch(ClipId, FrameIndex, std::stop_token) override {
        return core::fail(core::ErrorCode::Unsupported, "Not in this test.");
    }
    [[nodiscard]] Counters counters() const override { return {}; }

    static void answer(const Request& request) {
        std::jthread{[&] {
            request.callback(request.frame,
                             FramePtr{std::make_shared<tests::DrawnFrame>(
                                 32, 24, [](int, int) { return 77; }, request.frame.value)});
        }};
    }
    static void refuse(const Request& request, core::ErrorCode code) {
        std::jthread{[&] {
            request.callback(request.frame, core::fail(code, "Frame 3 of ball.mp4 is damaged."));
        }};
    }

    std::vector<Request> requests;
    std::vector<Request> prepared;
    ClipId openings{0};
    int closings{0};
};

class FrameRequesterTest : public ::testing::Test {
protected:
    ScriptedService service;
    FrameRequester requester{service};
    FrameRequester::Clip clip = requester.openClip("ball.mp4", {});
    QSignalSpy pictures{&requester, &FrameRequester::pictureReady};
    QSignalSpy failures{&requester, &FrameRequester::pictureFailed};
    QSignalSpy cutOuts{&requester, &FrameRequester::cutOutReady};

    quint64 request(std::int64_t frame) {
        return requester.requestPicture(clip, {frame}, FrameRequester::Direction::Forward, {});
    }
};

TEST_F(FrameRequesterTest, BringsThePictureHome) {
    const quint64 number = request(3);
    ScriptedService::answer(service.requests.at(0));
    EXPECT_TRUE(pictures.isEmpty());  // never within the call, always by the event loop
    ASSERT_TRUE(pictures.wait(kDecodeMilliseconds));
    EXPECT_EQ(pictures.at(0).at(0).toULongLong(), number);
    EXPECT_EQ(pictures.at(0).at(1).toLongLong(), 3);
    EXPECT_EQ(pictures.at(0).at(2).value<QImage>().size(), QSize(32, 24));
}

TEST_F(FrameRequesterTest, DropsTheReplyToAnOlderRequest) {
    request(3);
    ScriptedService::answer(service.requests.at(0));  // on its way already
    const quint64 newer = request(4);
    ScriptedService::answer(service.requests.at(1));
    ASSERT_TRUE(pictures.wait(kDecodeMilliseconds));
    QTest::qWait(kQuietMilliseconds);
    ASSERT_EQ(pictures.size(), 1);
    EXPECT_EQ(pictures.at(0).at(0).toULongLong(), newer);
}

TEST_F(FrameRequesterTest, SaysWhyAPictureCannotBeShown) {
    request(3);
    ScriptedService::refuse(service.requests.at(0), core::ErrorCode::Damaged);
    ASSERT_TRUE(failures.wait(kDecodeMilliseconds));
    EXPECT_EQ(failures.at(0).at(2).toString(), QStringLiteral("Frame 3 of ball.mp4 is damaged."));
}

TEST_F(FrameRequesterTest, ACancelIsNoFailure) {
    request(3);
    ScriptedService::refuse(service.requests.at(0), core::ErrorCode::Cancelled);
    QTest::qWait(kQuietMilliseconds);
    EXPECT_TRUE(failures.isEmpty());
}

TEST_F(FrameRequesterTest, CutsOutEveryFrameThatWasAskedFor) {
    requester.requestCutOuts(clip, {{{2}, {10.0, 10.0}, 5.0, 12}, {{4}, {12.0, 10.0}, 5.0, 12}});
    ASSERT_EQ(service.prepared.size(), 3U);  // the stretch 2 … 4
    for (const auto& request : service.prepared) {
        ScriptedService::answer(request);
    }
    ASSERT_TRUE(QTest::qWaitFor([&] { return cutOuts.size() == 2; }, kDecodeMilliseconds));
    EXPECT_EQ(cutOuts.at(0).at(1).toLongLong(), 2);
    EXPECT_EQ(cutOuts.at(1).at(1).toLongLong(), 4);
    EXPECT_EQ(cutOuts.at(0).at(2).value<QImage>().size(), QSize(12, 12));
}

TEST_F(FrameRequesterTest, ANewSetOfCutOutsReplacesTheOld) {
    requester.requestCutOuts(clip, {{{2}, {10.0, 10.0}, 5.0, 12}});
    const auto old = service.prepared.at(0);
    const quint64 newer = requester.requestCutOuts(clip, {{{2}, {11.0, 10.0}, 5.0, 16}});
    ScriptedService::answer(old);
    ScriptedService::answer(service.prepared.at(0));
    ASSERT_TRUE(cutOuts.wait(kDecodeMilliseconds));
    QTest::qWait(kQuietMilliseconds);
    ASSERT_EQ(cutOuts.size(), 1);
    EXPECT_EQ(cutOuts.at(0).at(0).toULongLong(), newer);
}

TEST_F(FrameRequesterTest, OpensAFileOnce) {
    EXPECT_EQ(requester.openClip("ball.mp4", {}), clip);
    EXPECT_NE(requester.openClip("other.mp4", {}), clip);
    requester.closeClips();
    EXPECT_EQ(service.closings, 2);
}

TEST(FrameRequester, AReplyAfterItsEndVanishes) {
    ScriptedService service;
    {
        FrameRequester requester{service};
        const auto clip = requester.openClip("ball.mp4", {});
        requester.requestPicture(clip, {1}, FrameRequester::Direction::Forward, {});
    }
    ScriptedService::answer(service.requests.at(0));
    QCoreApplication::processEvents();
    EXPECT_EQ(service.closings, 1);
}

}  // namespace
}  // namespace ui::bridge
