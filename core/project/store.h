#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/project/picture_evidence.h"
#include "core/project/snapshot.h"

namespace core::project {

/// The single source of truth: one project file (SQLite, layout in FORMAT.md). Confined to one
/// thread; the snapshots it hands out are immutable and may go anywhere.
///
/// Every edit is one transaction, one step of undo and one line of history, and is on the disk when
/// the call returns. Undo and redo survive closing. After each edit, undo and redo the listeners
/// are called with the new snapshot.
class Store {
public:
    /// What changed, by entity; an empty list of shots with allShots set means "look at all".
    struct Change {
        SnapshotPtr snapshot;
        std::vector<ShotId> shots;
        bool allShots{};
        bool clips{};
        bool structure{};  ///< sessions, implements, hitters, cells
        bool settings{};
        bool plan{};
        bool secondLooks{};
        bool secondReadings{};
    };
    using Listener = std::function<void(const Change&)>;

    /// A new, empty project; the file is there complete or not at all. Errors: InvalidInput when
    /// the file exists, or a journal of a project that was moved away; WriteFailed.
    static Result<std::unique_ptr<Store>> create(const std::filesystem::path& file);
    /// An older format is brought up to date, with a copy beside the file (FORMAT.md R05).
    /// Errors: NotFound; Unreadable; ForeignFile; NewerVersion (file untouched); Damaged (file
    /// untouched, says what is wrong); Busy (another program, or this one, has it open: who, on
    /// what machine, since when); WriteFailed (write-protected).
    static Result<std::unique_ptr<Store>> open(const std::filesystem::path& file);
    /// To look at only, also while another program has it open for writing; nothing is written to
    /// the file or beside it, but for R06. Every edit fails as Busy and says who has it, as
    /// readOnlyReason() does. Errors: those of open(); Unsupported for an older format, which has
    /// to be brought up to date first.
    static Result<std::unique_ptr<Store>> openReadOnly(const std::filesystem::path& file);
    /// As openReadOnly(), but an older format is brought up to date first, for which the file must
    /// be free.
    static Result<std::unique_ptr<Store>> openToRead(const std::filesystem::path& file);
    virtual ~Store() = default;

    [[nodiscard]] virtual std::filesystem::path file() const = 0;
    [[nodiscard]] virtual SnapshotPtr snapshot() const = 0;
    /// Why nothing can be changed, for people; empty when it can.
    [[nodiscard]] virtual const std::string& readOnlyReason() const = 0;
    /// Takes in what another program has written since, for a store that is open to read; listeners
    /// are told. False when there was nothing. Errors: Damaged, Busy.
    virtual Result<bool> refresh() = 0;
    /// Listeners are called in the order in which they were added, on the calling thread.
    /// The returned token removes the listener when destroyed.
    [[nodiscard]] virtual std::shared_ptr<void> listen(Listener listener) = 0;

    // Errors of all edits, besides those named: NotFound for an id that the project does not have;
    // OutOfRange for a frame outside its clip and for numbers that cannot be; NotFinite;
    // InvalidInput for a text that is not UTF-8; WriteFailed when the disk refuses. A failed edit
    // changes nothing. An edit that changes nothing succeeds and leaves neither step nor line.

    // Structure. Names are trimmed; an empty or repeated name is InvalidInput. Implements may share
    // a name when their conditions differ ("new", "worn").
    virtual Result<SessionId> addSession(const Session& session) = 0;
    virtual Result<void> changeSession(const Session& session) = 0;
    virtual Result<ImplementId> addImplement(const Implement& implement) = 0;
    virtual Result<void> changeImplement(const Implement& implement) = 0;
    virtual Result<HitterId> addHitter(const Hitter& hitter) = 0;
    virtual Result<void> changeHitter(const Hitter& hitter) = 0;
    /// The cell of the three, made when there is none (part of the calling edit's history line).
    virtual Result<CellId> cellFor(SessionId session, ImplementId implement, HitterId hitter) = 0;

    /// Replaces the plan of the filming day. Errors: those of plan::checkPlan().
    virtual Result<void> setPlan(const plan::Plan& plan) = 0;

    // Clips. A clip with a fingerprint that the project already has is InvalidInput, named.
    virtual Result<ClipId> addClip(const Clip& clip, const ClipFrames& frames) = 0;
    /// Replaces evidence, clock and the remarks on it. Kept readings stay as they were read; Doubts
    /// compares.
    virtual Result<void> setClipClock(ClipId clip,
                                      std::vector<timebase::CaptureRateEvidence> evidence,
                                      std::optional<ClockSetting> clock,
                                      std::vector<ClipRemark> clockRemarks) = 0;
    /// Shots were looked for in the clip by sound and movement.
    virtual Result<void> setSearchedForShots(ClipId clip) = 0;
    virtual Result<void> setClipPath(ClipId clip, const std::string& path) = 0;
    virtual Result<void> removeClip(ClipId clip) = 0;
    /// Time stamps of a clip, read from the file on demand. Errors: NotFound, Damaged.
    [[nodiscard]] virtual Result<std::shared_ptr<const ClipFrames>> clipFrames(
        ClipId clip) const = 0;

    // Shots.
    virtual Result<std::vector<ShotId>> addShots(std::span<const Shot> shots) = 0;
    virtual Result<void> setShotRange(ShotId shot, timebase::FrameIndex first,
                                      timebase::FrameIndex last,
                                      std::optional<timebase::FrameIndex> strike) = 0;
    virtual Result<void> removeShots(std::span<const ShotId> shots) = 0;
    /// Notes what a person did about shots of a clip; part of the edit that did it.
    virtual Result<void> addCorrections(std::span<const ShotCorrection> corrections) = 0;
    virtual Result<void> assignShots(std::span<const ShotId> shots, std::optional<CellId> cell) = 0;
    virtual Result<void> setClicks(ShotId shot, std::vector<BallClick> clicks) = 0;
    /// The sentence for the history is made from the difference to the marks before.
    virtual Result<void> setMarks(ShotId shot, const spin::MarkSet& marks) = 0;

    // Readings and decisions.
    /// Adds a reading, makes it the counting one and the shot Kept. One step of undo.
    virtual Result<ReadingId> keepReading(const Reading& reading) = 0;
    /// Adds a reading that does not count and changes nothing else about the shot.
    virtual Result<ReadingId> addReading(const Reading& reading) = 0;
    /// Makes an existing reading of the shot the counting one. An open shot is Kept then; one that
    /// was set aside stays so.
    virtual Result<void> setCounting(ShotId shot, ReadingId reading) = 0;
    /// reason must not be empty.
    virtual Result<void> setAside(ShotId shot, const std::string& reason) = 0;
    /// Back to Open: no reason, and no reading counts. The readings stay.
    virtual Result<void> reopen(ShotId shot) = 0;
    virtual Result<void> setDoubtful(ShotId shot, bool doubtful) = 0;

    // Doubts.
    /// Somebody looked again and nothing had to be changed; in the place of earlier looks at it.
    virtual Result<void> addSecondLook(ShotId shot, const std::string& reasons) = 0;
    /// These shots are to be read again in this order. Those that still wait from before are
    /// forgotten, those that are done stay. InvalidInput when a shot is there twice.
    virtual Result<void> orderSecondReadings(std::span<const ShotId> shots) = 0;
    virtual Result<void> setSecondMarks(SecondReadingId second, const spin::MarkSet& marks) = 0;
    /// The reading of its shot that it led to; added, not counting. Errors: InvalidInput for the
    /// reading of another shot, or when it is done already.
    virtual Result<ReadingId> keepSecondReading(SecondReadingId second, const Reading& reading) = 0;

    // Settings of the project, for example "noticeable_step_rpm". The key "reader" is reserved.
    virtual Result<void> setReader(const std::string& reader) = 0;
    virtual Result<void> setSetting(const std::string& key, const std::string& value) = 0;
    /// A setting that is bookkeeping and no edit, such as how often something was looked at: no
    /// step of undo, no line of history, nobody is told, the revision stays. Not inside together().
    virtual Result<void> noteSetting(const std::string& key, const std::string& value) = 0;

    /// Keeps what was read from the pictures of a shot ahead of its review, in the place of what
    /// was kept before: bookkeeping like noteSetting(). What is kept for shots that are gone goes.
    virtual Result<void> noteArchive(ShotId shot, const PictureArchive& archive) = 0;
    /// Absent when nothing is kept. Errors: Damaged.
    [[nodiscard]] virtual Result<std::optional<PictureArchive>> archiveOf(ShotId shot) const = 0;

    /// Keeps the pictures that stand behind the readings of a shot, in the place of earlier ones:
    /// bookkeeping like noteSetting(). There must be a picture.
    virtual Result<void> noteEvidence(ShotId shot, PictureEvidence evidence) = 0;
    /// Absent when nothing is kept. Errors: Damaged.
    [[nodiscard]] virtual Result<std::optional<PictureEvidence>> evidenceOf(ShotId shot) const = 0;
    /// By shot.
    [[nodiscard]] virtual Result<std::vector<EvidenceSize>> evidenceSizes() const = 0;
    /// Lets pictures go for good, and makes the file shorter. Not undoable.
    virtual Result<void> dropEvidence(std::span<const ShotId> shots) = 0;

    /// Notes visits of a person to shots, in the order of the visits: bookkeeping like
    /// noteSetting(), one commit. An empty reader is who marks now; ids are given. They are in the
    /// snapshot from then on. OutOfRange for negative counts or times.
    virtual Result<void> noteEfforts(std::span<const ReadingEffort> visits) = 0;

    /// Runs several edits as one transaction, one step of undo and one history line.
    /// When the function fails nothing is changed.
    virtual Result<void> together(const std::string& historySentence,
                                  const std::function<Result<void>()>& edits) = 0;

    // Undo. Not inside together(). NotFound when there is nothing to undo or redo. The texts are
    // the history sentences of the step that would be undone or redone.
    [[nodiscard]] virtual std::optional<std::string> undoText() const = 0;
    [[nodiscard]] virtual std::optional<std::string> redoText() const = 0;
    virtual Result<void> undo() = 0;
    virtual Result<void> redo() = 0;

    [[nodiscard]] virtual Result<std::vector<HistoryEntry>> history() const = 0;
    [[nodiscard]] virtual Result<std::vector<HistoryEntry>> historyOf(ShotId shot) const = 0;

    /// Integrity of the file: SQLite's own check, foreign keys, and the rules of FORMAT.md.
    /// One sentence per fault; empty when sound.
    [[nodiscard]] virtual Result<std::vector<std::string>> faults() const = 0;
};

}  // namespace core::project
