#include "ui/models/ranked_table_model.h"

#include <QStringList>
#include <algorithm>
#include <limits>

#include "core/report/number_format.h"
#include "ui/models/plain_tip.h"

namespace ui::models {
namespace {

const QString kNothing = QStringLiteral("–");

QString tableText(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString joinedNotes(const std::vector<std::string>& notes) {
    QStringList texts;
    for (const auto& note : notes) {
        texts.append(tableText(note));
    }
    return texts.join(QStringLiteral("; "));
}

}  // namespace

RankedTableModel::RankedTableModel(QObject* parent) : QAbstractTableModel{parent} {}

void RankedTableModel::show(const core::findings::FindingsPtr& findings,
                            std::optional<core::project::HitterId> hitter) {
    beginResetModel();
    m_findings = findings;
    m_hitter = hitter;
    m_lines.clear();
    if (m_findings) {
        const auto* comparison = hitter ? m_findings->comparisonOf(*hitter) : nullptr;
        if (comparison == nullptr) {
            comparison = &m_findings->together();
        }
        for (const auto& row : comparison->ranked) {
            m_lines.push_back({row.implement, &row, tableText(row.name), tableText(row.sentence),
                               joinedNotes(row.notes)});
        }
        for (const auto& left : comparison->leftOut) {
            const QString name = tableText(left.name);
            const QString why = tableText(left.whyNot);
            m_lines.push_back({left.implement, nullptr, name,
                               QStringLiteral("%1 is not compared: %2.").arg(name, why), why});
        }
    }
    endResetModel();
}

std::vector<core::project::ShotId> RankedTableModel::shotsOf(int row) const {
    std::vector<core::project::ShotId> shots;
    const auto* found = m_findings->find(implementOf(row));
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

core::project::ImplementId RankedTableModel::implementOf(int row) const {
    return m_lines.at(static_cast<std::size_t>(row)).implement;
}

QString RankedTableModel::sentenceOf(int row) const {
    return m_lines.at(static_cast<std::size_t>(row)).sentence;
}

int RankedTableModel::rowOf(core::project::ImplementId implement) const {
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

QString RankedTableModel::textOf(const Line& line, int column) const {
    if (column == kImplement) {
        return line.name;
    }
    if (column == kNotes) {
        return line.notes;
    }
    if (line.ranked == nullptr) {
        return column == kBand || column == kLetters ? QString{} : kNothing;
    }
    const auto& row = *line.ranked;
    const double sigma = row.mean.standardUncertainty;
    switch (column) {
        case kRank:
            if (!row.rank) {
                return kNothing;
            }
            return row.rank->lowest == row.rank->highest ? QString::number(row.rank->rank)
                                                         : QStringLiteral("%1 (%2–%3)")
                                                               .arg(row.rank->rank)
                                                               .arg(row.rank->lowest)
                                                               .arg(row.rank->highest);
        case kCount:
            return QString::number(row.shots);
        case kMean:
            return tableText(core::report::withDigitsOf(row.mean.value, sigma));
        case kDeviation:
            return row.scatterRpm ? tableText(core::report::withDigitsOf(*row.scatterRpm, sigma))
                                  : kNothing;
        case kInterval:
            return tableText(core::report::intervalText(row.mean.interval95.low,
                                                        row.mean.interval95.high, sigma));
        case kBand:
            return row.band ? tableText(*row.band) : QString{};
        case kLetters:
            return tableText(row.letters);
        default:
            return {};
    }
}

QVariant RankedTableModel::sortValue(const Line& line, int column, int row) const {
    constexpr double kLast = -std::numeric_limits<double>::infinity();
    if (column == kRank) {
        return row;
    }
    if (line.ranked == nullptr) {
        return column == kImplement || column == kNotes || column == kBand || column == kLetters
                   ? QVariant{textOf(line, column)}
                   : QVariant{kLast};
    }
    switch (column) {
        case kCount:
            return static_cast<qulonglong>(line.ranked->shots);
        case kMean:
            return line.ranked->mean.value;
        case kDeviation:
            return line.ranked->scatterRpm ? *line.ranked->scatterRpm : kLast;
        case kInterval:
            return line.ranked->mean.interval95.high - line.ranked->mean.interval95.low;
        default:
            return textOf(line, column);
    }
}

QVariant RankedTableModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const Line& line = m_lines[static_cast<std::size_t>(index.row())];
    const int column = index.column();
    switch (role) {
        case Qt::DisplayRole:
            return textOf(line, column);
        case Qt::ToolTipRole:
            return plainTip(column == kNotes && !line.notes.isEmpty() ? line.notes : line.sentence);
        case kSortRole:
            return sortValue(line, column, index.row());
        case kImplementIdRole:
            return QVariant::fromValue(static_cast<qlonglong>(line.implement.value));
        case Qt::TextAlignmentRole: {
            const bool isNumber =
                column == kCount || column == kMean || column == kDeviation || column == kInterval;
            return QVariant::fromValue<Qt::Alignment>((isNumber ? Qt::AlignRight : Qt::AlignLeft) |
                                                      Qt::AlignVCenter);
        }
        default:
            return {};
    }
}

QVariant RankedTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) {
        return {};
    }
    static const QStringList kHeaders{
        QStringLiteral("Rank"),      QStringLiteral("Implement"), QStringLiteral("n"),
        QStringLiteral("Mean, rpm"), QStringLiteral("sd, rpm"),   QStringLiteral("95 %, rpm"),
        QStringLiteral("Band"),      QStringLiteral("Letters"),   QStringLiteral("Notes")};
    static const QStringList kTips{
        QStringLiteral("By mean; in brackets every rank that the readings allow (95 %)"),
        QStringLiteral("What strikes the ball"),
        QStringLiteral("Kept shots"),
        QStringLiteral("Mean spin rate; each hitter weighs the same whatever the number of shots"),
        QStringLiteral("Standard deviation from shot to shot, within the cells"),
        QStringLiteral("Holds the mean with 95 % confidence, the clock's shared part included"),
        QStringLiteral("The band that the mean falls into"),
        QStringLiteral("Implements that share a letter cannot be told apart"),
        QStringLiteral("What to know before trusting the row")};
    if (role == Qt::DisplayRole) {
        return kHeaders.value(section);
    }
    return role == Qt::ToolTipRole ? QVariant{kTips.value(section)} : QVariant{};
}

}  // namespace ui::models
