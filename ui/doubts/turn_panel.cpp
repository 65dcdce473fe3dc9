#include "ui/doubts/turn_panel.h"

#include <QLabel>
#include <QVBoxLayout>

#include "core/doubts/claimed_turn.h"
#include "ui/doubts/turn_pictures.h"
#include "ui/doubts/turn_strip.h"
#include "ui/models/number_text.h"
#include "ui/style/plain_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::doubts {

TurnPanel::TurnPanel(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_pictures{new TurnPictures{store, jobs, this}},
      m_claim{new QLabel},
      m_turn{new TurnStrip{*m_pictures}},
      m_lack{new QLabel} {
    m_claim->setObjectName(QStringLiteral("doubtClaim"));
    m_lack->setObjectName(QStringLiteral("doubtTurnLack"));
    style::showPlainWords(m_claim);
    style::showPlainWords(m_lack);
    style::setTextSize(m_claim, style::TextSize::Body, style::Weight::Strong);
    m_lack->setForegroundRole(QPalette::PlaceholderText);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(style::kBetweenPx);
    column->addWidget(m_claim);
    column->addWidget(m_turn);
    column->addWidget(m_lack);
    column->addStretch(1);
    connect(m_pictures, &TurnPictures::changed, this, &TurnPanel::sayWhatLacks);
    show(std::nullopt);
}

void TurnPanel::show(std::optional<core::project::ReadingId> id) {
    const auto turn = id ? core::doubts::claimedTurn(m_store, *id) : std::nullopt;
    if (turn) {
        m_claim->setText(tr("%1 rpm, %2 frames a turn: the mark comes back in frame %3")
                             .arg(models::numberText(turn->rate.rpm, 'f', 0),
                                  models::numberText(turn->frames, 'f', 1))
                             .arg(turn->back.value));
        m_pictures->want(turn->shot, turn->shown);
    } else {
        m_pictures->want({}, {});
    }
    m_turn->show(turn);
    setVisible(turn.has_value());
}

void TurnPanel::setPictureSide(int px) {
    m_turn->setSide(px);
}

void TurnPanel::sayWhatLacks() {
    const QString trouble = m_pictures->trouble();
    m_lack->setText(trouble.isEmpty()
                        ? QString{}
                        : tr("Not all pictures of this turn can be shown. %1").arg(trouble));
    m_lack->setVisible(!trouble.isEmpty());
    m_turn->setVisible(trouble.isEmpty() || m_pictures->areAnyThere());
}

}  // namespace ui::doubts
