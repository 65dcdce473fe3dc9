#include "ui/reading/grid/turn_grid_layout.h"

#include <algorithm>
#include <cmath>

#include "core/base/expects.h"

namespace ui::reading {
namespace {

constexpr double kMarginPx = 8.0;
constexpr double kRightPx = 24.0;  // room for the handle at the end of the rows
constexpr double kRowGapPx = 8.0;
constexpr double kMinCellPx = 30.0;
constexpr double kTightPitch = 1.06;  // pictures of neighbouring frames nearly touch
constexpr double kWidePitch = 1.35;   // further apart the eye loses the column
constexpr double kHoleIntervals = 1.5;

}  // namespace

TurnGridLayout::TurnGridLayout(const TurnGridInput& input) {
    CORE_EXPECTS(input.rowSeconds > 0.0 && input.frameSeconds > 0.0 && input.widthPx > 0.0);
    const double leadSeconds =
        input.fixedScale ? input.fixedScale->leadSeconds : 0.5 * input.frameSeconds;
    m_halfIntervalTurns = leadSeconds / input.rowSeconds;
    chooseScale(input);
    if (!input.frames.empty()) {
        m_firstRow = rowOf(input.frames.front().secondsFromReference / input.rowSeconds);
        m_lastRow = rowOf(input.frames.back().secondsFromReference / input.rowSeconds);
    }
    if (input.rowsAtLeast) {
        m_firstRow = std::min(m_firstRow, input.rowsAtLeast->first);
        m_lastRow = std::max(m_lastRow, input.rowsAtLeast->last);
    }
    placeFrames(input);
    placeHoles(input);
    m_size = {rowEndXPx() + kRightPx, rowTopPx(m_lastRow + 1)};
}

void TurnGridLayout::chooseScale(const TurnGridInput& input) {
    const double framesPerTurn = input.rowSeconds / input.frameSeconds;
    const double width = input.widthPx - input.gutterPx - kMarginPx - kRightPx;
    // From the middle of the first picture to the handle: half an interval and a turn.
    const double pitches = framesPerTurn + 0.5;
    m_cellPx = std::floor(std::clamp(width / (kTightPitch * pitches + 0.5), kMinCellPx,
                                     std::max(kMinCellPx, input.maxCellPx)));
    const double pitch = std::clamp((width - m_cellPx / 2.0) / pitches, kTightPitch * m_cellPx,
                                    kWidePitch * m_cellPx);
    m_pxPerTurn = framesPerTurn * pitch;
    if (input.fixedScale) {
        m_cellPx = input.fixedScale->cellPx;
        m_pxPerTurn = input.fixedScale->pxPerSecond * input.rowSeconds;
    }
    m_rowPitchPx = m_cellPx + input.captionPx + kRowGapPx;
    m_pxPerSecond = m_pxPerTurn / input.rowSeconds;
    m_referenceXPx =
        input.gutterPx + kMarginPx + m_cellPx / 2.0 + m_halfIntervalTurns * m_pxPerTurn;
}

int TurnGridLayout::rowOf(double turns) const noexcept {
    return static_cast<int>(std::floor(turns + m_halfIntervalTurns));
}

QPointF TurnGridLayout::centreOf(double turns) const noexcept {
    const int row = rowOf(turns);
    return {m_referenceXPx + (turns - row) * m_pxPerTurn, rowTopPx(row) + m_cellPx / 2.0};
}

std::optional<TurnGridInput::Rows> TurnGridLayout::ownRows() const noexcept {
    return m_cells.empty()
               ? std::nullopt
               : std::optional{TurnGridInput::Rows{m_cells.front().row, m_cells.back().row}};
}

TurnGridInput::Scale TurnGridLayout::scale() const noexcept {
    return {m_pxPerSecond, m_cellPx,
            m_pxPerSecond > 0.0 ? m_halfIntervalTurns * m_pxPerTurn / m_pxPerSecond : 0.0};
}

double TurnGridLayout::rowTopPx(int row) const noexcept {
    return kMarginPx + (row - m_firstRow) * m_rowPitchPx;
}

double TurnGridLayout::rowEndXPx() const noexcept {
    return m_referenceXPx + m_pxPerTurn;
}

void TurnGridLayout::placeFrames(const TurnGridInput& input) {
    m_cells.reserve(input.frames.size());
    for (const TimedFrame& timed : input.frames) {
        const double turns = timed.secondsFromReference / input.rowSeconds;
        const QPointF centre = centreOf(turns);
        const QPointF half{m_cellPx / 2.0, m_cellPx / 2.0};
        m_cells.push_back({timed.frame, rowOf(turns), turns, QRectF{centre - half, centre + half}});
    }
}

void TurnGridLayout::placeHoles(const TurnGridInput& input) {
    for (std::size_t k = 1; k < input.frames.size(); ++k) {
        const double before = input.frames[k - 1].secondsFromReference;
        const double gap = input.frames[k].secondsFromReference - before;
        if (gap < kHoleIntervals * input.frameSeconds) {
            continue;
        }
        const auto intervals = static_cast<int>(std::lround(gap / input.frameSeconds));
        for (int missing = 1; missing < intervals; ++missing) {
            const double turns = (before + gap * missing / intervals) / input.rowSeconds;
            m_holes.push_back({rowOf(turns), centreOf(turns)});
        }
    }
}

QPointF TurnGridLayout::placeAt(double secondsFromReference) const noexcept {
    return centreOf(secondsFromReference * m_pxPerSecond / m_pxPerTurn);
}

const GridCell* TurnGridLayout::cellAt(QPointF point) const noexcept {
    // From the end: where pictures overlap, the later one is painted on top.
    const auto found = std::find_if(m_cells.rbegin(), m_cells.rend(),
                                    [&](const GridCell& c) { return c.rect.contains(point); });
    return found == m_cells.rend() ? nullptr : &*found;
}

const GridCell* TurnGridLayout::cellOf(core::timebase::FrameIndex frame) const noexcept {
    const auto found = std::find_if(m_cells.begin(), m_cells.end(),
                                    [&](const GridCell& c) { return c.frame == frame; });
    return found == m_cells.end() ? nullptr : &*found;
}

}  // namespace ui::reading
