#include "ui/models/ranked_sheet.h"

#include <algorithm>
#include <iterator>

#include "core/report/number_format.h"
#include "ui/models/table_copy.h"

namespace ui::models {
namespace {

using core::findings::Estimate;

QString sheetNumberOf(double value, double sigma) {
    return sheetNumber(QString::fromStdString(core::report::withDigitsOf(value, sigma)));
}

/// Mean and limits; what is not known is left empty.
QStringList estimateCells(const Estimate* estimate, const QString& bareMean = {}) {
    if (estimate == nullptr) {
        return {bareMean, QString{}, QString{}};
    }
    const double sigma = estimate->standardUncertainty;
    return {sheetNumberOf(estimate->value, sigma), sheetNumberOf(estimate->interval95.low, sigma),
            sheetNumberOf(estimate->interval95.high, sigma)};
}

QStringList sheetHeaders(const RankedTableModel& model) {
    QStringList headers{QStringLiteral("Rank"),         QStringLiteral("Rank, from"),
                        QStringLiteral("Rank, to"),     QStringLiteral("Implement"),
                        QStringLiteral("Condition"),    QStringLiteral("n"),
                        QStringLiteral("Mean, rpm"),    QStringLiteral("95 % from, rpm"),
                        QStringLiteral("95 % to, rpm"), QStringLiteral("sd, rpm"),
                        QStringLiteral("Band"),         QStringLiteral("Letters"),
                        QStringLiteral("Remarks")};
    for (const QString& name : model.hitterNames()) {
        const QString who = sheetText(QStringLiteral("hitter ") + name);
        headers << who + QStringLiteral(", mean, rpm") << who + QStringLiteral(", 95 % from, rpm")
                << who + QStringLiteral(", 95 % to, rpm");
    }
    return headers;
}

QStringList sheetCells(const RankedTableModel& model, int row) {
    const auto shown = [&](int column) {
        return sheetText(model.index(row, column).data(Qt::DisplayRole).toString());
    };
    const auto* ranked = model.rankedOf(row);
    QStringList cells;
    if (ranked != nullptr && ranked->rank) {
        cells << QString::number(ranked->rank->rank) << QString::number(ranked->rank->lowest)
              << QString::number(ranked->rank->highest);
    } else {
        cells << QString{} << QString{} << QString{};
    }
    cells << shown(RankedTableModel::kImplement)
          << sheetText(model.index(row, 0).data(RankedTableModel::kConditionRole).toString())
          << (ranked == nullptr ? QString{} : shown(RankedTableModel::kCount));
    const auto& marks = model.marksOf(row);
    const QString bareMean =
        marks.own ? QString::fromStdString(core::report::fixed(marks.own->meanRpm, 0)) : QString{};
    cells << estimateCells(marks.own ? marks.own->estimate : nullptr, bareMean)
          << (ranked == nullptr || !ranked->scatterRpm
                  ? QString{}
                  : sheetNumber(shown(RankedTableModel::kDeviation)))
          << shown(RankedTableModel::kBand) << shown(RankedTableModel::kLetters)
          << shown(RankedTableModel::kRemarks);
    const auto hitters = static_cast<std::size_t>(model.hitterNames().size());
    for (std::size_t series = 0; series < hitters; ++series) {
        const auto mark = std::find_if(
            marks.hitters.begin(), marks.hitters.end(),
            [series](const RankedMark& candidate) { return candidate.series == series; });
        const bool isThere = mark != marks.hitters.end();
        cells << estimateCells(
            isThere ? mark->estimate : nullptr,
            isThere ? QString::fromStdString(core::report::fixed(mark->meanRpm, 0)) : QString{});
    }
    return cells;
}

}  // namespace

std::unique_ptr<QMimeData> rankedSheet(const RankedTableModel& model,
                                       const std::vector<int>& rows) {
    std::vector<QStringList> cells;
    std::transform(rows.begin(), rows.end(), std::back_inserter(cells),
                   [&model](int row) { return sheetCells(model, row); });
    return sheetOf(sheetHeaders(model), cells);
}

}  // namespace ui::models
