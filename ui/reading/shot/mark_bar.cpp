#include "ui/reading/shot/mark_bar.h"

#include <QComboBox>
#include <QEvent>
#include <QHBoxLayout>
#include <QPainter>
#include <QToolButton>
#include <array>

#include "ui/reading/reading_actions.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/shot/replay_loop.h"
#include "ui/style/rank.h"
#include "ui/style/sign.h"
#include "ui/style/text_font.h"

namespace ui::reading {
namespace {

constexpr std::array kSlownesses{4, 8, 16, 32, 64};

/// The shape of a mark before the word of its button.
QIcon markIcon(const MarkLook& look, const QWidget& widget) {
    const int side = widget.fontMetrics().height();
    QPixmap picture{QSize{side, side} * widget.devicePixelRatioF()};
    picture.setDevicePixelRatio(widget.devicePixelRatioF());
    picture.fill(Qt::transparent);
    QPainter painter{&picture};
    style::drawShape(painter, look.shape, {side / 2.0, side / 2.0}, side * 0.42,
                     style::dataColour(look.colour, widget.palette()));
    return picture;
}

}  // namespace

MarkBar::MarkBar(const ReadingActions& actions, ReplayLoop& replay, QWidget* parent)
    : QWidget{parent}, m_actions{actions} {
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(6, 3, 6, 3);
    row->setSizeConstraint(QLayout::SetNoConstraint);
    row->setSpacing(4);
    const auto add = [&](QAction* action, style::Rank rank = style::Rank::Secondary) {
        auto* button = new QToolButton{this};
        button->setDefaultAction(action);
        button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
        button->setFocusPolicy(Qt::TabFocus);
        style::setRank(button, rank);
        row->addWidget(button);
        return button;
    };
    add(actions.previousFrame);
    add(actions.nextFrame);
    for (QAction* action : {actions.start, actions.returnHere, actions.bracket, actions.dial}) {
        m_marks << add(action);
    }
    m_quiet << add(actions.compare, style::Rank::Quiet) << add(actions.replay, style::Rank::Quiet);
    auto* slowness = new QComboBox{this};
    slowness->setFocusPolicy(Qt::TabFocus);
    slowness->setToolTip(tr("How much slower than real time the replay is"));
    slowness->setAccessibleName(tr("Slowness of the replay"));
    for (const int factor : kSlownesses) {
        slowness->addItem(tr("%1×").arg(factor), factor);
    }
    slowness->setCurrentIndex(slowness->findData(replay.slowness()));
    connect(slowness, &QComboBox::currentIndexChanged, &replay,
            [slowness, &replay] { replay.setSlowness(slowness->currentData().toInt()); });
    row->addWidget(slowness);
    row->addStretch(1);
    m_quiet << add(actions.keys, style::Rank::Quiet);
    drawIcons();
}

void MarkBar::drawIcons() {
    m_actions.start->setIcon(markIcon(kStartLook, *this));
    m_actions.returnHere->setIcon(markIcon(kReturnLook, *this));
    for (const auto& [action, sign] : {std::pair{m_actions.bracket, style::Sign::Bracket},
                                       std::pair{m_actions.dial, style::Sign::Dial},
                                       std::pair{m_actions.compare, style::Sign::Compare},
                                       std::pair{m_actions.replay, style::Sign::Replay},
                                       std::pair{m_actions.keys, style::Sign::Keys}}) {
        action->setIcon(style::signIcon(sign, *this));
    }
}

QSize MarkBar::minimumSizeHint() const {
    constexpr int kSignsPx = 330;
    return {static_cast<int>(kSignsPx * style::textScale()), layout()->sizeHint().height()};
}

void MarkBar::fit() {
    const auto show = [](const QList<QToolButton*>& buttons, bool hasWords) {
        for (QToolButton* button : buttons) {
            button->setToolButtonStyle(hasWords ? Qt::ToolButtonTextBesideIcon
                                                : Qt::ToolButtonIconOnly);
        }
    };
    show(m_marks, true);
    show(m_quiet, true);
    layout()->invalidate();
    if (layout()->sizeHint().width() > width()) {
        show(m_quiet, false);
        layout()->invalidate();
    }
    if (layout()->sizeHint().width() > width()) {
        show(m_marks, false);
    }
}

void MarkBar::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fit();
}

void MarkBar::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange) {
        drawIcons();
        fit();
    }
}

}  // namespace ui::reading
