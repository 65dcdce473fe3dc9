#include "core/media/frames/frame_service.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <cstdlib>
#include <functional>
#include <mutex>
#include <random>
#include <thread>

#include "core/media/film/film_writer.h"
#include "core/media/frames/frame_decoder.h"
#include "tests/core/media/clip_recipes.h"
#include "tests/core/media/ffmpeg_programs.h"
#include "tests/support/process.h"

namespace {

using namespace core;
using core::media::FramePtr;
using core::media::FrameService;
using core::timebase::FrameIndex;
using Direction = FrameService::Direction;

constexpr int kCodeWidth = 128;
constexpr int kCodeHeight = 64;
constexpr int kBits = 10;

/// A picture that carries its clip's and its own number as black and white blocks, as pictures of
/// the footage maker do; readable after any lossy coding.
PixelBuffer codedPicture(int clip, int frame) {
    PixelBuffer pixels{kCodeWidth, kCodeHeight, PixelFormat::Rgb8};
    for (int y = 0; y < kCodeHeight; ++y) {
        const int code = y < kCodeHeight / 2 ? frame : clip;
        for (int x = 0; x < kCodeWidth; ++x) {
            const int bit = std::min(x / 12, kBits - 1);
            const auto level = static_cast<std::uint8_t>(((code >> bit) & 1) != 0 ? 230 : 25);
            std::fill_n(pixels.row(y) + std::ptrdiff_t{3} * x, 3, level);
        }
    }
    return pixels;
}

std::pair<int, int> readCode(const media::Frame& frame) {
    const PixelBuffer pixels = frame.rgb();
    std::pair<int, int> code;
    for (int bit = 0; bit < kBits; ++bit) {
        const int x = 12 * bit + 6;
        code.first |= pixels.row(3 * kCodeHeight / 4)[3 * x] > 128 ? 1 << bit : 0;
        code.second |= pixels.row(kCodeHeight / 4)[3 * x] > 128 ? 1 << bit : 0;
    }
    return code;
}

struct CodedClip {
    std::filesystem::path file;
    media::ClipIndex index;
};

CodedClip codedClip(int number, int frames = 120) {
    static const std::vector<std::tuple<std::string, std::string, int>> kForms{
        {"libx264", "mp4", 0}, {"libx264", "mp4", 3},   {"libx265", "mp4", 2},
        {"mpeg4", "mp4", 2},   {"libx264", "mkv", 2},   {"libvpx-vp9", "webm", 0},
        {"mjpeg", "mov", 0},   {"prores_ks", "mov", 0}, {"mpeg4", "avi", 0},
        {"ffv1", "mkv", 0}};
    const auto& [encoder, ending, bFrames] = kForms[static_cast<std::size_t>(number) % 10];
    const auto file = tests::clipFolder() / ("coded" + std::to_string(number) + "_" +
                                             std::to_string(frames) + "." + ending);
    if (!std::filesystem::exists(file)) {
        media::FilmWriter::Options options;
        options.encoder = encoder;
        options.width = kCodeWidth;
        options.height = kCodeHeight;
        options.bFrames = bFrames;
        options.keyFrameInterval = 30;
        options.constantQuality = 30;
        if (encoder == "libvpx-vp9") {
            options.encoderOptions = {{"deadline", "realtime"}, {"cpu-used", "8"}};
        } else if (encoder == "libx265") {
            options.encoderOptions = {{"preset", "ultrafast"}, {"x265-params", "log-level=none"}};
        }
        auto writer = media::FilmWriter::create(file, options).value();
        for (int i = 0; i < frames; ++i) {
            const auto added = writer->add(codedPicture(number, i).view(), 3000 * i, 3000);
            EXPECT_TRUE(added.has_value());
        }
        EXPECT_TRUE(writer->finish().has_value());
    }
    return {file, media::readClipIndex(file).value()};
}

/// Waits for something that happens on another thread; fails the test after ten seconds.
template <class Condition>
bool waitUntil(Condition condition) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds{10};
    while (!condition()) {
        if (std::chrono::steady_clock::now() > end) {
            return false;
        }
        std::this_thread::sleep_for(std::chrono::microseconds{200});
    }
    return true;
}

/// Collects replies of callbacks.
class Replies {
public:
    FrameService::Callback callback() {
        return [this](FrameIndex frame, Result<FramePtr> result) {
            const std::scoped_lock lock{m_mutex};
            m_replies.emplace_back(frame.value, std::move(result));
        };
    }
    std::vector<std::pair<std::int64_t, Result<FramePtr>>> all() const {
        const std::scoped_lock lock{m_mutex};
        return m_replies;
    }
    bool wait(std::size_t count) const {
        return waitUntil([&] { return all().size() >= count; });
    }

private:
    mutable std::mutex m_mutex;
    std::vector<std::pair<std::int64_t, Result<FramePtr>>> m_replies;
};

TEST(FrameService, GivesTheFrameThatWasAskedFor) {
    const CodedClip clip = codedClip(1);
    Replies replies;
    const auto service = FrameService::create({});
    const auto id = service->openClip(clip.file, clip.index);
    EXPECT_EQ(service->ready(id, {77}), nullptr);
    EXPECT_EQ(service->nearestReady(id, {77}), nullptr);
    service->request(id, {77}, Direction::Forward, replies.callback());
    ASSERT_TRUE(replies.wait(1));
    ASSERT_TRUE(replies.all()[0].second.has_value());
    EXPECT_EQ(readCode(*replies.all()[0].second.value()), (std::pair{1, 77}));
    EXPECT_NE(service->ready(id, {77}), nullptr);
    EXPECT_EQ(service->nearestReady(id, {77})->index().value, 77);
}

TEST(FrameService, PreparesTheSurroundingsOfThePlace) {
    const CodedClip clip = codedClip(1);
    Replies replies;
    const auto service = FrameService::create({});
    const auto id = service->openClip(clip.file, clip.index);
    service->request(id, {60}, Direction::Backward, replies.callback());
    for (const std::int64_t frame : {0, 29, 30, 59, 61, 119}) {
        EXPECT_TRUE(waitUntil([&] { return service->ready(id, {frame}) != nullptr; })) << frame;
    }
    const auto misses = service->counters().misses;
    for (std::int64_t frame = 59; frame >= 0; --frame) {
        service->request(id, {frame}, Direction::Backward, replies.callback());
    }
    EXPECT_EQ(service->counters().misses, misses);
    EXPECT_EQ(replies.all().size(), 61U);  // each at once, on this thread
}

TEST(FrameService, KeepsToItsByteBudget) {
    const CodedClip clip = codedClip(9);  // FFV1 in RGB: the largest pictures
    const auto service = FrameService::create({.maxBytes = 400'000, .threadsPerDecoder = 1});
    const auto id = service->openClip(clip.file, clip.index);
    Replies replies;
    for (std::int64_t frame = 0; frame < 120; frame += 7) {
        service->request(id, {frame}, Direction::Forward, [](FrameIndex, Result<FramePtr>) {});
        const auto fetched = service->fetch(id, {119 - frame});
        ASSERT_TRUE(fetched.has_value());
        EXPECT_EQ(readCode(*fetched.value()).second, 119 - frame);
        EXPECT_LE(service->counters().bytesHeld, 400'000U);
    }
    // With nothing left to prepare the worker rests: a full cache must not be refilled for ever.
    std::uint64_t before = 0;
    EXPECT_TRUE(waitUntil([&] {
        const auto decoded = service->counters().decoded;
        std::this_thread::sleep_for(std::chrono::milliseconds{100});
        return decoded == std::exchange(before, service->counters().decoded);
    }));
}

TEST(FrameService, KeepsNoMorePicturesThanItMay) {
    const CodedClip clip = codedClip(0);
    const auto service = FrameService::create({.threadsPerDecoder = 1, .maxPictures = 10});
    const auto id = service->openClip(clip.file, clip.index);
    for (std::int64_t frame = 0; frame < 120; frame += 7) {
        const auto fetched = service->fetch(id, {frame});
        ASSERT_TRUE(fetched.has_value());
        EXPECT_LE(service->counters().bytesHeld, 10U * fetched.value()->bytesHeld());
    }
}

TEST(FrameService, GivesWayToOthersInTheMemoryBudget) {
    constexpr std::size_t kLimit = 400'000;
    constexpr std::size_t kLeast = 50'000;
    jobs::MemoryBudget budget{kLimit};
    jobs::MemoryBudget::Holding others{budget, jobs::MemoryUse::Readings};
    const CodedClip clip = codedClip(9);
    const auto service =
        FrameService::create({.threadsPerDecoder = 1, .leastBytes = kLeast, .budget = &budget});
    const auto id = service->openClip(clip.file, clip.index);
    const auto ask = [&](std::int64_t frame) {
        service->request(id, {frame}, Direction::Forward, [](FrameIndex, Result<FramePtr>) {});
    };
    const auto held = [&] { return service->counters().bytesHeld; };
    ask(60);
    ASSERT_TRUE(waitUntil([&] { return held() > kLimit / 2; }));
    others.set(kLimit / 2);
    ask(61);
    EXPECT_TRUE(waitUntil([&] { return held() <= kLimit / 2; }));
    others.set(kLimit);
    ask(62);
    EXPECT_TRUE(waitUntil([&] { return held() <= kLeast; }));
    EXPECT_EQ(budget.counters().heldBytes[0], held());
    others.set(0);
    ask(63);
    EXPECT_TRUE(waitUntil([&] { return held() > kLimit / 2; }));
}

TEST(FrameService, LetsGoOfMostWhenNobodyAsks) {
    constexpr std::size_t kAtRest = 60'000;
    const CodedClip clip = codedClip(9);
    const auto service = FrameService::create({.maxBytes = 400'000,
                                               .threadsPerDecoder = 1,
                                               .untilRest = std::chrono::milliseconds{100},
                                               .restBytes = kAtRest});
    const auto id = service->openClip(clip.file, clip.index);
    service->request(id, {60}, Direction::Forward, [](FrameIndex, Result<FramePtr>) {});
    ASSERT_TRUE(waitUntil([&] { return service->counters().bytesHeld > kAtRest; }));
    ASSERT_TRUE(waitUntil([&] { return service->counters().bytesHeld <= kAtRest; }));
    EXPECT_NE(service->ready(id, {60}), nullptr);
    const auto far = service->fetch(id, {110});  // its decoder is opened again
    ASSERT_TRUE(far.has_value());
    EXPECT_EQ(readCode(*far.value()).second, 110);
    EXPECT_TRUE(waitUntil([&] { return service->counters().bytesHeld > kAtRest; }));
}

TEST(FrameService, GivesFramesLargerThanTheBudgetWithoutKeepingThem) {
    const CodedClip clip = codedClip(0);
    const auto service = FrameService::create({.maxBytes = 100, .threadsPerDecoder = 1});
    const auto id = service->openClip(clip.file, clip.index);
    EXPECT_EQ(readCode(*service->fetch(id, {40}).value()).second, 40);
    EXPECT_EQ(service->counters().bytesHeld, 0U);
}

TEST(FrameService, GoesOnFromFrameToFrameWithoutStartingAgain) {
    const CodedClip clip = codedClip(1);
    const auto service = FrameService::create({.maxBytes = 100, .threadsPerDecoder = 1});
    const auto id = service->openClip(clip.file, clip.index);
    for (std::int64_t frame = 0; frame < 120; ++frame) {
        EXPECT_EQ(readCode(*service->fetch(id, {frame}).value()).second, frame);
    }
    EXPECT_EQ(service->counters().decoded, 120U);
}

TEST(FrameService, ANewerRequestReplacesTheOlderOne) {
    const CodedClip clip = codedClip(1, 400);
    Replies replies;
    const auto service = FrameService::create({});
    const auto id = service->openClip(clip.file, clip.index);
    for (const std::int64_t frame : {399, 200, 350, 20, 310}) {
        service->request(id, {frame}, Direction::Forward, replies.callback());
    }
    ASSERT_TRUE(replies.wait(5));
    int given = 0;
    for (const auto& [frame, result] : replies.all()) {
        if (result.has_value()) {
            ++given;
            EXPECT_EQ(readCode(*result.value()).second, frame);
        } else {
            EXPECT_EQ(result.error().code, ErrorCode::Cancelled);
        }
    }
    EXPECT_GE(given, 1);
    EXPECT_TRUE(replies.all().back().second.has_value());
    EXPECT_EQ(replies.all().back().first, 310);
}

TEST(FrameService, PreparesStretchesOfOtherClips) {
    const CodedClip first = codedClip(0);
    const CodedClip second = codedClip(2);
    Replies replies;
    const auto service = FrameService::create({});
    const auto one = service->openClip(first.file, first.index);
    const auto two = service->openClip(second.file, second.index);
    service->request(one, {5}, Direction::Forward, replies.callback());
    Replies each;
    service->prepare(two, {40}, {49}, each.callback());
    service->prepare(two, {70}, {1000});  // beyond the end: cut
    ASSERT_TRUE(each.wait(10));
    for (std::size_t i = 0; i < 10; ++i) {
        EXPECT_EQ(each.all()[i].first, static_cast<std::int64_t>(40 + i));
        EXPECT_EQ(readCode(*each.all()[i].second.value()),
                  (std::pair{2, static_cast<int>(40 + i)}));
    }
    EXPECT_TRUE(waitUntil([&] { return service->ready(two, {119}) != nullptr; }));
    EXPECT_EQ(service->ready(two, {60}), nullptr);
    service->forgetPrepared();
}

TEST(FrameService, ErrorsComeAsAnswers) {
    const CodedClip clip = codedClip(0);
    Replies replies;
    const auto service = FrameService::create({});
    const auto id = service->openClip(clip.file, clip.index);
    service->request(id, {120}, Direction::Forward, replies.callback());
    service->request(id, {-1}, Direction::Forward, replies.callback());
    service->request(id + 1, {0}, Direction::Forward, replies.callback());
    EXPECT_EQ(replies.all().at(0).second.error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(replies.all().at(1).second.error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(replies.all().at(2).second.error().code, ErrorCode::NotFound);
    const auto gone = service->openClip(tests::clipFolder() / "gone.mp4", clip.index);
    EXPECT_EQ(service->fetch(gone, {3}).error().code, ErrorCode::NotFound);
    service->request(gone, {3}, Direction::Forward, replies.callback());
    ASSERT_TRUE(replies.wait(4));
    EXPECT_EQ(replies.all().at(3).second.error().code, ErrorCode::NotFound);
}

TEST(FrameService, FetchCanBeStopped) {
    const CodedClip clip = codedClip(1, 400);
    const auto service = FrameService::create({});
    const auto id = service->openClip(clip.file, clip.index);
    std::stop_source stop;
    stop.request_stop();
    const auto fetched = service->fetch(id, {399}, stop.get_token());
    if (fetched.has_error()) {
        EXPECT_EQ(fetched.error().code, ErrorCode::Cancelled);
    }
    EXPECT_EQ(readCode(*service->fetch(id, {12}).value()).second, 12);
}

TEST(FrameService, ClosingAClipEndsItsWork) {
    const CodedClip clip = codedClip(1, 400);
    Replies replies;
    const auto service = FrameService::create({});
    const auto id = service->openClip(clip.file, clip.index);
    service->request(id, {399}, Direction::Forward, replies.callback());
    service->closeClip(id);
    ASSERT_TRUE(replies.wait(1));
    EXPECT_TRUE(waitUntil([&] { return service->counters().bytesHeld == 0; }));
    EXPECT_EQ(service->ready(id, {399}), nullptr);
}

TEST(FrameService, NoCallbackRunsAfterItsEnd) {
    const CodedClip clip = codedClip(1, 400);
    for (int round = 0; round < 10; ++round) {
        auto alive = std::make_unique<std::atomic<bool>>(true);
        auto service = FrameService::create({});
        const auto id = service->openClip(clip.file, clip.index);
        service->request(id, {37 * round}, Direction::Backward,
                         [&alive](FrameIndex, const Result<FramePtr>&) { EXPECT_TRUE(*alive); });
        service->prepare(id, {0}, {399},
                         [&alive](FrameIndex, const Result<FramePtr>&) { EXPECT_TRUE(*alive); });
        std::this_thread::sleep_for(std::chrono::milliseconds{round});
        service.reset();
        alive.reset();  // a late callback would now fault
    }
}

/// A clip of the form of clip 0 under a name of its own, and another that differs in content only.
class ServedFile : public testing::Test {
protected:
    void SetUp() override {
        std::filesystem::copy_file(m_own.file, m_file,
                                   std::filesystem::copy_options::overwrite_existing);
        ASSERT_EQ(m_own.index.stamps.ticks, m_other.index.stamps.ticks);
    }
    Result<FramePtr> fetch(std::int64_t frame) { return m_service->fetch(m_clip, {frame}); }
    void expectOwn(std::int64_t frame) {
        const auto fetched = fetch(frame);
        ASSERT_TRUE(fetched.has_value()) << fetched.error().message;
        EXPECT_EQ(readCode(*fetched.value()), (std::pair{0, static_cast<int>(frame)}));
    }
    void expectError(std::int64_t frame, ErrorCode code) {
        const auto fetched = fetch(frame);
        ASSERT_TRUE(fetched.has_error());
        EXPECT_EQ(fetched.error().code, code);
        EXPECT_EQ(fetched.error().message.find(m_file.string()), 0U) << fetched.error().message;
    }
    /// As most programs save: a new file takes the name.
    void moveInto(const CodedClip& clip) {
        const auto copy = tests::clipFolder() / "copy.mp4";
        std::filesystem::copy_file(clip.file, copy);
        std::filesystem::rename(copy, m_file);
    }

    const CodedClip m_own = codedClip(0);
    const CodedClip m_other = codedClip(10);
    const std::filesystem::path m_file = tests::clipFolder() / "served.mp4";
    // Too small to keep a picture: every frame is decoded when it is asked for.
    std::unique_ptr<FrameService> m_service =
        FrameService::create({.maxBytes = 100, .threadsPerDecoder = 1});
    FrameService::ClipId m_clip = m_service->openClip(m_file, m_own.index);
};

TEST_F(ServedFile, SaysThatAnotherClipTookItsName) {
    expectOwn(40);
    moveInto(m_other);
    expectError(41, ErrorCode::InvalidInput);
    expectError(90, ErrorCode::InvalidInput);
    moveInto(m_own);
    expectOwn(42);
}

TEST_F(ServedFile, SaysThatItWasOverwritten) {
    expectOwn(40);
    tests::writeFile("served.mp4", tests::bytesOf(m_other.file));
    expectError(41, ErrorCode::InvalidInput);
    tests::writeFile("served.mp4", tests::bytesOf(m_own.file));
    expectOwn(41);
}

TEST_F(ServedFile, SaysThatItWasMoved) {
    expectOwn(40);
    const auto elsewhere = tests::clipFolder() / "elsewhere.mp4";
    std::filesystem::rename(m_file, elsewhere);
    expectError(41, ErrorCode::NotFound);
    std::filesystem::rename(elsewhere, m_file);
    expectOwn(41);
}

TEST_F(ServedFile, MustHaveTheFingerprintOfItsIndex) {
    media::ClipIndex index = m_own.index;
    index.fingerprint = media::fingerprint(m_other.file).value();
    m_clip = m_service->openClip(m_file, index);
    expectError(0, ErrorCode::InvalidInput);
    index.fingerprint = media::fingerprint(m_own.file).value();
    m_clip = m_service->openClip(m_file, index);
    expectOwn(0);
}

/// Steps, jumps and changes of direction over ten clips; every picture that comes must carry the
/// number it is given under.
class Soak {
public:
    Soak() {
        for (int i = 0; i < 10; ++i) {
            m_clips.push_back(codedClip(i));
            m_ids.push_back(m_service->openClip(m_clips.back().file, m_clips.back().index));
        }
    }
    /// One request; false when it is not answered.
    bool step() {
        const int dice = upTo(100);
        move(dice);
        m_service->request(id(), {m_frame}, m_step > 0 ? Direction::Forward : Direction::Backward,
                           check());
        ++m_requests;
        // Three of four times a reviewer looks before going on.
        const bool isAnswered =
            dice % 4 == 0 || waitUntil([this] { return replies >= m_requests; });
        if (const auto near = m_service->nearestReady(id(), {m_frame})) {
            expect(*near, static_cast<int>(near->index().value));
        }
        doOtherwise(dice);
        return isAnswered;
    }
    /// Whether every request is answered in the end.
    bool finish() {
        const bool areAllAnswered = waitUntil([this] { return replies == m_requests; });
        m_service.reset();
        return areAllAnswered;
    }

    std::atomic<int> wrong{0};
    std::atomic<int> given{0};
    std::atomic<int> replies{0};

private:
    [[nodiscard]] int upTo(int end) {
        return static_cast<int>(m_random() % static_cast<unsigned>(end));
    }
    [[nodiscard]] FrameService::ClipId& id() { return m_ids[static_cast<std::size_t>(m_clip)]; }
    void expect(const media::Frame& picture, int frame) {
        wrong += readCode(picture) == std::pair{m_clip, frame} ? 0 : 1;
    }
    void move(int dice) {
        if (dice < 3) {
            m_clip = upTo(10);
        } else if (dice < 10) {
            m_frame = upTo(120);
        } else if (dice < 18) {
            m_step = -m_step;
        }
        m_frame = std::clamp(m_frame + m_step, 0, 119);
    }
    [[nodiscard]] std::function<void(FrameIndex, const Result<FramePtr>&)> check() {
        return [this, clip = m_clip, frame = m_frame](FrameIndex index,
                                                      const Result<FramePtr>& result) {
            if (result.has_value()) {
                ++given;
                wrong += readCode(*result.value()) != std::pair{clip, frame} ? 1 : 0;
            } else if (result.error().code != ErrorCode::Cancelled) {
                ++wrong;
            }
            wrong += index.value != frame ? 1 : 0;
            ++replies;
        };
    }
    void doOtherwise(int dice) {
        if (dice == 50) {
            m_service->closeClip(id());
            const CodedClip& same = m_clips[static_cast<std::size_t>(m_clip)];
            id() = m_service->openClip(same.file, same.index);
        } else if (dice == 51) {
            m_service->prepare(m_ids[static_cast<std::size_t>(upTo(10))], {upTo(120)}, {119});
        } else if (dice == 52) {
            m_service->forgetPrepared();
        } else if (dice > 90) {
            expect(*m_service->fetch(id(), {m_frame}).value(), m_frame);
        }
    }

    std::unique_ptr<FrameService> m_service{
        FrameService::create({.maxBytes = 6'000'000, .threadsPerDecoder = 2})};
    std::vector<CodedClip> m_clips;
    std::vector<FrameService::ClipId> m_ids;
    std::mt19937 m_random{20250102};
    int m_clip{0};
    int m_frame{0};
    int m_step{1};
    int m_requests{0};
};

/// TURNMARK_SOAK_STEPS sets another number of steps.
TEST(FrameService, SoakEveryPictureCarriesTheNumberItIsGivenUnder) {
    const char* wanted = std::getenv("TURNMARK_SOAK_STEPS");
    const int steps = wanted != nullptr ? std::atoi(wanted) : 1500;
    Soak soak;
    for (int i = 0; i < steps; ++i) {
        ASSERT_TRUE(soak.step()) << "step " << i;
    }
    EXPECT_TRUE(soak.finish());
    EXPECT_EQ(soak.wrong, 0);
    EXPECT_GT(soak.given, steps / 2);
}

}  // namespace
