#pragma once

#include <QList>
#include <QTimer>
#include <QWidget>
#include <optional>
#include <set>

#include "core/doubts/find_doubts.h"
#include "core/project/store.h"
#include "ui/bridge/findings_keeper.h"
#include "ui/style/empty_page.h"

class QAction;
class QLabel;
class QStackedWidget;
class QTableView;
class QTabWidget;

namespace ui::bridge {
class KeptAgain;
}

namespace ui::doubts {

class DoubtCard;
class DoubtFilters;
class DoubtListModel;
class DoubtSource;

/// Shots and cells that deserve a second look, worst first, with the reasons in words; what was
/// read and decided so far, and what can be decided. Confined to the thread of the store.
class DoubtsScreen : public QWidget {
    Q_OBJECT

public:
    /// All must outlive the screen.
    DoubtsScreen(core::project::Store& store, bridge::JobRunner& jobs,
                 bridge::FindingsKeeper& findings, QWidget* parent = nullptr);
    ~DoubtsScreen() override;

    /// The pictures of this shot have been read.
    void onPicturesRead(core::project::ShotId shot);
    [[nodiscard]] QList<QAction*> doubtActions() const { return m_actions; }
    /// The newest; null before the first are there.
    [[nodiscard]] core::doubts::DoubtsPtr doubts() const { return m_doubts; }
    /// Keeps them up to date also while the screen is hidden: another one shows them.
    void setWantedElsewhere(bool areWanted);
    /// Lists what is doubted of one implement, or of the cell of a shot, which is chosen; settled
    /// ones too.
    void showDoubtsOf(core::project::ImplementId implement);
    void showDoubtsOf(core::project::ShotId shot);
    /// Shots with a doubt that nobody has settled, as far as is known.
    [[nodiscard]] std::set<core::project::ShotId> shotsInDoubt() const;
    /// Unsettled ones; absent before the first look.
    [[nodiscard]] std::optional<std::size_t> unsettled() const;

Q_SIGNALS:
    /// The shot is to be replayed in Reading; why it is doubted, in words.
    void replayWanted(core::project::ShotId shot, const QString& why);
    void blindWanted();
    void shotActivated(core::project::ShotId shot);
    void statusChanged(const QString& text);
    /// Where the next step is done, while there is nothing to doubt.
    void wayChosen(ui::style::EmptyPage::Way way);
    /// The doubts are others.
    void changed();

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void layOut();
    void connectParts();
    [[nodiscard]] QWidget* makeHead();
    [[nodiscard]] QWidget* makeList();
    [[nodiscard]] QWidget* makeTabs();
    void fitList();
    void addAction(const char* name, const QString& text, const QKeySequence& key,
                   void (DoubtCard::*act)());
    void offerFilters();
    void refill();
    void chooseAgain(std::optional<core::project::ShotId> shot, int rowBefore);
    void sayWhatIsLeft();
    void showChosen();
    [[nodiscard]] const core::doubts::Doubted* chosen() const;
    void say(const QString& text);

    core::project::Store& m_store;
    DoubtSource* m_source;
    bridge::KeptAgain* m_again;
    core::doubts::DoubtsPtr m_doubts;
    bool m_areWantedElsewhere{false};
    bool m_wantsFocus{false};  ///< the table, when there is something in it
    std::optional<core::project::ShotId> m_chosenShot;
    DoubtListModel* m_rows;
    QTableView* m_table;
    QWidget* m_list{};  ///< the table with its filters
    DoubtFilters* m_filters;
    QTimer m_balls;    ///< looks again for those that are not there
    QLabel* m_answer;  ///< what matters most
    QLabel* m_count;
    QLabel* m_said;
    style::EmptyPage* m_nothing;  ///< in the place of the list
    style::EmptyPage* m_empty;
    QStackedWidget* m_pages;
    QStackedWidget* m_whole;
    QTabWidget* m_tabs;
    DoubtCard* m_card;
    QList<QAction*> m_actions;
};

}  // namespace ui::doubts
