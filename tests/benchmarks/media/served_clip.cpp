#include "tests/benchmarks/media/served_clip.h"

#include <chrono>
#include <stdexcept>
#include <thread>

namespace benchmarks {

using core::Result;
using core::media::FramePtr;
using core::media::FrameService;
using core::timebase::FrameIndex;

ServedClip::ServedClip(const std::filesystem::path& file)
    : m_file{file},
      m_index{core::media::readClipIndex(file).value()},
      m_service{FrameService::create({})} {
    m_clip = m_service->openClip(m_file, m_index);
}

void ServedClip::show(std::int64_t frame, Direction direction) {
    Answer answer;
    m_service->request(m_clip, {frame}, direction, [&answer](FrameIndex, Result<FramePtr> result) {
        const std::scoped_lock lock{answer.mutex};
        answer.result.emplace(std::move(result));
        answer.arrived.notify_one();
    });
    std::unique_lock lock{answer.mutex};
    answer.arrived.wait(lock, [&] { return answer.result.has_value(); });
    if (answer.result->has_error()) {
        throw std::runtime_error(answer.result->error().message);
    }
}

void ServedClip::waitUntilPrepared() {
    constexpr std::chrono::milliseconds kQuiet{500};
    std::uint64_t before = 0;
    for (std::uint64_t now = 1; now != before;) {
        before = m_service->counters().decoded;
        std::this_thread::sleep_for(kQuiet);
        now = m_service->counters().decoded;
    }
}

void ServedClip::reopen() {
    m_service->closeClip(m_clip);
    m_clip = m_service->openClip(m_file, m_index);
}

}  // namespace benchmarks
