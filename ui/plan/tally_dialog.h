#pragma once

#include <QDialog>
#include <filesystem>

#include "core/intake/tallies.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QTableWidget;

namespace ui::plan {

class HabitChoice;
class TallyColumns;
class TallyQuestions;

/// Looks at a table of frame counts before it comes in: how it was read, what each column holds,
/// the first shots as they will come in, and what is to be decided. Confined.
class TallyDialog : public QDialog {
    Q_OBJECT

public:
    /// date: of a filming day that is added when the project has none (ISO 8601).
    TallyDialog(core::project::Store& store, std::filesystem::path file,
                core::intake::TallySheet sheet, std::string date, QWidget* parent = nullptr);

    [[nodiscard]] const core::intake::ImportedTally& imported() const noexcept {
        return m_imported;
    }

private:
    [[nodiscard]] QWidget* makeHead();
    [[nodiscard]] QWidget* makeTables();
    [[nodiscard]] QWidget* makeFacts();
    [[nodiscard]] QWidget* makeFoot();
    void chooseShape(int index);
    void refresh();
    void preview(const core::intake::Tally& tally);
    void say(const core::Result<core::intake::Tally>& tally,
             const core::intake::TallySource& source);
    void import();
    /// Errors: those of the field for the capture rate.
    [[nodiscard]] core::Result<core::intake::TallySource> source() const;
    [[nodiscard]] core::Result<core::intake::Tally> read(
        const core::Result<core::intake::TallySource>& source) const;

    core::project::Store& m_store;
    std::filesystem::path m_file;
    core::intake::TallySheet m_sheet;
    std::string m_date;
    core::intake::ImportedTally m_imported;
    QLabel* m_read;
    QComboBox* m_shape;
    TallyColumns* m_columns;
    QTableWidget* m_preview;
    QLineEdit* m_rate;
    QLineEdit* m_hitter;
    HabitChoice* m_counted;
    TallyQuestions* m_questions;
    QLabel* m_message;
    QProgressBar* m_progress;
    QPushButton* m_import{};
};

}  // namespace ui::plan
