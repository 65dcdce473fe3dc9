#include "core/project/store_rows.h"

/// What reading cost a person.
namespace core::project {

Result<void> SqliteStore::noteEfforts(std::span<const ReadingEffort> visits) {
    if (visits.empty()) {
        return ok();
    }
    return note([&]() -> Result<void> {
        for (ReadingEffort visit : visits) {
            if (visit.keys < 0 || visit.clicks < 0 || visit.activeSeconds < 0.0) {
                return fail(ErrorCode::OutOfRange,
                            fmt::format("A visit to shot {} has a negative count or time. It was "
                                        "not noted.",
                                        visit.shot.value));
            }
            BOOST_OUTCOME_TRY(id, nextId("reading_effort"));
            visit.id = {id};
            if (visit.reader.empty()) {
                visit.reader = m_working.reader;
            }
            BOOST_OUTCOME_TRY(addRow(visit));
        }
        return ok();
    });
}

}  // namespace core::project
