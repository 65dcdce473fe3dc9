#pragma once

#include <QWidget>
#include <memory>

#include "core/project/store.h"

class QLineEdit;
class QSortFilterProxyModel;

namespace ui::models {
class SentenceTableModel;
}

namespace ui::doubts {

/// Who did what when, the newest first. Read when it is shown. Confined to the thread of the store.
class HistoryPanel : public QWidget {
    Q_OBJECT

public:
    explicit HistoryPanel(core::project::Store& store, QWidget* parent = nullptr);

Q_SIGNALS:
    void said(const QString& text);
    void shotActivated(core::project::ShotId shot);

protected:
    void showEvent(QShowEvent* event) override;

private:
    void refresh();

    core::project::Store& m_store;
    models::SentenceTableModel* m_rows;
    QSortFilterProxyModel* m_found;
    std::int64_t m_shownRevision{-1};
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::doubts
