#pragma once

#include <QString>
#include <vector>

#include "core/findings/findings.h"
#include "ui/findings/plot_view.h"
#include "ui/models/sentence_table_model.h"

/// What the views below the table show, made from the findings.
namespace ui::findings {

using SentenceRows = std::vector<models::SentenceTableModel::Row>;

[[nodiscard]] QString hitterSummary(const core::findings::Findings& findings);
/// Hitter against hitter, then new against worn.
[[nodiscard]] SentenceRows hitterRows(const core::findings::Findings& findings);
/// Keys are shots.
[[nodiscard]] std::vector<PlotPage> driftPages(const core::findings::Findings& findings);
[[nodiscard]] QString driftWords(const core::findings::Findings& findings);
/// Keys are implements.
[[nodiscard]] std::vector<PlotPage> attributePages(const core::findings::Findings& findings);
[[nodiscard]] QString attributeWords(const core::findings::Findings& findings);
/// Keys are shots.
[[nodiscard]] std::vector<PlotPage> agreementPages(const core::findings::Findings& findings);
[[nodiscard]] QString agreementWords(const core::findings::Findings& findings);
/// One paragraph a sentence: the method, odd shots, scatter.
[[nodiscard]] QString methodText(const core::findings::Findings& findings);

}  // namespace ui::findings
