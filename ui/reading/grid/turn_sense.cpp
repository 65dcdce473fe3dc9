#include "ui/reading/grid/turn_sense.h"

#include <QPainter>
#include <cmath>

namespace ui::reading {
namespace {

constexpr int kCutOutPx = 40;
constexpr double kDiscPx = 0.62 * kCutOutPx / 2.0;  // inside the ball of a cut-out

QImage turned(const QImage& small, double clockwiseDegrees) {
    QImage result{kCutOutPx, kCutOutPx, QImage::Format_RGB32};
    result.fill(Qt::black);
    QPainter painter{&result};
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.translate(kCutOutPx / 2.0, kCutOutPx / 2.0);
    painter.rotate(clockwiseDegrees);
    painter.drawImage(QPointF{-kCutOutPx / 2.0, -kCutOutPx / 2.0}, small);
    return result;
}

double difference(const QImage& a, const QImage& b) {
    double sum = 0.0;
    for (int y = 0; y < kCutOutPx; ++y) {
        for (int x = 0; x < kCutOutPx; ++x) {
            if (std::hypot(x + 0.5 - kCutOutPx / 2.0, y + 0.5 - kCutOutPx / 2.0) < kDiscPx) {
                const double d = qGray(a.pixel(x, y)) - qGray(b.pixel(x, y));
                sum += d * d;
            }
        }
    }
    return sum;
}

}  // namespace

double turnBackDegrees(double turnsFromReference, TurnSense sense) noexcept {
    const double degrees = 360.0 * (turnsFromReference - std::floor(turnsFromReference));
    return sense == TurnSense::CounterClockwise ? degrees : -degrees;
}

std::optional<TurnSense> likelySense(const std::vector<PhasedPicture>& pictures) {
    if (pictures.size() < 2) {
        return std::nullopt;
    }
    double counterClockwise = 0.0;
    double clockwise = 0.0;
    QImage before;
    for (std::size_t k = 0; k < pictures.size(); ++k) {
        const QImage now = pictures[k].picture.scaled(kCutOutPx, kCutOutPx, Qt::IgnoreAspectRatio,
                                                      Qt::SmoothTransformation);
        if (k > 0) {
            const double turns = pictures[k].turns - pictures[k - 1].turns;
            counterClockwise += difference(
                before, turned(now, turnBackDegrees(turns, TurnSense::CounterClockwise)));
            clockwise +=
                difference(before, turned(now, turnBackDegrees(turns, TurnSense::Clockwise)));
        }
        before = now;
    }
    return counterClockwise <= clockwise ? TurnSense::CounterClockwise : TurnSense::Clockwise;
}

}  // namespace ui::reading
