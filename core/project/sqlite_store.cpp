#include "core/project/sqlite_store.h"

#include "core/base/expects.h"
#include "core/project/store_rows.h"

namespace core::project {

SqliteStore::SqliteStore(std::unique_ptr<OpenFileClaim> claim, std::unique_ptr<WriterLock> lock,
                         std::unique_ptr<Database> database, Snapshot snapshot)
    : m_claim{std::move(claim)},
      m_lock{std::move(lock)},
      m_database{std::move(database)},
      m_snapshot{std::make_shared<const Snapshot>(snapshot)},
      m_working{std::move(snapshot)} {
    if (const auto version = m_database->dataVersion()) {  // else the first edit fails and says so
        m_dataVersion = version.value();
    }
}

std::shared_ptr<void> SqliteStore::listen(Listener listener) {
    CORE_EXPECTS(listener != nullptr);
    m_listeners->push_back(std::move(listener));
    const auto place = std::prev(m_listeners->end());
    // The token may outlive the store. The place stays in the list, empty, so that a listener may
    // leave while changes are being delivered.
    return {static_cast<void*>(nullptr),
            [listeners = m_listeners, place](void* /*unused*/) { *place = nullptr; }};
}

Result<void> SqliteStore::edit(const Work& work) {
    if (m_depth > 0) {
        return editInside(work);
    }
    m_shotsOfStep.clear();
    const SnapshotPtr before = m_snapshot;
    const auto perform = [&]() -> Result<TouchedRows> {
        BOOST_OUTCOME_TRY(transaction, Transaction::begin(*m_database));
        BOOST_OUTCOME_TRY(checkNobodyElseWrote());
        BOOST_OUTCOME_TRY(recorder, ChangeRecorder::start(*m_database));
        ++m_depth;
        Result<Told> told = work();
        --m_depth;
        if (!told) {
            return told.error();
        }
        BOOST_OUTCOME_TRY(touched, recordStep(*recorder, told.value()));
        BOOST_OUTCOME_TRY(transaction->commit());
        return touched;
    };
    Result<TouchedRows> touched = perform();
    if (!touched) {
        forget(before, *before);
        return touched.error();
    }
    if (!touched.value().empty()) {
        publish(touched.value());
    }
    return ok();
}

Result<void> SqliteStore::editInside(const Work& work) {
    const SnapshotPtr before = m_snapshot;
    const Snapshot workingBefore = m_working;
    const std::size_t shotsBefore = m_shotsOfStep.size();
    const auto perform = [&]() -> Result<void> {
        BOOST_OUTCOME_TRY(savepoint, Transaction::begin(*m_database));
        ++m_depth;
        Result<Told> told = work();
        --m_depth;
        if (!told) {
            return told.error();
        }
        m_shotsOfStep.insert(m_shotsOfStep.end(), told.value().shots.begin(),
                             told.value().shots.end());
        return savepoint->commit();
    };
    Result<void> performed = perform();
    if (!performed) {
        forget(before, workingBefore);
        m_shotsOfStep.resize(shotsBefore);
        return performed;
    }
    m_snapshot = std::make_shared<const Snapshot>(m_working);
    return ok();
}

Result<void> SqliteStore::together(const std::string& historySentence,
                                   const std::function<Result<void>()>& edits) {
    if (!isPlainText(historySentence) || trimmed(historySentence).empty()) {
        return fail(ErrorCode::InvalidInput, "The sentence for the history is empty or no text.");
    }
    return edit([&]() -> Result<Told> {
        BOOST_OUTCOME_TRY(edits());
        return Told{historySentence, m_depth == 1 ? m_shotsOfStep : std::vector<ShotId>{}};
    });
}

Result<void> SqliteStore::note(const std::function<Result<void>()>& work) {
    CORE_EXPECTS(m_depth == 0);
    const SnapshotPtr before = m_snapshot;
    const auto perform = [&]() -> Result<void> {
        BOOST_OUTCOME_TRY(transaction, Transaction::begin(*m_database));
        BOOST_OUTCOME_TRY(checkNobodyElseWrote());
        BOOST_OUTCOME_TRY(work());
        return transaction->commit();
    };
    Result<void> performed = perform();
    if (!performed) {
        forget(before, *before);
        return performed;
    }
    m_snapshot = std::make_shared<const Snapshot>(m_working);
    return ok();
}

/// The lock says who may write; a program that does not know it may have written all the same, and
/// then the memory is of another state than the file.
Result<void> SqliteStore::checkNobodyElseWrote() {
    BOOST_OUTCOME_TRY(version, m_database->dataVersion());
    if (version != m_dataVersion) {
        return fail(ErrorCode::Contradiction,
                    fmt::format("{} was changed by another program while it was open here. Nothing "
                                "was written. Close the project and open it again.",
                                file().string()));
    }
    return ok();
}

Result<bool> SqliteStore::refresh() {
    if (readOnlyReason().empty()) {
        return false;
    }
    BOOST_OUTCOME_TRY(version, m_database->dataVersion());
    if (version == m_dataVersion) {
        return false;
    }
    BOOST_OUTCOME_TRY(m_database->execute("BEGIN"));
    Result<Snapshot> fresh = loadSnapshot(*m_database);
    BOOST_OUTCOME_TRY(m_database->execute("COMMIT"));
    if (!fresh) {
        return fresh.error();
    }
    m_dataVersion = version;
    m_frames.clear();
    m_working = std::move(fresh).value();
    m_snapshot = std::make_shared<const Snapshot>(m_working);
    m_undelivered.push_back({.snapshot = m_snapshot,
                             .shots = {},
                             .allShots = true,
                             .clips = true,
                             .structure = true,
                             .settings = true,
                             .plan = true});
    deliver();
    return true;
}

/// The memory after an edit that was taken back in the file.
void SqliteStore::forget(const SnapshotPtr& before, const Snapshot& workingBefore) {
    m_snapshot = before;
    m_working = workingBefore;
    m_frames.clear();  // the number of a clip that was taken back may be given again
}

Result<std::int64_t> SqliteStore::nextId(const std::string& table) const {
    BOOST_OUTCOME_TRY(rows,
                      m_database->query("SELECT seq FROM sqlite_sequence WHERE name = ?", {table}));
    if (rows.empty()) {
        return std::int64_t{1};
    }
    const auto* last = std::get_if<std::int64_t>(&rows.front().front());
    return last != nullptr ? *last + 1 : std::int64_t{1};
}

template <class Entity>
Result<void> SqliteStore::reloadRows(const std::set<std::int64_t>& ids) {
    std::vector<Entity> present;
    std::vector<Id<Entity>> absent;
    for (const std::int64_t id : ids) {
        BOOST_OUTCOME_TRY(rows, m_database->query(selectRows<Entity>() + " WHERE id = ?", {id}));
        if (rows.empty()) {
            absent.push_back({id});
            continue;
        }
        BOOST_OUTCOME_TRY(entity, entityFrom<Entity>(*m_database, std::move(rows.front())));
        present.push_back(std::move(entity));
    }
    Table<Entity>& table = tableOf<Entity>(m_working);
    table = table.changed(std::move(present), std::move(absent));
    return ok();
}

Result<void> SqliteStore::reload(const TouchedRows& touched) {
    for (const auto& [table, ids] : touched) {
        if (table == RowsOf<Session>::table) {
            BOOST_OUTCOME_TRY(reloadRows<Session>(ids));
        } else if (table == RowsOf<Implement>::table) {
            BOOST_OUTCOME_TRY(reloadRows<Implement>(ids));
        } else if (table == RowsOf<Hitter>::table) {
            BOOST_OUTCOME_TRY(reloadRows<Hitter>(ids));
        } else if (table == RowsOf<Cell>::table) {
            BOOST_OUTCOME_TRY(reloadRows<Cell>(ids));
        } else if (table == RowsOf<Clip>::table) {
            BOOST_OUTCOME_TRY(reloadRows<Clip>(ids));
        } else if (table == RowsOf<Shot>::table) {
            BOOST_OUTCOME_TRY(reloadRows<Shot>(ids));
        } else if (table == RowsOf<Reading>::table) {
            BOOST_OUTCOME_TRY(reloadRows<Reading>(ids));
        } else if (table == RowsOf<ShotCorrection>::table) {
            BOOST_OUTCOME_TRY(reloadRows<ShotCorrection>(ids));
        } else if (table == RowsOf<PlanRecord>::table) {
            BOOST_OUTCOME_TRY(reloadRows<PlanRecord>(ids));
        } else if (table == RowsOf<SecondLook>::table) {
            BOOST_OUTCOME_TRY(reloadRows<SecondLook>(ids));
        } else if (table == RowsOf<SecondReading>::table) {
            BOOST_OUTCOME_TRY(reloadRows<SecondReading>(ids));
        } else if (table == RowsOf<Setting>::table) {
            BOOST_OUTCOME_TRY(reloadSettings(*m_database, m_working));
        }  // time stamps are read on demand
    }
    return ok();
}

void SqliteStore::publish(const TouchedRows& touched) {
    const SnapshotPtr before = m_snapshot;
    m_snapshot = std::make_shared<const Snapshot>(m_working);
    Change change{.snapshot = m_snapshot, .shots = {}};
    std::set<ShotId> shots;
    for (const auto& [table, ids] : touched) {
        const bool isClip = table == RowsOf<Clip>::table;
        const bool isSession = table == RowsOf<Session>::table;
        change.clips |= isClip;
        change.settings |= table == RowsOf<Setting>::table;
        change.plan |= table == RowsOf<PlanRecord>::table;
        change.secondLooks |= table == RowsOf<SecondLook>::table;
        change.secondReadings |= table == RowsOf<SecondReading>::table;
        change.structure |= isSession || table == RowsOf<Implement>::table ||
                            table == RowsOf<Hitter>::table || table == RowsOf<Cell>::table;
        change.allShots |= isClip || isSession;  // clock, marking, exposure: what a shot reads as
        for (const std::int64_t id : ids) {
            if (table == RowsOf<Shot>::table) {
                shots.insert({id});
            } else if (table == RowsOf<Reading>::table) {
                const Reading* reading = m_snapshot->readings.find({id});
                reading = reading != nullptr ? reading : before->readings.find({id});
                if (reading != nullptr) {
                    shots.insert(reading->shot);
                }
            }
        }
    }
    change.shots.assign(shots.begin(), shots.end());
    m_undelivered.push_back(std::move(change));
    deliver();
}

void SqliteStore::deliver() {
    if (m_isDelivering) {
        return;  // an edit made by a listener; the outer call delivers it after this change
    }
    m_isDelivering = true;
    while (!m_undelivered.empty()) {
        const Change change = std::move(m_undelivered.front());
        m_undelivered.pop_front();
        for (const Listener& listener : *m_listeners) {
            if (const Listener current = listener) {  // a copy: the listener may leave meanwhile
                current(change);
            }
        }
    }
    m_isDelivering = false;
    m_listeners->remove_if([](const Listener& listener) { return !listener; });
}

}  // namespace core::project
