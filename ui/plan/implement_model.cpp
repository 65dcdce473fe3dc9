#include "ui/plan/implement_model.h"

#include <QFont>
#include <algorithm>

#include "ui/plan/plan_desk.h"
#include "ui/style/tokens.h"

namespace ui::plan {

ImplementModel::ImplementModel(PlanDesk& desk, QObject* parent)
    : QAbstractTableModel{parent}, m_desk{desk} {
    connect(&desk, &PlanDesk::changed, this, &ImplementModel::refresh);
    refresh();
}

void ImplementModel::refresh() {
    const core::plan::Plan& plan = m_desk.plan();
    const int before = static_cast<int>(m_implements.size());
    const int grown = static_cast<int>(plan.implements.size()) - before;
    const bool isReset = grown < 0 || plan.attributeNames != m_attributes;
    // Rows come in behind the empty one, which may be the one that is typed in.
    if (isReset) {
        beginResetModel();
    } else if (grown > 0) {
        beginInsertRows({}, before + 1, before + grown);
    }
    m_implements = plan.implements;
    m_attributes = plan.attributeNames;
    m_control = plan.control;
    if (isReset) {
        endResetModel();
        return;
    }
    if (grown > 0) {
        endInsertRows();
    }
    Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    Q_EMIT headerDataChanged(Qt::Vertical, 0, rowCount() - 1);
}

int ImplementModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_implements.size()) + 1;
}

int ImplementModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_attributes.size()) + kFirstAttribute;
}

QVariant ImplementModel::data(const QModelIndex& index, int role) const {
    const auto row = static_cast<std::size_t>(index.row());
    if (row >= m_implements.size()) {
        if (role == Qt::ToolTipRole) {
            return tr("Type a name here to add an implement.");
        }
        if (role == Qt::DisplayRole && index.column() == kName) {
            return tr("Type a name");
        }
        return role == Qt::ForegroundRole
                   ? QVariant{style::colour(style::Token::Quiet, style::programPalette())}
                   : QVariant{};
    }
    const auto& implement = m_implements[row];
    if (role == Qt::ToolTipRole && m_control == row && index.column() == kName) {
        return tr("The control: repeated at start, middle and end of the day");
    }
    if (role == Qt::FontRole && m_control == row && index.column() == kName) {
        QFont font;
        font.setBold(true);
        return font;
    }
    if (role != Qt::DisplayRole && role != Qt::EditRole) {
        return {};
    }
    switch (index.column()) {
        case kName:
            return QString::fromStdString(implement.name);
        case kCondition:
            return QString::fromStdString(implement.condition);
        default:
            break;
    }
    const auto value = implement.attributes.find(
        m_attributes[static_cast<std::size_t>(index.column() - kFirstAttribute)]);
    return value == implement.attributes.end() ? QString{} : QString::fromStdString(value->second);
}

QVariant ImplementModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (role != Qt::DisplayRole) {
        return {};
    }
    if (orientation == Qt::Vertical) {
        return section < static_cast<int>(m_implements.size()) ? QString::number(section + 1)
                                                               : QStringLiteral("+");
    }
    switch (section) {
        case kName:
            return tr("Implement");
        case kCondition:
            return tr("Condition");
        default:
            return QString::fromStdString(
                m_attributes[static_cast<std::size_t>(section - kFirstAttribute)]);
    }
}

Qt::ItemFlags ImplementModel::flags(const QModelIndex& index) const {
    if (!index.isValid()) {
        return Qt::NoItemFlags;
    }
    const bool isNew = index.row() == static_cast<int>(m_implements.size());
    return isNew && index.column() != kName
               ? Qt::ItemIsEnabled
               : Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable;
}

bool ImplementModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (role != Qt::EditRole) {
        return false;
    }
    const auto row = static_cast<std::size_t>(index.row());
    const std::string text = value.toString().trimmed().toStdString();
    if (row >= m_implements.size()) {
        return text.empty() || m_desk.change([&text](auto& plan) {
            plan.implements.push_back({text, {}, {}});
        });
    }
    return m_desk.change([&](core::plan::Plan& plan) {
        auto& implement = plan.implements[row];
        if (index.column() == kName) {
            implement.name = text;
        } else if (index.column() == kCondition) {
            implement.condition = text;
        } else {
            const auto& column =
                m_attributes[static_cast<std::size_t>(index.column() - kFirstAttribute)];
            implement.attributes[column] = text;
            std::erase_if(implement.attributes,
                          [](const auto& item) { return item.second.empty(); });
        }
    });
}

void ImplementModel::removeImplements(std::vector<std::size_t> rows) {
    std::sort(rows.rbegin(), rows.rend());
    m_desk.change([&rows](core::plan::Plan& plan) {
        for (const std::size_t row : rows) {
            if (row >= plan.implements.size()) {
                continue;
            }
            plan.implements.erase(plan.implements.begin() + static_cast<std::ptrdiff_t>(row));
            if (plan.control == row) {
                plan.control.reset();
            } else if (plan.control && *plan.control > row) {
                --*plan.control;
            }
        }
    });
}

}  // namespace ui::plan
