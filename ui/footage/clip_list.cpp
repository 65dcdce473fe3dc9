#include "ui/footage/clip_list.h"

#include <QTableView>
#include <QVBoxLayout>
#include <algorithm>
#include <filesystem>
#include <set>

#include "core/intake/day_setup.h"
#include "core/plan/cautions.h"
#include "ui/bridge/clip_pictures.h"
#include "ui/footage/clip_delegate.h"
#include "ui/footage/clip_filter_bar.h"
#include "ui/footage/footage_table.h"
#include "ui/style/empty_page.h"
#include "ui/style/remark_line.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::footage {
namespace {

QWidget* cautionsRemark() {
    QStringList lines;
    for (const std::string& caution : core::plan::filmingCautions()) {
        lines << QString::fromStdString(caution);
    }
    return new style::RemarkLine{style::RemarkKind::Grave,
                                 QString::fromStdString(core::plan::cautionsHeading()),
                                 lines.join(QLatin1Char{'\n'})};
}

}  // namespace

ClipList::ClipList(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_clips{new models::ClipTableModel{store.snapshot(), this}},
      m_filter{new ClipFilterBar{*m_clips}},
      m_empty{new style::EmptyPage{0.25}} {
    makeView();
    m_empty->say(tr("No clips yet"),
                 tr("Add the files or the whole folder from your camera with the buttons above, or "
                    "drop them here. Film side on with the camera fixed, the ball in view for at "
                    "least one whole turn after the strike."));
    m_empty->addBelow(cautionsRemark());
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(style::kBetweenPx);
    column->addWidget(m_filter);
    column->addWidget(m_view, 1);
    column->addWidget(m_empty, 1);
    connect(m_view->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &ClipList::onChoice);
    connect(m_clips, &QAbstractItemModel::modelReset, this, &ClipList::chooseAgain);
    connect(m_view, &QTableView::clicked, this, &ClipList::clicked);
    style::whenFontChanges(this, [this] { fitRows(); });
}

void ClipList::makeView() {
    using Clips = models::ClipTableModel;
    m_view = makeFootageTable(m_clips, Clips::kCells, tr("Clips"));
    style::hideToMakeRoom(m_view, {Clips::kShots});
    auto* pictures = new bridge::ClipPictures{m_store, this};
    m_delegate = new ClipDelegate{*m_clips, *pictures, m_view};
    m_view->setItemDelegate(m_delegate);
    m_view->setMouseTracking(true);
    connect(pictures, &bridge::ClipPictures::arrived, m_view->viewport(),
            qOverload<>(&QWidget::update));
}

void ClipList::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitRows();
}

/// In a narrow window, or with large text, names of implements need the room more than pictures do,
/// and more than the capture rate, which stands with the chosen clip as well.
void ClipList::fitRows() {
    constexpr int kPicturedLetters = 100;
    constexpr int kTimedLetters = 65;
    const int letters = width() / std::max(1, m_view->fontMetrics().averageCharWidth());
    m_delegate->setPictured(letters >= kPicturedLetters);
    m_view->setColumnHidden(models::ClipTableModel::kCaptured, letters < kTimedLetters);
    m_view->verticalHeader()->setDefaultSectionSize(clipRowHeight(m_view->font()));
    m_view->updateGeometry();
    m_view->resizeColumnToContents(models::ClipTableModel::kName);
}

void ClipList::refresh() {
    const auto snapshot = m_store.snapshot();
    lookForFiles();
    m_clips->update(snapshot);
    m_clips->setDifferent(core::intake::differencesFromDay(*snapshot));
    m_filter->refresh();
    const bool isEmpty = snapshot->clips.isEmpty();
    m_filter->setHidden(isEmpty);
    m_view->setHidden(isEmpty);
    m_empty->setVisible(isEmpty);
}

/// Which clips are not where the project says; a look at every file, no more.
void ClipList::lookForFiles() {
    std::set<ClipId> missing;
    for (const auto& clip : m_store.snapshot()->clips) {
        std::error_code ignored;
        if (!isTally(clip) &&
            !std::filesystem::exists(m_store.file().parent_path() / clip.path, ignored)) {
            missing.insert(clip.id);
        }
    }
    m_clips->setMissing(std::move(missing));
}

bool ClipList::isMissing(ClipId clip) const {
    return m_clips->isMissing(clip);
}

void ClipList::choose(ClipId clip) {
    m_clips->update(m_store.snapshot());
    m_chosen = {clip};
    if (m_clips->rowOf(clip) < 0) {
        m_filter->showAll();  // and chooses it
    } else {
        chooseAgain();
    }
}

void ClipList::chooseAgain() {
    QItemSelection rows;
    for (const ClipId clip : m_chosen) {
        const int row = m_clips->rowOf(clip);
        if (row >= 0) {
            rows.select(m_clips->index(row, 0), m_clips->index(row, 0));
        }
    }
    if (rows.isEmpty() && m_clips->rowCount() > 0) {
        rows.select(m_clips->index(0, 0), m_clips->index(0, 0));
    }
    if (rows.isEmpty()) {
        onChoice();
        return;
    }
    m_view->selectionModel()->setCurrentIndex(rows.front().topLeft(),
                                              QItemSelectionModel::NoUpdate);
    m_view->selectionModel()->select(
        rows, QItemSelectionModel::ClearAndSelect | QItemSelectionModel::Rows);
}

void ClipList::onChoice() {
    m_chosen.clear();
    for (const auto& index : m_view->selectionModel()->selectedRows()) {
        m_chosen.push_back(m_clips->clipAt(index.row()));
    }
    Q_EMIT choiceChanged();
}

}  // namespace ui::footage
