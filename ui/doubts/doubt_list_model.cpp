#include "ui/doubts/doubt_list_model.h"

#include <QImage>
#include <utility>

#include "core/words/doubts.h"
#include "ui/doubts/doubt_rates.h"
#include "ui/doubts/text.h"
#include "ui/reading/shot/shot_facts.h"

namespace ui::doubts {

using core::doubts::Doubted;
using core::project::ShotId;

QString weightText(const Doubted& item) {
    if (item.isSettled) {
        return DoubtListModel::tr("settled");
    }
    switch (item.doubts.front().grade) {
        case core::doubts::Grade::Grave:
            return DoubtListModel::tr("grave");
        case core::doubts::Grade::Question:
            return DoubtListModel::tr("question");
        case core::doubts::Grade::Note:
            break;
    }
    return DoubtListModel::tr("note");
}

QString Whose::inOne() const {
    return cell.isEmpty() ? which : cell + QStringLiteral(" · ") + which;
}

Whose whoseOf(const core::project::Snapshot& snapshot, const Doubted& item) {
    Whose whose;
    if (item.cell) {
        whose.cell = text(core::project::cellName(snapshot, *item.cell));
    }
    const auto* shot = item.shot ? snapshot.shots.find(*item.shot) : nullptr;
    if (!item.shot) {
        whose.which = DoubtListModel::tr("whole cell");
    } else if (shot != nullptr) {
        whose.which = item.cell ? DoubtListModel::tr("shot %1").arg(shot->ordinal)
                                : text(core::project::shotName(snapshot, *shot));
    }
    return whose;
}

DoubtListModel::DoubtListModel(core::project::Store& store, QObject* parent)
    : QAbstractTableModel{parent},
      m_snapshot{store.snapshot()},
      m_rates{std::make_unique<const CellRates>(*m_snapshot)},
      m_store{store},
      m_facts{new reading::ShotFacts{store, this}} {
    connect(m_facts, &reading::ShotFacts::changed, this, &DoubtListModel::tell);
    m_listening = m_store.listen([this](const core::project::Store::Change& change) {
        for (const ShotId shot : change.shots) {
            m_facts->forget(shot);  // its start may be another
        }
    });
}

DoubtListModel::~DoubtListModel() = default;

void DoubtListModel::show(core::doubts::DoubtsPtr doubts, std::vector<std::size_t> places) {
    beginResetModel();
    m_snapshot = m_store.snapshot();
    m_rates = std::make_unique<const CellRates>(*m_snapshot);
    m_doubts = std::move(doubts);
    m_places = std::move(places);
    m_rowOfShot.clear();
    for (int row = 0; row < rowCount(); ++row) {
        if (const auto& shot = itemAt(row)->shot) {
            m_rowOfShot.insert(shot->value, row);
        }
    }
    endResetModel();
}

const Doubted* DoubtListModel::itemAt(int row) const {
    return m_doubts && row >= 0 && row < static_cast<int>(m_places.size())
               ? &m_doubts->items[m_places[static_cast<std::size_t>(row)]]
               : nullptr;
}

void DoubtListModel::lookForBallsAgain() {
    const auto without = std::exchange(m_withoutBall, {});
    for (const ShotId shot : without) {
        m_facts->forget(shot);
    }
}

void DoubtListModel::tell(ShotId shot) {
    if (const int row = rowOf(shot); row >= 0) {
        Q_EMIT dataChanged(index(row, 0), index(row, 0), {BallRole});
    }
}

int DoubtListModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_places.size());
}

int DoubtListModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : 1;
}

QVariant DoubtListModel::ballOf(const Doubted& item) const {
    if (!item.shot) {
        return {};
    }
    const QImage& ball = m_facts->of(*item.shot).ball;
    const auto* shot = m_snapshot->shots.find(*item.shot);
    const auto* clip = shot != nullptr ? m_snapshot->clips.find(shot->clip) : nullptr;
    if (ball.isNull() && clip != nullptr && !isTally(*clip)) {
        m_withoutBall.insert(*item.shot);
    }
    return ball;
}

QString DoubtListModel::lineOf(const Doubted& item) const {
    QStringList parts{reasonText(item), numbersText(*m_snapshot, *m_rates, item),
                      whoseOf(*m_snapshot, item).inOne()};
    parts.removeAll(QString{});
    return tr("%1: %2").arg(weightText(item), parts.join(QStringLiteral(", ")));
}

QVariant DoubtListModel::data(const QModelIndex& index, int role) const {
    const Doubted* item = itemAt(index.row());
    if (item == nullptr) {
        return {};
    }
    switch (role) {
        case Qt::DisplayRole:
            return lineOf(*item);
        case Qt::ToolTipRole:
            return QString{whoseOf(*m_snapshot, *item).inOne() + QLatin1Char('\n') +
                           text(core::words::sentence(item->doubts.front()))};
        case ReasonRole:
            return item->doubts.size() > 1
                       ? tr("%1 +%2").arg(reasonText(*item)).arg(item->doubts.size() - 1)
                       : reasonText(*item);
        case NumbersRole:
            return numbersText(*m_snapshot, *m_rates, *item);
        case CellRole:
            return whoseOf(*m_snapshot, *item).cell;
        case WhichRole:
            return whoseOf(*m_snapshot, *item).which;
        case BallRole:
            return ballOf(*item);
        default:
            return {};
    }
}

}  // namespace ui::doubts
