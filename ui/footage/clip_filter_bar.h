#pragma once

#include <QWidget>

#include "ui/models/clip_table_model.h"

class QLineEdit;

namespace ui::style {
class ChipRow;
}

namespace ui::footage {

/// Which clips the list shows: words to look for, and kinds with their counts. Confined.
class ClipFilterBar : public QWidget {
    Q_OBJECT

public:
    explicit ClipFilterBar(models::ClipTableModel& clips, QWidget* parent = nullptr);

    /// The counts, as they are now.
    void refresh();
    /// Every clip again.
    void showAll();

private:
    void apply(models::ClipTableModel::Show kind);

    models::ClipTableModel& m_clips;
    QLineEdit* m_words;
    style::ChipRow* m_chips;
};

}  // namespace ui::footage
