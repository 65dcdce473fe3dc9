#include "core/intake/tallies.h"

#include <fstream>
#include <sstream>

#include "core/base/expects.h"
#include "core/base/number.h"
#include "core/intake/clip_clock_setting.h"
#include "core/intake/planned_cells.h"
#include "core/media/file/clip_index.h"
#include "core/project/clip_location.h"
#include "core/reading/project_reading.h"

namespace core::intake {
namespace {

constexpr std::size_t kMostFaultsTold = 20;

/// A tally's shots stand one behind the other with a frame before and after each, so that every
/// mark has neighbours.
constexpr std::int64_t kFramesAround = 1;

auto faultsOf(const std::filesystem::path& file, const Tally& tally) {
    std::string text = file.filename().string() + ": nothing was imported.";
    for (std::size_t i = 0; i < std::min(tally.faults.size(), kMostFaultsTold); ++i) {
        text += "\n" + tally.faults[i].message;
    }
    if (tally.faults.size() > kMostFaultsTold) {
        text += "\nand " + std::to_string(tally.faults.size() - kMostFaultsTold) + " more rows.";
    }
    return fail(ErrorCode::InvalidInput, text);
}

project::ClipFrames countedStamps(std::int64_t frames, const timebase::CaptureRate& rate) {
    project::ClipFrames result;
    result.stamps.timeBase = timebase::Rational{1} / rate.fps;
    for (std::int64_t i = 0; i < frames; ++i) {
        result.stamps.ticks.push_back(i);
        result.isKey.push_back(true);
    }
    return result;
}

/// The shots of one capture rate.
struct RateGroup {
    timebase::CaptureRate rate;
    std::vector<const TallyShot*> shots;
};

std::vector<RateGroup> byRate(const Tally& tally) {
    std::vector<RateGroup> groups;
    for (const TallyShot& shot : tally.shots) {
        auto group = std::find_if(groups.begin(), groups.end(),
                                  [&shot](const auto& each) { return each.rate == shot.rate; });
        if (group == groups.end()) {
            group = groups.insert(groups.end(), RateGroup{shot.rate, {}});
        }
        group->shots.push_back(&shot);
    }
    return groups;
}

/// Puts the rows of one capture rate into a session; inside together().
class GroupImport {
public:
    GroupImport(project::Store& store, project::SessionId session, spin::CountingHabit habit,
                std::string path, std::string fingerprint, std::int64_t sizeBytes)
        : m_store{store},
          m_session{session},
          m_habit{habit},
          m_path{std::move(path)},
          m_fingerprint{std::move(fingerprint)},
          m_sizeBytes{sizeBytes} {}

    Result<void> add(const RateGroup& group) {
        BOOST_OUTCOME_TRY(clip, addClipFor(group));
        std::vector<project::Shot> shots;
        std::int64_t at = kFramesAround;
        for (const TallyShot* counted : group.shots) {
            project::Shot shot;
            shot.clip = clip;
            shot.firstFrame = {at};
            shot.lastFrame = {at + counted->frames};
            shot.strikeFrame = shot.firstFrame;
            shot.marks =
                spin::marksOfCount(m_habit, shot.firstFrame, shot.lastFrame, counted->turns);
            shots.push_back(std::move(shot));
            at += counted->frames + 1 + kFramesAround;
        }
        BOOST_OUTCOME_TRY(ids, m_store.addShots(shots));
        for (std::size_t i = 0; i < ids.size(); ++i) {
            BOOST_OUTCOME_TRY(keep(ids[i], *group.shots[i]));
        }
        return ok();
    }

private:
    Result<project::ClipId> addClipFor(const RateGroup& group) {
        std::int64_t frames = kFramesAround;
        for (const TallyShot* shot : group.shots) {
            frames += shot->frames + 1 + kFramesAround;
        }
        const auto stamps = countedStamps(frames, group.rate);
        project::Clip clip;
        clip.session = m_session;
        clip.path = m_path;
        clip.sizeBytes = m_sizeBytes;
        clip.fingerprint = m_fingerprint + ":" + group.rate.fps.toString();
        clip.frameCount = frames;
        clip.width = 1;
        clip.height = 1;
        clip.codec = "counts";
        clip.container = project::kTallyContainer;
        clip.evidence = {timebase::ReviewerEntry{group.rate, std::nullopt}};
        const auto settled = settleClock(std::nullopt, stamps.stamps, clip.evidence,
                                         timebase::StampTrust::NotTrusted);
        clip.clock = settled.setting;
        clip.clockRemarks = settled.remarks;
        clip.remarks.push_back({"tally", std::nullopt,
                                "A table of frame counts: there is no film to look at, and no "
                                "count can be checked."});
        return m_store.addClip(clip, stamps);
    }

    Result<void> keep(project::ShotId id, const TallyShot& counted) {
        BOOST_OUTCOME_TRY(cell,
                          cellNamed(m_store, m_session,
                                    {{}, counted.implement, counted.condition, counted.hitter}));
        BOOST_OUTCOME_TRY(m_store.assignShots(std::array{id}, cell));
        const auto snapshot = m_store.snapshot();
        const project::Shot* shot = snapshot->shots.find(id);
        CORE_EXPECTS(shot != nullptr);  // added a moment ago
        BOOST_OUTCOME_TRY(frames, m_store.clipFrames(shot->clip));
        const auto read = reading::readMarks(*snapshot, *shot, *frames);
        if (!read) {
            return fail(read.error().code,
                        "Row " + std::to_string(counted.row) + ": " + read.error().message);
        }
        auto kept = reading::makeMarksReading(*snapshot, *shot, *frames, read.value());
        kept.habit = m_habit;
        BOOST_OUTCOME_TRY(m_store.keepReading(kept));
        return ok();
    }

    project::Store& m_store;
    project::SessionId m_session;
    spin::CountingHabit m_habit;
    std::string m_path;
    std::string m_fingerprint;
    std::int64_t m_sizeBytes;
};

/// Shots that the project has of this content. Errors: InvalidInput when the path is known with
/// other content.
Result<std::size_t> shotsOfContent(const project::Snapshot& snapshot, const std::string& path,
                                   const std::string& fingerprint) {
    std::size_t shots = 0;
    for (const auto& clip : snapshot.clips) {
        if (!project::isTally(clip)) {
            continue;
        }
        if (clip.fingerprint.starts_with(fingerprint + ":")) {
            shots += project::shotsOfClip(snapshot, clip.id).size();
        } else if (clip.path == path) {
            return fail(ErrorCode::InvalidInput,
                        path +
                            " was imported before and has changed since, so that its rows "
                            "would be there twice. Undo that import, or put the new rows into "
                            "a file of their own.");
        }
    }
    return shots;
}

}  // namespace

Result<ImportedTally> importTally(project::Store& store, project::SessionId session,
                                  const std::filesystem::path& file, const TextTable& table,
                                  const TallyMapping& mapping, const TallySource& source) {
    const auto snapshot = store.snapshot();
    const auto* day = snapshot->sessions.find(session);
    if (day == nullptr) {
        return fail(ErrorCode::NotFound, "The session is no longer in the project.");
    }
    BOOST_OUTCOME_TRY(tally, readTally(table, mapping, source.rate, day->marking));
    if (!tally.faults.empty()) {
        return faultsOf(file, tally);
    }
    if (tally.shots.empty()) {
        return fail(ErrorCode::InvalidInput,
                    file.filename().string() + " has no row below its header.");
    }
    BOOST_OUTCOME_TRY(print, media::fingerprint(file));
    const std::string path = project::pathToKeep(store.file(), std::filesystem::absolute(file));
    BOOST_OUTCOME_TRY(known, shotsOfContent(*snapshot, path, print));
    if (known > 0) {
        return ImportedTally{0, known};
    }
    std::error_code ignored;  // the size is for people; the fingerprint has just read the file
    const auto size = static_cast<std::int64_t>(std::filesystem::file_size(file, ignored));
    GroupImport import{store, session, source.habit, path, print, ignored ? 0 : size};
    const std::string count = counted(tally.shots.size(), "shot");
    BOOST_OUTCOME_TRY(
        store.together("Imported " + count + " from the tally " + file.filename().string() + ".",
                       [&]() -> Result<void> {
                           for (const RateGroup& group : byRate(tally)) {
                               BOOST_OUTCOME_TRY(import.add(group));
                           }
                           return ok();
                       }));
    return ImportedTally{tally.shots.size(), 0};
}

Result<std::string> readTextFile(const std::filesystem::path& file) {
    std::error_code problem;
    if (!std::filesystem::is_regular_file(file, problem)) {
        return fail(ErrorCode::NotFound, "There is no file " + file.string() + ".");
    }
    std::ifstream stream{file, std::ios::binary};
    std::ostringstream text;
    text << stream.rdbuf();
    if (!stream.is_open() || stream.bad()) {
        return fail(ErrorCode::Unreadable,
                    file.string() + " cannot be read. Check that you may read it.");
    }
    return text.str();
}

Result<TextTable> readTableFile(const std::filesystem::path& file) {
    BOOST_OUTCOME_TRY(text, readTextFile(file));
    auto table = readTextTable(text);
    if (!table) {
        return fail(table.error().code, file.filename().string() + ": " + table.error().message);
    }
    return table;
}

}  // namespace core::intake
