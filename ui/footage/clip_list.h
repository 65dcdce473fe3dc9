#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/project/store.h"

class QTableView;

namespace ui::models {
class ClipTableModel;
}

namespace ui::style {
class EmptyPage;
}

namespace ui::footage {

class ClipDelegate;
class ClipFilterBar;

/// The clips of the project, of which some are chosen; an empty page while there are none. What was
/// chosen stays so when the list is built anew. Confined.
class ClipList : public QWidget {
    Q_OBJECT

public:
    using ClipId = core::project::ClipId;

    explicit ClipList(core::project::Store& store, QWidget* parent = nullptr);

    /// What the project says now, and which files are there.
    void refresh();
    /// Chooses this clip alone, also one that the filter holds back.
    void choose(ClipId clip);
    /// In the order of the list.
    [[nodiscard]] const std::vector<ClipId>& chosen() const noexcept { return m_chosen; }
    /// Tells who listens of the choice again; the first clip when nothing is chosen.
    void chooseAgain();
    [[nodiscard]] bool isMissing(ClipId clip) const;
    [[nodiscard]] QTableView& view() noexcept { return *m_view; }

Q_SIGNALS:
    void choiceChanged();
    /// A row was clicked, whether or not that changed the choice.
    void clicked();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void makeView();
    void fitRows();
    void lookForFiles();
    void onChoice();

    core::project::Store& m_store;
    models::ClipTableModel* m_clips;
    ClipDelegate* m_delegate{};
    QTableView* m_view{};
    ClipFilterBar* m_filter;
    style::EmptyPage* m_empty;  ///< in place of the view while there are no clips
    std::vector<ClipId> m_chosen;
};

}  // namespace ui::footage
