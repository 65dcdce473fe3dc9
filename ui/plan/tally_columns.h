#pragma once

#include <QTableWidget>
#include <vector>

#include "core/intake/tally_sheet.h"

class QComboBox;

namespace ui::plan {

/// The columns of a table of counts, one a row: what each is called, what it holds, which is chosen
/// here, and its first fields. Confined.
class TallyColumns : public QTableWidget {
    Q_OBJECT

public:
    explicit TallyColumns(const core::intake::TallySheet& sheet, QWidget* parent = nullptr);

    [[nodiscard]] const core::intake::TallyLayout& layoutOfColumns() const noexcept {
        return m_layout;
    }
    void setLayoutOfColumns(const core::intake::TallyLayout& layout);

Q_SIGNALS:
    void changedByHand();

private:
    void choose(std::size_t column, core::intake::TallyRole role);

    core::intake::TallyLayout m_layout;
    std::vector<QComboBox*> m_roles;  ///< one a column of the sheet
};

}  // namespace ui::plan
