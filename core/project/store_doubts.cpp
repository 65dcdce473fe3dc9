#include <set>

#include "core/project/store_rows.h"
#include "core/project/store_sentences.h"

/// Second looks and second readings.
namespace core::project {

Result<void> SqliteStore::addSecondLook(ShotId id, const std::string& reasons) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shot, shotOf(id));
        std::vector<SecondLookId> earlier;
        for (const SecondLook& look : m_working.secondLooks) {
            if (look.shot == id) {
                earlier.push_back(look.id);
            }
        }
        BOOST_OUTCOME_TRY(removeRows<SecondLook>(std::move(earlier)));
        BOOST_OUTCOME_TRY(number, nextId("second_look"));
        BOOST_OUTCOME_TRY(addRow(SecondLook{{number}, id, trimmed(reasons)}));
        return Told{
            fmt::format("Looked at {} again and kept it as it is.", shotName(m_working, shot)),
            {id}};
    });
}

Result<void> SqliteStore::orderSecondReadings(std::span<const ShotId> ids) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(shots, shotsOf(ids));
        if (std::set<ShotId>{ids.begin(), ids.end()}.size() != ids.size()) {
            return fail(ErrorCode::InvalidInput,
                        "A shot is there twice in the list of those to read again.");
        }
        std::vector<SecondReadingId> waiting;
        for (const SecondReading* each : waitingSecondReadings(m_working)) {
            waiting.push_back(each->id);
        }
        BOOST_OUTCOME_TRY(removeRows<SecondReading>(std::move(waiting)));
        std::int64_t position = 0;
        for (const ShotId id : ids) {
            BOOST_OUTCOME_TRY(number, nextId("second_reading"));
            BOOST_OUTCOME_TRY(addRow(SecondReading{{number}, id, ++position, {}, std::nullopt}));
        }
        // Which shots they are is not told: whoever reads them is not to know.
        return Told{shots.empty()
                        ? std::string{"No shots are to be read again blind any more."}
                        : fmt::format("{} shots are to be read again blind.", shots.size()),
                    {}};
    });
}

Result<SecondReading> SqliteStore::secondReadingOf(SecondReadingId id) const {
    const SecondReading* second = m_working.secondReadings.find(id);
    if (second == nullptr) {
        return fail(ErrorCode::NotFound,
                    fmt::format("There is no second reading number {} in the project.", id.value));
    }
    if (second->reading) {
        return fail(ErrorCode::InvalidInput,
                    "This second reading is done already. Begin another one.");
    }
    return *second;
}

Result<void> SqliteStore::setSecondMarks(SecondReadingId id, const spin::MarkSet& marks) {
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(second, secondReadingOf(id));
        second.marks = marks;
        BOOST_OUTCOME_TRY(changeRows<SecondReading>({second}));
        return Told{fmt::format("Marked number {} of the blind second readings.", second.position),
                    {}};
    });
}

Result<ReadingId> SqliteStore::keepSecondReading(SecondReadingId id, const Reading& reading) {
    ReadingId kept;
    BOOST_OUTCOME_TRY(edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(second, secondReadingOf(id));
        if (reading.shot != second.shot) {
            return fail(ErrorCode::InvalidInput,
                        "The reading is of another shot than the second reading.");
        }
        BOOST_OUTCOME_TRY(shot, shotOf(second.shot));
        BOOST_OUTCOME_TRY(added, addedReading(reading));
        kept = added.id;
        second.reading = added.id;
        BOOST_OUTCOME_TRY(changeRows<SecondReading>({second}));
        return Told{fmt::format("Read {} again, blind: {}. It does not count so far.",
                                shotName(m_working, shot), readingText(added)),
                    {shot.id}};
    }));
    return kept;
}

}  // namespace core::project
