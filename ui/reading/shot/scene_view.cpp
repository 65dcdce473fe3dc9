#include "ui/reading/shot/scene_view.h"

#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "ui/reading/reading_look.h"
#include "ui/reading/shot/spoken_frame.h"

namespace ui::reading {

using core::timebase::FrameIndex;

namespace {

constexpr double kMaxZoom = 16.0;
constexpr double kZoomStep = 1.2;
constexpr double kDotPx = 3.0;              // half the side of a dot of the path
constexpr double kDragPx = 4.0;             // less is a click
constexpr double kFirstRadiusShare = 0.03;  // of the height, before anything is known

void strokeTwice(QPainter& painter, const QColor& colour, double width, auto&& draw) {
    painter.setPen(QPen{style::casing(), width + 2.0});
    draw();
    painter.setPen(QPen{colour, width});
    draw();
}

/// Painted once and copied to every frame's place: hundreds of outlines take longer than a picture.
QPixmap pathDot(const QColor& colour, double ratio) {
    QPixmap dot{(QSizeF{2.0 * kDotPx, 2.0 * kDotPx} * ratio).toSize()};
    dot.setDevicePixelRatio(ratio);
    dot.fill(Qt::transparent);
    QPainter painter{&dot};
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{style::casing(), 1.0});
    painter.setBrush(colour);
    painter.drawEllipse(QPointF{kDotPx, kDotPx}, kDotPx - 1.0, kDotPx - 1.0);
    return dot;
}

}  // namespace

SceneView::SceneView(ReadingDesk& desk, bridge::FrameRequester& requester, QWidget* parent)
    : QWidget{parent}, m_desk{desk}, m_requester{requester} {
    setAccessibleName(tr("Scene"));
    setCursor(Qt::CrossCursor);
    setFocusPolicy(Qt::TabFocus);
    setToolTip(
        tr("Click on the ball to show where it is. With the keyboard here: arrow keys move a "
           "ring (Shift: finely), + and − change its size, Enter sets the ball, Esc ends."));
    connect(&desk, &ReadingDesk::shotOpened, this, [this] {
        m_picture = {};
        m_shownFrame = m_desk.frame();
        m_clip.reset();  // it follows by setClip()
        fit();
    });
    connect(&desk, &ReadingDesk::shotClosed, this, [this] {
        m_picture = {};
        update();
    });
    const auto forgetRefusal = [this] {
        m_refusal.clear();
        update();
    };
    connect(&desk, &ReadingDesk::viewChanged, this, forgetRefusal);
    connect(&desk, &ReadingDesk::frameChanged, this, forgetRefusal);
    connect(&desk, &ReadingDesk::frameChanged, this, &SceneView::endAim);
    connect(&desk, &ReadingDesk::frameChanged, this, &SceneView::request);
    connect(&requester, &bridge::FrameRequester::pictureReady, this,
            [this](quint64 number, qint64 frame, const QImage& picture) {
                if (number == m_number) {
                    m_picture = picture;
                    m_shownFrame = FrameIndex{frame};
                    m_failure.clear();
                    update();
                }
            });
    connect(&requester, &bridge::FrameRequester::pictureFailed, this,
            [this](quint64 number, qint64 frame, const QString& reason) {
                if (number == m_number) {
                    m_picture = {};
                    m_shownFrame = FrameIndex{frame};
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

void SceneView::setKept() {
    m_clip.reset();
    m_number = 0;
    m_picture = {};
    m_failure.clear();
    request();
}

void SceneView::request() {
    if (m_desk.hasShot() && m_desk.view().kept) {
        m_shownFrame = m_desk.frame();
        update();
        return;
    }
    if (!m_clip || !m_desk.hasShot() || width() <= 0) {
        return;
    }
    const FrameIndex frame = m_desk.frame();
    const auto direction = frame < m_lastAsked ? bridge::FrameRequester::Direction::Backward
                                               : bridge::FrameRequester::Direction::Forward;
    m_lastAsked = frame;
    const QSize box = m_zoom > 1.0 ? QSize{} : (QSizeF{size()} * devicePixelRatioF()).toSize();
    m_number = m_requester.requestPicture(*m_clip, frame, direction, box);
    if (m_picture.isNull()) {
        // The shot has just been opened, and was prepared while the one before was read.
        m_picture = m_requester.pictureNow(*m_clip, frame, box);
        m_shownFrame = frame;
        update();
    }
}

std::optional<FrameIndex> SceneView::pictureFrame() const {
    return m_picture.isNull() ? std::nullopt : std::optional{m_shownFrame};
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
    update();
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
    // The ball is set in the frame that is seen, never in one still on its way.
    if (m_desk.hasShot() && !m_gesture && m_shownFrame == m_desk.frame()) {
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
        setBall({toPicture(gesture.from), dragged > kDragPx ? dragged / scale() : usualRadiusPx()});
    }
    update();
}

double SceneView::usualRadiusPx() const {
    const auto before = m_desk.ballNow();
    return before ? before->radiusPx : kFirstRadiusShare * pictureSize().height();
}

void SceneView::setBall(BallRing place) {
    const auto set = m_desk.setBall(place);
    m_refusal = set ? QString{} : QString::fromStdString(set.error().message);
}

void SceneView::endAim() {
    m_aim.reset();
    update();
}

bool SceneView::isOfAim(const QKeyEvent& key) const {
    const bool ends =
        key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter || key.key() == Qt::Key_Escape;
    return m_desk.hasShot() && m_shownFrame == m_desk.frame() &&
           (SceneAim::isMove(key) || (m_aim && ends));
}

bool SceneView::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride && isOfAim(*static_cast<QKeyEvent*>(event))) {
        event->accept();  // arrows step through the frames everywhere else
        return true;
    }
    if (event->type() == QEvent::FocusOut) {
        endAim();
    }
    return QWidget::event(event);
}

void SceneView::keyPressEvent(QKeyEvent* event) {
    if (!isOfAim(*event)) {
        QWidget::keyPressEvent(event);
        return;
    }
    if (SceneAim::isMove(*event)) {
        if (!m_aim) {
            m_aim.emplace(m_desk.ballNow(), usualRadiusPx(), pictureSize());
        }
        m_aim->move(*event);
        update();
        return;
    }
    const BallRing wanted = m_aim->ring();
    endAim();
    if (event->key() != Qt::Key_Escape) {
        setBall(wanted);
    }
}

std::vector<style::SpokenPart> SceneView::spokenParts() {
    std::vector<style::SpokenPart> parts;
    if (!m_desk.hasShot()) {
        return parts;
    }
    const ShotView& view = m_desk.view();
    const auto ball = view.contains(m_shownFrame) ? view.ballIn(m_shownFrame) : std::nullopt;
    QRectF place = rect();
    if (ball) {
        const QPointF reach{ball->radiusPx, ball->radiusPx};
        place = {toWidget(ball->centrePx - reach), toWidget(ball->centrePx + reach)};
    }
    parts.push_back({spokenFrame(view, m_shownFrame), spokenBall(view, m_shownFrame),
                     place.toAlignedRect(), true});
    if (const QString words = remark(); !words.isEmpty()) {
        parts.push_back({words, {}, rect()});
    }
    return parts;
}

void SceneView::paintEvent(QPaintEvent*) {
    if (!m_desk.hasShot()) {
        return;  // the grid says what to do
    }
    QPainter painter{this};
    paintGround(painter, *this);
    if (!m_picture.isNull()) {
        paintPicture(painter);
    }
    paintKept(painter);
    paintPath(painter);
    paintBall(painter);
    if (hasFocus()) {
        painter.setBrush(Qt::NoBrush);
        strokeTwice(painter, palette().color(QPalette::Highlight), 2.0,
                    [&] { painter.drawRect(rect().adjusted(2, 2, -3, -3)); });
    }
    if (const QString words = remark(); !words.isEmpty()) {
        paintRemark(painter, words);
    }
}

QString SceneView::remark() const {
    const ShotView& view = m_desk.view();
    if (!m_refusal.isEmpty()) {
        return m_refusal;
    }
    if (view.kept) {
        return view.clipName.isEmpty()
                   ? tr("The clip is not there. You see the pictures that are kept in the "
                        "project.")
                   : tr("The clip %1 is not there. You see the pictures that are kept in the "
                        "project.")
                         .arg(view.clipName);
    }
    if (core::project::isTally(view.clip)) {
        return tr("This shot is a frame count from a table: there are no pictures to show.");
    }
    if (!m_failure.isEmpty()) {
        return m_failure;
    }
    if (view.path.isEmpty()) {
        return tr(
            "Show where the ball is: press on its centre and drag to its edge. "
            "Do the same at the end of the flight, and in between where the "
            "ring leaves the ball.");
    }
    return {};
}

void SceneView::paintKept(QPainter& painter) const {
    const ShotView& view = m_desk.view();
    const auto* picture = view.kept ? view.kept->at(m_shownFrame) : nullptr;
    const QSizeF frame = pictureSize();
    if (!view.kept) {
        return;
    }
    painter.setPen(QPen{style::colour(style::Token::Quiet, palette()), 1.0, Qt::DashLine});
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF{toWidget({0.0, 0.0}), toWidget({frame.width(), frame.height()})});
    if (picture != nullptr) {
        painter.drawImage(
            QRectF{toWidget(picture->place.topLeft()), toWidget(picture->place.bottomRight())},
            picture->image);
    }
}

void SceneView::paintPicture(QPainter& painter) const {
    const QSizeF picture = pictureSize();
    const QRectF place{toWidget({0.0, 0.0}), toWidget({picture.width(), picture.height()})};
    const double ratio = devicePixelRatioF();
    const QSizeF shown = QSizeF{m_picture.size()} / ratio;
    if (std::abs(shown.width() - place.width()) * ratio > 1.0 ||
        std::abs(shown.height() - place.height()) * ratio > 1.0) {
        painter.drawImage(place, m_picture);
        return;
    }
    // Made for this place already: laid on whole pixels it is copied, which takes a tenth of the
    // time of scaling it by nearly one.
    QImage asMade{m_picture};
    asMade.setDevicePixelRatio(ratio);
    const QPointF corner = place.topLeft() * ratio;
    painter.drawImage(QPointF{std::round(corner.x()), std::round(corner.y())} / ratio, asMade);
}

void SceneView::paintPath(QPainter& painter) const {
    const ShotView& view = m_desk.view();
    if (view.path.isEmpty()) {
        return;
    }
    const QColor colour = style::publishedColour(style::DataColour::Yellow);
    const QPixmap dot = pathDot(colour, devicePixelRatioF());
    for (auto frame = view.firstFrame(); frame <= view.lastFrame(); ++frame.value) {
        painter.drawPixmap(toWidget(view.ballIn(frame)->centrePx) - QPointF{kDotPx, kDotPx}, dot);
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
    if (m_aim) {
        const double radius = m_aim->ring().radiusPx * scale();
        const QPointF centre = toWidget(m_aim->ring().centrePx);
        strokeTwice(painter, colour, 2.5, [&] { painter.drawEllipse(centre, radius, radius); });
        style::drawShape(painter, style::Shape::Diamond, centre, 4.5, colour);
        return;
    }
    // Of the picture that is shown: the one asked for may still be on its way.
    const ShotView& view = m_desk.view();
    const auto ball = view.contains(m_shownFrame) ? view.ballIn(m_shownFrame) : std::nullopt;
    if (ball) {
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
    painter.setBrush(style::chipGround());
    painter.drawRoundedRect(words, 5.0, 5.0);
    painter.setPen(style::chipWords());
    painter.drawText(words, flags, text);
}

}  // namespace ui::reading
