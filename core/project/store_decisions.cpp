#include "core/project/store_rows.h"
#include "core/project/store_sentences.h"

/// Readings, and what was decided about shots.
namespace core::project {
namespace {

Result<void> checkReading(const Reading& reading) {
    const bool isOrdered = reading.interval95.low <= reading.interval95.high &&
                           (!reading.bounds || reading.bounds->low <= reading.bounds->high);
    if (reading.rate.sigma.rpm < 0.0 || reading.clockRelativeSigma < 0.0 || !isOrdered) {
        return fail(ErrorCode::OutOfRange,
                    "The reading has a negative uncertainty or an interval whose ends are "
                    "exchanged. It was not kept.");
    }
    return ok();
}

}  // namespace

/// The reading with number, reader and time, put into its table. Part of an edit.
Result<Reading> SqliteStore::addedReading(const Reading& reading) {
    Reading added = reading;
    BOOST_OUTCOME_TRY(id, nextId("reading"));
    added.id = {id};
    if (added.reader.empty()) {
        added.reader = m_working.reader;
    }
    if (added.madeAt.empty()) {
        added.madeAt = presentTime();
    }
    // NaN and infinity are refused when the row is made, before any comparison.
    BOOST_OUTCOME_TRY(rowToWrite(added));
    BOOST_OUTCOME_TRY(checkReading(added));
    BOOST_OUTCOME_TRY(addRow(added));
    return added;
}

Result<ReadingId> SqliteStore::addReading(const Reading& reading) {
    ReadingId id;
    BOOST_OUTCOME_TRY(edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(reading.shot));
        BOOST_OUTCOME_TRY(added, addedReading(reading));
        id = added.id;
        return Told{fmt::format("Read {} as {}; this reading does not count.",
                                shotName(m_working, shot), readingText(added)),
                    {shot.id}};
    }));
    return id;
}

Result<ReadingId> SqliteStore::keepReading(const Reading& reading) {
    Reading kept;
    BOOST_OUTCOME_TRY(edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(reading.shot));
        BOOST_OUTCOME_TRY(added, addedReading(reading));
        kept = added;
        shot.counting = kept.id;
        shot.standing = ShotStanding::Kept;
        shot.reason.clear();
        BOOST_OUTCOME_TRY(changeRows<Shot>({shot}));
        return Told{fmt::format("Kept {} for {}.", readingText(kept), shotName(m_working, shot)),
                    {shot.id}};
    }));
    return kept.id;
}

Result<void> SqliteStore::setCounting(ShotId id, ReadingId readingId) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(id));
        const Reading* reading = m_working.readings.find(readingId);
        if (reading == nullptr || reading->shot != id) {
            return fail(ErrorCode::NotFound,
                        fmt::format("{} has no reading number {}.", shotName(m_working, shot),
                                    readingId.value));
        }
        shot.counting = readingId;
        if (shot.standing == ShotStanding::Open) {
            shot.standing = ShotStanding::Kept;
        }
        BOOST_OUTCOME_TRY(changeRows<Shot>({shot}));
        return Told{fmt::format("Let the reading {} by {} count for {}.", readingText(*reading),
                                reading->reader.empty() ? "nobody named" : reading->reader,
                                shotName(m_working, shot)),
                    {id}};
    });
}

Result<void> SqliteStore::setAside(ShotId id, const std::string& reason) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(id));
        shot.reason = trimmed(reason);
        if (shot.reason.empty()) {
            return fail(ErrorCode::InvalidInput,
                        fmt::format("Say why {} is set aside.", shotName(m_working, shot)));
        }
        shot.standing = ShotStanding::SetAside;
        BOOST_OUTCOME_TRY(changeRows<Shot>({shot}));
        return Told{fmt::format("Set aside {}: {}.", shotName(m_working, shot), shot.reason), {id}};
    });
}

Result<void> SqliteStore::reopen(ShotId id) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(id));
        shot.standing = ShotStanding::Open;
        shot.reason.clear();
        shot.counting.reset();
        BOOST_OUTCOME_TRY(changeRows<Shot>({shot}));
        return Told{fmt::format("Opened {} again.", shotName(m_working, shot)), {id}};
    });
}

Result<void> SqliteStore::setDoubtful(ShotId id, bool doubtful) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(id));
        shot.doubtful = doubtful;
        BOOST_OUTCOME_TRY(changeRows<Shot>({shot}));
        return Told{doubtful ? fmt::format("Marked {} as doubtful.", shotName(m_working, shot))
                             : fmt::format("No longer doubts {}.", shotName(m_working, shot)),
                    {id}};
    });
}

}  // namespace core::project
