#include "ui/doubts/doubt_filters.h"

#include <QAbstractItemView>
#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QScrollBar>
#include <QVBoxLayout>
#include <algorithm>

#include "core/words/doubts.h"
#include "ui/doubts/doubt_list_model.h"
#include "ui/doubts/text.h"
#include "ui/style/rows_layout.h"
#include "ui/style/tokens.h"

namespace ui::doubts {
namespace {

using core::doubts::Doubted;
using core::doubts::Reason;
using core::project::Snapshot;

constexpr int kEverything = -1;
constexpr int kFilterLetters = 6;
constexpr int kSearchLetters = 16;

/// Implements stand among the cells of the filter, below zero and beside kEverything.
qint64 wholeImplement(core::project::ImplementId implement) {
    return -1 - implement.value;
}

QComboBox* makeFilter(const QString& tip) {
    auto* box = new QComboBox;
    box->setToolTip(tip);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(kFilterLetters);
    return box;
}

using Choices = QList<QPair<QString, qint64>>;

void refillFilter(QComboBox& box, const QString& all, const Choices& choices) {
    const QVariant before = box.currentData();
    box.clear();
    box.addItem(all, kEverything);
    for (const auto& [title, id] : choices) {
        box.addItem(title, id);
    }
    box.setCurrentIndex(std::max(0, box.findData(before)));
    // The list may be wider than its field: names are not cut.
    box.view()->setMinimumWidth(box.view()->sizeHintForColumn(0) +
                                box.view()->verticalScrollBar()->sizeHint().width() +
                                style::kBetweenPx);
}

qint64 chosenIn(const QComboBox& box) {
    return box.count() > 0 ? box.currentData().toLongLong() : kEverything;
}

Choices reasonsOf(const core::doubts::Doubts* doubts) {
    Choices reasons;
    for (int i = 0; doubts != nullptr && i < core::doubts::kReasonCount; ++i) {
        const auto reason = static_cast<Reason>(i);
        const bool isThere =
            std::any_of(doubts->items.begin(), doubts->items.end(),
                        [reason](const Doubted& item) { return item.has(reason); });
        if (isThere) {
            reasons.append({text(core::words::reasonWords(reason)), i});
        }
    }
    return reasons;
}

bool isOf(const Snapshot& snapshot, const Doubted& item, qint64 whose) {
    const auto* cell = item.cell ? snapshot.cells.find(*item.cell) : nullptr;
    return cell != nullptr && (cell->id.value == whose || wholeImplement(cell->implement) == whose);
}

bool isOfClip(const Snapshot& snapshot, const Doubted& item, qint64 clip) {
    const auto* shot = item.shot ? snapshot.shots.find(*item.shot) : nullptr;
    return shot != nullptr && shot->clip.value == clip;
}

bool hasWords(const Snapshot& snapshot, const Doubted& item, const QString& wanted) {
    QString all = whoseOf(snapshot, item).inOne();
    if (const auto* shot = item.shot ? snapshot.shots.find(*item.shot) : nullptr) {
        all += QLatin1Char(' ') + text(core::project::shotName(snapshot, *shot));
    }
    for (const auto& doubt : item.doubts) {
        all += QLatin1Char(' ') + text(core::words::reasonWords(doubt.reason));
    }
    const auto words = wanted.split(QLatin1Char(' '), Qt::SkipEmptyParts);
    return std::all_of(words.begin(), words.end(), [&all](const QString& word) {
        return all.contains(word, Qt::CaseInsensitive);
    });
}

}  // namespace

DoubtFilters::DoubtFilters(QWidget* parent)
    : QWidget{parent},
      m_words{new QLineEdit},
      m_reason{makeFilter(tr("Only this reason"))},
      m_clip{makeFilter(tr("Only shots of this clip"))},
      m_cell{makeFilter(tr("Only this implement and hitter"))},
      m_settledToo{new QCheckBox{tr("Settled ones too")}} {
    m_words->setObjectName(QStringLiteral("doubtWords"));
    m_words->setAccessibleName(tr("Words to look for in doubts"));
    m_words->setPlaceholderText(tr("implement, clip, shot"));
    m_words->setToolTip(tr("Only doubts with these words"));
    m_words->setClearButtonEnabled(true);
    m_words->setMinimumWidth(kSearchLetters * m_words->fontMetrics().averageCharWidth());
    m_reason->setObjectName(QStringLiteral("doubtReasonFilter"));
    m_clip->setObjectName(QStringLiteral("doubtClipFilter"));
    m_cell->setObjectName(QStringLiteral("doubtCellFilter"));
    m_settledToo->setObjectName(QStringLiteral("settledToo"));
    m_settledToo->setToolTip(tr("Shots that were checked and kept as they are"));
    auto* first = new QHBoxLayout;
    first->setSpacing(style::kBetweenPx);
    first->addWidget(m_words, 1);
    first->addWidget(m_settledToo);
    auto* boxes = new QWidget;
    auto* rows = new style::RowsLayout{boxes};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(style::kBetweenPx);
    for (QComboBox* filter : {m_reason, m_clip, m_cell}) {
        rows->addWidget(filter);
    }
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(style::kBetweenPx);
    column->addLayout(first);
    column->addWidget(boxes);
    connect(m_words, &QLineEdit::textChanged, this, &DoubtFilters::changed);
    for (const QComboBox* filter : {m_reason, m_clip, m_cell}) {
        connect(filter, &QComboBox::activated, this, &DoubtFilters::changed);
    }
    connect(m_settledToo, &QCheckBox::toggled, this, &DoubtFilters::changed);
}

void DoubtFilters::offer(const Snapshot& snapshot, const core::doubts::Doubts* doubts) {
    Choices clips;
    Choices cells;
    for (const auto& clip : snapshot.clips) {
        clips.append({text(core::project::clipName(snapshot, clip.id)), clip.id.value});
    }
    for (const auto& implement : snapshot.implements) {
        cells.append(
            {tr("%1, all hitters").arg(text(core::project::implementName(snapshot, implement.id))),
             wholeImplement(implement.id)});
    }
    for (const auto& cell : snapshot.cells) {
        cells.append({text(core::project::cellName(snapshot, cell.id)), cell.id.value});
    }
    refillFilter(*m_reason, tr("All reasons"), reasonsOf(doubts));
    refillFilter(*m_clip, tr("All clips"), clips);
    refillFilter(*m_cell, tr("All cells"), cells);
}

bool DoubtFilters::passes(const Snapshot& snapshot, const Doubted& item) const {
    if (item.isSettled && !m_settledToo->isChecked()) {
        return false;
    }
    const qint64 reason = chosenIn(*m_reason);
    const qint64 clip = chosenIn(*m_clip);
    const qint64 whose = chosenIn(*m_cell);
    return (reason == kEverything || item.has(static_cast<Reason>(reason))) &&
           (clip == kEverything || isOfClip(snapshot, item, clip)) &&
           (whose == kEverything || isOf(snapshot, item, whose)) &&
           (m_words->text().isEmpty() || hasWords(snapshot, item, m_words->text()));
}

bool DoubtFilters::isNarrowed() const {
    return !m_words->text().isEmpty() || chosenIn(*m_reason) != kEverything ||
           chosenIn(*m_clip) != kEverything || chosenIn(*m_cell) != kEverything;
}

void DoubtFilters::chooseOnly(qint64 whose) {
    const QSignalBlocker silent{this};
    m_words->clear();
    m_reason->setCurrentIndex(0);
    m_clip->setCurrentIndex(0);
    m_cell->setCurrentIndex(std::max(0, m_cell->findData(whose)));
    m_settledToo->setChecked(true);
}

void DoubtFilters::choose(core::project::ImplementId implement) {
    chooseOnly(wholeImplement(implement));
}

void DoubtFilters::choose(std::optional<core::project::CellId> cell) {
    chooseOnly(cell ? cell->value : kEverything);
}

}  // namespace ui::doubts
