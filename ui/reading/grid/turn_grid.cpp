#include "ui/reading/grid/turn_grid.h"

#include <QMouseEvent>
#include <QScrollBar>
#include <algorithm>
#include <cmath>

#include "ui/reading/reading_look.h"
#include "ui/reading/shot/spoken_frame.h"

namespace ui::reading {

using core::timebase::FrameIndex;

namespace {

constexpr double kHandleHalfWidthPx = 7.0;
constexpr double kMinShownRows = 2.9;  // so that turns can be compared without scrolling
constexpr double kAboveRowPx = 6.0;
constexpr double kWheelRowStep = 1.001;

}  // namespace

TurnGrid::TurnGrid(ReadingDesk& desk, const BallPictures& pictures, QWidget* parent)
    : QAbstractScrollArea{parent}, m_desk{desk}, m_pictures{pictures} {
    setFocusPolicy(Qt::NoFocus);
    setFrameShape(QFrame::NoFrame);
    setMouseTracking(true);
    viewport()->setMouseTracking(true);
    setAccessibleName(tr("Turn grid"));
    connect(&desk, &ReadingDesk::viewChanged, this, &TurnGrid::layOut);
    connect(&desk, &ReadingDesk::rowChanged, this, &TurnGrid::layOut);
    connect(&desk, &ReadingDesk::frameChanged, this, &TurnGrid::showCurrent);
    connect(&desk, &ReadingDesk::shotClosed, this, &TurnGrid::layOut);
    connect(&desk, &ReadingDesk::shotOpened, this, [this] {
        m_scaled.clear();
        m_isSenseChosen = false;
        layOut();
        showReference();
    });
    connect(&pictures, &BallPictures::changed, this, [this](FrameIndex frame) {
        m_scaled.remove(frame.value);
        if (const GridCell* cell = m_layout.cellOf(frame)) {
            viewport()->update(placeOf(*cell));
        }
    });
    connect(&pictures, &BallPictures::completed, this, &TurnGrid::guessSense);
}

TurnGridInput TurnGrid::layoutInput() const {
    const ShotView& view = m_desk.view();
    TurnGridInput input;
    const double reference = view.secondsOf(view.referenceFrame());
    for (std::size_t k = 0; k < view.seconds.size(); ++k) {
        input.frames.push_back({{view.firstFrame().value + static_cast<std::int64_t>(k)},
                                view.seconds[k] - reference});
    }
    const double line = fontMetrics().height();
    input.rowSeconds = m_desk.rowSeconds();
    input.frameSeconds = view.frameSeconds;
    input.widthPx = std::max(80, viewport()->width());
    input.gutterPx = fontMetrics().horizontalAdvance(tr("turn")) + 10.0;
    input.captionPx = line * 0.9 + 3.0;
    input.maxCellPx = std::clamp(viewport()->height() / kMinShownRows - line, 44.0, 150.0);
    input.fixedScale = m_drag ? std::optional{m_drag->scale} : m_scale;
    input.rowsAtLeast = m_rowsAtLeast;
    return input;
}

void TurnGrid::setOnlyLookedAt() {
    m_isOnlyLookedAt = true;
    viewport()->update();
}

void TurnGrid::setScale(std::optional<TurnGridInput::Scale> scale) {
    if (scale != m_scale) {
        m_scale = scale;
        layOut();
    }
}

void TurnGrid::setRowsAtLeast(std::optional<TurnGridInput::Rows> rows) {
    if (rows != m_rowsAtLeast) {
        m_rowsAtLeast = rows;
        layOut();
    }
}

void TurnGrid::showReference() {
    verticalScrollBar()->setValue(static_cast<int>(m_layout.rowTopPx(0) - kAboveRowPx));
}

void TurnGrid::layOut() {
    const double cellBefore = m_layout.cellPx();
    m_layout = m_desk.hasShot() ? TurnGridLayout{layoutInput()} : TurnGridLayout{};
    if (m_layout.cellPx() != cellBefore) {
        m_scaled.clear();
    }
    fitScrollBars();
    viewport()->update();
    Q_EMIT laidOut();
}

void TurnGrid::fitScrollBars() {
    const QSize extra = m_layout.size().toSize() - viewport()->size();
    horizontalScrollBar()->setRange(0, std::max(0, extra.width()));
    horizontalScrollBar()->setPageStep(viewport()->width());
    verticalScrollBar()->setRange(0, std::max(0, extra.height()));
    verticalScrollBar()->setPageStep(viewport()->height());
    verticalScrollBar()->setSingleStep(static_cast<int>(m_layout.cellPx() / 2.0));
}

QRect TurnGrid::placeOf(const GridCell& cell) const {
    const double beside = std::max(4.0, kCaptionHalfWidthPx - cell.rect.width() / 2.0);
    return cell.rect.translated(-scrollOffset())
        .adjusted(-beside, -4.0, beside, 6.0 + fontMetrics().height())
        .toAlignedRect();
}

void TurnGrid::showCurrent() {
    if (const GridCell* left = m_layout.cellOf(m_shownFrame)) {
        viewport()->update(placeOf(*left));
    }
    m_shownFrame = m_desk.frame();
    if (const GridCell* cell = m_layout.cellOf(m_desk.frame())) {
        const QRectF wanted = cell->rect.adjusted(-4, -4, 4, 4 + fontMetrics().height());
        const auto scrollTo = [](QScrollBar& bar, double low, double high, int page) {
            if (low < bar.value()) {
                bar.setValue(static_cast<int>(low));
            } else if (high > bar.value() + page) {
                bar.setValue(static_cast<int>(std::ceil(high)) - page);
            }
        };
        scrollTo(*verticalScrollBar(), wanted.top(), wanted.bottom(), viewport()->height());
        scrollTo(*horizontalScrollBar(), wanted.left(), wanted.right(), viewport()->width());
        viewport()->update(placeOf(*cell));
    }
    sayCurrent(*this);
}

std::vector<style::SpokenPart> TurnGrid::spokenParts() {
    std::vector<style::SpokenPart> parts;
    for (const GridCell& cell : m_layout.cells()) {
        const FrameIndex frame = cell.frame;
        parts.push_back(
            {spokenFrame(m_desk.view(), frame),
             tr("%1, turn %2")
                 .arg(spokenTime(m_desk.view(), frame), fixedText(cell.turnsFromReference, 2)),
             cell.rect.translated(viewport()->pos() - scrollOffset()).toAlignedRect(),
             frame == m_desk.frame(), [this, frame] { m_desk.goToFrame(frame); }});
    }
    return parts;
}

void TurnGrid::setOtherRatesShown(bool shown) {
    m_areOtherRatesShown = shown;
    viewport()->update();
}

void TurnGrid::setHeldStill(bool held) {
    m_isHeldStill = held;
    m_scaled.clear();  // their outline differs
    guessSense();
    viewport()->update();
}

void TurnGrid::setSense(TurnSense sense) {
    m_isSenseChosen = true;
    m_sense = sense;
    viewport()->update();
    Q_EMIT senseChanged();
}

void TurnGrid::guessSense() {
    if (!m_isHeldStill || m_isSenseChosen || !m_desk.hasShot()) {
        return;
    }
    std::vector<PhasedPicture> phased;
    for (const GridCell& cell : m_layout.cells()) {
        const QImage picture = m_pictures.picture(cell.frame);
        if (!picture.isNull()) {
            phased.push_back({picture, cell.turnsFromReference});
        }
    }
    const auto& reading = m_desk.view().reading;
    if (reading && reading->turnsCounterClockwise) {
        m_sense =
            *reading->turnsCounterClockwise ? TurnSense::CounterClockwise : TurnSense::Clockwise;
    } else {
        m_sense = likelySense(phased).value_or(m_sense);
    }
    viewport()->update();
    Q_EMIT senseChanged();
}

double TurnGrid::shownTurnDegrees(FrameIndex frame) const {
    const GridCell* cell = m_layout.cellOf(frame);
    return cell != nullptr && m_isHeldStill ? turnBackDegrees(cell->turnsFromReference, m_sense)
                                            : 0.0;
}

QPointF TurnGrid::scrollOffset() const {
    return {static_cast<double>(horizontalScrollBar()->value()),
            static_cast<double>(verticalScrollBar()->value())};
}

QPointF TurnGrid::toContent(QPointF viewportPoint) const {
    return viewportPoint + scrollOffset();
}

QRectF TurnGrid::cellRect(FrameIndex frame) const {
    const GridCell* cell = m_layout.cellOf(frame);
    return cell == nullptr ? QRectF{} : cell->rect.translated(-scrollOffset());
}

QRectF TurnGrid::chipRect(int fromRight) const {
    const QRectF cell = cellRect(m_desk.frame());
    if (cell.isNull() || m_isOnlyLookedAt) {
        return {};
    }
    const double side = std::clamp(cell.width() * 0.3, 13.0, fontMetrics().height() * 1.25);
    return {cell.right() - fromRight * (side + 2.0) - side - 2.0, cell.bottom() - side - 2.0, side,
            side};
}

QRectF TurnGrid::startChipRect() const {
    return chipRect(1);
}

QRectF TurnGrid::returnChipRect() const {
    return chipRect(0);
}

QRectF TurnGrid::handleRect() const {
    if (m_isOnlyLookedAt) {
        return {};
    }
    const double x = m_layout.rowEndXPx() - scrollOffset().x();
    return {x - kHandleHalfWidthPx, 0.0, 2.0 * kHandleHalfWidthPx,
            std::min(m_layout.size().height(), static_cast<double>(viewport()->height()))};
}

void TurnGrid::resizeEvent(QResizeEvent* event) {
    QAbstractScrollArea::resizeEvent(event);
    layOut();
    showCurrent();
}

void TurnGrid::mousePressEvent(QMouseEvent* event) {
    if (!m_desk.hasShot() || event->button() != Qt::LeftButton) {
        return;
    }
    const QPointF at = event->position();
    if (startChipRect().contains(at)) {
        m_desk.toggleStart(m_desk.frame());
    } else if (returnChipRect().contains(at)) {
        m_desk.toggleReturn(m_desk.frame());
    } else if (const GridCell* cell = m_layout.cellAt(toContent(at))) {
        m_desk.goToFrame(cell->frame);
    } else if (handleRect().contains(at)) {
        m_drag = Drag{at.x(), m_desk.rowSeconds(), m_layout.scale()};
        layOut();
    }
}

void TurnGrid::mouseMoveEvent(QMouseEvent* event) {
    const QPointF at = event->position();
    if (m_drag) {
        m_desk.setRowSeconds(m_drag->startRowSeconds +
                             (at.x() - m_drag->startXPx) / m_drag->scale.pxPerSecond);
        return;
    }
    const bool isOverCell = m_layout.cellAt(toContent(at)) != nullptr;
    viewport()->setCursor(isOverCell                  ? Qt::PointingHandCursor
                          : handleRect().contains(at) ? Qt::SizeHorCursor
                                                      : Qt::ArrowCursor);
}

void TurnGrid::mouseReleaseEvent(QMouseEvent*) {
    if (m_drag) {
        m_drag.reset();
        layOut();
        showCurrent();
    }
}

void TurnGrid::mouseDoubleClickEvent(QMouseEvent* event) {
    const QPointF at = event->position();
    const GridCell* cell = m_layout.cellAt(toContent(at));
    if (event->button() != Qt::LeftButton || cell == nullptr || m_isOnlyLookedAt) {
        return;
    }
    if (startChipRect().contains(at) || returnChipRect().contains(at)) {
        mousePressEvent(event);  // two quick clicks on a chip are two clicks
        return;
    }
    const auto& start = m_desk.view().shot.marks.start;
    const FrameIndex frame = cell->frame;
    if (!start || start->frame == frame) {
        m_desk.toggleStart(frame);
    } else {
        m_desk.toggleReturn(frame);
    }
}

void TurnGrid::wheelEvent(QWheelEvent* event) {
    if ((event->modifiers() & Qt::ControlModifier) != 0 && !m_isOnlyLookedAt) {
        const double steps = event->angleDelta().y() / 120.0;
        m_desk.setRowSeconds(m_desk.rowSeconds() * std::pow(kWheelRowStep, steps));
        event->accept();
        return;
    }
    QAbstractScrollArea::wheelEvent(event);
}

void TurnGrid::changeEvent(QEvent* event) {
    QAbstractScrollArea::changeEvent(event);
    if (event->type() == QEvent::FontChange || event->type() == QEvent::PaletteChange) {
        layOut();
    }
}

}  // namespace ui::reading
