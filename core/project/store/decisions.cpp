#include <set>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/project/store/open_project.h"
#include "core/project/store/sentences.h"
#include "core/project/text.h"

/// Readings, what was decided about shots, second looks and second readings.
namespace core::project {
namespace {

Result<void> checkReading(const Reading& reading) {
    const bool isOrdered = reading.interval95.low <= reading.interval95.high &&
                           (!reading.bounds || reading.bounds->low <= reading.bounds->high);
    if (reading.rate.sigma.rpm < 0.0 || reading.clockRelativeSigma < 0.0 || !isOrdered) {
        return fail(ErrorCode::OutOfRange,
                    said("The reading has a negative uncertainty or an interval whose ends are "
                         "exchanged. It was not kept."));
    }
    return ok();
}

/// The reading with reader and time, checked.
Result<Reading> completeReading(const Rows& rows, Reading reading) {
    if (reading.reader.empty()) {
        reading.reader = rows.all().reader;
    }
    if (reading.madeAt.empty()) {
        reading.madeAt = presentTime();
    }
    // NaN and infinity are refused before any comparison.
    BOOST_OUTCOME_TRY(kindOf<Reading>().sealedRow(written(reading)));
    BOOST_OUTCOME_TRY(checkReading(reading));
    return reading;
}

/// The same with its number, put into its table. Part of an edit.
Result<Reading> addedReading(Rows& rows, const Reading& reading) {
    BOOST_OUTCOME_TRY(complete, completeReading(rows, reading));
    return rows.add(std::move(complete));
}

/// A shot for which a reading counts from now on.
Shot keptShot(Shot shot, ReadingId reading) {
    shot.counting = reading;
    shot.standing = ShotStanding::Kept;
    shot.reason.clear();
    return shot;
}

/// A second reading that is not done. Errors: NotFound, InvalidInput.
Result<SecondReading> waitingSecondReading(const Rows& rows, SecondReadingId id) {
    BOOST_OUTCOME_TRY(second, rows.find(id));
    if (second.reading) {
        return fail(ErrorCode::InvalidInput,
                    said("This second reading is done already. Begin another one."));
    }
    return second;
}

}  // namespace

Result<ReadingId> Store::keepReading(const Reading& reading) {
    Reading kept;
    BOOST_OUTCOME_TRY(m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(reading.shot));
        BOOST_OUTCOME_TRY(added, addedReading(rows, reading));
        kept = added;
        BOOST_OUTCOME_TRY(rows.change(keptShot(shot, kept.id)));
        return Told{toKeep("Kept {} for {}.", readingText(kept), shotNameToKeep(rows.all(), shot)),
                    {shot.id}};
    }));
    return kept.id;
}

Result<std::vector<ReadingId>> Store::keepReadings(std::span<const Reading> readings) {
    std::vector<ReadingId> ids;
    BOOST_OUTCOME_TRY(m_project->edit([&](Rows& rows) -> Result<Told> {
        std::vector<Reading> complete;
        std::set<ShotId> ofShots;
        for (const Reading& reading : readings) {
            BOOST_OUTCOME_TRY(rows.find(reading.shot));
            BOOST_OUTCOME_TRY(each, completeReading(rows, reading));
            ofShots.insert(each.shot);
            complete.push_back(std::move(each));
        }
        if (readings.empty() || ofShots.size() != readings.size()) {
            return fail(ErrorCode::InvalidInput,
                        said("No reading was given, or two of one shot. Keep one a shot."));
        }
        BOOST_OUTCOME_TRY(added, rows.add(std::move(complete)));
        std::vector<Shot> shots;
        for (const Reading& reading : added) {
            BOOST_OUTCOME_TRY(shot, rows.find(reading.shot));
            shots.push_back(keptShot(std::move(shot), reading.id));
            ids.push_back(reading.id);
        }
        BOOST_OUTCOME_TRY(rows.change(shots));
        return Told{toKeep("Kept readings for {}.", shotsName(rows.all(), shots)),
                    {ofShots.begin(), ofShots.end()}};
    }));
    return ids;
}

Result<void> Store::setCounting(ShotId id, ReadingId readingId) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        const Reading* reading = rows.all().readings.find(readingId);
        if (reading == nullptr || reading->shot != id) {
            return fail(ErrorCode::NotFound, said("{} has no reading number {}.",
                                                  shotName(rows.all(), shot), readingId.value));
        }
        shot.counting = readingId;
        if (shot.standing == ShotStanding::Open) {
            shot.standing = ShotStanding::Kept;
        }
        BOOST_OUTCOME_TRY(rows.change(shot));
        return Told{reading->reader.empty()
                        ? toKeep("The reading {}, reader not named, now counts for {}.",
                                 readingText(*reading), shotNameToKeep(rows.all(), shot))
                        : toKeep("The reading {} by {:s} now counts for {}.", readingText(*reading),
                                 reading->reader, shotNameToKeep(rows.all(), shot)),
                    {id}};
    });
}

Result<void> Store::setAside(ShotId id, const std::string& reason) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        shot.reason = trimmed(reason);
        if (shot.reason.empty()) {
            return fail(ErrorCode::InvalidInput,
                        said("Say why {} is set aside.", shotName(rows.all(), shot)));
        }
        shot.standing = ShotStanding::SetAside;
        BOOST_OUTCOME_TRY(rows.change(shot));
        return Told{toKeep("Set aside {}: {:s}.", shotNameToKeep(rows.all(), shot), shot.reason),
                    {id}};
    });
}

Result<void> Store::reopen(ShotId id) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        shot.standing = ShotStanding::Open;
        shot.reason.clear();
        shot.counting.reset();
        BOOST_OUTCOME_TRY(rows.change(shot));
        return Told{toKeep("Reopened {}.", shotNameToKeep(rows.all(), shot)), {id}};
    });
}

Result<void> Store::setDoubtful(ShotId id, bool doubtful) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        shot.doubtful = doubtful;
        BOOST_OUTCOME_TRY(rows.change(shot));
        return Told{doubtful ? toKeep("Marked {} as doubtful.", shotNameToKeep(rows.all(), shot))
                             : toKeep("No longer doubts {}.", shotNameToKeep(rows.all(), shot)),
                    {id}};
    });
}

Result<void> Store::addSecondLook(ShotId id, const std::string& reasons) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, rows.find(id));
        BOOST_OUTCOME_TRY(
            rows.removeIf<SecondLook>([id](const SecondLook& look) { return look.shot == id; }));
        BOOST_OUTCOME_TRY(rows.add(SecondLook{{}, id, trimmed(reasons)}));
        return Told{
            toKeep("Looked at {} again and kept it as it is.", shotNameToKeep(rows.all(), shot)),
            {id}};
    });
}

Result<void> Store::orderSecondReadings(std::span<const ShotId> ids) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        if (ids.empty()) {
            return fail(ErrorCode::InvalidInput, said("No shot was chosen. Choose at least one."));
        }
        std::vector<SecondReading> ordered;
        for (const ShotId id : ids) {
            BOOST_OUTCOME_TRY(rows.find(id));
            const auto position = static_cast<std::int64_t>(ordered.size()) + 1;
            ordered.push_back({{}, id, position, {}, std::nullopt});
        }
        if (std::set<ShotId>{ids.begin(), ids.end()}.size() != ids.size()) {
            return fail(ErrorCode::InvalidInput,
                        said("A shot is there twice in the list of those to read again."));
        }
        BOOST_OUTCOME_TRY(
            rows.removeIf<SecondReading>([](const SecondReading& each) { return !each.reading; }));
        BOOST_OUTCOME_TRY(rows.add(std::move(ordered)));
        // Which shots they are is not told: whoever reads them is not to know.
        return Told{
            toKeep("{} to be read again blind.", countToKeep(ids.size(), "shot is", "shots are")),
            {}};
    });
}

Result<void> Store::setSecondMarks(SecondReadingId id, const spin::MarkSet& marks) {
    return m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(second, waitingSecondReading(rows, id));
        second.marks = marks;
        BOOST_OUTCOME_TRY(rows.change(second));
        return Told{toKeep("Marked number {} of the blind second readings.", second.position), {}};
    });
}

Result<ReadingId> Store::keepSecondReading(SecondReadingId id, const Reading& reading) {
    ReadingId kept;
    BOOST_OUTCOME_TRY(m_project->edit([&](Rows& rows) -> Result<Told> {
        BOOST_OUTCOME_TRY(second, waitingSecondReading(rows, id));
        if (reading.shot != second.shot) {
            return fail(ErrorCode::InvalidInput,
                        said("The reading is of another shot than the second reading."));
        }
        BOOST_OUTCOME_TRY(shot, rows.find(second.shot));
        BOOST_OUTCOME_TRY(added, addedReading(rows, reading));
        kept = added.id;
        second.reading = added.id;
        BOOST_OUTCOME_TRY(rows.change(second));
        return Told{toKeep("Read {} again, blind: {}. It does not count so far.",
                           shotNameToKeep(rows.all(), shot), readingText(added)),
                    {shot.id}};
    }));
    return kept;
}

}  // namespace core::project
