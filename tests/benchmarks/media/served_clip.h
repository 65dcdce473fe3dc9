#pragma once

#include <condition_variable>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>

#include "core/media/frames/frame_service.h"

namespace benchmarks {

/// A clip in a frame service of its own, used as a reviewer's window uses it: one request after
/// the other.
class ServedClip {
public:
    using Direction = core::media::FrameService::Direction;

    explicit ServedClip(const std::filesystem::path& file);
    ServedClip(const ServedClip&) = delete;
    ServedClip& operator=(const ServedClip&) = delete;

    [[nodiscard]] const core::media::ClipIndex& index() const noexcept { return m_index; }
    [[nodiscard]] core::media::FrameService& service() noexcept { return *m_service; }
    [[nodiscard]] core::media::FrameService::ClipId id() const noexcept { return m_clip; }
    /// Asks for the frame and waits for it. Throws std::runtime_error when it cannot be had.
    void show(std::int64_t frame, Direction direction);
    /// Waits until the service has nothing left to prepare.
    void waitUntilPrepared();
    /// Drops what was decoded and stops what is under way; the next show() begins anew.
    void reopen();

private:
    struct Answer {
        std::mutex mutex;
        std::condition_variable arrived;
        std::optional<core::Result<core::media::FramePtr>> result;
    };

    std::filesystem::path m_file;
    core::media::ClipIndex m_index;
    std::unique_ptr<core::media::FrameService> m_service;
    core::media::FrameService::ClipId m_clip{};
};

}  // namespace benchmarks
