#include "ui/findings/findings_screen.h"

#include <QFileDialog>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

#include "core/report/export.h"
#include "ui/chart/ranked_chart.h"
#include "ui/models/shot_table_model.h"
#include "ui/models/summary_table_model.h"
#include "ui/style/tabular_font.h"

namespace ui::findings {
namespace {

using core::project::HitterId;
using core::project::ImplementId;
using models::SummaryTableModel;

QTableView* makeTable(QAbstractItemModel* model) {
    auto* view = new QTableView;
    view->setModel(model);
    view->setSelectionBehavior(QAbstractItemView::SelectRows);
    view->setSelectionMode(QAbstractItemView::SingleSelection);
    view->setAlternatingRowColors(true);
    view->setShowGrid(false);
    view->setTabKeyNavigation(false);
    view->setFont(style::tabularFont(view->font()));
    view->verticalHeader()->hide();
    view->verticalHeader()->setDefaultSectionSize(view->fontMetrics().height() + 6);
    view->horizontalHeader()->setHighlightSections(false);
    view->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    return view;
}

QWidget* column(std::initializer_list<QWidget*> widgets) {
    auto* box = new QWidget;
    auto* layout = new QVBoxLayout{box};
    layout->setContentsMargins(0, 0, 0, 0);
    for (QWidget* widget : widgets) {
        const bool isHigh =
            qobject_cast<QTableView*>(widget) || qobject_cast<chart::RankedChart*>(widget);
        layout->addWidget(widget, isHigh ? 1 : 0);
    }
    return box;
}

}  // namespace

FindingsScreen::FindingsScreen(core::project::Store& store, bridge::JobRunner& jobs,
                               QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_jobs{jobs},
      m_rows{new SummaryTableModel{this}},
      m_sorted{new QSortFilterProxyModel{this}},
      m_shots{new models::ShotTableModel{store, this}},
      m_chart{new chart::RankedChart},
      m_table{nullptr},
      m_shotView{nullptr},
      m_sentence{new QLabel},
      m_message{new QLabel},
      m_pages{new QStackedWidget} {
    m_sorted->setSourceModel(m_rows);
    m_sorted->setSortRole(SummaryTableModel::kSortRole);
    m_table = makeTable(m_sorted);
    m_table->setSortingEnabled(true);
    m_table->sortByColumn(-1, Qt::AscendingOrder);
    m_table->setAccessibleName(QStringLiteral("Spin rates per implement and hitter"));
    m_shotView = makeTable(m_shots);
    m_shotView->horizontalHeader()->setStretchLastSection(true);
    m_shotView->hideColumn(models::ShotTableModel::kFrames);
    m_shotView->setAccessibleName(QStringLiteral("Shots behind the chosen number"));
    m_sentence->setWordWrap(true);
    m_message->setWordWrap(true);
    m_message->hide();

    auto* exportButton = new QPushButton{QStringLiteral("Export CSV and JSON…")};
    exportButton->setToolTip(QStringLiteral("Writes shots and summary into a folder (Ctrl+E)"));
    exportButton->setShortcut(QKeySequence{Qt::CTRL | Qt::Key_E});
    connect(exportButton, &QPushButton::clicked, this, &FindingsScreen::exportSummary);
    auto* openShot = new QPushButton{QStringLiteral("Open shot")};
    openShot->setToolTip(QStringLiteral("Shows the chosen shot in Reading (Enter)"));
    connect(openShot, &QPushButton::clicked, this, [this] {
        const auto rows = m_shotView->selectionModel()->selectedRows();
        if (!rows.isEmpty()) {
            Q_EMIT shotActivated(m_shots->shotAt(rows.front().row()));
        }
    });
    auto* top = new QHBoxLayout;
    top->addWidget(m_sentence, 1);
    top->addWidget(exportButton);
    auto* topBar = new QWidget;
    topBar->setLayout(top);
    top->setContentsMargins(0, 0, 0, 0);
    auto* shotsHead = new QWidget;
    auto* shotsBar = new QHBoxLayout{shotsHead};
    shotsBar->setContentsMargins(0, 0, 0, 0);
    shotsBar->addWidget(new QLabel{QStringLiteral("Shots behind the chosen number")}, 1);
    shotsBar->addWidget(openShot);

    auto* lower = new QSplitter{Qt::Horizontal};
    lower->addWidget(m_table);
    lower->addWidget(column({shotsHead, m_shotView}));
    lower->setStretchFactor(0, 2);
    lower->setStretchFactor(1, 1);
    lower->setSizes({880, 440});
    lower->setChildrenCollapsible(false);
    auto* split = new QSplitter{Qt::Vertical};
    split->addWidget(column({m_chart, topBar, m_message}));
    split->addWidget(lower);
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 2);
    split->setChildrenCollapsible(false);
    auto* empty =
        new QLabel{QStringLiteral("Nothing to compare yet.\n\nKeep the first shots in Reading, and "
                                  "say in Footage whose they are: implement and "
                                  "hitter.\nEvery kept shot appears here at once.")};
    empty->setAlignment(Qt::AlignCenter);
    empty->setWordWrap(true);
    m_pages->addWidget(split);
    m_pages->addWidget(empty);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(8, 8, 8, 8);
    layout->addWidget(m_pages);

    connect(m_chart, &chart::RankedChart::chosen, this, &FindingsScreen::choose);
    connect(m_chart, &chart::RankedChart::shotActivated, this, &FindingsScreen::shotActivated);
    connect(m_table->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &FindingsScreen::onRowChosen);
    connect(m_shotView, &QTableView::activated, this, [this](const QModelIndex& index) {
        Q_EMIT shotActivated(m_shots->shotAt(index.row()));
    });
    m_listening = m_store.listen([this](const core::project::Store::Change&) {
        if (isVisible()) {
            recompute();
        }
    });
    recompute();
}

FindingsScreen::~FindingsScreen() = default;

void FindingsScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    recompute();
    Q_EMIT statusChanged(
        QStringLiteral("Findings describe the specimens and hitters that were filmed. Whether an "
                       "implement is legal to play with is for the governing body to say."));
}

void FindingsScreen::recompute() {
    const auto snapshot = m_store.snapshot();
    if (snapshot->revision == m_wantedRevision) {
        return;
    }
    m_wantedRevision = snapshot->revision;
    m_jobs.start<core::report::Summary>(
        QStringLiteral("Computing findings"),
        [snapshot](bridge::JobContext&) { return core::report::summarise(*snapshot); }, this,
        [this, revision = snapshot->revision](const auto& summary) { adopt(summary, revision); });
}

void FindingsScreen::adopt(const core::Result<core::report::Summary>& summary,
                           std::int64_t revision) {
    if (revision < m_shownRevision) {
        return;
    }
    m_shownRevision = revision;
    m_message->setVisible(!summary);
    if (!summary) {
        m_message->setText(QString::fromStdString(summary.error().message));
        return;
    }
    const auto chosenRows = m_table->selectionModel()->selectedRows();
    std::optional<ImplementId> implement;
    QString hitter;
    if (!chosenRows.isEmpty()) {
        const auto source = m_sorted->mapToSource(chosenRows.front());
        implement = ImplementId{source.data(SummaryTableModel::kImplementIdRole).toLongLong()};
        hitter = source.siblingAtColumn(SummaryTableModel::kHitter).data().toString();
    }
    m_rows->show(summary.value());
    m_chart->show(summary.value());
    m_pages->setCurrentIndex(m_rows->rowCount() == 0 ? 1 : 0);
    for (int row = 0; row < m_sorted->rowCount(); ++row) {
        const auto index = m_sorted->index(row, SummaryTableModel::kHitter);
        const ImplementId id{index.data(SummaryTableModel::kImplementIdRole).toLongLong()};
        if (!implement || (id == *implement && index.data().toString() == hitter)) {
            m_table->selectRow(row);
            return;
        }
    }
}

void FindingsScreen::choose(ImplementId implement, std::optional<HitterId> hitter) {
    const int row = m_rows->rowOf(implement, hitter);
    if (row >= 0) {
        const auto index = m_sorted->mapFromSource(m_rows->index(row, 0));
        m_table->selectRow(index.row());
        m_table->scrollTo(index);
    }
}

void FindingsScreen::onRowChosen() {
    const auto rows = m_table->selectionModel()->selectedRows();
    if (rows.isEmpty()) {
        m_sentence->clear();
        m_shots->showShots({});
        m_chart->setChosen(std::nullopt);
        return;
    }
    const auto source = m_sorted->mapToSource(rows.front());
    m_sentence->setText(m_rows->sentenceOf(source.row()));
    m_shots->showShots(m_rows->shotsOf(source.row()));
    m_chart->setChosen(ImplementId{source.data(SummaryTableModel::kImplementIdRole).toLongLong()});
}

void FindingsScreen::exportSummary() {
    const QString folder =
        QFileDialog::getExistingDirectory(this, QStringLiteral("Folder for shots and summary"));
    if (!folder.isEmpty()) {
        writeTo(folder);
    }
}

void FindingsScreen::writeTo(const QString& folder) {
    const auto files = core::report::exportProject(*m_store.snapshot(),
                                                   std::filesystem::path{folder.toStdString()});
    m_message->setText(files ? QStringLiteral("Wrote shots and summary to %1.").arg(folder)
                             : QString::fromStdString(files.error().message));
    m_message->show();
}

}  // namespace ui::findings
