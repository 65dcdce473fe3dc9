#include "ui/models/summary_table_model.h"

#include <QFont>
#include <QStringList>
#include <algorithm>
#include <limits>

#include "core/report/number_format.h"

namespace ui::models {
namespace {

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

std::vector<core::project::ShotId> shotsIn(
    const std::vector<core::report::CountingReading>& readings) {
    std::vector<core::project::ShotId> shots;
    for (const auto& reading : readings) {
        shots.push_back(reading.shot);
    }
    return shots;
}

constexpr double kLast = -std::numeric_limits<double>::infinity();

}  // namespace

SummaryTableModel::SummaryTableModel(QObject* parent) : QAbstractTableModel{parent} {}

void SummaryTableModel::show(core::report::Summary summary) {
    beginResetModel();
    m_summary = std::move(summary);
    m_lines.clear();
    for (const auto& row : m_summary.implements) {
        m_lines.push_back({row.implement, std::nullopt, text(row.implementName),
                           text(row.condition), QStringLiteral("all"), row.counts, row.mean,
                           shotsIn(row.readings)});
        for (const auto& cell : m_summary.cells) {
            if (cell.implement == row.implement) {
                m_lines.push_back({cell.implement, cell.hitter, text(cell.implementName),
                                   text(cell.condition), text(cell.hitterName), cell.counts,
                                   cell.mean, shotsIn(cell.readings)});
            }
        }
    }
    endResetModel();
}

std::vector<core::project::ShotId> SummaryTableModel::shotsOf(int row) const {
    return m_lines.at(static_cast<std::size_t>(row)).shots;
}

QString SummaryTableModel::sentenceOf(int row) const {
    const Line& line = m_lines.at(static_cast<std::size_t>(row));
    const QString who = line.hitter ? QStringLiteral("hitter %1").arg(line.hitterName)
                                    : QStringLiteral("the average of the hitters");
    if (!line.mean) {
        return QStringLiteral("%1, %2: no shot has been kept yet.").arg(line.implementName, who);
    }
    if (!line.mean->interval95 || !line.mean->standardUncertaintyRpm) {
        return QStringLiteral(
                   "%1, %2: %3 rpm from %4; how sure this is cannot be said before each hitter has "
                   "two kept shots.")
            .arg(line.implementName, who, text(core::report::fixed(line.mean->meanRpm, 0)),
                 line.counts.kept == 1 ? QStringLiteral("one shot")
                                       : QStringLiteral("%1 shots").arg(line.counts.kept));
    }
    const double sigma = *line.mean->standardUncertaintyRpm;
    return QStringLiteral(
               "%1, %2: %3 rpm from %4 shots; the mean lies between %5 rpm with 95 % confidence.")
        .arg(line.implementName, who, text(core::report::withDigitsOf(line.mean->meanRpm, sigma)))
        .arg(line.counts.kept)
        .arg(text(core::report::withDigitsOf(line.mean->interval95->low.rpm, sigma)) +
             QStringLiteral(" and ") +
             text(core::report::withDigitsOf(line.mean->interval95->high.rpm, sigma)));
}

int SummaryTableModel::rowOf(core::project::ImplementId implement,
                             std::optional<core::project::HitterId> hitter) const {
    const auto at = std::find_if(m_lines.begin(), m_lines.end(), [&](const Line& line) {
        return line.implement == implement && line.hitter == hitter;
    });
    return at == m_lines.end() ? -1 : static_cast<int>(at - m_lines.begin());
}

int SummaryTableModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_lines.size());
}

int SummaryTableModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : kColumnCount;
}

QString SummaryTableModel::textOf(const Line& line, int column) const {
    const double sigma = line.mean ? line.mean->standardUncertaintyRpm.value_or(0.0) : 0.0;
    switch (column) {
        case kImplement:
            return line.implementName;
        case kCondition:
            return line.condition;
        case kHitter:
            return line.hitterName;
        case kCount:
            return QString::number(line.counts.kept);
        case kMean:
            return line.mean ? text(core::report::withDigitsOf(line.mean->meanRpm, sigma))
                             : QStringLiteral("–");
        case kDeviation:
            return line.mean && line.mean->standardDeviationRpm
                       ? text(core::report::withDigitsOf(*line.mean->standardDeviationRpm, sigma))
                       : QStringLiteral("–");
        case kInterval:
            return line.mean && line.mean->interval95
                       ? text(core::report::intervalText(line.mean->interval95->low.rpm,
                                                         line.mean->interval95->high.rpm, sigma))
                       : QStringLiteral("–");
        case kOpen:
            return QString::number(line.counts.open);
        case kAside:
            return QString::number(line.counts.setAside);
        default:
            return {};
    }
}

QVariant SummaryTableModel::sortValue(const Line& line, int column) const {
    switch (column) {
        case kCount:
            return static_cast<qulonglong>(line.counts.kept);
        case kMean:
            return line.mean ? line.mean->meanRpm : kLast;
        case kDeviation:
            return line.mean ? line.mean->standardDeviationRpm.value_or(kLast) : kLast;
        case kInterval:
            return line.mean && line.mean->interval95
                       ? line.mean->interval95->high.rpm - line.mean->interval95->low.rpm
                       : kLast;
        case kOpen:
            return static_cast<qulonglong>(line.counts.open);
        case kAside:
            return static_cast<qulonglong>(line.counts.setAside);
        default:
            return textOf(line, column);
    }
}

QVariant SummaryTableModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const Line& line = m_lines[static_cast<std::size_t>(index.row())];
    switch (role) {
        case Qt::DisplayRole:
            return textOf(line, index.column());
        case kSortRole:
            return sortValue(line, index.column());
        case kImplementIdRole:
            return QVariant::fromValue(static_cast<qlonglong>(line.implement.value));
        case Qt::TextAlignmentRole:
            return QVariant::fromValue<Qt::Alignment>(
                (index.column() >= kCount ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
        case Qt::FontRole: {
            QFont font;
            font.setBold(!line.hitter.has_value());
            return font;
        }
        default:
            return {};
    }
}

QVariant SummaryTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) {
        return {};
    }
    static const QStringList kHeaders{QStringLiteral("Implement"),
                                      QStringLiteral("Condition"),
                                      QStringLiteral("Hitter"),
                                      QStringLiteral("n"),
                                      QStringLiteral("Mean, rpm"),
                                      QStringLiteral("sd, rpm"),
                                      QStringLiteral("95 % interval, rpm"),
                                      QStringLiteral("To read"),
                                      QStringLiteral("Aside")};
    static const QStringList kTips{
        QStringLiteral("What strikes the ball"),
        QStringLiteral("New, worn, or the tester's own word"),
        QStringLiteral("Who swings it; \"all\" is the plain average of the hitters"),
        QStringLiteral("Kept shots"),
        QStringLiteral("Mean spin rate of the kept shots"),
        QStringLiteral("Standard deviation from shot to shot"),
        QStringLiteral(
            "Holds the mean with 95 % confidence; the clock's shared uncertainty is in it"),
        QStringLiteral("Shots that are neither kept nor set aside"),
        QStringLiteral("Shots left out, each with a reason")};
    if (role == Qt::DisplayRole) {
        return kHeaders.value(section);
    }
    return role == Qt::ToolTipRole ? QVariant{kTips.value(section)} : QVariant{};
}

}  // namespace ui::models
