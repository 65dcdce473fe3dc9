#include "ui/doubts/doubt_past.h"

#include <QHeaderView>
#include <QLabel>
#include <QTableView>
#include <QVBoxLayout>

#include "core/report/number_format.h"
#include "ui/doubts/text.h"
#include "ui/models/local_time.h"
#include "ui/models/sentence_table_model.h"
#include "ui/style/data_table.h"
#include "ui/style/plain_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::doubts {
namespace {

using core::project::Reading;
using core::project::ShotId;

constexpr int kHistoryLines = 6;

}  // namespace

DoubtPast::DoubtPast(const core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_readings{new models::SentenceTableModel{
          {tr("Counts"), tr("Reader"), tr("By"), tr("Spin rate, rpm"), tr("95 %, rpm")}, this}},
      m_table{style::makeDataTable(m_readings)},
      m_head{new QLabel{tr("What was decided")}},
      m_history{new QLabel} {
    m_table->setObjectName(QStringLiteral("doubtReadings"));
    m_table->setAccessibleName(tr("All readings of the shot"));
    m_table->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);  // all rows are there
    style::showPlainWords(m_history);
    m_history->setTextInteractionFlags(Qt::TextSelectableByMouse);
    style::setTextSize(m_head, style::TextSize::Body, style::Weight::Strong);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(style::kBetweenPx);
    column->addWidget(m_table);
    column->addWidget(m_head);
    column->addWidget(m_history);
}

void DoubtPast::show(std::optional<ShotId> shot) {
    showReadings(shot);
    showHistory(shot);
    setVisible(shot.has_value());
}

void DoubtPast::showReadings(std::optional<ShotId> id) {
    std::vector<models::SentenceTableModel::Row> rows;
    m_shown.clear();
    const auto snapshot = m_store.snapshot();
    const auto* shot = id ? snapshot->shots.find(*id) : nullptr;
    for (const Reading* reading :
         id ? core::project::readingsOfShot(*snapshot, *id) : std::vector<const Reading*>{}) {
        const bool counts = shot != nullptr && shot->counting == reading->id;
        const double sigma = reading->rate.sigma.rpm;
        rows.push_back(
            {{counts ? tr("● counts") : QString{}, text(reading->reader),
              reading->method == core::project::ReadingMethod::Marks ? tr("from the marks")
                                                                     : tr("from the pictures"),
              text(core::report::plusMinus(reading->rate.value.rpm, sigma)),
              text(core::report::intervalText(reading->interval95.low.rpm,
                                              reading->interval95.high.rpm, sigma))},
             tr("Made %1").arg(models::localTime(reading->madeAt)),
             {}});
        m_shown.push_back(reading->id);
    }
    m_readings->show(std::move(rows));
    m_table->setVisible(!m_shown.empty());
    if (!m_shown.empty()) {
        m_table->selectRow(static_cast<int>(m_shown.size()) - 1);
        fitTable();
    }
}

void DoubtPast::fitTable() {
    const int rows = m_readings->rowCount() * m_table->verticalHeader()->defaultSectionSize();
    m_table->setFixedHeight(rows + m_table->horizontalHeader()->sizeHint().height() +
                            2 * m_table->frameWidth());
}

void DoubtPast::showHistory(std::optional<ShotId> shot) {
    QStringList shown;
    if (shot) {
        const auto lines = m_store.historyOf(*shot);
        if (!lines) {
            shown << text(lines.error().message);
        } else {
            for (auto at = lines.value().rbegin();
                 at != lines.value().rend() && shown.size() < kHistoryLines; ++at) {
                shown << QStringLiteral("%1  %2").arg(
                    models::localTime(at->at, QStringLiteral("yyyy-MM-dd")),
                    text((at->reader.empty() ? "" : at->reader + ": ") + at->what));
            }
        }
    }
    m_history->setText(shown.join(QLatin1Char{'\n'}));
    m_head->setVisible(!shown.isEmpty());
    m_history->setVisible(!shown.isEmpty());
}

std::optional<core::project::ReadingId> DoubtPast::chosenReading() const {
    const int row = m_table->currentIndex().row();
    return row >= 0 && row < static_cast<int>(m_shown.size())
               ? std::optional{m_shown[static_cast<std::size_t>(row)]}
               : std::nullopt;
}

}  // namespace ui::doubts
