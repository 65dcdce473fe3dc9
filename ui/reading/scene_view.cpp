#include "ui/reading/scene_view.h"

#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "ui/reading/reading_look.h"

namespace ui::reading {

using core::timebase::FrameIndex;

namespace {

constexpr double kMaxZoom = 16.0;
constexpr double kZoomStep = 1.2;
constexpr double kDragPx = 4.0;             // less is a click
constexpr double kFirstRadiusShare = 0.03;  // of the height, before anything is known

void strokeTwice(QPainter& painter, const QColor& colour, double width, auto&& draw) {
    painter.setPen(QPen{QColor{0, 0, 0, 160}, width + 2.0});
    draw();
    painter.setPen(QPen{colour, width});
    draw();
}

}  // namespace

SceneView::SceneView(ReadingDesk& desk, bridge::FrameRequester& requester, QWidget* parent)
    : QWidget{parent}, m_desk{desk}, m_requester{requester} {
    setAccessibleName(tr("Scene"));
    setCursor(Qt::CrossCursor);
    connect(&desk, &ReadingDesk::shotOpened, this, [this] {
        m_picture = {};
        m_clip.reset();  // it follows by setClip()
        fit();
    });
    connect(&desk, &ReadingDesk::shotClosed, this, [this] {
        m_picture = {};
        update();
    });
    connect(&desk, &ReadingDesk::viewChanged, this, qOverload<>(&QWidget::update));
    connect(&desk, &ReadingDesk::frameChanged, this, &SceneView::request);
    connect(&requester, &bridge::FrameRequester::pictureReady, this,
            [this](quint64 number, qint64, const QImage& picture) {
                if (number == m_number) {
                    m_picture = picture;
                    m_failure.clear();
                    update();
                }
            });
    connect(&requester, &bridge::FrameRequester::pictureFailed, this,
            [this](quint64 number, qint64, const QString& reason) {
                if (number == m_number) {
                    m_picture = {};
                    m_failure = reason;
                    update();
                }
            });
}

void SceneView::setClip(bridge::FrameRequester::Clip clip) {
    if (m_clip != clip) {
        m_clip = clip;
        request();
    }
}

void SceneView::request() {
    if (!m_clip || !m_desk.hasShot() || width() <= 0) {
        return;
    }
    const FrameIndex frame = m_desk.frame();
    const auto direction = frame < m_lastAsked ? bridge::FrameRequester::Direction::Backward
                                               : bridge::FrameRequester::Direction::Forward;
    m_lastAsked = frame;
    const QSize box = m_zoom > 1.0 ? QSize{} : (QSizeF{size()} * devicePixelRatioF()).toSize();
    m_number = m_requester.requestPicture(*m_clip, frame, direction, box);
    update();
}

QSizeF SceneView::pictureSize() const {
    const auto& clip = m_desk.view().clip;
    return {std::max(1.0, static_cast<double>(clip.width)),
            std::max(1.0, static_cast<double>(clip.height))};
}

double SceneView::scale() const {
    const QSizeF picture = pictureSize();
    return m_zoom * std::min(width() / picture.width(), height() / picture.height());
}

QPointF SceneView::toWidget(QPointF picturePx) const {
    return QPointF{width() / 2.0, height() / 2.0} + scale() * (picturePx - m_middle);
}

QPointF SceneView::toPicture(QPointF widgetPx) const {
    return m_middle + (widgetPx - QPointF{width() / 2.0, height() / 2.0}) / scale();
}

void SceneView::fit() {
    m_zoom = 1.0;
    if (m_desk.hasShot()) {
        const QSizeF picture = pictureSize();
        m_middle = {picture.width() / 2.0, picture.height() / 2.0};
    }
    request();
}

void SceneView::zoomAbout(QPointF widgetPx, double factor) {
    const bool wasFit = m_zoom <= 1.0;
    const QPointF kept = toPicture(widgetPx);
    m_zoom = std::clamp(m_zoom * factor, 1.0, kMaxZoom);
    if (m_zoom <= 1.0) {
        fit();
        return;
    }
    m_middle = kept - (widgetPx - QPointF{width() / 2.0, height() / 2.0}) / scale();
    if (wasFit) {
        request();  // the full resolution is worth its time now
    }
    update();
}

void SceneView::resizeEvent(QResizeEvent*) {
    request();
}

void SceneView::wheelEvent(QWheelEvent* event) {
    if (m_desk.hasShot()) {
        zoomAbout(event->position(), std::pow(kZoomStep, event->angleDelta().y() / 120.0));
    }
    event->accept();
}

void SceneView::mousePressEvent(QMouseEvent* event) {
    if (m_desk.hasShot() && !m_gesture) {
        m_gesture = Gesture{event->button(), event->position(), event->position(), m_middle};
    }
}

void SceneView::mouseMoveEvent(QMouseEvent* event) {
    if (!m_gesture) {
        return;
    }
    m_gesture->now = event->position();
    if (m_gesture->button != Qt::LeftButton && m_zoom > 1.0) {
        m_middle = m_gesture->middleBefore - (m_gesture->now - m_gesture->from) / scale();
    }
    update();
}

void SceneView::mouseReleaseEvent(QMouseEvent* event) {
    if (!m_gesture || event->button() != m_gesture->button) {
        return;
    }
    const Gesture gesture = *m_gesture;
    m_gesture.reset();
    if (gesture.button == Qt::LeftButton && m_desk.hasShot()) {
        const double dragged = QLineF{gesture.from, event->position()}.length();
        const auto before = m_desk.ballNow();
        const double known = before ? before->radiusPx : kFirstRadiusShare * pictureSize().height();
        m_desk.setBall({toPicture(gesture.from), dragged > kDragPx ? dragged / scale() : known});
    }
    update();
}

void SceneView::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    if (!m_desk.hasShot()) {
        return;  // the grid says what to do
    }
    painter.fillRect(rect(), style::isDark(palette()) ? palette().color(QPalette::Base)
                                                      : palette().color(QPalette::Mid));
    if (!m_picture.isNull()) {
        const QSizeF picture = pictureSize();
        painter.drawImage(
            QRectF{toWidget({0.0, 0.0}), toWidget({picture.width(), picture.height()})}, m_picture);
    }
    paintPath(painter);
    paintBall(painter);
    if (!m_failure.isEmpty()) {
        paintRemark(painter, m_failure);
    } else if (m_desk.view().path.isEmpty()) {
        paintRemark(painter, tr("Show where the ball is: press on its centre and drag to its edge. "
                                "Do the same at the end of the flight, and in between where the "
                                "ring leaves the ball."));
    }
}

void SceneView::paintPath(QPainter& painter) const {
    const ShotView& view = m_desk.view();
    if (view.path.isEmpty()) {
        return;
    }
    const QColor colour = style::publishedColour(style::DataColour::Yellow);
    painter.setPen(QPen{QColor{0, 0, 0, 140}, 1.0});
    painter.setBrush(colour);
    for (const double seconds : view.seconds) {
        painter.drawEllipse(toWidget(view.path.at(seconds)->centrePx), 2.0, 2.0);
    }
    for (const auto& click : view.shot.clicks) {
        style::drawShape(painter, style::Shape::Diamond, toWidget({click.xPx, click.yPx}), 4.5,
                         colour);
    }
}

void SceneView::paintBall(QPainter& painter) const {
    const QColor colour = style::publishedColour(style::DataColour::Yellow);
    painter.setBrush(Qt::NoBrush);
    if (m_gesture && m_gesture->button == Qt::LeftButton) {
        const double radius = QLineF{m_gesture->from, m_gesture->now}.length();
        if (radius > kDragPx) {
            strokeTwice(painter, colour, 1.5,
                        [&] { painter.drawEllipse(m_gesture->from, radius, radius); });
        }
        return;
    }
    if (const auto ball = m_desk.ballNow()) {
        const double radius = std::max(4.0, ball->radiusPx * scale()) + 3.0;
        strokeTwice(painter, colour, 1.5,
                    [&] { painter.drawEllipse(toWidget(ball->centrePx), radius, radius); });
    }
}

void SceneView::paintRemark(QPainter& painter, const QString& text) const {
    const int margin = fontMetrics().height() / 2;
    QRect box = rect().adjusted(margin, margin, -margin, -margin);
    const int flags = Qt::AlignCenter | Qt::TextWordWrap;
    QRect words = fontMetrics().boundingRect(box, flags, text);
    words.moveBottom(box.bottom() - margin / 2);
    words = words.adjusted(-margin, -margin / 2, margin, margin / 2);
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor{0, 0, 0, 190});
    painter.drawRoundedRect(words, 5.0, 5.0);
    painter.setPen(Qt::white);
    painter.drawText(words, flags, text);
}

}  // namespace ui::reading
