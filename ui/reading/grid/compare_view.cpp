#include "ui/reading/grid/compare_view.h"

#include <QPainter>

#include "ui/reading/card/reading_words.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/shot/shot_marks.h"
#include "ui/style/data_palette.h"

namespace ui::reading {

using core::timebase::FrameIndex;

namespace {

constexpr int kBlinkMilliseconds = 450;  // slow enough to look, fast enough to see the jump
constexpr double kGapPx = 12.0;

}  // namespace

CompareView::CompareView(ReadingDesk& desk, const BallPictures& pictures, QWidget* parent)
    : QWidget{parent}, m_desk{desk}, m_pictures{pictures} {
    setAccessibleName(tr("Start against return"));
    m_blink.setInterval(kBlinkMilliseconds);
    connect(&m_blink, &QTimer::timeout, this, [this] {
        m_showsOther = !m_showsOther;
        update();
    });
    connect(&desk, &ReadingDesk::viewChanged, this, qOverload<>(&QWidget::update));
    connect(&desk, &ReadingDesk::frameChanged, this, qOverload<>(&QWidget::update));
    connect(&pictures, &BallPictures::changed, this, qOverload<>(&QWidget::update));
}

void CompareView::setMode(Mode mode) {
    if (mode == m_mode) {
        return;
    }
    m_mode = mode;
    m_showsOther = false;
    mode == Mode::Blink ? m_blink.start() : m_blink.stop();
    update();
    Q_EMIT modeChanged();
}

void CompareView::stepMode() {
    switch (m_mode) {
        case Mode::Off:
            return setMode(Mode::SideBySide);
        case Mode::SideBySide:
            return setMode(Mode::Blink);
        case Mode::Blink:
            return setMode(Mode::Off);
    }
}

FrameIndex CompareView::startFrame() const {
    return m_desk.view().referenceFrame();
}

FrameIndex CompareView::otherFrame() const {
    const auto& marks = m_desk.view().shot.marks;
    if (marks.returns.empty() || returnAt(marks, m_desk.frame()) != nullptr) {
        return m_desk.frame();
    }
    return marks.returns.back().frame;
}

void CompareView::paintEvent(QPaintEvent*) {
    if (!m_desk.hasShot()) {
        return;  // the grid says what to do
    }
    QPainter painter{this};
    paintGround(painter, *this);
    const auto& view = m_desk.view();
    const QString startName = tr("start · frame %1").arg(frameText(view, startFrame()));
    const bool isReturn = returnAt(view.shot.marks, otherFrame()) != nullptr;
    const QString otherName = (isReturn ? tr("return · frame %1") : tr("current · frame %1"))
                                  .arg(frameText(view, otherFrame()));
    const double caption = fontMetrics().height() + 10.0;
    const double available = height() - caption - kGapPx;
    if (m_mode == Mode::Blink) {
        const double side = std::min(width() - 2.0 * kGapPx, available);
        const QRectF place{(width() - side) / 2.0, kGapPx / 2.0, side, side};
        m_showsOther ? paintOne(painter, place, otherFrame(), otherName)
                     : paintOne(painter, place, startFrame(), startName);
        return;
    }
    const double side = std::min((width() - 3.0 * kGapPx) / 2.0, available);
    const double top = (height() - caption - side) / 2.0;
    const double left = (width() - 2.0 * side - kGapPx) / 2.0;
    paintOne(painter, {left, top, side, side}, startFrame(), startName);
    paintOne(painter, {left + side + kGapPx, top, side, side}, otherFrame(), otherName);
}

void CompareView::paintOne(QPainter& painter, const QRectF& place, FrameIndex frame,
                           const QString& name) const {
    const QImage picture = m_pictures.picture(frame);
    if (picture.isNull()) {
        painter.fillRect(place, style::colour(style::Token::Line, palette()));
    } else {
        painter.drawImage(place, picture);
    }
    painter.setPen(palette().color(QPalette::WindowText));
    painter.drawText(QRectF{place.left() - kGapPx / 2.0, place.bottom() + 3.0,
                            place.width() + kGapPx, fontMetrics().height() + 4.0},
                     Qt::AlignCenter, name);
}

}  // namespace ui::reading
