#include "ui/plan/tally_columns.h"

#include <QComboBox>
#include <QHeaderView>

namespace ui::plan {
namespace {

using core::intake::TallyRole;

constexpr std::size_t kFieldsShown = 4;
enum Column { kName, kRole, kFields, kColumnCount };

QString nameOfRole(std::size_t role) {
    const auto name = core::intake::roleWords(static_cast<TallyRole>(role));
    return QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

QString firstFields(const core::intake::TallySheet& sheet, std::size_t column) {
    QStringList fields;
    for (std::size_t i = 0; i < std::min(sheet.rows.size(), kFieldsShown); ++i) {
        const auto field = QString::fromStdString(sheet.rows[i].fields[column]);
        fields << (field.isEmpty() ? QStringLiteral("–") : field);
    }
    return fields.join(QStringLiteral(" | "));
}

}  // namespace

TallyColumns::TallyColumns(const core::intake::TallySheet& sheet, QWidget* parent)
    : QTableWidget{static_cast<int>(sheet.headers.size()), kColumnCount, parent},
      m_layout(sheet.headers.size()) {
    setHorizontalHeaderLabels({tr("Column"), tr("Holds"), tr("First rows")});
    setAccessibleName(tr("What each column holds"));
    setEditTriggers(NoEditTriggers);
    setSelectionMode(NoSelection);
    setTabKeyNavigation(false);
    setShowGrid(false);
    setWordWrap(false);
    QStringList letters;
    for (std::size_t i = 0; i < m_layout.size(); ++i) {
        const int row = static_cast<int>(i);
        const auto name = QString::fromStdString(core::intake::columnLabel(sheet, i));
        letters << QString::fromStdString(core::columnLetters(i));
        setItem(row, kName, new QTableWidgetItem{name});
        setItem(row, kFields, new QTableWidgetItem{firstFields(sheet, i)});
        auto* role = new QComboBox;
        role->setObjectName(QStringLiteral("tally_role_%1").arg(row));
        role->setAccessibleName(tr("What the column %1 holds").arg(name));
        role->setFrame(false);
        for (std::size_t each = 0; each < core::intake::kTallyRoles; ++each) {
            role->addItem(nameOfRole(each));
        }
        connect(role, &QComboBox::activated, this,
                [this, i](int index) { choose(i, static_cast<TallyRole>(index)); });
        m_roles.push_back(role);
        setCellWidget(row, kRole, role);
    }
    setVerticalHeaderLabels(letters);
    verticalHeader()->setDefaultAlignment(Qt::AlignCenter);
    verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    horizontalHeader()->setSectionResizeMode(kFields, QHeaderView::Stretch);
}

void TallyColumns::setLayoutOfColumns(const core::intake::TallyLayout& layout) {
    m_layout = layout;
    for (std::size_t i = 0; i < m_roles.size(); ++i) {
        const auto& column = layout[i];
        const QSignalBlocker blocker{m_roles[i]};
        m_roles[i]->setCurrentIndex(static_cast<int>(column.role));
        m_roles[i]->setToolTip(column.hitter.empty()
                                   ? QString{}
                                   : tr("Counts of %1").arg(QString::fromStdString(column.hitter)));
    }
}

void TallyColumns::choose(std::size_t column, TallyRole role) {
    auto layout = m_layout;
    core::intake::assignRole(layout, column, role);
    setLayoutOfColumns(layout);
    Q_EMIT changedByHand();
}

}  // namespace ui::plan
