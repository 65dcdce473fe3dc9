#include "ui/findings/ranking/ranked_view.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>
#include <cmath>

#include "ui/findings/ranking/ranked_delegate.h"
#include "ui/findings/ranking/ranked_head.h"
#include "ui/findings/ranking/ranked_look.h"
#include "ui/findings/ranking/ranking_in_small.h"
#include "ui/models/plain_tip.h"
#include "ui/models/ranked_sheet.h"
#include "ui/style/tabular_font.h"

namespace ui::findings {
namespace {

using core::project::ImplementId;
using models::RankedMark;
using models::RankedTableModel;

constexpr int kSides = 2 * kCellSidePx + 2;
constexpr int kAlikePx = 26;
constexpr int kRemarkPx = 30;  // of a remark without its words
constexpr int kLeastNamePx = 120;
constexpr int kLeastChartPx = 300;
constexpr int kAmpleChartPx = 560;  // with more room further columns are shown
constexpr int kMostRemarkPx = 320;
constexpr int kLeastWords = 12;  // letters of a remark without which it is only a sign
constexpr int kMostLetters = 12;
constexpr double kPointingPx = 7.0;  // how near is near enough to be pointed at
constexpr double kFineShare = 0.01;  // of the axis, one key press of the ruler
constexpr double kCoarseShare = 0.1;

}  // namespace

RankedView::RankedView(RankedTableModel& rows, models::RankedFilter& filter, QWidget* parent)
    : QTableView{parent},
      m_rows{rows},
      m_filter{filter},
      m_head{new RankedHead{*this}},
      m_small{new RankingInSmall{*this}} {
    setModel(&m_filter);
    setHorizontalHeader(m_head);
    setItemDelegate(new RankedDelegate{*this});
    setVerticalScrollBar(m_small);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(ScrollPerPixel);
    setSelectionBehavior(SelectRows);
    setSelectionMode(ExtendedSelection);
    setEditTriggers(NoEditTriggers);
    setTabKeyNavigation(false);
    setShowGrid(false);
    setWordWrap(false);
    setCornerButtonEnabled(false);
    setFrameShape(NoFrame);
    setFont(style::tabularFont(font()));
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    setObjectName(QStringLiteral("ranked"));
    setAccessibleName(tr("Ranking of the implements"));
    setSortingEnabled(true);
    sortByColumn(RankedTableModel::kRank, Qt::AscendingOrder);
    auto* copy = new QAction{tr("Copy rows for a spreadsheet"), this};
    copy->setShortcut(QKeySequence::Copy);
    copy->setShortcutContext(Qt::WidgetShortcut);
    connect(copy, &QAction::triggered, this, &RankedView::copyRows);
    addAction(copy);
    const auto redraw = [this] {
        m_head->viewport()->update();
        m_small->redraw();
    };
    connect(&m_filter, &QAbstractItemModel::modelReset, this, redraw);
    connect(&m_filter, &QAbstractItemModel::layoutChanged, this, redraw);
    connect(&m_filter, &QAbstractItemModel::rowsInserted, this, redraw);
    connect(&m_filter, &QAbstractItemModel::rowsRemoved, this, redraw);
    connect(&m_rows, &QAbstractItemModel::dataChanged, this,
            [this](const QModelIndex& first, const QModelIndex& last) {
                if (first.column() <= RankedTableModel::kRemarks &&
                    RankedTableModel::kRemarks <= last.column()) {
                    measureColumns();
                    layOutColumns();
                }
            });
    layOutRows();
}

void RankedView::show(const core::findings::Findings& findings) {
    m_plot.bands = findings.bands.all();
    m_plot.stepRpm = findings.noticeableStep ? findings.noticeableStep->rpm : 0.0;
    layOutRows();
    measureColumns();
    layOutColumns();
    placeRuler();
    updateGeometries();  // the head may be higher now
}

QSize RankedView::minimumSizeHint() const {
    constexpr double kFewestRows = 2.6;
    const double rowsPx = kFewestRows * verticalHeader()->defaultSectionSize();
    return {QTableView::minimumSizeHint().width(),
            m_head->sizeHint().height() + static_cast<int>(rowsPx)};
}

void RankedView::setHittersApart(bool areApart) {
    m_plot.areHittersApart = areApart;
    layOutRows();
}

void RankedView::setCompact(bool isCompact) {
    m_isCompact = isCompact;
    layOutRows();
}

void RankedView::setNarrow(bool isNarrow) {
    m_isNarrow = isNarrow;
    layOutColumns();
}

void RankedView::layOutRows() {
    const auto hitters =
        m_plot.areHittersApart ? static_cast<std::size_t>(m_rows.hitterNames().size()) : 0;
    m_plot.lanes = RankedLanes{hitters, m_isCompact, fontMetrics().height()};
    m_plot.range = rangeOf(m_rows, m_plot.areHittersApart, m_plot.stepRpm);
    verticalHeader()->setMinimumSectionSize(m_plot.lanes.rowHeight());
    verticalHeader()->setDefaultSectionSize(m_plot.lanes.rowHeight());
    m_head->viewport()->update();
    viewport()->update();
    m_small->redraw();
}

void RankedView::measureColumns() {
    const QFontMetrics bold{boldFont(font())};
    const QFontMetrics small{smallFont(font())};
    const auto headWords = [this](int column) {
        return m_rows.headerData(column, Qt::Horizontal, Qt::DisplayRole).toString();
    };
    for (int column = 0; column < RankedTableModel::kColumnCount; ++column) {
        int most = small.horizontalAdvance(headWords(column));
        for (int row = 0; row < m_rows.rowCount(); ++row) {
            const QModelIndex index = m_rows.index(row, column);
            const QString range = index.data(RankedTableModel::kRangeRole).toString();
            most = std::max(
                most,
                bold.horizontalAdvance(index.data().toString()) +
                    (column == RankedTableModel::kRank ? 8 + small.horizontalAdvance(range) : 0));
        }
        if (column == RankedTableModel::kImplement) {  // the head counts them
            most = std::max(
                most, small.horizontalAdvance(headWords(column)) +
                          bold.horizontalAdvance(QStringLiteral(" %1").arg(m_rows.rowCount())));
        }
        m_widest.at(static_cast<std::size_t>(column)) = most + kSides;
    }
}

void RankedView::layOutColumns() {
    using Model = RankedTableModel;
    const int width = viewport()->width();
    const auto show = [this](int column, int columnWidth) {
        setColumnHidden(column, columnWidth == 0);
        if (columnWidth > 0) {
            setColumnWidth(column, columnWidth);
        }
        return columnWidth;
    };
    const int letters = fontMetrics().averageCharWidth() * kMostLetters + kSides;
    int taken = show(Model::kRank, widest(Model::kRank)) +
                show(Model::kMean, widest(Model::kMean)) +
                show(Model::kInterval, m_isNarrow ? 0 : widest(Model::kInterval)) +
                show(Model::kAlike, kAlikePx) +
                show(Model::kLetters, std::min(letters, widest(Model::kLetters)));
    const int wanted = widest(Model::kImplement);
    const int name = std::clamp(width - taken - kRemarkPx - kLeastChartPx,
                                std::min(kLeastNamePx, wanted), wanted);
    taken += show(Model::kImplement, name);
    int room = width - taken - kRemarkPx - kAmpleChartPx;
    const auto showIfRoom = [&](int column, int columnWidth) {
        const bool isShown = columnWidth > 0 && columnWidth <= room;
        room -= isShown ? columnWidth : 0;
        taken += show(column, isShown ? columnWidth : 0);
    };
    showIfRoom(Model::kCount, widest(Model::kCount));
    showIfRoom(Model::kDeviation, widest(Model::kDeviation));
    const int words = std::min(kMostRemarkPx, widest(Model::kRemarks));
    const bool canBeRead = room >= std::min(words, kLeastWords * fontMetrics().averageCharWidth());
    const int remarks = (canBeRead ? std::min(room, words) : 0) + kRemarkPx;
    room -= remarks - kRemarkPx;
    showIfRoom(Model::kBand, m_plot.bands.empty() ? 0 : widest(Model::kBand));
    taken += show(Model::kRemarks, remarks);
    show(Model::kChart, std::max(80, width - taken));
}

std::optional<ImplementId> RankedView::chosen() const {
    const QModelIndex now = currentIndex();
    return now.isValid() ? std::optional{m_rows.implementOf(modelRow(now.row()))} : std::nullopt;
}

int RankedView::modelRow(int row) const {
    return m_filter.mapToSource(m_filter.index(row, 0)).row();
}

void RankedView::choose(std::optional<ImplementId> implement) {
    const int wanted = implement ? m_rows.rowOf(*implement) : -1;
    QModelIndex index =
        wanted < 0 ? QModelIndex{}
                   : m_filter.mapFromSource(m_rows.index(wanted, RankedTableModel::kImplement));
    if (!index.isValid()) {
        index = m_filter.index(0, RankedTableModel::kImplement);
    }
    if (!index.isValid()) {
        m_rows.setChosen(std::nullopt);
        placeRuler();
        Q_EMIT rowChosen();
        return;
    }
    selectionModel()->setCurrentIndex(
        index, QItemSelectionModel::ClearAndSelect | QItemSelectionModel::Rows);
    scrollTo(index);
    // Also when the same row stays current: the model may be another.
    m_rows.setChosen(chosen());
    placeRuler();
    Q_EMIT rowChosen();
}

void RankedView::narrow(const QString& words, const QString& condition, const QString& band) {
    const auto before = chosen();
    m_isNarrowing = true;  // the model stays as it is meanwhile
    m_filter.narrow(words, condition, band);
    m_isNarrowing = false;
    choose(before);
}

void RankedView::currentChanged(const QModelIndex& now, const QModelIndex& before) {
    QTableView::currentChanged(now, before);
    if (m_isNarrowing || (now.row() == before.row() && now.isValid())) {
        return;
    }
    m_rows.setChosen(chosen());
    placeRuler();
    Q_EMIT rowChosen();
}

/// Until it is moved it reaches down from the mean of the chosen row.
void RankedView::placeRuler() {
    const double step = m_plot.stepRpm;
    const double width = m_plot.range.high - m_plot.range.low;
    const auto before = m_plot.rulerLow;
    if (!(step > 0.0) || step > width || m_rows.rowCount() == 0) {
        m_plot.rulerLow.reset();
        m_isRulerMoved = false;
    } else if (!m_isRulerMoved) {
        const QModelIndex now = currentIndex();
        const auto& own = m_rows.marksOf(now.isValid() ? modelRow(now.row()) : 0).own;
        m_plot.rulerLow = (own ? own->meanRpm : m_plot.range.high) - step;
    }
    if (m_plot.rulerLow != before) {
        m_head->viewport()->update();
        viewport()->update();
    }
    m_small->update();
}

void RankedView::moveRuler(double toRpm) {
    if (!m_plot.rulerLow) {
        return;
    }
    const double half = 0.5 * m_plot.stepRpm;
    m_isRulerMoved = true;
    m_plot.rulerLow = std::clamp(toRpm, m_plot.range.low - half, m_plot.range.high - half);
    m_head->viewport()->update();
    viewport()->update();
}

void RankedView::keyPressEvent(QKeyEvent* event) {
    const int key = event->key();
    if (key == Qt::Key_Left || key == Qt::Key_Right) {
        const double share =
            event->modifiers().testFlag(Qt::ShiftModifier) ? kCoarseShare : kFineShare;
        const double way = share * (m_plot.range.high - m_plot.range.low);
        if (m_plot.rulerLow) {
            moveRuler(*m_plot.rulerLow + (key == Qt::Key_Left ? -way : way));
        }
        return;
    }
    if ((key == Qt::Key_Home || key == Qt::Key_End) && event->modifiers() == Qt::NoModifier) {
        const int last = m_filter.rowCount() - 1;
        setCurrentIndex(
            m_filter.index(key == Qt::Key_Home ? 0 : last, RankedTableModel::kImplement));
        return;
    }
    QTableView::keyPressEvent(event);
}

std::optional<RankedMark> RankedView::markAt(QPoint at) const {
    const QModelIndex index = indexAt(at);
    if (index.column() != RankedTableModel::kChart) {
        return std::nullopt;
    }
    const QRectF cell{visualRect(index)};
    const auto axis = m_plot.axisOver(cell.left(), cell.right());
    std::optional<RankedMark> nearest;
    double best = kPointingPx;
    const auto consider = [&](const RankedMark& mark, double lane) {
        const double distance =
            std::hypot(axis.at(mark.meanRpm) - at.x(), cell.top() + lane - at.y());
        if (distance <= best) {
            best = distance;
            nearest = mark;
        }
    };
    const auto& marks = m_rows.marksOf(modelRow(index.row()));
    if (marks.own) {
        consider(*marks.own, m_plot.lanes.own());
    }
    if (m_plot.areHittersApart) {
        for (const RankedMark& mark : marks.hitters) {
            consider(mark, m_plot.lanes.hitter(mark.series));
        }
    }
    return nearest;
}

QString RankedView::tipAt(QPoint at) const {
    const QModelIndex index = indexAt(at);
    if (!index.isValid()) {
        return {};
    }
    const auto mark = markAt(at);
    return mark ? models::plainTip(m_rows.wordsOf(modelRow(index.row()), *mark))
                : index.data(Qt::ToolTipRole).toString();
}

bool RankedView::viewportEvent(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        QToolTip::showText(help->globalPos(), tipAt(help->pos()), viewport());
        return true;
    }
    return QTableView::viewportEvent(event);
}

void RankedView::mousePressEvent(QMouseEvent* event) {
    QTableView::mousePressEvent(event);
    const auto mark = markAt(event->pos());
    if (event->button() == Qt::LeftButton && mark && mark->hitter) {
        Q_EMIT hitterChosen(m_rows.implementOf(modelRow(indexAt(event->pos()).row())),
                            *mark->hitter);
    }
}

void RankedView::copyRows() {
    std::vector<int> rows;
    for (const QModelIndex& index : selectionModel()->selectedRows()) {
        rows.push_back(index.row());
    }
    if (rows.empty()) {
        return;
    }
    std::sort(rows.begin(), rows.end());
    std::transform(rows.begin(), rows.end(), rows.begin(),
                   [this](int row) { return modelRow(row); });
    QApplication::clipboard()->setMimeData(models::rankedSheet(m_rows, rows).release());
}

void RankedView::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    verticalScrollBar()->setSingleStep(m_plot.lanes.rowHeight());
    layOutColumns();
}

void RankedView::changeEvent(QEvent* event) {
    QTableView::changeEvent(event);
    if (event->type() == QEvent::FontChange) {
        layOutRows();
        measureColumns();
        layOutColumns();
    }
}

void RankedView::paintEvent(QPaintEvent* event) {
    QTableView::paintEvent(event);
    if (m_filter.rowCount() == 0 && m_rows.rowCount() > 0) {
        QPainter painter{viewport()};
        painter.setFont(font());
        painter.setPen(palette().color(QPalette::Text));
        painter.drawText(viewport()->rect(), Qt::AlignCenter | Qt::TextWordWrap,
                         tr("No implement matches. Empty the search or choose "
                            "another group."));
    }
}

}  // namespace ui::findings
