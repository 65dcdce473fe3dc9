#include "ui/reading/grid/turn_grid_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>

#include "ui/reading/reading_actions.h"
#include "ui/reading/reading_look.h"
#include "ui/style/rank.h"
#include "ui/style/tabular_font.h"
#include "ui/style/text_font.h"

namespace ui::reading {
namespace {

QToolButton* button(QWidget* parent, QAction* action, style::Rank rank = style::Rank::Secondary) {
    auto* made = new QToolButton{parent};
    made->setDefaultAction(action);
    made->setFocusPolicy(Qt::TabFocus);
    style::setRank(made, rank);
    return made;
}

}  // namespace

TurnGridPanel::TurnGridPanel(ReadingDesk& desk, const BallPictures& pictures,
                             const ReadingActions& actions, QWidget* parent)
    : QWidget{parent},
      m_desk{desk},
      m_grid{new TurnGrid{desk, pictures, this}},
      m_row{new QLabel{this}},
      m_sense{new QToolButton{this}} {
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2);
    auto* line = new QHBoxLayout;
    line->setContentsMargins(6, 3, 6, 0);
    line->setSpacing(6);
    m_row->setObjectName(QStringLiteral("rowText"));
    m_row->setMinimumWidth(1);  // gives way before the buttons do
    m_sense->setFocusPolicy(Qt::TabFocus);
    style::setRank(m_sense, style::Rank::Quiet);
    m_sense->setToolTip(tr("The way in which the mark turns; press for the other way"));
    line->addWidget(m_row, 1);
    line->addWidget(button(this, actions.shorterRow));
    line->addWidget(button(this, actions.longerRow));
    line->addWidget(button(this, actions.rowFromReading, style::Rank::Quiet));
    line->addWidget(button(this, actions.holdStill));
    line->addWidget(m_sense);
    column->addLayout(line);
    column->addWidget(m_grid, 1);
    connect(actions.holdStill, &QAction::toggled, m_grid, &TurnGrid::setHeldStill);
    connect(actions.holdStill, &QAction::toggled, this, &TurnGridPanel::refresh);
    connect(m_grid, &TurnGrid::senseChanged, this, &TurnGridPanel::refresh);
    connect(m_sense, &QToolButton::clicked, this, [this] {
        m_grid->setSense(m_grid->sense() == TurnSense::Clockwise ? TurnSense::CounterClockwise
                                                                 : TurnSense::Clockwise);
    });
    connect(&desk, &ReadingDesk::rowChanged, this, &TurnGridPanel::refresh);
    connect(&desk, &ReadingDesk::viewChanged, this, &TurnGridPanel::refresh);
    connect(&desk, &ReadingDesk::shotClosed, this, &TurnGridPanel::refresh);
    refresh();
    style::whenFontChanges(this, [this] { refresh(); });
}

/// In fewer words where there is no room.
void TurnGridPanel::showRow() {
    const QString words = rowText();
    const auto fits = [this](const QString& text) {
        return m_row->fontMetrics().horizontalAdvance(text) <= m_row->width();
    };
    if (!m_desk.hasShot() || fits(words)) {
        m_row->setText(words);
        return;
    }
    const QString shorter = tr("row of %1 frames (%2 rpm)").arg(frames(), rpm());
    m_row->setText(fits(shorter) ? shorter : tr("row of %1 frames").arg(frames()));
}

void TurnGridPanel::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    layout()->activate();
    showRow();
}

QString TurnGridPanel::rowText() const {
    return m_desk.hasShot() ? tr("row = one turn of %1 frames (%2 rpm)").arg(frames(), rpm())
                            : tr("Turn grid");
}

QString TurnGridPanel::frames() const {
    return fixedText(m_desk.rowSeconds() / m_desk.view().frameSeconds, 2);
}

QString TurnGridPanel::rpm() const {
    const double rpm = 60.0 / m_desk.rowSeconds();
    return fixedText(rpm, rpm < 1000.0 ? 1 : 0);
}

void TurnGridPanel::refresh() {
    m_row->setFont(style::tabularFont(font()));
    showRow();
    m_row->setToolTip(rowText());
    m_sense->setVisible(m_grid->isHeldStill());
    m_sense->setText(m_grid->sense() == TurnSense::Clockwise ? tr("↻ clockwise")
                                                             : tr("↺ counter-clockwise"));
}

}  // namespace ui::reading
