#include "ui/reading/reading_look.h"

#include <QCoreApplication>
#include <QWidget>

#include "core/report/number_format.h"
#include "ui/reading/tr.h"

namespace ui::reading {

using core::project::ShotStanding;

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

SignLook signOf(ShotState state) {
    switch (state) {
        case ShotState::Unread:
            return {style::Sign::ToRead, style::Token::Quiet};
        case ShotState::Marked:
            return {style::Sign::ToRead, style::Token::Ink};
        case ShotState::Kept:
            return {style::Sign::Done, style::Token::Done};
        case ShotState::Doubtful:
            return {style::Sign::Doubtful, style::Token::Question};
        case ShotState::SetAside:
            break;
    }
    return {style::Sign::SetAside, style::Token::Quiet};
}

QString nameOf(ShotState state) {
    switch (state) {
        case ShotState::Unread:
            return tr("to read");
        case ShotState::Marked:
            return tr("to read, marked");
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
