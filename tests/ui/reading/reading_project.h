#pragma once

#include <QTemporaryDir>
#include <filesystem>
#include <memory>
#include <vector>

#include "core/media/frames/frame_service.h"
#include "core/project/store.h"
#include "ui/bridge/frame_requester.h"

namespace tests {

/// A film of a ball with a dark sector, drawn with Qt, in which every attitude is known: frame k of
/// the world shows the sector 360·k/framesPerTurn degrees counter-clockwise after its first place.
struct BallFilm {
    int frames{24};
    double framesPerTurn{5.0};
    int framesPerSecond{120};
    int dropped{-1};  ///< this frame of the world is missing from the file
};

/// Where the ball is in frame k of the world, in the pictures of BallFilm (240 × 160 px).
core::project::BallClick ballOf(int worldFrame, int fileFrame);

/// A project in a folder of its own, with one clip and one shot for each film, assigned to one
/// implement and one hitter.
class ReadingProject {
public:
    explicit ReadingProject(const std::vector<BallFilm>& films);

    [[nodiscard]] core::project::Store& store() { return *m_store; }
    [[nodiscard]] ui::bridge::FrameRequester& requester() { return *m_requester; }
    [[nodiscard]] std::filesystem::path film(std::size_t film) const;
    /// As if the program had been left: no film is open any more.
    void startPicturesAnew();
    [[nodiscard]] core::project::ShotId shot(std::size_t film) const { return m_shots.at(film); }
    [[nodiscard]] const core::project::Shot& shotNow(std::size_t film);
    /// Sets the two clicks that put the ball where it truly is in every frame of the first film.
    void clickBall(std::size_t film, int frames);

private:
    QTemporaryDir m_folder;
    std::unique_ptr<core::project::Store> m_store;
    core::project::SnapshotPtr m_snapshot;
    std::unique_ptr<core::media::FrameService> m_service;
    std::unique_ptr<ui::bridge::FrameRequester> m_requester;
    std::vector<core::project::ShotId> m_shots;
};

}  // namespace tests
