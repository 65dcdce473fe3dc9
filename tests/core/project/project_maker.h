#pragma once

#include <string>
#include <vector>

#include "core/project/file/row.h"
#include "core/project/store.h"
#include "tests/support/process.h"

/// Projects to test with.
namespace tests::project {

/// A folder on the quickest file system, removed with everything in it.
class TemporaryFolder : public tests::TemporaryFolder {
public:
    TemporaryFolder();
    /// Names of everything in it, sorted.
    [[nodiscard]] std::vector<std::string> names() const;
};

/// A clip of 240 frames a second, counted, 1280 x 720, and its time stamps (90 kHz).
core::project::Clip clipNamed(const std::string& path, core::project::SessionId session,
                              std::int64_t frames);
core::project::ClipFrames framesOf(std::int64_t frames);
/// An open shot over frames first … last, strike at the first.
core::project::Shot shotOver(core::project::ClipId clip, std::int64_t first, std::int64_t last);
/// A start and one nearest return after one turn.
core::spin::MarkSet startAndReturn(std::int64_t start, std::int64_t back);
/// A reading of a shot with round numbers: rate ± 2, interval ± 4, bounds ± 6 rpm.
core::project::Reading readingOf(core::project::ShotId shot, double rpm);

/// Ids of a small project: one session, two implements, two hitters, one clip, three shots.
struct SmallProject {
    core::project::SessionId session;
    core::project::ImplementId implement;
    core::project::ImplementId otherImplement;
    core::project::HitterId hitter;
    core::project::HitterId otherHitter;
    core::project::ClipId clip;
    std::vector<core::project::ShotId> shots;
};
/// Fills an empty project. Stops the program when the store refuses, so that tests may rely on it.
SmallProject fill(core::project::Store& store);

/// A plan of two implements and two hitters with every member set.
core::plan::Plan smallPlan();
/// A visit of 8 keys, one press and 6.25 s that kept a reading of the shot with hidden names.
core::project::ReadingEffort smallEffort(core::project::ShotId shot);
/// Bytes that no text has.
core::project::PictureArchive smallArchive();

/// Everything a snapshot holds, as rows of text, for comparison; the revision is left out.
std::string contentOf(const core::project::Snapshot& snapshot);

}  // namespace tests::project
