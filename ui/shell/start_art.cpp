#include "ui/shell/start_art.h"

#include <QPainter>
#include <array>

#include "ui/style/sign.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"
#include "ui/style/turn_mark.h"

namespace ui::shell {
namespace {

using style::Sign;
using style::Token;

constexpr int kArtSidePx = 48;
constexpr int kNamePx = 44;
constexpr int kBetweenStepsPx = 14;
constexpr int kStepWordsPx = 96;  // narrower: the names alone

struct StepLine {
    Sign sign;
    const char* name;
    const char* what;
};

constexpr std::array kSteps{
    StepLine{Sign::Plan, QT_TRANSLATE_NOOP("ui::shell::StartArt", "Plan"),
             QT_TRANSLATE_NOOP("ui::shell::StartArt", "who hits what, how often")},
    StepLine{Sign::Footage, QT_TRANSLATE_NOOP("ui::shell::StartArt", "Footage"),
             QT_TRANSLATE_NOOP("ui::shell::StartArt", "add the clips, find the shots")},
    StepLine{Sign::Reading, QT_TRANSLATE_NOOP("ui::shell::StartArt", "Reading"),
             QT_TRANSLATE_NOOP("ui::shell::StartArt", "one key a shot")},
    StepLine{Sign::Doubts, QT_TRANSLATE_NOOP("ui::shell::StartArt", "Doubts"),
             QT_TRANSLATE_NOOP("ui::shell::StartArt", "look again, decide")},
    StepLine{Sign::Findings, QT_TRANSLATE_NOOP("ui::shell::StartArt", "Findings"),
             QT_TRANSLATE_NOOP("ui::shell::StartArt", "rank with intervals")},
    StepLine{Sign::Publish, QT_TRANSLATE_NOOP("ui::shell::StartArt", "Publish"),
             QT_TRANSLATE_NOOP("ui::shell::StartArt", "a page others can check")}};

}  // namespace

StartArt::StartArt(QWidget* parent) : QWidget{parent} {
    setAccessibleName(tr("Turnmark: the spin of a struck ball, read from your footage"));
}

int StartArt::paintHead(QPainter& painter) const {
    const QPalette look = style::programPalette();
    const int side = width() < 500 ? style::kGroupsPx : kArtSidePx;
    painter.setFont(style::drawnFont(font(), kNamePx));
    painter.setPen(colour(Token::BandWords, look));
    const int top = std::min(style::kGroupsPx + height() / 30, 40);
    const int name = painter.fontMetrics().height();
    painter.drawText(QRect{side, top, width() - 2 * side, name}, Qt::AlignLeft,
                     QStringLiteral("Turnmark"));
    painter.setFont(style::textFont(font(), style::TextSize::Title));
    painter.setPen(colour(Token::BandQuiet, look));
    const QRect room{side, top + name, width() - 2 * side, height()};
    const QString words =
        tr("The spin of a struck ball, read from your own footage. Every number with its "
           "uncertainty.");
    const QRect used = painter.boundingRect(room, Qt::TextWordWrap, words);
    painter.drawText(room, Qt::TextWordWrap, words);
    return used.bottom();
}

StartArt::Steps StartArt::placeSteps() const {
    const int side = width() < 500 ? style::kGroupsPx : kArtSidePx;
    const int all = static_cast<int>(kSteps.size());
    Steps steps;
    for (const int columns : {all, all / 2}) {
        steps.columns = columns;
        steps.stepPx = (width() - 2 * side + kBetweenStepsPx) / columns;
        const int wide = steps.stepPx - kBetweenStepsPx;
        steps.hasWords = columns == all && wide >= kStepWordsPx;
        const QFontMetrics small{style::textFont(font(), style::TextSize::Small)};
        const QFontMetrics names{
            style::textFont(font(), steps.hasWords ? style::TextSize::Body : style::TextSize::Small,
                            style::Weight::Strong)};
        steps.wordsPx = 0;
        bool isEnough = true;
        for (const StepLine& each : kSteps) {
            isEnough = isEnough && names.horizontalAdvance(tr(each.name)) <= wide;
            const QRect words =
                small.boundingRect(QRect{0, 0, wide, height()}, Qt::TextWordWrap, tr(each.what));
            steps.wordsPx = std::max(steps.wordsPx, steps.hasWords ? words.height() : 0);
        }
        if (isEnough) {
            break;
        }
    }
    steps.rowPx = 12 + 24 + 8 + fontMetrics().height() + steps.wordsPx;
    return steps;
}

/// Where they begin.
int StartArt::paintSteps(QPainter& painter) const {
    const QPalette look = style::programPalette();
    const int side = width() < 500 ? style::kGroupsPx : kArtSidePx;
    const Steps steps = placeSteps();
    const int count = static_cast<int>(kSteps.size());
    const int rows = (count + steps.columns - 1) / steps.columns;
    const int begin = height() - rows * (steps.rowPx + style::kGroupsPx);
    for (int i = 0; i < count; ++i) {
        const StepLine& each = kSteps.at(static_cast<std::size_t>(i));
        const int left = side + (i % steps.columns) * steps.stepPx;
        const int top = begin + (i / steps.columns) * (steps.rowPx + style::kGroupsPx);
        const int wide = steps.stepPx - kBetweenStepsPx;
        painter.fillRect(QRect{left, top, wide, 1}, colour(Token::BandQuiet, look));
        style::drawSign(painter, each.sign, {static_cast<double>(left), top + 12.0, 24.0, 24.0},
                        colour(Token::Chalk, look));
        painter.setFont(
            style::textFont(font(), steps.hasWords ? style::TextSize::Body : style::TextSize::Small,
                            style::Weight::Strong));
        painter.setPen(colour(Token::BandWords, look));
        int y = top + 12 + 24 + 8;
        painter.drawText(QRect{left, y, wide, fontMetrics().height()}, Qt::AlignLeft,
                         tr(each.name));
        if (steps.hasWords) {
            y += fontMetrics().height();
            painter.setFont(style::textFont(font(), style::TextSize::Small));
            painter.setPen(colour(Token::BandQuiet, look));
            painter.drawText(QRect{left, y, wide, steps.wordsPx}, Qt::AlignLeft | Qt::TextWordWrap,
                             tr(each.what));
        }
    }
    return begin;
}

void StartArt::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(rect(), colour(Token::Band, style::programPalette()));
    const int top = paintHead(painter) + style::kGroupsPx;
    const int bottom = paintSteps(painter) - style::kGroupsPx;
    constexpr int kLeastPx = 110;
    if (bottom - top >= kLeastPx) {
        painter.setFont(style::textFont(font(), style::TextSize::Body));
        style::drawTurnMark(painter,
                            QRectF{0.0, static_cast<double>(top), static_cast<double>(width()),
                                   static_cast<double>(bottom - top)},
                            width() >= 500, palette());
    }
}

}  // namespace ui::shell
