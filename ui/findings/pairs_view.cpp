#include "ui/findings/pairs_view.h"

#include <QHeaderView>
#include <QLabel>
#include <QTableView>
#include <QVBoxLayout>

#include "core/words/findings.h"
#include "ui/findings/table_view.h"
#include "ui/models/pair_matrix_model.h"
#include "ui/style/data_table.h"
#include "ui/style/plain_label.h"

namespace ui::findings {
namespace {

constexpr int kNameLetters = 36;  // of the names at the side; longer ones are cut

}  // namespace

PairsView::PairsView(QWidget* parent)
    : QWidget{parent},
      m_pairs{new models::PairMatrixModel{this}},
      m_table{style::makeDataTable(m_pairs)},
      m_summary{new QLabel},
      m_sentence{new QLabel},
      m_signs{new QLabel} {
    m_table->setObjectName(QStringLiteral("pairs"));
    m_table->setAccessibleName(tr("Pairs of implements, row less column, rpm"));
    m_table->setToolTip(tr("Arrow keys choose a pair; Enter shows its shots"));
    m_table->setSelectionBehavior(QAbstractItemView::SelectItems);
    m_table->setAlternatingRowColors(false);
    m_table->setShowGrid(true);
    m_table->verticalHeader()->show();
    m_table->verticalHeader()->setTextElideMode(Qt::ElideRight);
    m_table->verticalHeader()->setMaximumWidth(kNameLetters *
                                               m_table->fontMetrics().averageCharWidth());
    m_table->horizontalHeader()->setStretchLastSection(false);
    m_sentence->setObjectName(QStringLiteral("pair_sentence"));
    for (QLabel* label : {m_summary, m_sentence, m_signs}) {
        style::showPlainWords(label);
    }
    auto* layout = new QVBoxLayout{this};
    layout->addWidget(m_summary);
    layout->addWidget(m_table, 1);
    layout->addWidget(m_signs);
    layout->addWidget(m_sentence);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentChanged, this,
            &PairsView::sayChosen);
    connect(m_table, &QTableView::activated, this, [this](const QModelIndex& index) {
        if (const auto* pair = m_pairs->pairAt(index)) {
            Q_EMIT pairActivated(pair->first, pair->second);
        }
    });
}

void PairsView::show(const core::findings::FindingsPtr& findings,
                     const core::findings::Comparison* comparison) {
    const auto before = m_table->currentIndex();
    const int row = before.row();
    const int column = before.column();
    m_pairs->show(findings, comparison);
    m_step = findings->noticeableStep;
    const bool hasPairs = m_pairs->rowCount() > 0;
    m_table->setVisible(hasPairs);
    m_signs->setVisible(hasPairs);
    m_summary->setText(QString::fromStdString(hasPairs ? core::words::testSentence(*comparison) +
                                                             " " + core::words::outlook(*comparison)
                                                       : core::words::whyNoPairs(*comparison)));
    m_signs->setText(models::PairMatrixModel::signsText(findings->noticeableStep.has_value()));
    if (hasPairs) {
        const bool isThere =
            row >= 0 && row < m_pairs->rowCount() && column >= 0 && column < m_pairs->rowCount();
        m_table->setCurrentIndex(m_pairs->index(isThere ? row : 0, isThere ? column : 1));
    }
    sayChosen();
}

void PairsView::sayChosen() {
    const auto* pair = m_pairs->pairAt(m_table->currentIndex());
    m_sentence->setText(pair == nullptr
                            ? QString{}
                            : QString::fromStdString(core::words::sentence(*pair, m_step) + " " +
                                                     core::words::outlook(*pair)));
}

}  // namespace ui::findings
