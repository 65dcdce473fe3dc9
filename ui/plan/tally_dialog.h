#pragma once

#include <QDialog>
#include <filesystem>
#include <vector>

#include "core/intake/tallies.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableWidget;

namespace ui::plan {

class HabitChoice;

/// Looks at a table of frame counts before it is imported: what each column is taken for, the first
/// rows, the capture rate, and what is wrong with it. Confined.
class TallyDialog : public QDialog {
    Q_OBJECT

public:
    TallyDialog(core::project::Store& store, core::project::SessionId session,
                std::filesystem::path file, core::TextTable table, QWidget* parent = nullptr);

    [[nodiscard]] const core::intake::ImportedTally& imported() const noexcept {
        return m_imported;
    }

private:
    void makePreview();
    void refresh();
    void import();
    [[nodiscard]] core::intake::TallyMapping mapping() const;
    /// Absent when the field is empty or no rate.
    [[nodiscard]] core::Result<std::optional<core::timebase::CaptureRate>> rate() const;

    core::project::Store& m_store;
    core::project::SessionId m_session;
    std::filesystem::path m_file;
    core::TextTable m_table;
    core::intake::ImportedTally m_imported;
    std::vector<QComboBox*> m_roles;  ///< one a column of the table
    QTableWidget* m_preview;
    QLineEdit* m_rate;
    HabitChoice* m_counted;
    QLabel* m_message;
    QPushButton* m_import;
};

}  // namespace ui::plan
