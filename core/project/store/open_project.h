#pragma once

#include <list>

#include "core/project/file/file_check.h"
#include "core/project/file/writer_lock.h"
#include "core/project/store/rows.h"

namespace core::project {

/// What is behind a Store: the file, its rows, the steps of undo, and who listens. Private to
/// core/project; the edits themselves are in the sources beside this one, by subject.
class OpenProject {
public:
    /// lock: null for a store that is open to read.
    OpenProject(std::unique_ptr<OpenFileClaim> claim, std::unique_ptr<WriterLock> lock,
                std::unique_ptr<Database> database, Snapshot snapshot);

    /// What an edit did, for the history.
    struct Told {
        std::string sentence;
        std::vector<ShotId> shots;
    };
    using Work = std::function<Result<Told>(Rows&)>;
    /// Runs an edit as one transaction and one step, or as a part of the step that is being made.
    /// An edit that changes nothing leaves no step and no line.
    Result<void> edit(const Work& work);
    Result<void> together(const std::string& sentence, const std::function<Result<void>()>& edits);
    /// Runs bookkeeping as one transaction: neither step nor line, and nobody is told.
    Result<void> note(const std::function<Result<void>(Rows&)>& work);
    /// The same, but those who listen are told what was touched.
    Result<void> noteAndTell(const std::function<Result<TouchedRows>(Rows&)>& work);

    /// Writes the first line of the history of a new file.
    Result<void> startHistory();
    enum class Direction { Back, Forth };
    /// Errors: NotFound when there is no such step.
    Result<void> move(Direction direction);
    [[nodiscard]] std::optional<std::string> textOfStep(Direction direction);

    [[nodiscard]] Rows& rows() noexcept { return m_rows; }
    [[nodiscard]] Database& database() noexcept { return *m_database; }
    Result<std::shared_ptr<const ClipFrames>> clipFrames(ClipId id);
    Result<bool> refresh();
    [[nodiscard]] std::shared_ptr<void> listen(Store::Listener listener);
    [[nodiscard]] const std::string& diskTrouble() const noexcept { return m_diskTrouble; }
    [[nodiscard]] std::shared_ptr<void> listenToDisk(Store::DiskListener listener);

private:
    Result<void> transact(const std::function<Result<void>()>& work);
    void noteDisk(const Result<void>& done);
    Result<Told> perform(const Work& work);
    Result<TouchedRows> recordStep(ChangeRecorder& recorder, const Told& told,
                                   const std::string& reader);
    Result<TouchedRows> moveInside(Direction direction);
    /// reader: who marked before the edit.
    Result<void> appendHistory(const Told& told, const std::string& reader);
    /// Errors: Contradiction when another program has written into the file meanwhile.
    Result<void> checkNobodyElseWrote();
    void publish(const Snapshot& before, const TouchedRows& touched);
    void deliver();

    std::unique_ptr<OpenFileClaim> m_claim;  // outlives the database: the lock goes first
    std::unique_ptr<WriterLock> m_lock;      // outlives the database as well
    std::unique_ptr<Database> m_database;
    Rows m_rows;
    std::int64_t m_dataVersion{};  ///< of what is in the memory
    int m_depth{};                 ///< of edits inside edits
    std::vector<ShotId> m_shotsOfStep;
    std::map<ClipId, std::weak_ptr<const ClipFrames>> m_frames;

    std::shared_ptr<std::list<Store::Listener>> m_listeners{
        std::make_shared<std::list<Store::Listener>>()};
    std::list<Store::Change> m_undelivered;
    bool m_isDelivering{};
    std::string m_diskTrouble;
    std::shared_ptr<std::list<Store::DiskListener>> m_diskListeners{
        std::make_shared<std::list<Store::DiskListener>>()};
};

using Told = OpenProject::Told;

/// The place in the steps of undo. Errors: Damaged when it is lost.
Result<UndoPosition> undoPosition(Database& database);

}  // namespace core::project
