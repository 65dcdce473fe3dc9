#include "ui/findings/side_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include "core/base/words.h"
#include "ui/models/shot_table_model.h"
#include "ui/models/table_copy.h"
#include "ui/style/data_table.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"

namespace ui::findings {

using models::ShotTableModel;

SidePanel::SidePanel(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_shots{new ShotTableModel{store.snapshot(), this}},
      m_table{style::makeDataTable(m_shots)},
      m_sentence{new QLabel},
      m_count{new QLabel},
      m_flight{new QPushButton{tr("Flight")}},
      m_copy{models::addCopyAction(*m_table)},
      m_summary{new QLabel} {
    m_flight->setObjectName(QStringLiteral("show_flight"));
    m_flight->setToolTip(
        tr("Shows speed, launch angle and the parts of the spin of these shots, and their means"));
    m_flight->setCheckable(true);
    style::setRank(m_flight, style::Rank::Quiet);
    m_summary->setObjectName(QStringLiteral("flight_summary"));
    style::showPlainWords(m_summary);
    m_summary->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_sentence->setObjectName(QStringLiteral("sentence"));
    style::showPlainWords(m_sentence);
    m_sentence->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_table->hideColumn(ShotTableModel::kFrames);
    m_table->setAccessibleName(tr("Shots behind the chosen number"));
    m_table->setToolTip(tr("↑ ↓ choose a shot; Enter shows it in Reading"));
    m_table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_table->setTextElideMode(Qt::ElideRight);
    auto* open = new QPushButton{tr("Open shot")};
    open->setToolTip(tr("Shows the chosen shot in Reading (Enter)"));
    auto* foot = new QHBoxLayout;
    foot->addWidget(m_count, 1);
    foot->addWidget(m_flight);
    foot->addWidget(open);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_sentence);
    layout->addWidget(m_summary);
    layout->addWidget(m_table, 1);
    layout->addLayout(foot);
    connect(open, &QPushButton::clicked, this, &SidePanel::openShot);
    connect(m_table, &QTableView::activated, this, &SidePanel::openShot);
    m_table->setContextMenuPolicy(Qt::CustomContextMenu);
    connect(m_table, &QWidget::customContextMenuRequested, this, &SidePanel::showMenu);
    connect(m_flight, &QPushButton::toggled, this, &SidePanel::refreshFlight);
    refreshFlight();
}

void SidePanel::refreshFlight() {
    const bool isShown = m_flight->isChecked();
    for (int column = ShotTableModel::kFlight; column < ShotTableModel::kColumnCount; ++column) {
        m_table->setColumnHidden(column, !isShown);
    }
    m_table->setColumnHidden(ShotTableModel::kStanding, isShown);
    m_table->setColumnHidden(ShotTableModel::kNote, !hasNotes());
    m_table->setHorizontalScrollBarPolicy(isShown ? Qt::ScrollBarAsNeeded : Qt::ScrollBarAlwaysOff);
    m_summary->setVisible(isShown);
    if (!isShown) {
        return;
    }
    const auto flights = m_shots->flights();
    m_summary->setText(
        flights.empty() ? tr("No shot here has a flight: it needs a reading from the pictures that "
                             "was kept with the ball's diameter known.")
                        : QString::fromStdString(core::words::summaryOf(flights)));
}

/// A column without a word would take the room of the others.
bool SidePanel::hasNotes() const {
    for (int row = 0; row < m_shots->rowCount(); ++row) {
        const auto note = m_shots->index(row, ShotTableModel::kNote);
        if (!m_shots->data(note, Qt::DisplayRole).toString().isEmpty()) {
            return true;
        }
    }
    return false;
}

void SidePanel::say(const QString& sentence) {
    m_sentence->setText(sentence);
}

void SidePanel::showShots(const std::vector<core::project::ShotId>& shots, bool areOfOne) {
    m_shots->showShots(shots, areOfOne);
    refreshFlight();
    m_count->setText(QString::fromStdString(core::counted(shots.size(), "shot", "shots")));
}

void SidePanel::update(const core::project::SnapshotPtr& snapshot) {
    m_shots->update(snapshot);
    refreshFlight();
}

void SidePanel::focusShots() {
    m_table->setFocus();
    if (!m_table->currentIndex().isValid() && m_shots->rowCount() > 0) {
        m_table->selectRow(0);
    }
}

std::optional<core::project::ShotId> SidePanel::chosenShot() const {
    const auto rows = m_table->selectionModel()->selectedRows();
    return rows.isEmpty() ? std::nullopt : std::optional{m_shots->shotAt(rows.front().row())};
}

void SidePanel::openShot() {
    if (const auto shot = chosenShot()) {
        Q_EMIT shotActivated(*shot);
    }
}

void SidePanel::showMenu(const QPoint& at) {
    const auto shot = chosenShot();
    if (!shot || !m_table->indexAt(at).isValid()) {
        return;
    }
    // Not run from here: a key may close the project, and the list with it, while the menu stands.
    auto* menu = new QMenu{m_table};
    menu->setObjectName(QStringLiteral("side_menu"));
    menu->setAttribute(Qt::WA_DeleteOnClose);
    menu->addAction(tr("Read this shot"), this, &SidePanel::openShot);
    menu->addAction(tr("Show its doubts"), this,
                    [this, shot = *shot] { Q_EMIT doubtsWanted(shot); });
    menu->addSeparator();
    menu->addAction(m_copy);
    menu->popup(m_table->viewport()->mapToGlobal(at));
}

}  // namespace ui::findings
