#include "ui/reading/grid/ball_view.h"

#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>
#include <tuple>

#include "ui/reading/reading_look.h"
#include "ui/reading/shot/shot_marks.h"
#include "ui/style/tabular_font.h"

namespace ui::reading {
namespace {

constexpr double kRadiusStep = 1.02;  // one wheel step
constexpr int kSettleMilliseconds = 350;
constexpr double kMinRingRadiusPx = 2.0;

double wrapped(double degrees) {
    return degrees - 360.0 * std::floor(degrees / 360.0);
}

}  // namespace

BallView::BallView(ReadingDesk& desk, const BallPictures& pictures, QWidget* parent)
    : QWidget{parent}, m_desk{desk}, m_pictures{pictures} {
    setAccessibleName(tr("Ball view"));
    setCursor(Qt::CrossCursor);
    m_settle.setSingleShot(true);
    m_settle.setInterval(kSettleMilliseconds);
    connect(&m_settle, &QTimer::timeout, this, [this] {
        commitAngle();
        commitRadius();
    });
    connect(&desk, &ReadingDesk::leavingFrame, this, [this] {
        commitAngle();
        commitRadius();
    });
    connect(&desk, &ReadingDesk::frameChanged, this, qOverload<>(&QWidget::update));
    connect(&desk, &ReadingDesk::viewChanged, this, qOverload<>(&QWidget::update));
    connect(&desk, &ReadingDesk::shotClosed, this, qOverload<>(&QWidget::update));
    connect(&pictures, &BallPictures::changed, this, qOverload<>(&QWidget::update));
}

void BallView::setDialShown(bool shown) {
    m_isDialShown = shown;
    m_angleBeingSet.reset();
    update();
}

QRectF BallView::pictureRect() const {
    const double side = std::min(width(), height());
    return {(width() - side) / 2.0, (height() - side) / 2.0, side, side};
}

double BallView::ballRadiusPx() const {
    return pictureRect().width() / 2.0 / BallPictures::kHalfSideRadii;
}

double BallView::degreesAt(QPointF widgetPx) const {
    const QPointF arm = widgetPx - pictureRect().center();
    return wrapped(std::round(core::toDegrees({std::atan2(-arm.y(), arm.x())})));
}

std::optional<double> BallView::attitudeDegrees() const {
    if (m_angleBeingSet) {
        return m_angleBeingSet;
    }
    const auto* mark = angleAt(m_desk.view().shot.marks, m_desk.frame());
    return mark != nullptr ? std::optional{wrapped(core::toDegrees(mark->angle))} : std::nullopt;
}

void BallView::nudgeDial(double degrees) {
    if (m_isDialShown && m_desk.hasShot()) {
        m_angleBeingSet = wrapped(attitudeDegrees().value_or(m_lastDegrees) + degrees);
        m_settle.start();
        update();
    }
}

void BallView::commitAngle() {
    if (m_angleBeingSet && m_desk.hasShot()) {
        m_lastDegrees = *m_angleBeingSet;
        m_angleBeingSet.reset();
        m_desk.setAngle(m_desk.frame(), core::fromDegrees(m_lastDegrees));
    }
}

void BallView::commitRadius() {
    if (m_placeBeingSet && m_desk.hasShot()) {
        const BallRing place = *m_placeBeingSet;
        m_placeBeingSet.reset();
        std::ignore = m_desk.setBall(place);  // the card says why not
    }
}

void BallView::mousePressEvent(QMouseEvent* event) {
    if (!m_desk.hasShot()) {
        return;
    }
    if (m_isDialShown && event->button() == Qt::RightButton) {
        m_desk.removeAngle(m_desk.frame());
    } else if (m_isDialShown && event->button() == Qt::LeftButton) {
        m_angleBeingSet = degreesAt(event->position());
        update();
    }
}

void BallView::mouseMoveEvent(QMouseEvent* event) {
    if (m_isDialShown && m_angleBeingSet && (event->buttons() & Qt::LeftButton) != 0) {
        m_angleBeingSet = degreesAt(event->position());
        update();
    }
}

void BallView::mouseReleaseEvent(QMouseEvent* event) {
    if (!m_desk.hasShot() || event->button() != Qt::LeftButton) {
        return;
    }
    if (m_isDialShown) {
        commitAngle();
    } else if (const auto ball = m_desk.ballNow()) {
        const double pxPerPicturePx = ballRadiusPx() / ball->radiusPx;
        const QPointF moved = (event->position() - pictureRect().center()) / pxPerPicturePx;
        std::ignore = m_desk.setBall({ball->centrePx + moved, ball->radiusPx});
    }
}

void BallView::wheelEvent(QWheelEvent* event) {
    const auto ball = m_placeBeingSet ? m_placeBeingSet : m_desk.ballNow();
    if (ball) {
        const double factor = std::pow(kRadiusStep, event->angleDelta().y() / 120.0);
        m_placeBeingSet =
            BallRing{ball->centrePx, std::max(kMinRingRadiusPx, ball->radiusPx * factor)};
        m_settle.start();
        update();
    }
    event->accept();
}

void BallView::paintEvent(QPaintEvent*) {
    if (!m_desk.hasShot()) {
        return;  // the grid says what to do
    }
    QPainter painter{this};
    paintGround(painter, *this);
    if (core::project::isTally(m_desk.view().clip)) {
        return;  // the scene says that there are no pictures
    }
    if (!m_pictures.areCutOut()) {
        painter.setPen(style::colour(style::Token::Quiet, palette()));
        painter.drawText(rect().adjusted(12, 12, -12, -12), Qt::AlignCenter | Qt::TextWordWrap,
                         tr("Here the ball stands still and only turns, once you have shown where "
                            "it is in the scene."));
        return;
    }
    const QImage picture = m_pictures.picture(m_desk.frame());
    if (!picture.isNull()) {
        painter.drawImage(pictureRect(), picture);
    }
    double radius = ballRadiusPx();
    if (const auto ball = m_desk.ballNow(); ball && m_placeBeingSet) {
        radius *= m_placeBeingSet->radiusPx / ball->radiusPx;
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{style::publishedColour(style::DataColour::Yellow), 1.0, Qt::DotLine});
    painter.drawEllipse(pictureRect().center(), radius, radius);
    if (m_isDialShown) {
        paintDial(painter);
    }
    paintLabels(painter);
}

void BallView::paintDial(QPainter& painter) const {
    const QPointF centre = pictureRect().center();
    const double rim = ballRadiusPx() * 1.12;
    const QColor colour = style::publishedColour(kAngleLook.colour);
    const auto at = [&](double degrees, double radius) {
        const double angle = core::fromDegrees(degrees).radians;
        return centre + radius * QPointF{std::cos(angle), -std::sin(angle)};
    };
    const auto stroke = [&](double width, Qt::PenStyle pen, auto&& draw) {
        painter.setPen(QPen{style::casing(), width + 2.0, pen});
        draw();
        painter.setPen(QPen{colour, width, pen});
        draw();
    };
    painter.setBrush(Qt::NoBrush);
    stroke(1.5, Qt::SolidLine, [&] { painter.drawEllipse(centre, rim, rim); });
    stroke(1.5, Qt::SolidLine, [&] {
        for (int tick = 0; tick < 360; tick += 30) {
            painter.drawLine(at(tick, rim), at(tick, rim * (tick % 90 == 0 ? 1.12 : 1.06)));
        }
    });
    const auto degrees = attitudeDegrees();
    const double hand = degrees.value_or(m_lastDegrees);
    stroke(2.5, degrees ? Qt::SolidLine : Qt::DotLine,
           [&] { painter.drawLine(centre, at(hand, rim)); });
    style::drawShape(painter, style::Shape::Disc, at(hand, rim), 6.0, colour);
}

void BallView::paintLabels(QPainter& painter) const {
    QString text = tr("frame %1").arg(m_desk.frame().value);
    if (const auto degrees = attitudeDegrees()) {
        text = tr("orientation %1°").arg(*degrees, 0, 'f', 0) + QStringLiteral(" · ") + text;
    } else if (m_isDialShown) {
        text = tr("drag the hand to the mark");
    }
    painter.setFont(style::tabularFont(font()));
    const QFontMetricsF metrics{painter.font()};
    QRectF box{0.0, 0.0, metrics.horizontalAdvance(text) + 14.0, metrics.height() + 6.0};
    box.moveBottomLeft(QPointF{6.0, height() - 6.0});
    painter.setPen(Qt::NoPen);
    painter.setBrush(style::chipGround());
    painter.drawRoundedRect(box, 4.0, 4.0);
    painter.setPen(style::chipWords());
    painter.drawText(box, Qt::AlignCenter, text);
}

}  // namespace ui::reading
