#include "ui/models/pair_matrix_model.h"

#include <QFont>

#include "core/report/number_format.h"
#include "core/words/findings.h"
#include "ui/models/plain_tip.h"

namespace ui::models {
namespace {

using core::findings::PairFinding;
using core::stats::StepVerdict;

QString verdictSign(const PairFinding& pair) {
    if (!pair.verdict) {
        return pair.differs ? QStringLiteral("≠") : QStringLiteral("?");
    }
    switch (*pair.verdict) {
        case StepVerdict::DiffersByAtLeast:
            return QStringLiteral("≥");
        case StepVerdict::DiffersByLess:
            return QStringLiteral("<");
        case StepVerdict::Equivalent:
            return QStringLiteral("≈");
        case StepVerdict::NotSettled:
            return QStringLiteral("?");
    }
    return {};
}

}  // namespace

PairMatrixModel::PairMatrixModel(QObject* parent) : QAbstractTableModel{parent} {}

void PairMatrixModel::show(const core::findings::FindingsPtr& findings,
                           const core::findings::Comparison* comparison) {
    beginResetModel();
    m_findings = findings;
    m_comparison = findings && !comparison->pairs.empty() ? comparison : nullptr;
    endResetModel();
}

QString PairMatrixModel::signsText(bool hasStep) {
    return hasStep ? tr("Row less column, rpm. ≥ at least the noticeable step · < "
                        "differs by less · ≈ equivalent within it · ? not settled")
                   : tr("Row less column, rpm. ≠ differs · ? cannot be told apart. Set "
                        "a noticeable step for the verdicts.");
}

const PairFinding* PairMatrixModel::pairAt(const QModelIndex& index) const {
    if (m_comparison == nullptr || !index.isValid() || index.row() == index.column()) {
        return nullptr;
    }
    return m_comparison->pair(
        m_comparison->ranked[static_cast<std::size_t>(index.row())].implement,
        m_comparison->ranked[static_cast<std::size_t>(index.column())].implement);
}

int PairMatrixModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || m_comparison == nullptr
               ? 0
               : static_cast<int>(m_comparison->ranked.size());
}

int PairMatrixModel::columnCount(const QModelIndex& parent) const {
    return rowCount(parent);
}

QVariant PairMatrixModel::data(const QModelIndex& index, int role) const {
    const PairFinding* pair = pairAt(index);
    if (pair == nullptr) {
        return role == Qt::DisplayRole && index.isValid() ? QVariant{QStringLiteral("·")}
               : role == Qt::TextAlignmentRole ? QVariant::fromValue<Qt::Alignment>(Qt::AlignCenter)
                                               : QVariant{};
    }
    switch (role) {
        case Qt::DisplayRole: {
            const double difference =
                index.row() < index.column() ? pair->differenceRpm : -pair->differenceRpm;
            const QString number = QString::fromStdString(
                core::report::withDigitsOf(difference, pair->standardErrorRpm));
            return QStringLiteral("%1%2 %3").arg(difference > 0.0 ? QStringLiteral("+") : QString{},
                                                 number, verdictSign(*pair));
        }
        case Qt::ToolTipRole:
            return plainTip(
                QString::fromStdString(core::words::sentence(*pair, m_findings->noticeableStep)));
        case Qt::TextAlignmentRole:
            return QVariant::fromValue<Qt::Alignment>(Qt::AlignRight | Qt::AlignVCenter);
        case Qt::FontRole: {
            QFont font;
            font.setBold(pair->differs);
            return font;
        }
        default:
            return {};
    }
}

QVariant PairMatrixModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (m_comparison == nullptr) {
        return {};
    }
    const auto& row = m_comparison->ranked[static_cast<std::size_t>(section)];
    const QString name = QString::fromStdString(row.name);
    if (role == Qt::DisplayRole) {
        // Columns by place, so that the square stays narrow; the row heads say which is which.
        return orientation == Qt::Vertical ? QStringLiteral("%1  %2").arg(section + 1).arg(name)
                                           : QString::number(section + 1);
    }
    return role == Qt::ToolTipRole ? QVariant{plainTip(name)} : QVariant{};
}

}  // namespace ui::models
