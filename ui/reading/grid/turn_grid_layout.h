#pragma once

#include <QPointF>
#include <QRectF>
#include <QSizeF>
#include <optional>
#include <vector>

#include "core/timebase/frame_time.h"

namespace ui::reading {

/// A frame and its capture time, in seconds after the reference of the grid (the start, or the
/// first frame of the shot).
struct TimedFrame {
    core::timebase::FrameIndex frame;
    double secondsFromReference{};
};

/// What decides where the pictures of a turn grid lie. Lengths in widget pixels.
struct TurnGridInput {
    std::vector<TimedFrame> frames;  ///< ascending in time
    double rowSeconds{};             ///< length of a row: the time of one turn at the present rate
    double frameSeconds{};           ///< the usual frame interval of the clip
    double widthPx{};                ///< of the place to fill
    double gutterPx{};               ///< kept free at the left for the turn numbers
    double captionPx{};              ///< kept free below each picture
    double maxCellPx{120.0};         ///< largest picture
    struct Scale {
        double pxPerSecond{};
        double cellPx{};
        double leadSeconds{};  ///< by which a row begins before a whole number of turns
        bool operator==(const Scale&) const = default;
    };
    /// While the row length is being dragged the scale stays as it was; beside another grid it is
    /// that of the other.
    std::optional<Scale> fixedScale;
    struct Rows {
        int first{};
        int last{};
        bool operator==(const Rows&) const = default;
    };
    /// Rows that are there in any case: those of two grids then lie at the same height.
    std::optional<Rows> rowsAtLeast;
};

struct GridCell {
    core::timebase::FrameIndex frame;
    int row{};                    ///< whole turns after the reference, by the nearest frame
    double turnsFromReference{};  ///< at the present rate
    QRectF rect;                  ///< the picture
};

/// A place where a frame should have been: dropped by the camera or by an editor.
struct GridHole {
    int row{};
    QPointF centre;
};

/// Where every frame of a shot lies when one row is one turn. Immutable value.
///
/// The position along a row is proportional to capture time, never to the frame number. A row
/// begins half a frame interval before a whole number of turns, so that its first picture is the
/// one nearest to the attitude of the reference:
///
///     row n:  [ n - d/2 , n + 1 - d/2 )  turns,  d = frameSeconds / rowSeconds
class TurnGridLayout {
public:
    TurnGridLayout() = default;
    /// rowSeconds, frameSeconds and widthPx must be positive.
    explicit TurnGridLayout(const TurnGridInput& input);

    [[nodiscard]] const std::vector<GridCell>& cells() const noexcept { return m_cells; }
    [[nodiscard]] const std::vector<GridHole>& holes() const noexcept { return m_holes; }
    [[nodiscard]] double cellPx() const noexcept { return m_cellPx; }
    [[nodiscard]] TurnGridInput::Scale scale() const noexcept;
    [[nodiscard]] QSizeF size() const noexcept { return m_size; }
    [[nodiscard]] int firstRow() const noexcept { return m_firstRow; }
    [[nodiscard]] int lastRow() const noexcept { return m_lastRow; }
    /// Those that have pictures; absent where there are none.
    [[nodiscard]] std::optional<TurnGridInput::Rows> ownRows() const noexcept;
    [[nodiscard]] double rowTopPx(int row) const noexcept;
    /// Centre of a picture that shows exactly the attitude of the reference.
    [[nodiscard]] double referenceXPx() const noexcept { return m_referenceXPx; }
    /// One turn after referenceXPx: where the handle for the row length stands.
    [[nodiscard]] double rowEndXPx() const noexcept;
    /// Where a picture taken this many seconds after the reference would have its centre.
    [[nodiscard]] QPointF placeAt(double secondsFromReference) const noexcept;
    [[nodiscard]] const GridCell* cellAt(QPointF point) const noexcept;
    [[nodiscard]] const GridCell* cellOf(core::timebase::FrameIndex frame) const noexcept;

private:
    void chooseScale(const TurnGridInput& input);
    [[nodiscard]] int rowOf(double turns) const noexcept;
    [[nodiscard]] QPointF centreOf(double turns) const noexcept;
    void placeFrames(const TurnGridInput& input);
    void placeHoles(const TurnGridInput& input);

    std::vector<GridCell> m_cells;
    std::vector<GridHole> m_holes;
    QSizeF m_size;
    double m_cellPx{};
    double m_rowPitchPx{};
    double m_pxPerSecond{};
    double m_pxPerTurn{};
    double m_halfIntervalTurns{};
    double m_referenceXPx{};
    int m_firstRow{};
    int m_lastRow{};
};

}  // namespace ui::reading
