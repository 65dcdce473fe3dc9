#include "ui/reading/reading_look.h"

#include <QCoreApplication>

#include "core/report/number_format.h"

namespace ui::reading {

using core::project::ShotStanding;
using style::DataColour;
using style::Shape;

ShotState stateOf(const core::project::Shot& shot) {
    if (shot.standing == ShotStanding::SetAside) {
        return ShotState::SetAside;
    }
    if (shot.doubtful) {
        return ShotState::Doubtful;
    }
    if (shot.standing == ShotStanding::Kept) {
        return ShotState::Kept;
    }
    return shot.marks == core::spin::MarkSet{} ? ShotState::Unread : ShotState::Marked;
}

MarkLook lookOf(ShotState state) {
    switch (state) {
        case ShotState::Unread:
            return {DataColour::Black, Shape::Ring};
        case ShotState::Marked:
            return {DataColour::Blue, Shape::Disc};
        case ShotState::Kept:
            return {DataColour::BluishGreen, Shape::Tick};
        case ShotState::Doubtful:
            return {DataColour::Orange, Shape::TriangleUp};
        case ShotState::SetAside:
            break;
    }
    return {DataColour::Vermilion, Shape::Cross};
}

QString nameOf(ShotState state) {
    const auto tr = [](const char* text) {
        return QCoreApplication::translate("ui::reading::ShotState", text);
    };
    switch (state) {
        case ShotState::Unread:
            return tr("unread");
        case ShotState::Marked:
            return tr("marked, not kept");
        case ShotState::Kept:
            return tr("kept");
        case ShotState::Doubtful:
            return tr("doubtful");
        case ShotState::SetAside:
            break;
    }
    return tr("set aside");
}

void paintGround(QPainter& painter, const QWidget& view) {
    painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    painter.fillRect(view.rect(), style::colour(style::Token::Sunken, view.palette()));
}

QString fixedText(double value, int decimals) {
    return QString::fromStdString(core::report::fixed(value, decimals));
}

QString valueText(double value, double sigma) {
    return QString::fromStdString(core::report::withDigitsOf(value, sigma));
}

QString afterStrikeText(double milliseconds) {
    const QString number = fixedText(milliseconds, 1);
    return QCoreApplication::translate("ui::reading::Time", "%1 ms")
        .arg(milliseconds >= 0.05 ? QLatin1Char('+') + number : number);
}

}  // namespace ui::reading
