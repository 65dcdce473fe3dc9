#include "core/project/store/open_project.h"

#include "core/base/expects.h"
#include "core/base/guarded.h"
#include "core/base/words.h"
#include "core/project/text.h"

namespace core::project {

SnapshotPtr Rows::snapshot() {
    if (m_shared == nullptr) {
        m_shared = std::make_shared<const Snapshot>(m_all);
    }
    return m_shared;
}

void Rows::restore(SnapshotPtr snapshot) {
    m_all = *snapshot;
    m_shared = std::move(snapshot);
}

Result<void> Rows::reload(const TouchedRows& touched) {
    for (const auto& [table, ids] : touched) {
        if (const Kind& kind = kindOfTable(table); kind.load != nullptr) {
            BOOST_OUTCOME_TRY(kind.load(m_database, &ids, inMemory()));
        }
    }
    return ok();
}

OpenProject::OpenProject(std::unique_ptr<OpenFileClaim> claim, std::unique_ptr<WriterLock> lock,
                         std::unique_ptr<Database> database, Snapshot snapshot)
    : m_claim{std::move(claim)},
      m_lock{std::move(lock)},
      m_database{std::move(database)},
      m_rows{*m_database, std::move(snapshot)} {
    if (const auto version = m_database->dataVersion()) {  // else the first edit fails and says so
        m_dataVersion = version.value();
    }
}

/// Does the work in the file and in the memory, or, when it fails, in neither.
Result<void> OpenProject::transact(const std::function<Result<void>()>& work) {
    const SnapshotPtr before = m_rows.snapshot();
    const bool isOuter = !m_database->isInTransaction();
    const auto attempt = [&]() -> Result<void> {
        BOOST_OUTCOME_TRY(transaction, Transaction::begin(*m_database));
        if (isOuter) {
            BOOST_OUTCOME_TRY(checkNobodyElseWrote());
        }
        BOOST_OUTCOME_TRY(work());
        return transaction->commit();
    };
    Result<void> done = guarded(attempt);
    if (!done) {
        m_rows.restore(before);
        m_frames.clear();  // the number of a clip that was taken back may be given again
    }
    if (isOuter) {
        noteDisk(done);
    }
    return done;
}

/// A refusal for another reason says nothing about the disk.
void OpenProject::noteDisk(const Result<void>& done) {
    const bool isRefused = !done && done.error().code == ErrorCode::WriteFailed;
    const std::string trouble = isRefused ? done.error().message : done ? "" : m_diskTrouble;
    if (trouble == m_diskTrouble) {
        return;
    }
    m_diskTrouble = trouble;
    const std::list<Store::DiskListener> listeners = *m_diskListeners;  // one may leave meanwhile
    for (const Store::DiskListener& listener : listeners) {
        if (listener) {
            listener(trouble);
        }
    }
}

std::shared_ptr<void> OpenProject::listenToDisk(Store::DiskListener listener) {
    m_diskListeners->push_back(std::move(listener));
    const auto place = std::prev(m_diskListeners->end());
    return {static_cast<void*>(nullptr),
            [listeners = m_diskListeners, place](void* /*unused*/) { listeners->erase(place); }};
}

Result<Told> OpenProject::perform(const Work& work) {
    struct Deeper {
        int& depth;
        explicit Deeper(int& counted) : depth{counted} { ++depth; }
        ~Deeper() { --depth; }
    };
    const Deeper deeper{m_depth};
    return work(m_rows);
}

Result<void> OpenProject::edit(const Work& work) {
    if (m_depth > 0) {
        const std::size_t shotsBefore = m_shotsOfStep.size();
        Result<void> done = transact([&]() -> Result<void> {
            BOOST_OUTCOME_TRY(told, perform(work));
            m_shotsOfStep.insert(m_shotsOfStep.end(), told.shots.begin(), told.shots.end());
            return ok();
        });
        if (!done) {
            m_shotsOfStep.resize(shotsBefore);
        }
        return done;
    }
    m_shotsOfStep.clear();
    const SnapshotPtr before = m_rows.snapshot();
    TouchedRows touched;
    BOOST_OUTCOME_TRY(transact([&]() -> Result<void> {
        BOOST_OUTCOME_TRY(recorder, ChangeRecorder::start(*m_database, undoableTables()));
        BOOST_OUTCOME_TRY(told, perform(work));
        BOOST_OUTCOME_TRY(rows, recordStep(*recorder, told, before->reader));
        touched = std::move(rows);
        return ok();
    }));
    if (touched.empty()) {
        m_rows.restore(before);
    } else {
        publish(*before, touched);
    }
    return ok();
}

Result<void> OpenProject::together(const std::string& sentence,
                                   const std::function<Result<void>()>& edits) {
    if (!isPlainText(sentence) || trimmed(sentence).empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("The sentence for the history is empty or no text."));
    }
    return edit([&](Rows& /*rows*/) -> Result<Told> {
        BOOST_OUTCOME_TRY(edits());
        return Told{sentence, m_depth == 1 ? m_shotsOfStep : std::vector<ShotId>{}};
    });
}

Result<void> OpenProject::note(const std::function<Result<void>(Rows&)>& work) {
    CORE_EXPECTS(m_depth == 0);
    return transact([&] { return work(m_rows); });
}

Result<void> OpenProject::noteAndTell(const std::function<Result<TouchedRows>(Rows&)>& work) {
    CORE_EXPECTS(m_depth == 0);
    const SnapshotPtr before = m_rows.snapshot();
    TouchedRows touched;
    BOOST_OUTCOME_TRY(transact([&]() -> Result<void> {
        BOOST_OUTCOME_TRY(done, work(m_rows));
        touched = std::move(done);
        return ok();
    }));
    publish(*before, touched);
    return ok();
}

/// The lock says who may write; a program that does not know it may have written all the same, and
/// then the memory is of another state than the file.
Result<void> OpenProject::checkNobodyElseWrote() {
    BOOST_OUTCOME_TRY(version, m_database->dataVersion());
    if (version != m_dataVersion) {
        return fail(ErrorCode::Contradiction,
                    said("{} was changed by another program while it was open here. Nothing "
                         "was written. Close the project and open it again.",
                         m_database->file().string()));
    }
    return ok();
}

Result<bool> OpenProject::refresh() {
    if (m_database->readOnlyReason().empty()) {
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
    const SnapshotPtr before = m_rows.snapshot();
    m_rows.restore(std::make_shared<const Snapshot>(std::move(fresh).value()));
    TouchedRows everything;
    for (const Kind& kind : kinds()) {
        std::set<std::int64_t>& ids = everything[kind.table];
        if (kind.addIds != nullptr) {
            kind.addIds(*before, ids);
            kind.addIds(m_rows.all(), ids);
        }
    }
    publish(*before, everything);
    return true;
}

Result<std::shared_ptr<const ClipFrames>> OpenProject::clipFrames(ClipId id) {
    BOOST_OUTCOME_TRY(clip, m_rows.find(id));
    if (auto held = m_frames[id].lock()) {
        return held;
    }
    BOOST_OUTCOME_TRY(found, select<FramesOfClip>(*m_database, " WHERE clip_id = ?", {id.value}));
    if (found.empty()) {
        return fail(ErrorCode::Damaged,
                    said("{} is damaged: the time stamps of clip {} are missing. Restore a "
                         "copy of the file.",
                         m_database->file().string(), clip.path));
    }
    auto frames = std::make_shared<const ClipFrames>(std::move(found.front().frames));
    m_frames[id] = frames;
    return frames;
}

std::shared_ptr<void> OpenProject::listen(Store::Listener listener) {
    CORE_EXPECTS(listener != nullptr);
    m_listeners->push_back(std::move(listener));
    const auto place = std::prev(m_listeners->end());
    // The token may outlive the store. The place stays in the list, empty, so that a listener may
    // leave while changes are being delivered.
    return {static_cast<void*>(nullptr),
            [listeners = m_listeners, place](void* /*unused*/) { *place = nullptr; }};
}

void OpenProject::publish(const Snapshot& before, const TouchedRows& touched) {
    Store::Change change;
    change.snapshot = m_rows.snapshot();
    for (const auto& [table, ids] : touched) {
        if (const Kind& kind = kindOfTable(table); kind.tell != nullptr) {
            kind.tell(ids, change);
        }
    }
    for (const ReadingId id : change.readings) {
        const Reading* reading = change.snapshot->readings.find(id);
        reading = reading != nullptr ? reading : before.readings.find(id);
        if (reading != nullptr) {
            change.shots.push_back(reading->shot);
        }
    }
    std::sort(change.shots.begin(), change.shots.end());
    change.shots.erase(std::unique(change.shots.begin(), change.shots.end()), change.shots.end());
    change.structure = change.sessions || change.implements || change.hitters || change.cells;
    change.allShots = change.clips || change.sessions;
    m_undelivered.push_back(std::move(change));
    deliver();
}

void OpenProject::deliver() {
    if (m_isDelivering) {
        return;  // an edit made by a listener; the outer call delivers it after this change
    }
    m_isDelivering = true;
    while (!m_undelivered.empty()) {
        const Store::Change change = std::move(m_undelivered.front());
        m_undelivered.pop_front();
        for (const Store::Listener& listener : *m_listeners) {
            if (const Store::Listener current = listener) {  // a copy: it may leave meanwhile
                current(change);
            }
        }
    }
    m_isDelivering = false;
    m_listeners->remove_if([](const Store::Listener& listener) { return !listener; });
}

// The store as such; its edits are in the other sources.

Store::Store(std::unique_ptr<OpenProject> project) : m_project{std::move(project)} {}

Store::~Store() = default;

std::filesystem::path Store::file() const {
    return m_project->database().file();
}
SnapshotPtr Store::snapshot() const {
    return m_project->rows().snapshot();
}
const std::string& Store::readOnlyReason() const {
    return m_project->database().readOnlyReason();
}
const std::string& Store::diskTrouble() const {
    return m_project->diskTrouble();
}
std::shared_ptr<void> Store::listenToDisk(DiskListener listener) {
    return m_project->listenToDisk(std::move(listener));
}
Result<bool> Store::refresh() {
    return m_project->refresh();
}
std::shared_ptr<void> Store::listen(Listener listener) {
    return m_project->listen(std::move(listener));
}
Result<void> Store::together(const std::string& historySentence,
                             const std::function<Result<void>()>& edits) {
    return m_project->together(historySentence, edits);
}

}  // namespace core::project
