#pragma once

#include <QWidget>
#include <memory>

#include "core/project/store.h"

class QLabel;
class QPushButton;
class QTableView;

namespace ui::models {
class SentenceTableModel;
}

namespace ui::doubts {

/// The cells of which shots are to be filmed again, and their list and slate cards on paper.
/// Confined to the thread of the store.
class FilmAgainPanel : public QWidget {
    Q_OBJECT

public:
    explicit FilmAgainPanel(core::project::Store& store, QWidget* parent = nullptr);
    /// With how many cells there are.
    [[nodiscard]] const QString& title() const noexcept { return m_title; }
    /// Writes the PDF. False, with said(), when it cannot be written.
    bool print(const QString& file);

Q_SIGNALS:
    void titleChanged();
    void said(const QString& text);

private:
    void refresh();
    void askForFile();

    core::project::Store& m_store;
    QString m_title;
    QLabel* m_words;
    models::SentenceTableModel* m_rows;
    QTableView* m_table;
    QPushButton* m_print;
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::doubts
