#include "ui/findings/ranking/ranking_panel.h"

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QVBoxLayout>

#include "ui/findings/ranking/ranked_view.h"
#include "ui/findings/ranking/ranking_legend.h"
#include "ui/models/ranked_filter.h"
#include "ui/models/ranked_table_model.h"
#include "ui/style/text_font.h"

namespace ui::findings {

using models::RankedTableModel;

RankingPanel::RankingPanel(QWidget* parent)
    : QWidget{parent},
      m_rows{new RankedTableModel{this}},
      m_filter{new models::RankedFilter{this}},
      m_search{new QLineEdit},
      m_conditions{new QComboBox},
      m_bands{new QComboBox},
      m_compact{new QCheckBox{tr("&Compact")}},
      m_legend{new RankingLegend} {
    m_filter->setSourceModel(m_rows);
    m_view = new RankedView{*m_rows, *m_filter};
    m_view->setToolTip(tr("↑ ↓ choose an implement; Enter shows its shots"));
    m_search->setObjectName(QStringLiteral("search"));
    m_search->setPlaceholderText(tr("Find an implement"));
    m_search->setAccessibleName(m_search->placeholderText());
    m_search->setClearButtonEnabled(true);
    auto* find = new QAction{this};
    find->setShortcut(QKeySequence::Find);
    find->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    addAction(find);
    connect(find, &QAction::triggered, this, [this] {
        m_search->setFocus(Qt::ShortcutFocusReason);
        m_search->selectAll();
    });
    m_search->setToolTip(tr("Shows the rows whose name or condition has these words (%1)")
                             .arg(find->shortcut().toString(QKeySequence::NativeText)));
    for (QComboBox* groups : {m_conditions, m_bands}) {
        groups->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    }
    m_conditions->setObjectName(QStringLiteral("conditions"));
    m_conditions->setAccessibleName(tr("Condition"));
    m_conditions->setToolTip(tr("Shows the implements of one condition"));
    m_bands->setObjectName(QStringLiteral("band_filter"));
    m_bands->setAccessibleName(tr("Band"));
    m_bands->setToolTip(tr("Shows the implements of one band"));
    m_compact->setObjectName(QStringLiteral("compact"));
    m_compact->setToolTip(tr("Lower rows, hitters as points without intervals"));
    fitFields();
    auto* line = new QHBoxLayout;
    line->addWidget(m_search, 1);
    line->addWidget(m_conditions);
    line->addWidget(m_bands);
    line->addWidget(m_compact);
    line->addWidget(m_legend, 2);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 4, 0, 0);
    layout->setSpacing(4);
    layout->addLayout(line);
    layout->addWidget(m_view, 1);
    connect(m_search, &QLineEdit::textChanged, this, &RankingPanel::narrow);
    connect(m_conditions, &QComboBox::currentIndexChanged, this, &RankingPanel::narrow);
    connect(m_bands, &QComboBox::currentIndexChanged, this, &RankingPanel::narrow);
    connect(m_compact, &QCheckBox::toggled, this,
            [this] { m_view->setCompact(m_isLow || m_compact->isChecked()); });
    style::whenFontChanges(this, [this] { fitFields(); });
}

/// A field is as wide as its words, up to a bound.
void RankingPanel::fitFields() {
    const int letter = fontMetrics().averageCharWidth();
    m_search->setMinimumWidth(letter * 18);
    m_search->setMaximumWidth(letter * 30);
    for (QComboBox* groups : {m_conditions, m_bands}) {
        groups->setMaximumWidth(letter * 24);
    }
}

void RankingPanel::show(const core::findings::FindingsPtr& findings,
                        std::optional<core::project::HitterId> hitter, bool areHittersApart) {
    const auto chosen = m_view->chosen();
    m_rows->show(findings, hitter);
    const bool isOtherCondition =
        fillGroups(m_conditions, RankedTableModel::kConditionRole, tr("any condition"));
    if (fillGroups(m_bands, RankedTableModel::kBandRole, tr("any band")) || isOtherCondition) {
        narrow();
    }
    m_view->setHittersApart(areHittersApart);
    m_view->show(*findings);
    const auto* alone = hitter ? findings->comparisonOf(*hitter) : nullptr;
    m_legend->show(areHittersApart ? m_rows->hitterNames() : QStringList{},
                   alone != nullptr
                       ? tr("hitter %1, 95 %").arg(QString::fromStdString(alone->hitterName))
                       : tr("all hitters, 95 %"));
    m_view->choose(chosen);
}

void RankingPanel::setLow(bool isLow) {
    m_isLow = isLow;
    m_compact->setVisible(!isLow);
    m_view->setCompact(m_isLow || m_compact->isChecked());
}

/// The groups that the rows fall into, with their sizes; hidden where they all fall into one.
bool RankingPanel::fillGroups(QComboBox* groups, int role, const QString& any) {
    const QVariant before = groups->currentData();
    std::vector<std::pair<QString, int>> found;
    for (int row = 0; row < m_rows->rowCount(); ++row) {
        const QString name = m_rows->index(row, 0).data(role).toString();
        const auto at = std::find_if(found.begin(), found.end(),
                                     [&name](const auto& group) { return group.first == name; });
        at == found.end() ? static_cast<void>(found.emplace_back(name, 1))
                          : static_cast<void>(++at->second);
    }
    const QSignalBlocker quiet{groups};
    groups->clear();
    groups->addItem(any);
    for (const auto& [name, count] : found) {
        groups->addItem(
            QStringLiteral("%1 (%2)").arg(name.isEmpty() ? tr("none") : name).arg(count),
            QString{QLatin1String{""}} + name);
    }
    groups->setVisible(found.size() > 1);
    groups->setCurrentIndex(before.isValid() ? std::max(0, groups->findData(before)) : 0);
    return groups->currentData() != before;
}

void RankingPanel::narrow() {
    m_view->narrow(m_search->text(), m_conditions->currentData().toString(),
                   m_bands->currentData().toString());
}

}  // namespace ui::findings
