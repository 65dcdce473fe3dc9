#include "ui/plan/habit_choice.h"

#include <QEvent>
#include <QPainter>
#include <array>
#include <optional>

namespace ui::plan {
namespace {

using core::spin::CountingHabit;

constexpr std::array kHabits{CountingHabit::Unknown, CountingHabit::Nearest, CountingHabit::Both,
                             CountingHabit::After};
constexpr QSize kPicture{132, 26};
constexpr int kFrames = 6;
constexpr double kMargin = 10.0;

/// Where things lie, in frames from the left.
struct Drawn {
    double start{};    ///< instant of the reference orientation
    int startFrame{};  ///< the frame that was taken for it
    std::optional<double> back{};
    std::optional<int> countedTo{};
};

Drawn drawnOf(CountingHabit habit) {
    switch (habit) {
        case CountingHabit::Nearest:
            return {0.0, 0, 4.3, 4};
        case CountingHabit::Both:
            return {0.35, 0, 4.65, 5};
        case CountingHabit::After:
            return {0.0, 0, 4.3, 5};
        case CountingHabit::Unknown:
            break;
    }
    return {0.0, 0, std::nullopt, std::nullopt};
}

QPixmap pictureOf(CountingHabit habit, const QColor& ink, double scale) {
    QPixmap picture{kPicture * scale};
    picture.setDevicePixelRatio(scale);
    picture.fill(Qt::transparent);
    QPainter painter{&picture};
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{ink, 1.2});
    const double line = 0.62 * kPicture.height();
    const auto x = [](double frame) {
        return kMargin + frame * (kPicture.width() - 2.0 * kMargin) / (kFrames - 1);
    };
    painter.drawLine(QPointF{x(0.0), line}, QPointF{x(kFrames - 1), line});
    for (int frame = 0; frame < kFrames; ++frame) {
        painter.drawLine(QPointF{x(frame), line - 4.0}, QPointF{x(frame), line + 4.0});
    }
    const Drawn drawn = drawnOf(habit);
    if (!drawn.back) {
        painter.drawText(QRectF{0.0, 0.0, static_cast<double>(kPicture.width()), line - 3.0},
                         Qt::AlignCenter, QStringLiteral("?"));
        return picture;
    }
    painter.setBrush(ink);
    for (const int frame : {drawn.startFrame, *drawn.countedTo}) {
        painter.drawEllipse(QPointF{x(frame), line}, 4.0, 4.0);
    }
    painter.setBrush(Qt::NoBrush);
    for (const double instant : {drawn.start, *drawn.back}) {
        painter.drawEllipse(QPointF{x(instant), line - 10.0}, 3.5, 3.5);
        painter.drawLine(QPointF{x(instant), line - 6.0}, QPointF{x(instant), line});
    }
    return picture;
}

}  // namespace

HabitChoice::HabitChoice(QWidget* parent) : QComboBox{parent} {
    setObjectName(QStringLiteral("tally_counted"));
    setIconSize(kPicture);
    setToolTip(
        tr("How the frames were counted. Filled: the frames counted from and to. Hollow: when the "
           "mark really was at the start and back. When it is not known, all of these are allowed, "
           "and the results are less sure."));
    const std::array texts{tr("not known"), tr("start exact, nearest return"),
                           tr("both ends rounded"), tr("first frame at or past the turn")};
    for (const QString& text : texts) {
        addItem(text);
    }
    drawPictures();
}

CountingHabit HabitChoice::habit() const {
    return kHabits.at(static_cast<std::size_t>(std::max(0, currentIndex())));
}

void HabitChoice::changeEvent(QEvent* event) {
    QComboBox::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) {
        drawPictures();
    }
}

void HabitChoice::drawPictures() {
    for (int i = 0; i < count(); ++i) {
        setItemIcon(i, pictureOf(kHabits.at(static_cast<std::size_t>(i)),
                                 palette().color(QPalette::Text), devicePixelRatioF()));
    }
}

}  // namespace ui::plan
