#pragma once

#include <QMimeData>
#include <memory>
#include <vector>

#include "ui/models/ranked_table_model.h"

namespace ui::models {

/// Rows of the ranked table for a spreadsheet: a header and one line a row, as text with tabs and
/// as an HTML table. Numbers are as on the screen, limits in columns of their own, each hitter's
/// mean behind the row's; a text that a spreadsheet would run is guarded (core/report/csv.h).
[[nodiscard]] std::unique_ptr<QMimeData> rankedSheet(const RankedTableModel& model,
                                                     const std::vector<int>& rows);

}  // namespace ui::models
