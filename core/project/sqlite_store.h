#pragma once

#include <list>
#include <map>
#include <set>

#include "core/project/changeset.h"
#include "core/project/database.h"
#include "core/project/entity_rows.h"
#include "core/project/file_check.h"
#include "core/project/store.h"
#include "core/project/writer_lock.h"

/// The store on SQLite. Private to core/project; spread over several sources by subject.
namespace core::project {

/// The whole content of a file that is open. Errors: Damaged with table, row and reason.
Result<Snapshot> loadSnapshot(Database& database);

/// Reads the settings anew. Errors: Damaged.
Result<void> reloadSettings(Database& database, Snapshot& snapshot);

/// The place in a snapshot where entities of a kind are kept.
template <class Entity>
Table<Entity>& tableOf(Snapshot& snapshot);

class SqliteStore final : public Store {
public:
    /// lock: null for a store that is open to read.
    SqliteStore(std::unique_ptr<OpenFileClaim> claim, std::unique_ptr<WriterLock> lock,
                std::unique_ptr<Database> database, Snapshot snapshot);

    [[nodiscard]] std::filesystem::path file() const override { return m_database->file(); }
    [[nodiscard]] SnapshotPtr snapshot() const override { return m_snapshot; }
    [[nodiscard]] const std::string& readOnlyReason() const override {
        return m_database->readOnlyReason();
    }
    Result<bool> refresh() override;
    [[nodiscard]] std::shared_ptr<void> listen(Listener listener) override;

    Result<SessionId> addSession(const Session& session) override;
    Result<void> changeSession(const Session& session) override;
    Result<ImplementId> addImplement(const Implement& implement) override;
    Result<void> changeImplement(const Implement& implement) override;
    Result<HitterId> addHitter(const Hitter& hitter) override;
    Result<void> changeHitter(const Hitter& hitter) override;
    Result<CellId> cellFor(SessionId session, ImplementId implement, HitterId hitter) override;

    Result<void> setPlan(const plan::Plan& plan) override;

    Result<ClipId> addClip(const Clip& clip, const ClipFrames& frames) override;
    Result<void> setClipClock(ClipId clip, std::vector<timebase::CaptureRateEvidence> evidence,
                              std::optional<ClockSetting> clock,
                              std::vector<ClipRemark> clockRemarks) override;
    Result<void> setSearchedForShots(ClipId clip) override;
    Result<void> setClipPath(ClipId clip, const std::string& path) override;
    Result<void> removeClip(ClipId clip) override;
    [[nodiscard]] Result<std::shared_ptr<const ClipFrames>> clipFrames(ClipId clip) const override;

    Result<std::vector<ShotId>> addShots(std::span<const Shot> shots) override;
    Result<void> setShotRange(ShotId shot, timebase::FrameIndex first, timebase::FrameIndex last,
                              std::optional<timebase::FrameIndex> strike) override;
    Result<void> removeShots(std::span<const ShotId> shots) override;
    Result<void> addCorrections(std::span<const ShotCorrection> corrections) override;
    Result<void> assignShots(std::span<const ShotId> shots, std::optional<CellId> cell) override;
    Result<void> setClicks(ShotId shot, std::vector<BallClick> clicks) override;
    Result<void> setMarks(ShotId shot, const spin::MarkSet& marks) override;

    Result<ReadingId> keepReading(const Reading& reading) override;
    Result<ReadingId> addReading(const Reading& reading) override;
    Result<void> setCounting(ShotId shot, ReadingId reading) override;
    Result<void> setAside(ShotId shot, const std::string& reason) override;
    Result<void> reopen(ShotId shot) override;
    Result<void> setDoubtful(ShotId shot, bool doubtful) override;

    Result<void> addSecondLook(ShotId shot, const std::string& reasons) override;
    Result<void> orderSecondReadings(std::span<const ShotId> shots) override;
    Result<void> setSecondMarks(SecondReadingId second, const spin::MarkSet& marks) override;
    Result<ReadingId> keepSecondReading(SecondReadingId second, const Reading& reading) override;

    Result<void> setReader(const std::string& reader) override;
    Result<void> setSetting(const std::string& key, const std::string& value) override;
    Result<void> noteSetting(const std::string& key, const std::string& value) override;

    Result<void> noteArchive(ShotId shot, const PictureArchive& archive) override;
    [[nodiscard]] Result<std::optional<PictureArchive>> archiveOf(ShotId shot) const override;

    Result<void> noteEvidence(ShotId shot, PictureEvidence evidence) override;
    [[nodiscard]] Result<std::optional<PictureEvidence>> evidenceOf(ShotId shot) const override;
    [[nodiscard]] Result<std::vector<EvidenceSize>> evidenceSizes() const override;
    Result<void> dropEvidence(std::span<const ShotId> shots) override;

    Result<void> noteEfforts(std::span<const ReadingEffort> visits) override;

    Result<void> together(const std::string& historySentence,
                          const std::function<Result<void>()>& edits) override;

    [[nodiscard]] std::optional<std::string> undoText() const override;
    [[nodiscard]] std::optional<std::string> redoText() const override;
    Result<void> undo() override;
    Result<void> redo() override;

    [[nodiscard]] Result<std::vector<HistoryEntry>> history() const override;
    [[nodiscard]] Result<std::vector<HistoryEntry>> historyOf(ShotId shot) const override;
    [[nodiscard]] Result<std::vector<std::string>> faults() const override;

    /// Writes the first line of the history of a new file.
    Result<void> startHistory();

private:
    /// What an edit did, for the history.
    struct Told {
        std::string sentence;
        std::vector<ShotId> shots;
    };
    using Work = std::function<Result<Told>()>;
    enum class Direction { Back, Forth };

    // The edit machinery, sqlite_store.cpp and store_history.cpp.
    /// Runs an edit as one transaction and one step, or as a part of the step that is being made.
    /// An edit that changes nothing leaves no step and no line.
    Result<void> edit(const Work& work);
    Result<void> editInside(const Work& work);
    /// Runs bookkeeping as one transaction: neither step nor line, and nobody is told.
    Result<void> note(const std::function<Result<void>()>& work);
    void forget(const SnapshotPtr& before, const Snapshot& workingBefore);
    Result<TouchedRows> recordStep(ChangeRecorder& recorder, const Told& told);
    Result<void> move(Direction direction);
    Result<TouchedRows> moveInside(Direction direction);
    Result<std::int64_t> position() const;
    Result<void> setPosition(std::int64_t step);
    std::optional<std::string> textOfStep(const char* whichStep) const;
    Result<void> appendHistory(const Told& told);
    Result<std::vector<HistoryEntry>> historyWhere(const std::string& condition,
                                                   const Row& parameters) const;
    /// Errors: Contradiction when another program has written into the file meanwhile.
    Result<void> checkNobodyElseWrote();
    void publish(const TouchedRows& touched);
    void deliver();

    // Rows, both in the file and in m_working.
    Result<std::int64_t> nextId(const std::string& table) const;
    template <class Entity>
    Result<void> insert(const Entity& entity);
    template <class Entity>
    Result<void> update(const Entity& entity);
    template <class Entity>
    Result<void> erase(std::int64_t id);
    template <class Entity>
    Result<void> addRow(const Entity& entity);
    template <class Entity>
    Result<void> changeRows(std::vector<Entity> entities);
    template <class Entity>
    Result<void> removeRows(std::vector<Id<Entity>> ids);
    template <class Entity>
    Result<void> reloadRows(const std::set<std::int64_t>& ids);
    Result<void> reload(const TouchedRows& touched);

    // Look-ups that say what is missing. Errors: NotFound.
    Result<Clip> clipOf(ClipId id) const;
    Result<Shot> shotOf(ShotId id) const;
    Result<std::vector<Shot>> shotsOf(std::span<const ShotId> ids) const;

    Result<void> checkSession(Session& session) const;
    Result<void> checkImplement(Implement& implement) const;
    Result<void> checkHitter(Hitter& hitter) const;
    Result<void> checkNewClip(const Clip& clip, const ClipFrames& frames) const;
    Result<void> checkShot(const Shot& shot) const;
    Result<void> renumberShots(ClipId clip);
    Result<Reading> addedReading(const Reading& reading);
    Result<SecondReading> secondReadingOf(SecondReadingId id) const;
    Result<void> writeSetting(const std::string& key, const std::string& value);

    std::unique_ptr<OpenFileClaim> m_claim;  // outlives the database: the lock goes first
    std::unique_ptr<WriterLock> m_lock;      // outlives the database as well
    std::unique_ptr<Database> m_database;
    std::int64_t m_dataVersion{};  ///< of what is in the memory
    SnapshotPtr m_snapshot;
    Snapshot m_working;  ///< as m_snapshot, and ahead of it while an edit runs
    int m_depth{};       ///< of edits inside edits
    std::vector<ShotId> m_shotsOfStep;
    mutable std::map<ClipId, std::weak_ptr<const ClipFrames>> m_frames;

    std::shared_ptr<std::list<Listener>> m_listeners{std::make_shared<std::list<Listener>>()};
    std::list<Change> m_undelivered;
    bool m_isDelivering{};
};

}  // namespace core::project
