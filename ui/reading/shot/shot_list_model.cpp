#include "ui/reading/shot/shot_list_model.h"

#include <algorithm>
#include <limits>

#include "core/project/shuffled_order.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/shot/shot_facts.h"

namespace ui::reading {

using core::project::Shot;
using core::project::ShotId;
using core::project::ShotStanding;

ShotListModel::ShotListModel(const core::project::Store& store, QObject* parent)
    : QAbstractListModel{parent}, m_store{store} {
    rebuild();
}

void ShotListModel::setFacts(ShotFacts& facts) {
    m_facts = &facts;
    connect(&facts, &ShotFacts::changed, this, &ShotListModel::tell);
}

bool ShotListModel::passes(Filter filter, const Shot& shot) const {
    switch (filter) {
        case Filter::All:
            return true;
        case Filter::Unread:
            return shot.standing == ShotStanding::Open;
        case Filter::Kept:
            return shot.standing == ShotStanding::Kept;
        case Filter::Doubtful:
            return shot.doubtful;
        case Filter::SetAside:
            return shot.standing == ShotStanding::SetAside;
        case Filter::InDoubt:
            return m_inDoubt.contains(shot.id);
    }
    return true;
}

bool ShotListModel::isAskedFor(const Shot& shot, std::size_t position) const {
    if (!passes(m_filter, shot)) {
        return false;
    }
    if (!m_areNamesHidden) {
        const auto* cell = shot.cell ? m_snapshot->cells.find(*shot.cell) : nullptr;
        if ((m_narrowing.implement &&
             (cell == nullptr || cell->implement != *m_narrowing.implement)) ||
            (m_narrowing.hitter && (cell == nullptr || cell->hitter != *m_narrowing.hitter)) ||
            (m_narrowing.clip && shot.clip != *m_narrowing.clip)) {
            return false;
        }
    }
    return m_narrowing.words.isEmpty() || hasWords(shot, position);
}

bool ShotListModel::hasWords(const Shot& shot, std::size_t position) const {
    QString all = numberText(position);
    if (!m_areNamesHidden) {
        all += QLatin1Char(' ') + cellOf(shot) + QLatin1Char(' ') +
               QString::fromStdString(clipName(*m_snapshot, shot.clip)) + QLatin1Char(' ') +
               QString::fromStdString(shot.note);
    }
    const auto words = m_narrowing.words.split(QLatin1Char(' '), Qt::SkipEmptyParts);
    return std::all_of(words.begin(), words.end(), [&all](const QString& word) {
        return all.contains(word, Qt::CaseInsensitive);
    });
}

void ShotListModel::setFilter(Filter filter) {
    if (filter != m_filter) {
        m_filter = filter;
        rebuild();
    }
}

void ShotListModel::setNarrowing(const Narrowing& narrowing) {
    if (narrowing != m_narrowing) {
        m_narrowing = narrowing;
        rebuild();
    }
}

void ShotListModel::setSort(Sort sort) {
    if (sort != m_sort) {
        m_sort = sort;
        rebuild();
    }
}

void ShotListModel::setNamesHidden(bool hidden) {
    if (hidden != m_areNamesHidden) {
        m_areNamesHidden = hidden;
        rebuild();
    }
}

void ShotListModel::setInDoubt(std::set<ShotId> shots) {
    if (shots != m_inDoubt) {
        m_inDoubt = std::move(shots);
        if (m_filter == Filter::InDoubt) {
            rebuild();
        }
    }
}

int ShotListModel::count(Filter kind) const {
    return static_cast<int>(std::count_if(m_snapshot->shots.begin(), m_snapshot->shots.end(),
                                          [&](const Shot& shot) { return passes(kind, shot); }));
}

void ShotListModel::rebuild() {
    beginResetModel();
    m_snapshot = m_store.snapshot();
    m_order.clear();
    m_rows.clear();
    for (const Shot* shot :
         m_areNamesHidden ? shotsShuffled(*m_snapshot) : shotsInOrder(*m_snapshot)) {
        if (isAskedFor(*shot, m_order.size())) {
            m_rows.push_back(m_order.size());
        }
        m_order.push_back(shot->id);
    }
    sortRows();
    countCells();
    endResetModel();
}

/// Equal ones, and those without a number at the end, stay in the order of the film.
void ShotListModel::sortRows() {
    if (m_sort == Sort::Film || m_areNamesHidden) {
        return;
    }
    std::vector<double> keys(m_order.size());
    for (const std::size_t at : m_rows) {
        const Shot& shot = *m_snapshot->shots.find(m_order[at]);
        const auto rate = rateOf(shot);
        constexpr double kLast = std::numeric_limits<double>::max();
        keys[at] = m_sort == Sort::State  ? static_cast<double>(stateOf(shot))
                   : !rate                ? kLast
                   : m_sort == Sort::Spin ? -rate->value.rpm
                                          : -rate->sigma.rpm / rate->value.rpm;
    }
    std::stable_sort(m_rows.begin(), m_rows.end(),
                     [&keys](std::size_t a, std::size_t b) { return keys[a] < keys[b]; });
}

void ShotListModel::update(const core::project::Store::Change& change) {
    const bool isWhole = m_filter == Filter::All && m_narrowing == Narrowing{} &&
                         (m_sort == Sort::Film || m_areNamesHidden);
    const bool sameRows = isWhole && !change.allShots && !change.clips &&
                          change.snapshot->shots.size() == m_order.size();
    const bool touchesRows =
        !change.shots.empty() || change.allShots || change.clips || change.structure;
    if (!sameRows && touchesRows) {
        rebuild();
        return;
    }
    m_snapshot = change.snapshot;
    countCells();
    if (change.structure) {
        Q_EMIT dataChanged(index(0), index(rowCount() - 1));
    }
    for (const ShotId shot : change.shots) {
        tell(shot);
    }
}

void ShotListModel::tell(ShotId shot) {
    if (const int row = rowOf(shot); row >= 0) {
        Q_EMIT dataChanged(index(row), index(row));
    }
}

int ShotListModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

ShotId ShotListModel::shotAt(int row) const {
    return m_order[m_rows[static_cast<std::size_t>(row)]];
}

std::optional<core::project::CellId> ShotListModel::cellAt(int row) const {
    const Shot* shot = m_snapshot->shots.find(shotAt(row));
    return shot != nullptr ? shot->cell : std::nullopt;
}

void ShotListModel::countCells() {
    m_counts.clear();
    for (const Shot& shot : m_snapshot->shots) {
        Count& count = m_counts[shot.cell];
        ++count.shots;
        count.decided += shot.standing == ShotStanding::Open ? 0 : 1;
    }
}

ShotListModel::Head ShotListModel::headAt(int row) const {
    const auto id = cellAt(row);
    const auto found = m_counts.find(id);
    const Count count = found != m_counts.end() ? found->second : Count{};
    const auto* cell = id ? m_snapshot->cells.find(*id) : nullptr;
    if (cell == nullptr) {
        const QString words = tr("not assigned");
        return {words, words, {}, 0, count.decided, count.shots};
    }
    const auto* hitter = m_snapshot->hitters.find(cell->hitter);
    const auto place = std::find_if(m_snapshot->hitters.begin(), m_snapshot->hitters.end(),
                                    [cell](const auto& each) { return each.id == cell->hitter; }) -
                       m_snapshot->hitters.begin();
    return {QString::fromStdString(cellName(*m_snapshot, *id)),
            QString::fromStdString(implementName(*m_snapshot, cell->implement)),
            hitter != nullptr ? QString::fromStdString(hitter->name) : QString{},
            static_cast<std::size_t>(place),
            count.decided,
            count.shots};
}

int ShotListModel::rowOf(ShotId shot) const {
    const auto found = std::find_if(m_rows.begin(), m_rows.end(),
                                    [&](std::size_t at) { return m_order[at] == shot; });
    return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

std::optional<ShotId> ShotListModel::neighbour(ShotId shot, int step) const {
    if (const int row = rowOf(shot); row >= 0) {
        const int next = row + step;
        return next >= 0 && next < rowCount() ? std::optional{shotAt(next)} : std::nullopt;
    }
    // Hidden itself: by its place in the film among those that are shown.
    const auto place =
        static_cast<std::size_t>(std::find(m_order.begin(), m_order.end(), shot) - m_order.begin());
    std::optional<std::size_t> nearest;
    for (const std::size_t at : m_rows) {
        const bool isBeyond = step > 0 ? at > place : at < place;
        if (isBeyond && (!nearest || (step > 0 ? at < *nearest : at > *nearest))) {
            nearest = at;
        }
    }
    return nearest ? std::optional{m_order[*nearest]} : std::nullopt;
}

std::optional<ShotId> ShotListModel::nextOf(Filter kind, ShotId shot) const {
    const auto found = std::find(m_order.begin(), m_order.end(), shot);
    const auto start = static_cast<std::size_t>(found - m_order.begin());
    for (std::size_t step = 1; step < m_order.size(); ++step) {
        const ShotId other = m_order[(start + step) % m_order.size()];
        const Shot* candidate = m_snapshot->shots.find(other);
        if (candidate != nullptr && passes(kind, *candidate)) {
            return other;
        }
    }
    return std::nullopt;
}

QString ShotListModel::numberText(std::size_t position) {
    return QStringLiteral("%1").arg(static_cast<int>(position) + 1, 3, 10, QLatin1Char('0'));
}

QString ShotListModel::cellOf(const Shot& shot) const {
    if (m_areNamesHidden) {
        return tr("hidden");
    }
    return shot.cell ? QString::fromStdString(cellName(*m_snapshot, *shot.cell))
                     : tr("not assigned");
}

QString ShotListModel::toolTipOf(const Shot& shot) const {
    if (m_areNamesHidden) {
        return tr("%1\nImplement, hitter and clip are hidden").arg(nameOf(stateOf(shot)));
    }
    const auto* clip = m_snapshot->clips.find(shot.clip);
    const QString file = clip != nullptr ? QString::fromStdString(clip->path) : QString{};
    const QString note =
        shot.note.empty() ? QString{} : QLatin1Char{'\n'} + QString::fromStdString(shot.note);
    return tr("%1 · %2\nshot %3 of %4%5")
        .arg(cellOf(shot), nameOf(stateOf(shot)))
        .arg(shot.ordinal)
        .arg(file, note);
}

std::optional<core::Measured<core::Rpm>> ShotListModel::rateOf(const Shot& shot) const {
    const auto* kept = shot.counting ? m_snapshot->readings.find(*shot.counting) : nullptr;
    if (kept != nullptr) {
        return kept->rate;
    }
    const bool isOpen = shot.standing == ShotStanding::Open;
    return isOpen && m_facts != nullptr ? m_facts->of(shot.id).pictures : std::nullopt;
}

QVariant ShotListModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) {
        return {};
    }
    const std::size_t position = m_rows[static_cast<std::size_t>(index.row())];
    const Shot* shot = m_snapshot->shots.find(m_order[position]);
    if (shot == nullptr) {
        return {};
    }
    const QString number = numberText(position);
    switch (role) {
        case StateRole:
            return static_cast<int>(stateOf(*shot));
        case NumberRole:
            return number;
        case CellRole:
            return m_areNamesHidden ? nameOf(stateOf(*shot)) : cellOf(*shot);
        case RateRole: {
            const auto rate = rateOf(*shot);
            return rate ? valueText(rate->value.rpm, rate->sigma.rpm) : QString{};
        }
        case SigmaRole: {
            const auto rate = rateOf(*shot);
            return rate ? tr("± %1").arg(valueText(rate->sigma.rpm, rate->sigma.rpm)) : QString{};
        }
        case IsKeptRole:
            return shot->counting.has_value();
        case BallRole:
            return m_facts != nullptr ? QVariant{m_facts->of(shot->id).ball} : QVariant{};
        case Qt::DisplayRole:
        case Qt::AccessibleTextRole:
            return tr("%1 %2, %3").arg(number, cellOf(*shot), nameOf(stateOf(*shot)));
        case Qt::ToolTipRole:
            return toolTipOf(*shot);
        default:
            return {};
    }
}

}  // namespace ui::reading
