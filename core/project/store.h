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
#include "core/project/snapshot.h"
#include "core/project/stored_pictures.h"

namespace core::project {

class OpenProject;

/// The single source of truth: one project file (SQLite, layout in FORMAT.md). Confined to one
/// thread; the snapshots it hands out are immutable and may go anywhere.
///
/// Every edit is one transaction, one step of undo and one line of history, and is on the disk when
/// the call returns. Undo and redo survive closing. After each edit, undo and redo the listeners
/// are called with the new snapshot.
class Store {
public:
    /// What an edit, undo or redo touched: of every kind the ids that were added, changed or
    /// removed. `shots` names those with a touched reading as well.
    struct Change : OfEachKind<Ids> {
        SnapshotPtr snapshot;
        bool settings{};
        bool structure{};  ///< sessions, implements, hitters or cells
        bool allShots{};  ///< clips or sessions: clock, marking, exposure, what shots are read with
    };
    using Listener = std::function<void(const Change&)>;
    using DiskListener = std::function<void(const std::string& trouble)>;

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
    explicit Store(std::unique_ptr<OpenProject> project);
    ~Store();
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;

    [[nodiscard]] std::filesystem::path file() const;
    [[nodiscard]] SnapshotPtr snapshot() const;
    /// Why nothing can be changed, for people; empty when it can.
    [[nodiscard]] const std::string& readOnlyReason() const;
    /// Takes in what another program has written since, for a store that is open to read; listeners
    /// are told. False when there was nothing. Errors: Damaged, Busy.
    Result<bool> refresh();
    /// Listeners are called in the order in which they were added, on the calling thread.
    /// The returned token removes the listener when destroyed.
    [[nodiscard]] std::shared_ptr<void> listen(Listener listener);

    /// Why the last thing that was to be kept could not be written, as the edit itself said; empty
    /// when it could.
    [[nodiscard]] const std::string& diskTrouble() const;
    /// Called with diskTrouble() whenever it has changed, on the calling thread of the edit. The
    /// token removes the listener when destroyed.
    [[nodiscard]] std::shared_ptr<void> listenToDisk(DiskListener listener);

    // Errors of all edits, besides those named: NotFound for an id that the project does not have;
    // OutOfRange for a frame outside its clip and for numbers that cannot be; NotFinite;
    // InvalidInput for a text that is not UTF-8; WriteFailed when the disk refuses. A failed edit
    // changes nothing. An edit that changes nothing succeeds and leaves neither step nor line.

    // Structure. Names are trimmed; an empty or repeated name is InvalidInput. Implements may share
    // a name when their conditions differ ("new", "worn").
    Result<SessionId> addSession(const Session& session);
    Result<void> changeSession(const Session& session);
    Result<ImplementId> addImplement(const Implement& implement);
    Result<void> changeImplement(const Implement& implement);
    Result<HitterId> addHitter(const Hitter& hitter);
    /// The cell of the three, made when there is none (part of the calling edit's history line).
    Result<CellId> cellFor(SessionId session, ImplementId implement, HitterId hitter);

    /// Replaces the plan of the filming day. Errors: those of plan::checkPlan().
    Result<void> setPlan(const plan::Plan& plan);

    // Clips. A clip with a fingerprint that the project already has is InvalidInput, named.
    Result<ClipId> addClip(const Clip& clip, const ClipFrames& frames);
    /// Replaces evidence, clock and the remarks on it. Kept readings stay as they were read; Doubts
    /// compares.
    Result<void> setClipClock(ClipId clip, std::vector<timebase::CaptureRateEvidence> evidence,
                              std::optional<ClockSetting> clock,
                              std::vector<ClipRemark> clockRemarks);
    /// Shots were looked for in the clip by sound and movement.
    Result<void> setSearchedForShots(ClipId clip);
    Result<void> setClipPath(ClipId clip, const std::string& path);
    /// Turns pictures clockwise, by 0, 90, 180 or 270 degrees from what the file says, with
    /// everything that was pointed at or marked in them. Kept readings stay as they were read.
    Result<void> turnClips(std::span<const ClipId> clips, int degrees);
    /// Into another filming day, with their shots and what these are assigned to.
    Result<void> moveClips(std::span<const ClipId> clips, SessionId session);
    /// With their shots, readings, marks and corrections. The files stay where they are.
    Result<void> removeClips(std::span<const ClipId> clips);
    /// Time stamps of a clip, read from the file on demand. Errors: NotFound, Damaged.
    [[nodiscard]] Result<std::shared_ptr<const ClipFrames>> clipFrames(ClipId clip) const;

    // Shots.
    Result<std::vector<ShotId>> addShots(std::span<const Shot> shots);
    Result<void> setShotRange(ShotId shot, timebase::FrameIndex first, timebase::FrameIndex last,
                              std::optional<timebase::FrameIndex> strike);
    Result<void> removeShots(std::span<const ShotId> shots);
    /// Notes what a person did about shots of a clip; part of the edit that did it.
    Result<void> addCorrections(std::span<const ShotCorrection> corrections);
    Result<void> assignShots(std::span<const ShotId> shots, std::optional<CellId> cell);
    Result<void> setClicks(ShotId shot, std::vector<BallClick> clicks);
    /// A person's words about a shot, trimmed; empty takes them away.
    Result<void> setShotNote(ShotId shot, const std::string& note);
    /// What these shots say of their stroke; absent: as on their filming day.
    Result<void> setShotStroke(std::span<const ShotId> shots, std::optional<Stroke> stroke);
    /// The sentence for the history is made from the difference to the marks before.
    Result<void> setMarks(ShotId shot, const spin::MarkSet& marks);

    // Readings and decisions.
    /// Adds a reading, makes it the counting one and the shot Kept. One step of undo.
    Result<ReadingId> keepReading(const Reading& reading);
    /// The same for shots at once, each with one reading.
    Result<std::vector<ReadingId>> keepReadings(std::span<const Reading> readings);
    /// Makes an existing reading of the shot the counting one. An open shot is Kept then; one that
    /// was set aside stays so.
    Result<void> setCounting(ShotId shot, ReadingId reading);
    /// reason must not be empty.
    Result<void> setAside(ShotId shot, const std::string& reason);
    /// Back to Open: no reason, and no reading counts. The readings stay.
    Result<void> reopen(ShotId shot);
    Result<void> setDoubtful(ShotId shot, bool doubtful);

    // Doubts.
    /// Somebody looked again and nothing had to be changed; in the place of earlier looks at it.
    Result<void> addSecondLook(ShotId shot, const std::string& reasons);
    /// These shots are to be read again in this order. Those that still wait from before are
    /// forgotten, those that are done stay. InvalidInput when a shot is there twice.
    Result<void> orderSecondReadings(std::span<const ShotId> shots);
    Result<void> setSecondMarks(SecondReadingId second, const spin::MarkSet& marks);
    /// The reading of its shot that it led to; added, not counting. Errors: InvalidInput for the
    /// reading of another shot, or when it is done already.
    Result<ReadingId> keepSecondReading(SecondReadingId second, const Reading& reading);

    // Settings of the project, for example "noticeable_step_rpm". The key "reader" is reserved.
    Result<void> setReader(const std::string& reader);
    Result<void> setSetting(const std::string& key, const std::string& value);
    /// A setting that is bookkeeping and no edit, such as how often something was looked at: no
    /// step of undo, no line of history, nobody is told, the revision stays. Not inside together().
    Result<void> noteSetting(const std::string& key, const std::string& value);

    /// What the flight of a shot says against the clock of its clip; empty: nothing any more. Like
    /// noteSetting(), but listeners are told: the shots stay out of the summary
    /// (clock_refutation.h).
    Result<void> noteRefutation(ShotId shot, const std::string& statement);

    /// Keeps what was read from the pictures of a shot ahead of its review, in the place of what
    /// was kept before: bookkeeping like noteSetting(). What is kept for shots that are gone goes.
    Result<void> noteArchive(ShotId shot, const PictureArchive& archive);
    /// Absent when nothing is kept. Errors: Damaged.
    [[nodiscard]] Result<std::optional<PictureArchive>> archiveOf(ShotId shot) const;

    /// Keeps the pictures that stand behind the readings of a shot, in the place of earlier ones:
    /// bookkeeping like noteSetting(). There must be a picture.
    Result<void> notePictures(ShotId shot, StoredPictures pictures);
    /// Absent when nothing is kept. Errors: Damaged.
    [[nodiscard]] Result<std::optional<StoredPictures>> picturesOf(ShotId shot) const;
    /// By shot.
    [[nodiscard]] Result<std::vector<StoredSize>> pictureSizes() const;
    /// Lets pictures go for good, and makes the file shorter. Not undoable.
    Result<void> dropPictures(std::span<const ShotId> shots);

    /// Notes visits of a person to shots, in the order of the visits: bookkeeping like
    /// noteSetting(), one commit. An empty reader is who marks now; ids are given. They are in the
    /// snapshot from then on. OutOfRange for negative counts or times.
    Result<void> noteEfforts(std::span<const ReadingEffort> visits);

    /// Runs several edits as one transaction, one step of undo and one history line, whose sentence
    /// is in kept words (core/base/kept_words.h). When the function fails nothing is changed.
    Result<void> together(const std::string& historySentence,
                          const std::function<Result<void>()>& edits);

    // Undo. Not inside together(). NotFound when there is nothing to undo or redo. The texts are
    // the history sentences of the step that would be undone or redone, in the language of the
    // person, as are those of the history.
    [[nodiscard]] std::optional<std::string> undoText() const;
    [[nodiscard]] std::optional<std::string> redoText() const;
    Result<void> undo();
    Result<void> redo();

    [[nodiscard]] Result<std::vector<HistoryEntry>> history() const;
    [[nodiscard]] Result<std::vector<HistoryEntry>> historyOf(ShotId shot) const;

    /// Integrity of the file: SQLite's own check, foreign keys, and the rules of FORMAT.md.
    /// One sentence per fault; empty when sound.
    [[nodiscard]] Result<std::vector<std::string>> faults() const;

private:
    std::unique_ptr<OpenProject> m_project;  ///< SQLite stays in there
};

}  // namespace core::project
