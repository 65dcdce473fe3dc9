#pragma once

#include <QObject>
#include <QPointF>
#include <memory>
#include <optional>

#include "core/project/store.h"
#include "ui/reading/card/headline.h"
#include "ui/reading/shot/shot_view.h"

namespace ui::reading {

/// The shot under review and the place in it: what all parts of the reading screen share. Confined
/// to the thread of the store.
///
/// Marks and decisions go straight to the store; this object holds only what is not part of the
/// project: the current frame and the row length of the grid.
class ReadingDesk : public QObject {
    Q_OBJECT

public:
    /// reader: reads the pictures of the open shot; null: they are not read. Must outlive the desk.
    explicit ReadingDesk(core::project::Store& store, PictureReader* reader = nullptr,
                         QObject* parent = nullptr);
    ~ReadingDesk() override;

    /// From now on pictures are looked up and never read: for a shot that is only looked at.
    void setOnlyLooking() noexcept { m_isOnlyLooking = true; }
    void openShot(core::project::ShotId shot);
    /// Opens the shot of a second reading, without what is known of it.
    void openSecond(core::project::SecondReadingId second);
    /// Whether views say whose shot it is.
    void setNamesHidden(bool hidden);
    [[nodiscard]] bool isBlind() const noexcept { return m_second.has_value(); }
    [[nodiscard]] bool hasShot() const noexcept { return m_view.has_value(); }
    /// There must be a shot.
    [[nodiscard]] const ShotView& view() const;
    [[nodiscard]] core::project::Store& store() noexcept { return m_store; }

    [[nodiscard]] core::timebase::FrameIndex frame() const noexcept { return m_frame; }
    /// Clamped to the shot.
    void goToFrame(core::timebase::FrameIndex frame);
    void stepFrames(int frames);
    /// To the frame nearest to this many turns from here at the present row length.
    void stepTurns(int turns);
    /// Where the ball is in the current frame.
    [[nodiscard]] std::optional<BallRing> ballNow() const;

    /// Time of one turn at the present rate of the grid, always positive.
    [[nodiscard]] double rowSeconds() const noexcept { return m_rowSeconds; }
    void setRowSeconds(double seconds);
    void rowFromReading();
    /// Whole turns from the start to this frame as the grid shows them, at least 1.
    [[nodiscard]] int gridTurns(core::timebase::FrameIndex frame) const;

    void toggleStart(core::timebase::FrameIndex frame);
    void toggleReturn(core::timebase::FrameIndex frame);
    void toggleBracket(core::timebase::FrameIndex before);
    void setTurns(core::timebase::FrameIndex frame, int turns);
    void setAngle(core::timebase::FrameIndex frame, core::Radians counterClockwise);
    void removeAngle(core::timebase::FrameIndex frame);
    /// The ball in the current frame. Errors, which failed() says too: Contradiction for a kept
    /// shot, whose number would change; InvalidInput for a place far from the ball's path, which is
    /// taken when it is given a second time; those of the store.
    core::Result<void> setBall(BallRing place);

    /// Whose number keep() keeps (methodToKeep()).
    [[nodiscard]] std::optional<Method> method() const;
    /// For the open shot, until it is left or marked anew. A shot that was kept from its pictures
    /// opens with them chosen, whatever is marked on it.
    void chooseMethod(Method method);
    /// False, with failed() said, when there is nothing to keep.
    bool keep();
    /// Says what the reader should do, where failures are said.
    void advise(const QString& what) { Q_EMIT failed(what); }
    bool setAside(const QString& reason);
    void reopen();
    void toggleDoubtful();
    /// The shot is being left for another: what happens to it now is not shown any more.
    void setLeaving(bool leaving) noexcept { m_isLeaving = leaving; }

Q_SIGNALS:
    void shotOpened(core::project::ShotId shot);
    /// The shot that was open is gone.
    void shotClosed();
    /// What the store says of the shot has changed, or another shot is open.
    void viewChanged();
    /// The current frame is about to be another: what is being set in it should be set now.
    void leavingFrame();
    void frameChanged();
    void rowChanged();
    /// Something could not be done, in words; empty text: the last remark is settled.
    void failed(const QString& message);

private:
    /// Where the row length comes from; a neutral one says nothing about turns.
    enum class RowOrigin { Neutral, Reading, Tuned };

    void wantPictures(core::project::ShotId shot);
    void onPicturesRead(core::project::ShotId shot);
    void refreshView();
    void onStoreChange(const core::project::Store::Change& change);
    void rebuild(core::project::ShotId shot);
    void useKeptPictures();
    void adoptRowLength();
    void open(core::project::ShotId shot);
    void putMarks(const core::spin::MarkSet& marks);
    core::Result<void> checkBall(const BallRing& place);
    bool report(const core::Result<void>& result);

    core::project::Store& m_store;
    PictureReader* m_reader;
    std::optional<ShotView> m_view;
    std::optional<core::project::SecondReadingId> m_second;  ///< the shot is read blind
    bool m_areNamesHidden{false};
    bool m_isOnlyLooking{false};
    bool m_isLeaving{false};
    std::shared_ptr<const KeptPictures> m_kept;  ///< of m_keptOf, looked up while its film is gone
    std::optional<core::project::ShotId> m_keptOf;
    core::timebase::FrameIndex m_frame;
    std::optional<core::timebase::FrameIndex> m_openedAt;  ///< until a person goes elsewhere
    std::optional<Method> m_chosenMethod;
    std::optional<BallRing> m_farBall;  ///< in this frame; it was asked whether it is meant
    double m_rowSeconds;
    RowOrigin m_rowOrigin{RowOrigin::Neutral};
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::reading
