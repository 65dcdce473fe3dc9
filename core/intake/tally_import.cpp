#include <fmt/format.h>

#include <span>
#include <tuple>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/clip_clock_setting.h"
#include "core/intake/planned_cells.h"
#include "core/intake/tallies.h"
#include "core/media/file/clip_index.h"
#include "core/project/clip_location.h"
#include "core/reading/project_reading.h"

/// From counted shots to shots and readings of a project.
namespace core::intake {
namespace {

constexpr std::size_t kMostTold = 20;

constexpr std::size_t kBatch = 500;  // shots between two reports

/// A tally's shots stand one behind the other with a frame before and after each, so that every
/// mark has neighbours.
constexpr std::int64_t kFramesAround = 1;

/// "Set 3" and "set 3", in quotes.
std::string quoted(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string name = '"' + names[i] + '"';
        text = i == 0                  ? name
               : i + 1 == names.size() ? said("{} and {}", text, name)
                                       : fmt::format("{}, {}", text, name);
    }
    return text;
}

void tell(std::string& text, const std::vector<TallyRemark>& remarks) {
    for (std::size_t i = 0; i < std::min(remarks.size(), kMostTold); ++i) {
        text += remarks[i].message + '\n';
    }
}

/// How many are not told; none where all are.
std::size_t untold(const std::vector<TallyRemark>& remarks) {
    return remarks.size() - std::min(remarks.size(), kMostTold);
}

/// The question whether names that are alike are one.
std::string questionOf(const AlikeGroup& group) {
    const std::string names = quoted(group.names);
    if (group.kind == "implement") {
        return said(
            "The names of implements {} differ only in case or spaces: are they one implement?",
            names);
    }
    return group.kind == "condition"
               ? said(
                     "The names of conditions {} differ only in case or spaces: are they one "
                     "condition?",
                     names)
               : said("The names of hitters {} differ only in case or spaces: are they one hitter?",
                      names);
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

using CellKey = std::tuple<std::string, std::string, std::string>;

CellKey cellOf(const TallyShot& shot) {
    return {shot.implement, shot.condition, shot.hitter};
}

/// The shots of one capture rate.
struct RateGroup {
    timebase::CaptureRate rate;
    std::vector<const TallyShot*> shots;
};

/// In the order in which they come.
std::vector<RateGroup> byRate(const Tally& tally) {
    std::vector<RateGroup> groups;
    std::map<timebase::Rational, std::size_t> known;
    for (const TallyShot& shot : tally.shots) {
        const auto [at, isNew] = known.try_emplace(shot.rate.fps, groups.size());
        if (isNew) {
            groups.push_back({shot.rate, {}});
        }
        groups[at->second].shots.push_back(&shot);
    }
    return groups;
}

/// Puts the shots of a tally into a session; inside together().
class TallyImport {
public:
    TallyImport(project::Store& store, project::SessionId session, const Tally& tally,
                const TallySource& source, const TallyProgress& progress)
        : m_store{store},
          m_session{session},
          m_tally{tally},
          m_source{source},
          m_progress{progress} {}

    Result<void> run(const project::Clip& file) {
        BOOST_OUTCOME_TRY(makeCells());
        BOOST_OUTCOME_TRY(giveAttributes());
        for (const RateGroup& group : byRate(m_tally)) {
            BOOST_OUTCOME_TRY(add(group, file));
        }
        return ok();
    }

private:
    Result<void> makeCells() {
        for (const TallyShot& shot : m_tally.shots) {
            const auto [at, isNew] = m_cells.try_emplace(cellOf(shot));
            if (isNew) {
                BOOST_OUTCOME_TRY(cell,
                                  cellNamed(m_store, m_session,
                                            {{}, shot.implement, shot.condition, shot.hitter}));
                at->second = cell;
            }
        }
        return ok();
    }
    Result<void> giveAttributes() {
        const auto snapshot = m_store.snapshot();
        for (const auto& implement : snapshot->implements) {
            const auto given = m_tally.attributes.find({implement.name, implement.condition});
            if (given == m_tally.attributes.end()) {
                continue;
            }
            project::Implement changed = implement;
            changed.attributes.insert(given->second.begin(), given->second.end());
            BOOST_OUTCOME_TRY(m_store.changeImplement(changed));
        }
        return ok();
    }

    Result<void> add(const RateGroup& group, const project::Clip& file) {
        std::int64_t frameCount = kFramesAround;
        for (const TallyShot* shot : group.shots) {
            frameCount += shot->frames + 1 + kFramesAround;
        }
        const auto frames = countedStamps(frameCount, group.rate);
        BOOST_OUTCOME_TRY(clip, addClipFor(group, file, frames));
        m_firstFree = kFramesAround;
        m_read.clear();
        for (std::size_t begin = 0; begin < group.shots.size(); begin += kBatch) {
            const std::size_t size = std::min(kBatch, group.shots.size() - begin);
            BOOST_OUTCOME_TRY(addBatch({group.shots.data() + begin, size}, clip, frames));
            m_done += size;
            if (m_progress) {
                m_progress(static_cast<double>(m_done) / static_cast<double>(m_tally.shots.size()));
            }
        }
        return ok();
    }
    Result<project::ClipId> addClipFor(const RateGroup& group, const project::Clip& file,
                                       const project::ClipFrames& frames) {
        project::Clip clip = file;
        clip.session = m_session;
        clip.fingerprint += ":" + group.rate.fps.toString();
        clip.frameCount = static_cast<std::int64_t>(frames.stamps.ticks.size());
        clip.width = 1;
        clip.height = 1;
        clip.codec = "counts";
        clip.container = project::kTallyContainer;
        clip.evidence = {timebase::ReviewerEntry{group.rate, std::nullopt}};
        const auto settled = settleClock(std::nullopt, frames.stamps, clip.evidence,
                                         timebase::StampTrust::NotTrusted);
        clip.clock = settled.setting;
        clip.clockRemarks = settled.remarks;
        clip.remarks.push_back({"tally", std::nullopt,
                                toKeep("A table of frame counts: there are no pictures to look at, "
                                       "and no count can be checked.")});
        return m_store.addClip(clip, frames);
    }

    Result<void> addBatch(std::span<const TallyShot* const> batch, project::ClipId clip,
                          const project::ClipFrames& frames) {
        std::vector<project::Shot> shots;
        for (const TallyShot* counted : batch) {
            project::Shot& shot = shots.emplace_back();
            shot.clip = clip;
            shot.cell = m_cells.at(cellOf(*counted));
            shot.firstFrame = {m_firstFree};
            shot.lastFrame = {m_firstFree + counted->frames};
            shot.strikeFrame = shot.firstFrame;
            shot.marks =
                spin::marksOfCount(m_source.habit, shot.firstFrame, shot.lastFrame, counted->turns);
            m_firstFree += counted->frames + 1 + kFramesAround;
        }
        BOOST_OUTCOME_TRY(ids, m_store.addShots(shots));
        const auto snapshot = m_store.snapshot();
        std::vector<project::Reading> readings;
        for (std::size_t i = 0; i < ids.size(); ++i) {
            shots[i].id = ids[i];
            BOOST_OUTCOME_TRY(reading, readingOf(*snapshot, shots[i], *batch[i], frames));
            readings.push_back(std::move(reading));
        }
        BOOST_OUTCOME_TRY(m_store.keepReadings(readings));
        return ok();
    }

    /// Equal counts of one capture rate have equal readings, but for the frames that are marked.
    Result<project::Reading> readingOf(const project::Snapshot& snapshot, const project::Shot& shot,
                                       const TallyShot& counted,
                                       const project::ClipFrames& frames) {
        const auto [known, isNew] = m_read.try_emplace({counted.frames, counted.turns});
        Read& read = known->second;
        if (isNew) {
            BOOST_OUTCOME_TRY(inputs, reading::marksInputsOf(snapshot, shot, frames));
            const auto rate = reading::readMarks(snapshot, shot, frames);
            if (!rate) {
                return fail(rate.error().code,
                            said("Row {}: {}", counted.row, rate.error().message));
            }
            read.inputs = inputs;
            read.reading = reading::makeMarksReading(snapshot, shot, frames, rate.value());
            read.reading.habit = m_source.habit;
        }
        project::Reading reading = read.reading;
        reading.shot = shot.id;
        read.inputs.marks = shot.marks;
        reading.inputsJson = reading::toJson(read.inputs);
        return reading;
    }

    struct Read {
        reading::MarksInputs inputs;
        project::Reading reading;
    };

    project::Store& m_store;
    project::SessionId m_session;
    const Tally& m_tally;
    const TallySource& m_source;
    const TallyProgress& m_progress;
    std::map<CellKey, project::CellId> m_cells;
    std::int64_t m_firstFree{};  ///< frame of the clip that is being filled
    std::map<std::pair<std::int64_t, int>, Read> m_read;  ///< by frames and turns, of that clip
    std::size_t m_done{};
};

/// Shots that the project has of this content. Errors: InvalidInput when the path is known with
/// other content.
Result<std::size_t> shotsOfContent(const project::Snapshot& snapshot, const project::Clip& file) {
    std::size_t shots = 0;
    for (const auto& clip : snapshot.clips) {
        if (!project::isTally(clip)) {
            continue;
        }
        if (clip.fingerprint.starts_with(file.fingerprint + ":")) {
            shots += project::shotsOfClip(snapshot, clip.id).size();
        } else if (clip.path == file.path) {
            return fail(
                ErrorCode::InvalidInput,
                said("{} was imported before and has changed since, so that its rows would be "
                     "there twice. Undo that import, or put the new rows into a file of their own.",
                     file.path));
        }
    }
    return shots;
}

}  // namespace

std::string whatHoldsUp(const Tally& tally, const TallySource& source) {
    std::string text;
    if (!source.leaveOutBadRows) {
        tell(text, tally.faults);
        if (const auto more = untold(tally.faults); more > 0) {
            text += saidOf(more, "and {} more row that cannot be read.",
                           "and {} more rows that cannot be read.", more) +
                    '\n';
        }
    }
    if (!source.acceptImprobable) {
        tell(text, tally.improbable);
        if (const auto more = untold(tally.improbable); more > 0) {
            text += saidOf(more, "and {} more count that can hardly be right.",
                           "and {} more counts that can hardly be right.", more) +
                    '\n';
        }
    }
    for (const AlikeGroup& group : tally.alike) {
        text += questionOf(group) + '\n';
    }
    if (!text.empty()) {
        text.pop_back();
    }
    return text;
}

Result<ImportedTally> importTally(project::Store& store, project::SessionId session,
                                  const std::filesystem::path& file, const Tally& tally,
                                  const TallySource& source, const TallyProgress& progress) {
    const std::string name = file.filename().string();
    if (const std::string held = whatHoldsUp(tally, source); !held.empty()) {
        return fail(ErrorCode::InvalidInput, said("{}: nothing was imported.", name) + '\n' + held);
    }
    if (tally.shots.empty()) {
        return fail(ErrorCode::InvalidInput, said("{} has no count below its header.", name));
    }
    project::Clip facts;
    BOOST_OUTCOME_TRY(print, media::fingerprint(file));
    facts.fingerprint = print;
    facts.path = project::pathToKeep(store.file(), std::filesystem::absolute(file));
    std::error_code ignored;  // the size is for people; the fingerprint has just read the file
    const auto size = static_cast<std::int64_t>(std::filesystem::file_size(file, ignored));
    facts.sizeBytes = ignored ? 0 : size;
    BOOST_OUTCOME_TRY(known, shotsOfContent(*store.snapshot(), facts));
    if (known > 0) {
        return ImportedTally{0, known};
    }
    TallyImport import{store, session, tally, source, progress};
    BOOST_OUTCOME_TRY(store.together(toKeep("Imported {} from the frame counts in {:s}.",
                                            countToKeep(tally.shots.size(), "shot", "shots"), name),
                                     [&] { return import.run(facts); }));
    return ImportedTally{tally.shots.size(), 0};
}

}  // namespace core::intake
