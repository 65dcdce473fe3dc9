#include "ui/models/ranked_table_model.h"

#include <QStringList>
#include <algorithm>
#include <limits>

#include "core/base/words.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"
#include "ui/models/plain_tip.h"

namespace ui::models {
namespace {

using core::findings::CellFinding;
using core::findings::Comparison;
using core::findings::Estimate;
using core::project::ImplementId;

const QString kNothing = QStringLiteral("–");

QString tableText(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString meanText(const Estimate& mean) {
    return tableText(core::report::withDigitsOf(mean.value, mean.standardUncertainty));
}

QString rangeText(const Estimate& mean) {
    return tableText(core::report::intervalText(mean.interval95.low, mean.interval95.high,
                                                mean.standardUncertainty));
}

bool isNumberColumn(int column) {
    return column == RankedTableModel::kCount || column == RankedTableModel::kMean ||
           column == RankedTableModel::kDeviation || column == RankedTableModel::kInterval;
}

}  // namespace

RankedTableModel::RankedTableModel(QObject* parent) : QAbstractTableModel{parent} {}

void RankedTableModel::show(const core::findings::FindingsPtr& findings,
                            std::optional<core::project::HitterId> hitter) {
    beginResetModel();
    m_findings = findings;
    m_hitter = hitter;
    m_lines.clear();
    m_comparison = nullptr;
    if (m_findings) {
        m_comparison = hitter ? m_findings->comparisonOf(*hitter) : nullptr;
        if (m_comparison == nullptr) {
            m_comparison = &m_findings->together();
        }
        for (const auto& row : m_comparison->ranked) {
            Line line{.implement = row.implement, .ranked = &row, .name = tableText(row.name)};
            line.sentence = tableText(core::words::sentence(row, *m_comparison));
            for (const auto& note : row.notes) {
                line.notes.append(tableText(core::words::note(note)));
            }
            m_lines.push_back(std::move(line));
        }
        for (const auto& left : m_comparison->leftOut) {
            Line line{.implement = left.implement, .name = tableText(left.name)};
            const QString why = tableText(core::words::whyNot(left.whyNot));
            line.sentence = tr("%1 is not compared: %2.").arg(line.name, why);
            line.notes.append(why);
            m_lines.push_back(std::move(line));
        }
        const auto& odd = m_findings->hitters.interaction;
        for (Line& line : m_lines) {
            line.finding = m_findings->find(line.implement);
            line.areHittersOdd = std::any_of(odd.begin(), odd.end(), [&](const auto& cell) {
                return cell.implement == line.implement;
            });
            line.marks = marksFor(line);
        }
    }
    endResetModel();
}

RankedMarks RankedTableModel::marksFor(const Line& line) const {
    RankedMarks marks;
    if (line.ranked != nullptr) {
        marks.own = RankedMark{.meanRpm = line.ranked->mean.value, .estimate = &line.ranked->mean};
    } else if (line.finding != nullptr && line.finding->row.mean && !m_hitter) {
        marks.own = RankedMark{.meanRpm = line.finding->row.mean->meanRpm};
    }
    if (m_hitter) {
        return marks;
    }
    std::size_t series = 0;
    for (const Comparison& alone : m_findings->comparisons) {
        if (!alone.hitter) {
            continue;
        }
        if (auto mark = markOf(alone, line.implement)) {
            mark->series = series;
            marks.hitters.push_back(*mark);
        }
        ++series;
    }
    return marks;
}

std::optional<RankedMark> RankedTableModel::markOf(const Comparison& alone,
                                                   ImplementId implement) const {
    if (const auto* ranked = alone.find(implement)) {
        return RankedMark{
            .hitter = alone.hitter, .meanRpm = ranked->mean.value, .estimate = &ranked->mean};
    }
    const auto cell = std::find_if(m_findings->cells.begin(), m_findings->cells.end(),
                                   [&](const CellFinding& found) {
                                       return found.row.implement == implement &&
                                              found.row.hitter == *alone.hitter && found.row.mean;
                                   });
    return cell == m_findings->cells.end()
               ? std::nullopt
               : std::optional{
                     RankedMark{.hitter = alone.hitter, .meanRpm = cell->row.mean->meanRpm}};
}

void RankedTableModel::setChosen(std::optional<ImplementId> implement) {
    if (m_chosen == implement) {
        return;
    }
    m_chosen = implement;
    if (!m_lines.empty()) {
        Q_EMIT dataChanged(index(0, kAlike), index(rowCount() - 1, kAlike),
                           {Qt::DisplayRole, Qt::ToolTipRole, Qt::AccessibleTextRole});
    }
}

void RankedTableModel::setOpenDoubts(std::map<ImplementId, OpenDoubts> doubts) {
    m_doubts = std::move(doubts);
    if (!m_lines.empty()) {
        Q_EMIT dataChanged(index(0, kRemarks), index(rowCount() - 1, kRemarks));
    }
}

std::vector<core::project::ShotId> RankedTableModel::shotsOf(int row) const {
    std::vector<core::project::ShotId> shots;
    const auto* found = line(row).finding;
    if (found == nullptr) {
        return shots;
    }
    for (const std::size_t at : found->cells) {
        const auto& cell = m_findings->cells[at].row;
        if (m_hitter && cell.hitter != *m_hitter) {
            continue;
        }
        for (const auto& reading : cell.readings) {
            shots.push_back(reading.shot);
        }
    }
    return shots;
}

ImplementId RankedTableModel::implementOf(int row) const {
    return line(row).implement;
}

QString RankedTableModel::sentenceOf(int row) const {
    return line(row).sentence;
}

const RankedMarks& RankedTableModel::marksOf(int row) const {
    return line(row).marks;
}

const core::findings::RankedImplement* RankedTableModel::rankedOf(int row) const {
    return line(row).ranked;
}

QString RankedTableModel::wordsOf(int row, const RankedMark& mark) const {
    const Line& of = line(row);
    QString who = of.name;
    if (mark.hitter) {
        who = tr("%1, hitter %2").arg(who, hitterNames().value(static_cast<int>(mark.series)));
    }
    if (mark.estimate != nullptr) {
        return tr("%1: %2 rpm (%3)").arg(who, meanText(*mark.estimate), rangeText(*mark.estimate));
    }
    const QString mean = tableText(core::report::fixed(mark.meanRpm, 0));
    return of.ranked != nullptr || mark.hitter
               ? tr("%1: %2 rpm, no interval").arg(who, mean)
               : tr("%1: %2 rpm, no interval: %3").arg(who, mean, of.notes.value(0));
}

QStringList RankedTableModel::hitterNames() const {
    QStringList names;
    if (m_findings && !m_hitter) {
        for (const Comparison& alone : m_findings->comparisons) {
            if (alone.hitter) {
                names.append(tableText(alone.hitterName));
            }
        }
    }
    return names;
}

int RankedTableModel::rowOf(ImplementId implement) const {
    const auto at = std::find_if(m_lines.begin(), m_lines.end(), [implement](const Line& line) {
        return line.implement == implement;
    });
    return at == m_lines.end() ? -1 : static_cast<int>(at - m_lines.begin());
}

int RankedTableModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_lines.size());
}

int RankedTableModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : kColumnCount;
}

const core::findings::PairFinding* RankedTableModel::pairWithChosen(const Line& line) const {
    return m_chosen && *m_chosen != line.implement && line.ranked != nullptr
               ? m_comparison->pair(*m_chosen, line.implement)
               : nullptr;
}

QStringList RankedTableModel::remarksOf(const Line& line) const {
    QStringList remarks = line.notes;
    const auto doubts = m_doubts.find(line.implement);
    if (doubts != m_doubts.end() && doubts->second.count > 0) {
        remarks.append(tr("%1 open").arg(
            QString::fromStdString(core::counted(doubts->second.count, "doubt", "doubts"))));
    }
    return remarks;
}

RemarkKind RankedTableModel::remarkKind(const Line& line) const {
    const auto doubts = m_doubts.find(line.implement);
    const RemarkKind doubted = doubts == m_doubts.end() ? RemarkKind::None : doubts->second.worst;
    const RemarkKind own = line.areHittersOdd     ? RemarkKind::Question
                           : line.notes.isEmpty() ? RemarkKind::None
                                                  : RemarkKind::Note;
    return std::max(own, doubted);
}

QString RankedTableModel::textOf(const Line& line, int column) const {
    if (column == kImplement) {
        return line.name;
    }
    if (column == kRemarks) {
        return remarksOf(line).join(QStringLiteral("; "));
    }
    if (line.ranked == nullptr) {
        return isNumberColumn(column) || column == kRank ? kNothing : QString{};
    }
    const auto& row = *line.ranked;
    switch (column) {
        case kRank:
            return row.rank ? QString::number(row.rank->rank) : kNothing;
        case kCount:
            return QString::number(row.shots);
        case kMean:
            return meanText(row.mean);
        case kDeviation:
            return row.scatterRpm ? tableText(core::report::withDigitsOf(
                                        *row.scatterRpm, row.mean.standardUncertainty))
                                  : kNothing;
        case kInterval:
            return rangeText(row.mean);
        case kBand:
            return row.band ? tableText(*row.band) : QString{};
        case kAlike: {
            const auto* pair = pairWithChosen(line);
            return pair != nullptr && !pair->differs ? QStringLiteral("≈") : QString{};
        }
        case kLetters:
            return tableText(row.letters);
        default:
            return {};
    }
}

QString RankedTableModel::tipOf(const Line& line, int column) const {
    if (column == kRemarks) {
        const QStringList remarks = remarksOf(line);
        if (!remarks.isEmpty()) {
            return remarks.join(QLatin1Char{'\n'});
        }
    }
    if (column == kLetters && line.ranked != nullptr) {
        return tableText(line.ranked->letters);
    }
    if (column == kAlike) {
        if (const auto* pair = pairWithChosen(line)) {
            return tableText(core::words::sentence(*pair, m_findings->noticeableStep));
        }
    }
    return line.sentence;
}

QString RankedTableModel::spokenText(int row, int column) const {
    const Line& of = line(row);
    switch (column) {
        case kRank:
            if (of.ranked == nullptr || !of.ranked->rank) {
                return tr("no rank");
            }
            return tr("rank %1; the readings allow %2 to %3")
                .arg(of.ranked->rank->rank)
                .arg(of.ranked->rank->lowest)
                .arg(of.ranked->rank->highest);
        case kChart: {
            QStringList words;
            if (of.marks.own) {
                words.append(wordsOf(row, *of.marks.own));
            }
            for (const RankedMark& mark : of.marks.hitters) {
                words.append(wordsOf(row, mark));
            }
            return words.join(QStringLiteral("; "));
        }
        case kAlike: {
            const auto* pair = pairWithChosen(of);
            return pair == nullptr
                       ? QString{}
                       : tableText(core::words::sentence(*pair, m_findings->noticeableStep));
        }
        default:
            return textOf(of, column);
    }
}

QVariant RankedTableModel::sortValue(const Line& line, int column, int row) const {
    constexpr double kLast = -std::numeric_limits<double>::infinity();
    switch (column) {
        case kRank:
        case kChart:
        case kAlike:
            return row;
        case kImplement:
        case kBand:
        case kLetters:
            return textOf(line, column);
        case kRemarks:
            return static_cast<int>(remarkKind(line));
        default:
            break;
    }
    if (line.ranked == nullptr) {
        return kLast;
    }
    switch (column) {
        case kCount:
            return static_cast<double>(line.ranked->shots);
        case kMean:
            return line.ranked->mean.value;
        case kDeviation:
            return line.ranked->scatterRpm ? *line.ranked->scatterRpm : kLast;
        default:
            return line.ranked->mean.interval95.high - line.ranked->mean.interval95.low;
    }
}

QVariant RankedTableModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const Line& of = line(index.row());
    const int column = index.column();
    switch (role) {
        case Qt::DisplayRole:
            return textOf(of, column);
        case Qt::ToolTipRole:
            return plainTip(tipOf(of, column));
        case Qt::AccessibleTextRole:
            return spokenText(index.row(), column);
        case Qt::AccessibleDescriptionRole:
            return column == kImplement ? QVariant{of.sentence} : QVariant{};
        case kSortRole:
            return sortValue(of, column, index.row());
        case kImplementIdRole:
            return QVariant::fromValue(static_cast<qlonglong>(of.implement.value));
        case kRangeRole:
            return of.ranked != nullptr && of.ranked->rank &&
                           of.ranked->rank->lowest != of.ranked->rank->highest
                       ? QStringLiteral("%1–%2")
                             .arg(of.ranked->rank->lowest)
                             .arg(of.ranked->rank->highest)
                       : QString{};
        case kRemarkKindRole:
            return QVariant::fromValue(remarkKind(of));
        case kConditionRole:
            return of.finding == nullptr ? QString{} : tableText(of.finding->row.condition);
        case kBandRole:
            return textOf(of, kBand);
        case Qt::TextAlignmentRole:
            return QVariant::fromValue<Qt::Alignment>(
                (isNumberColumn(column) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
        default:
            return {};
    }
}

QVariant RankedTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) {
        return {};
    }
    static const QStringList kHeaders{tr("Rank"), tr("Implement"), QStringLiteral("n"), tr("Mean"),
                                      tr("sd"),   tr("95 %, rpm"), tr("Spin, rpm"),     tr("Band"),
                                      QString{},  tr("Letters"),   tr("Remarks")};
    static const QStringList kTips{
        tr("By mean; behind it every rank that the readings allow (95 %)"),
        tr("What strikes the ball"),
        tr("Kept shots"),
        tr("Mean spin rate, rpm; each hitter weighs the same whatever the number of "
           "shots"),
        tr("Standard deviation from shot to shot, within the cells, rpm"),
        tr("The mean is inside with 95 % confidence; the shared uncertainty of the clocks is "
           "included"),
        tr("Means with their 95 % intervals, all rows on one axis"),
        tr("The band that the mean falls into"),
        tr("≈: no difference shown from the chosen row"),
        tr("Implements that share a letter cannot be told apart"),
        tr("What to know before trusting the row")};
    if (role == Qt::DisplayRole) {
        return kHeaders.value(section);
    }
    return role == Qt::ToolTipRole ? QVariant{kTips.value(section)} : QVariant{};
}

}  // namespace ui::models
