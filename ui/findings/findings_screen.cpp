#include "ui/findings/findings_screen.h"

#include <QHeaderView>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QSplitter>
#include <QStackedWidget>
#include <QTabWidget>
#include <QTableView>
#include <QVBoxLayout>

#include "core/findings/settings.h"
#include "ui/chart/ranked_chart.h"
#include "ui/findings/findings_bar.h"
#include "ui/findings/findings_facts.h"
#include "ui/findings/pairs_view.h"
#include "ui/findings/plot_view.h"
#include "ui/findings/publish_panel.h"
#include "ui/findings/table_view.h"
#include "ui/models/ranked_table_model.h"
#include "ui/models/shot_table_model.h"
#include "ui/style/data_table.h"
#include "ui/style/plain_label.h"

namespace ui::findings {
namespace {

using core::findings::FindingsPtr;
using core::project::HitterId;
using core::project::ImplementId;
using core::project::ShotId;

constexpr int kShotsTab = 0;

}  // namespace

FindingsScreen::FindingsScreen(core::project::Store& store, bridge::JobRunner& jobs,
                               bridge::FindingsKeeper& keeper, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_keeper{keeper},
      m_rows{new models::RankedTableModel{this}},
      m_sorted{new QSortFilterProxyModel{this}},
      m_shots{new models::ShotTableModel{store.snapshot(), this}},
      m_bar{new FindingsBar{store}},
      m_chart{new chart::RankedChart},
      m_sentence{new QLabel},
      m_message{new QLabel},
      m_tabs{new QTabWidget},
      m_pairs{new PairsView},
      m_hitters{new TableView{
          {QStringLiteral("Implement"), QStringLiteral("Which"), QStringLiteral("Difference, rpm"),
           QStringLiteral("95 %, rpm"), QStringLiteral("Verdict")},
          QStringLiteral("Hitter against hitter, new against worn")}},
      m_drift{new PlotView{QStringLiteral("Spin over the shots of a session")}},
      m_attributes{new PlotView{QStringLiteral("Spin against an attribute of the implements")}},
      m_agreement{new PlotView{QStringLiteral("Marks against rotation fit")}},
      m_method{new QPlainTextEdit},
      m_publish{new PublishPanel{store, jobs}},
      m_pages{new QStackedWidget},
      m_empty{new QLabel} {
    m_sorted->setSourceModel(m_rows);
    m_sorted->setSortRole(models::RankedTableModel::kSortRole);
    m_table = style::makeDataTable(m_sorted);
    m_shotView = style::makeDataTable(m_shots);
    layOut();
    connectAll();
    m_listening = m_store.listen([this](const core::project::Store::Change&) {
        if (isVisible()) {
            m_shots->update(m_store.snapshot());
            refresh();
        }
    });
    connect(&m_keeper, &bridge::FindingsKeeper::changed, this, [this] {
        if (isVisible() || !m_findings) {
            adopt();
        }
    });
    refresh();
}

FindingsScreen::~FindingsScreen() = default;

QWidget* FindingsScreen::makeTop() {
    m_sentence->setObjectName(QStringLiteral("sentence"));
    style::showPlainWords(m_sentence);
    m_sentence->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_message->setObjectName(QStringLiteral("message"));
    style::showPlainWords(m_message);
    m_message->hide();
    auto* top = new QWidget;
    auto* layout = new QVBoxLayout{top};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_bar);
    layout->addWidget(m_chart, 1);
    layout->addWidget(m_sentence);
    layout->addWidget(m_message);
    return top;
}

QWidget* FindingsScreen::makeShots() {
    m_shotView->hideColumn(models::ShotTableModel::kFrames);
    m_shotView->setAccessibleName(QStringLiteral("Shots behind the chosen number"));
    auto* openShot = new QPushButton{QStringLiteral("Open shot")};
    openShot->setToolTip(QStringLiteral("Shows the chosen shot in Reading (Enter)"));
    connect(openShot, &QPushButton::clicked, this, [this] {
        const auto rows = m_shotView->selectionModel()->selectedRows();
        if (!rows.isEmpty()) {
            Q_EMIT shotActivated(m_shots->shotAt(rows.front().row()));
        }
    });
    auto* box = new QWidget;
    auto* head = new QHBoxLayout;
    head->addWidget(new QLabel{QStringLiteral("Shots behind the chosen number")}, 1);
    head->addWidget(openShot);
    auto* layout = new QVBoxLayout{box};
    layout->addLayout(head);
    layout->addWidget(m_shotView, 1);
    return box;
}

void FindingsScreen::makeViews() {
    m_method->setReadOnly(true);
    m_method->setFrameShape(QFrame::NoFrame);
    m_method->setAccessibleName(QStringLiteral("How it was read and computed"));
    m_method->setTabChangesFocus(true);
    m_tabs->setObjectName(QStringLiteral("views"));
    m_tabs->setUsesScrollButtons(true);
    const std::initializer_list<std::pair<QWidget*, QString>> views{
        {makeShots(), QStringLiteral("Shots")},       {m_pairs, QStringLiteral("Pairs")},
        {m_hitters, QStringLiteral("Hitters")},       {m_drift, QStringLiteral("Drift")},
        {m_attributes, QStringLiteral("Attributes")}, {m_agreement, QStringLiteral("Agreement")},
        {m_method, QStringLiteral("Method")},         {m_publish, QStringLiteral("Publish")}};
    for (const auto& [view, title] : views) {
        const int at = m_tabs->addTab(view, title);
        m_tabs->setTabToolTip(at, QStringLiteral("%1 (Ctrl+Tab goes on)").arg(title));
    }
}

void FindingsScreen::layOut() {
    m_table->setObjectName(QStringLiteral("ranked"));
    m_table->setSortingEnabled(true);
    m_table->sortByColumn(models::RankedTableModel::kRank, Qt::AscendingOrder);
    m_table->horizontalHeader()->setSectionResizeMode(models::RankedTableModel::kNotes,
                                                      QHeaderView::Stretch);
    style::letColumnShrink(m_table, models::RankedTableModel::kImplement);
    m_table->setWordWrap(false);
    m_table->setTextElideMode(Qt::ElideRight);
    m_table->setAccessibleName(QStringLiteral("Ranked table of the implements"));
    m_table->setToolTip(QStringLiteral("↑ ↓ choose an implement; Enter shows its shots"));
    makeViews();
    auto* lower = new QSplitter{Qt::Horizontal};
    lower->addWidget(m_table);
    lower->addWidget(m_tabs);
    lower->setStretchFactor(0, 3);
    lower->setStretchFactor(1, 2);
    lower->setSizes({775, 575});
    lower->setChildrenCollapsible(false);
    auto* split = new QSplitter{Qt::Vertical};
    split->addWidget(makeTop());
    split->addWidget(lower);
    split->setStretchFactor(0, 1);
    split->setStretchFactor(1, 1);
    split->setChildrenCollapsible(false);
    m_empty->setObjectName(QStringLiteral("empty"));
    m_empty->setAlignment(Qt::AlignCenter);
    m_empty->setWordWrap(true);
    m_pages->addWidget(split);
    m_pages->addWidget(m_empty);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(8, 8, 8, 8);
    layout->addWidget(m_pages);
}

void FindingsScreen::connectAll() {
    connect(m_tabs, &QTabWidget::currentChanged, this, &FindingsScreen::fillView);
    connect(m_bar, &FindingsBar::scopeChanged, this, &FindingsScreen::showFindings);
    connect(m_chart, &chart::RankedChart::chosen, this, &FindingsScreen::choose);
    connect(m_chart, &chart::RankedChart::shotActivated, this, &FindingsScreen::shotActivated);
    connect(m_table->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &FindingsScreen::onRowChosen);
    connect(m_table, &QTableView::activated, this, [this] {
        m_tabs->setCurrentIndex(kShotsTab);
        m_shotView->setFocus();
    });
    connect(m_shotView, &QTableView::activated, this, [this](const QModelIndex& index) {
        Q_EMIT shotActivated(m_shots->shotAt(index.row()));
    });
    connect(m_hitters, &TableView::shotsWanted, this, &FindingsScreen::showShots);
    connect(m_pairs, &PairsView::pairActivated, this,
            [this](ImplementId first, ImplementId second) {
                auto shots = m_rows->shotsOf(m_rows->rowOf(first));
                const auto others = m_rows->shotsOf(m_rows->rowOf(second));
                shots.insert(shots.end(), others.begin(), others.end());
                showShots(shots);
            });
    connect(m_drift, &PlotView::activated, this, &FindingsScreen::openPoint);
    connect(m_agreement, &PlotView::activated, this, &FindingsScreen::openPoint);
    connect(m_attributes, &PlotView::activated, this,
            [this](qint64 implement) { choose(ImplementId{implement}, std::nullopt); });
}

void FindingsScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_isLookToCount = true;
    m_shots->update(m_store.snapshot());
    refresh();
    Q_EMIT statusChanged(
        QStringLiteral("Findings describe the specimens and hitters that were filmed. Whether an "
                       "implement is legal to play with is for the governing body to say."));
}

void FindingsScreen::refresh() {
    m_keeper.want();
    if (m_keeper.isUpToDate()) {
        adopt();
    }
}

void FindingsScreen::adopt() {
    m_message->setVisible(!m_keeper.trouble().isEmpty());
    if (!m_keeper.trouble().isEmpty()) {
        m_message->setText(m_keeper.trouble());
        return;
    }
    if (m_findings != m_keeper.findings()) {
        m_findings = m_keeper.findings();
        showFindings();
    }
    countLook();
}

void FindingsScreen::countLook() {
    if (!m_isLookToCount || !isVisible() || !m_findings || m_findings->together().ranked.empty()) {
        return;
    }
    m_isLookToCount = false;
    const auto before = core::findings::looks(*m_store.snapshot());
    const auto after = core::findings::nextLook(before, m_findings->fingerprint);
    if (after.count == before.count) {
        return;
    }
    const auto kept = core::findings::keepLook(m_store, after);
    if (!kept) {
        m_message->setText(QString::fromStdString(kept.error().message));
        m_message->show();
    }
}

void FindingsScreen::showFindings() {
    if (!m_findings) {
        return;
    }
    const auto implement = chosenImplement();
    m_bar->show(*m_findings);
    const auto hitter = m_bar->hitter();
    m_rows->show(m_findings, hitter);
    m_table->setColumnHidden(models::RankedTableModel::kBand, m_findings->bands.isEmpty());
    m_chart->setHittersApart(m_bar->areHittersApart());
    m_chart->show(m_findings, hitter);
    for (int tab = 0; tab < m_tabs->count(); ++tab) {
        m_toFill.insert(tab);
    }
    fillView(m_tabs->currentIndex());
    const bool isEmpty = m_rows->rowCount() == 0;
    if (isEmpty) {
        const bool hasLooseShots = m_findings->summary.unassigned.kept > 0;
        m_empty->setText(
            hasLooseShots
                ? QStringLiteral("Shots are kept, and nobody has said whose they are.\n\nAssign "
                                 "them in Footage to implement and hitter; they appear here at "
                                 "once.")
                : QStringLiteral("Nothing to compare yet.\n\nKeep the first shots in Reading, and "
                                 "say in Footage whose they are: implement and hitter.\nEvery "
                                 "kept shot appears here at once."));
    }
    m_pages->setCurrentIndex(isEmpty ? 1 : 0);
    chooseRow(implement);
}

void FindingsScreen::fillView(int tab) {
    if (!m_findings || !m_toFill.remove(tab)) {
        return;
    }
    const QWidget* view = m_tabs->widget(tab);
    if (view == m_pairs) {
        const auto hitter = m_bar->hitter();
        m_pairs->show(m_findings,
                      hitter ? m_findings->comparisonOf(*hitter) : &m_findings->together());
    } else if (view == m_hitters) {
        m_hitters->show(hitterSummary(*m_findings), hitterRows(*m_findings));
    } else if (view == m_drift) {
        m_drift->show(driftPages(*m_findings), driftWords(*m_findings));
    } else if (view == m_attributes) {
        m_attributes->show(attributePages(*m_findings), attributeWords(*m_findings));
    } else if (view == m_agreement) {
        m_agreement->show(agreementPages(*m_findings), agreementWords(*m_findings));
    } else if (view == m_method) {
        m_method->setPlainText(methodText(*m_findings));
    }
}

std::optional<ImplementId> FindingsScreen::chosenImplement() const {
    const auto rows = m_table->selectionModel()->selectedRows();
    if (rows.isEmpty()) {
        return std::nullopt;
    }
    return m_rows->implementOf(m_sorted->mapToSource(rows.front()).row());
}

void FindingsScreen::chooseRow(std::optional<ImplementId> implement) {
    const int wanted = implement ? m_rows->rowOf(*implement) : -1;
    const auto index =
        wanted >= 0 ? m_sorted->mapFromSource(m_rows->index(wanted, 0)) : m_sorted->index(0, 0);
    if (index.isValid()) {
        m_table->selectRow(index.row());
        m_table->scrollTo(index);
    } else {
        onRowChosen();
    }
}

void FindingsScreen::choose(ImplementId implement, std::optional<HitterId> hitter) {
    chooseRow(implement);
    if (hitter) {
        std::vector<ShotId> shots;
        for (const auto& cell : m_findings->cells) {
            if (cell.row.implement != implement || cell.row.hitter != *hitter) {
                continue;
            }
            m_sentence->setText(QString::fromStdString(cell.sentence + " " + cell.scatterSentence));
            for (const auto& reading : cell.row.readings) {
                shots.push_back(reading.shot);
            }
        }
        m_shots->showShots(shots);
    }
}

void FindingsScreen::onRowChosen() {
    const auto implement = chosenImplement();
    m_chart->setChosen(implement);
    if (!implement) {
        m_sentence->clear();
        m_shots->showShots({});
        return;
    }
    const int row = m_rows->rowOf(*implement);
    const auto hitter = m_bar->hitter();
    const auto* comparison = hitter ? m_findings->comparisonOf(*hitter) : &m_findings->together();
    m_sentence->setText(QString::fromStdString(comparison->sentence) + QLatin1Char{'\n'} +
                        m_rows->sentenceOf(row));
    m_shots->showShots(m_rows->shotsOf(row));
}

void FindingsScreen::showShots(const std::vector<ShotId>& shots) {
    m_shots->showShots(shots);
    m_tabs->setCurrentIndex(kShotsTab);
    m_shotView->setFocus();
}

void FindingsScreen::openPoint(qint64 shot) {
    Q_EMIT shotActivated(ShotId{shot});
}

}  // namespace ui::findings
