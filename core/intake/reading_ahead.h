#pragma once

#include <deque>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/intake/shot_pictures.h"
#include "core/jobs/source.h"

namespace core::intake {

/// Shots that are read from their pictures ahead of their review, one after the other in the order
/// in which they were queued, and kept in the project. What is kept already, or cannot be read, is
/// passed over. Confined to the thread of the store.
class ReadingAhead : public jobs::Source {
public:
    /// The slow part of a reading; tells the share of it that is done.
    using Work = std::function<AtHome(std::stop_token, const std::function<void(double)>&)>;
    struct Outcome {
        project::ShotId shot;
        reading::ShotRequest request;
        Result<reading::PictureReading> reading;
        Result<void> kept;  ///< of keepPictures(); ok when there is nothing to keep
    };
    struct Listeners {
        std::function<void(project::ShotId)> begun{};
        std::function<void(const Outcome&)> ended{};  ///< at home
    };

    /// The store must outlive it.
    ReadingAhead(project::Store& store, Listeners listeners)
        : m_store{store}, m_listeners{std::move(listeners)} {}

    /// Behind what waits, unless it waits already.
    void queue(project::ShotId shot);
    /// Instead of what waits.
    void setQueue(std::deque<project::ShotId> shots) { m_queue = std::move(shots); }
    [[nodiscard]] std::size_t waiting() const noexcept { return m_queue.size(); }
    [[nodiscard]] std::vector<project::ShotId> shotsAtWork() const;
    /// Whether the shot is being read, in whatever state.
    [[nodiscard]] bool isAtWork(project::ShotId shot) const;
    [[nodiscard]] bool isAtWork(project::ShotId shot, const reading::ShotRequest& request) const;

    /// The reading of one shot; absent when it is kept already. Errors: of shotPicturesOf().
    Result<std::optional<Work>> begin(project::ShotId shot);
    /// The project keeps what these pictures say.
    void noteKept(project::ShotId shot, const reading::ShotRequest& request);

    std::optional<Piece> next() override;
    void cancel() override;
    [[nodiscard]] bool isCancelled() const override { return m_isCancelled; }

private:
    [[nodiscard]] bool isKept(project::ShotId shot, const reading::ShotRequest& request);
    void comeHome(const ShotPictures& task, const Result<reading::PictureReading>& reading);

    project::Store& m_store;
    Listeners m_listeners;
    std::deque<project::ShotId> m_queue;
    std::vector<std::pair<project::ShotId, reading::ShotRequest>> m_atWork;
    std::map<project::ShotId, std::string> m_keptKeys;  ///< of archives, as far as looked at
    bool m_isCancelled{false};
};

}  // namespace core::intake
