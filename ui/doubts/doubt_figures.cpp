#include "ui/doubts/doubt_figures.h"

#include <QBoxLayout>
#include <algorithm>

#include "core/doubts/claimed_turn.h"
#include "ui/doubts/doubt_rates.h"
#include "ui/doubts/turn_panel.h"
#include "ui/style/tokens.h"

namespace ui::doubts {
namespace {

constexpr int kBesideFromPx = 1100;  // narrower, the turns stand one below the other

constexpr int kLeastPicturePx = 52;
constexpr int kMostPicturePx = 108;
constexpr int kPicturesInWidth = 13;  // 68 px in a card of 880

}  // namespace

DoubtFigures::DoubtFigures(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_scale{new RateScale},
      m_turns{new QBoxLayout{QBoxLayout::TopToBottom}},
      m_inUse{new TurnPanel{store, jobs}},
      m_rival{new TurnPanel{store, jobs}} {
    m_inUse->setObjectName(QStringLiteral("doubtTurnInUse"));
    m_rival->setObjectName(QStringLiteral("doubtTurnOfRival"));
    m_turns->setSpacing(style::kCardsPx);
    m_turns->addWidget(m_inUse, 1);
    m_turns->addWidget(m_rival, 1);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(style::kCardsPx);
    column->addWidget(m_scale);
    column->addLayout(m_turns);
    show(nullptr);
}

void DoubtFigures::show(const core::doubts::Doubted* item) {
    const auto snapshot = m_store.snapshot();
    m_scale->show(item != nullptr ? scaleOf(*snapshot, CellRates{*snapshot, item->cell}, *item)
                                  : RateScale::Content{});
    const auto readings = item != nullptr && item->shot
                              ? core::doubts::rivalReadings(*snapshot, *item->shot)
                              : core::doubts::RivalReadings{};
    m_inUse->show(readings.inUse);
    m_rival->show(readings.rival);
    setVisible(item != nullptr);
}

void DoubtFigures::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    const int side = std::clamp(width() / kPicturesInWidth, kLeastPicturePx, kMostPicturePx);
    for (TurnPanel* panel : {m_inUse, m_rival}) {
        panel->setPictureSide(side);
    }
    m_turns->setDirection(width() >= kBesideFromPx ? QBoxLayout::LeftToRight
                                                   : QBoxLayout::TopToBottom);
}

}  // namespace ui::doubts
