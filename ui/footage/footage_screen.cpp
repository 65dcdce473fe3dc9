#include "ui/footage/footage_screen.h"

#include <QDate>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QGroupBox>
#include <QHeaderView>
#include <QLabel>
#include <QMimeData>
#include <QPushButton>
#include <QScrollArea>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

#include "core/intake/clip_record.h"
#include "core/intake/find_clip.h"
#include "core/intake/shot_corrections.h"
#include "ui/footage/assign_panel.h"
#include "ui/footage/clip_time_line.h"
#include "ui/footage/clock_panel.h"
#include "ui/footage/frame_preview.h"
#include "ui/footage/session_panel.h"
#include "ui/footage/shot_finder.h"
#include "ui/models/clip_table_model.h"
#include "ui/models/clip_words.h"
#include "ui/models/shot_table_model.h"

namespace ui::footage {
namespace {

using core::project::ClipId;
using core::project::ShotId;

QTableView* makeTable(QAbstractItemModel* model, int stretchColumn) {
    auto* view = new QTableView;
    view->setModel(model);
    view->setSelectionBehavior(QAbstractItemView::SelectRows);
    view->setAlternatingRowColors(true);
    view->setShowGrid(false);
    view->setTabKeyNavigation(false);
    view->verticalHeader()->hide();
    view->verticalHeader()->setDefaultSectionSize(view->fontMetrics().height() + 8);
    view->horizontalHeader()->setHighlightSections(false);
    view->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    view->horizontalHeader()->setSectionResizeMode(stretchColumn, QHeaderView::Stretch);
    return view;
}

QString videoFilter() {
    return QStringLiteral(
        "Video (*.mp4 *.mov *.m4v *.mkv *.avi *.webm *.mts *.3gp);;All files (*)");
}

QGroupBox* group(const QString& title, QWidget* content) {
    auto* box = new QGroupBox{title};
    auto* layout = new QVBoxLayout{box};
    layout->addWidget(content);
    return box;
}

}  // namespace

FootageScreen::FootageScreen(core::project::Store& store, bridge::FrameRequester& pictures,
                             bridge::JobRunner& jobs, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_pictures{pictures},
      m_jobs{jobs},
      m_clips{new models::ClipTableModel{store, this}},
      m_shots{new models::ShotTableModel{store, this}},
      m_finder{new ShotFinder{store, jobs, this}} {
    setAcceptDrops(true);
    auto* split = new QSplitter{Qt::Horizontal};
    split->addWidget(makeLists());
    split->addWidget(makeDetails());
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 2);
    split->setChildrenCollapsible(false);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(8, 8, 8, 8);
    m_trouble = new QLabel;
    m_trouble->setObjectName(QStringLiteral("trouble"));
    m_trouble->setWordWrap(true);
    m_trouble->hide();
    layout->addWidget(m_trouble);
    layout->addWidget(split, 1);
    connectParts();
    m_listening = m_store.listen([this](const core::project::Store::Change&) {
        refreshEmptiness();
        refreshBlocks();
        onShotsChosen();
    });
    refreshEmptiness();
    if (m_clips->rowCount() > 0) {
        m_clipView->selectRow(0);
    }
    onClipChosen();
}

FootageScreen::~FootageScreen() = default;

QWidget* FootageScreen::makeLists() {
    auto* add = new QPushButton{QStringLiteral("Add clips…")};
    add->setToolTip(
        QStringLiteral("Video files from the camera (Ctrl+I); they can also be dropped here"));
    add->setShortcut(QKeySequence{Qt::CTRL | Qt::Key_I});
    connect(add, &QPushButton::clicked, this, &FootageScreen::chooseFiles);
    m_findShots = new QPushButton{QStringLiteral("Find shots")};
    m_findShots->setObjectName(QStringLiteral("find_shots"));
    m_findShots->setToolTip(
        QStringLiteral("Looks for strikes by sound and movement in the chosen clips (Ctrl+F); "
                       "shots that are there already stay as they are"));
    m_findShots->setShortcut(QKeySequence{Qt::CTRL | Qt::Key_F});
    m_addShot = new QPushButton{QStringLiteral("New shot here")};
    m_addShot->setToolTip(
        QStringLiteral("A shot that is struck at the frame shown (N on the time line)"));
    m_splitShot = new QPushButton{QStringLiteral("Split here")};
    m_splitShot->setToolTip(QStringLiteral(
        "Makes two of the chosen shot, the second from the frame shown on (2 on the time line)"));
    m_joinShot = new QPushButton{QStringLiteral("Join with next")};
    m_joinShot->setToolTip(
        QStringLiteral("Makes one of the chosen shot and the one after it (J on the time line)"));
    m_removeShot = new QPushButton{QStringLiteral("Drop shots")};
    m_removeShot->setToolTip(QStringLiteral(
        "Takes the chosen shots and their readings out (Delete on the time line); undo brings "
        "them back, finding shots again does not"));

    m_clipView = makeTable(m_clips, models::ClipTableModel::kCells);
    m_clipView->setAccessibleName(QStringLiteral("Clips"));
    m_shotView = makeTable(m_shots, models::ShotTableModel::kStanding);
    m_shotView->setAccessibleName(QStringLiteral("Shots of the clip"));

    auto* empty =
        new QLabel{QStringLiteral("No clips yet.\n\nAdd the files from your camera with the button "
                                  "above, or drop them here.\n"
                                  "Film side on with the camera fixed, the ball in view for at "
                                  "least one whole turn after the strike.")};
    empty->setAlignment(Qt::AlignCenter);
    empty->setWordWrap(true);
    m_pages = new QStackedWidget;
    m_pages->addWidget(m_clipView);
    m_pages->addWidget(empty);

    auto* top = new QHBoxLayout;
    top->addWidget(add);
    top->addStretch();
    auto* shotBar = new QHBoxLayout;
    shotBar->addWidget(new QLabel{QStringLiteral("Shots of this clip")});
    shotBar->addStretch();
    shotBar->addWidget(m_findShots);
    shotBar->addWidget(m_addShot);
    shotBar->addWidget(m_splitShot);
    shotBar->addWidget(m_joinShot);
    shotBar->addWidget(m_removeShot);
    auto* column = new QWidget;
    auto* layout = new QVBoxLayout{column};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addLayout(top);
    layout->addWidget(m_pages, 3);
    layout->addLayout(shotBar);
    layout->addWidget(m_shotView, 2);
    return column;
}

QWidget* FootageScreen::makeDetails() {
    m_preview = new FramePreview;
    m_timeLine = new ClipTimeLine;
    m_assign = new AssignPanel{m_store};
    m_clock = new ClockPanel{m_store};
    m_session = new SessionPanel{m_store};
    m_pointAt = new QPushButton{QStringLiteral("Show where this clip is…")};
    m_pointAt->setObjectName(QStringLiteral("point_at"));
    m_pointAt->setToolTip(
        QStringLiteral("The file is recognised by its content, whatever its name is now"));
    m_pointAt->hide();
    auto* facts = new QWidget;
    auto* factsLayout = new QVBoxLayout{facts};
    factsLayout->setContentsMargins(0, 0, 4, 0);
    factsLayout->addWidget(group(QStringLiteral("Whose shots"), m_assign));
    factsLayout->addWidget(group(QStringLiteral("Clock of this clip"), m_clock));
    factsLayout->addWidget(group(QStringLiteral("Filming day: ball and camera"), m_session));
    factsLayout->addStretch();
    auto* scroll = new QScrollArea;
    scroll->setWidget(facts);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* column = new QWidget;
    auto* layout = new QVBoxLayout{column};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_preview, 2);
    layout->addWidget(m_pointAt, 0, Qt::AlignHCenter);
    layout->addWidget(m_timeLine);
    layout->addWidget(scroll, 3);
    return column;
}

void FootageScreen::connectParts() {
    connect(m_clipView->selectionModel(), &QItemSelectionModel::selectionChanged, this,
            &FootageScreen::onClipChosen);
    connect(m_clips, &QAbstractItemModel::modelReset, this, [this] {
        const int row = m_lastClip ? m_clips->rowOf(*m_lastClip) : -1;
        if (row >= 0) {
            m_clipView->selectRow(row);
        } else {
            onClipChosen();
        }
    });
    connect(m_shotView->selectionModel(), &QItemSelectionModel::selectionChanged, this, [this] {
        onShotsChosen();
        const auto shots = chosenShots();
        m_timeLine->setChosenShot(shots.size() == 1 ? std::optional{shots.front()} : std::nullopt);
        if (const auto* shot =
                shots.size() == 1 ? m_store.snapshot()->shots.find(shots.front()) : nullptr) {
            m_timeLine->setFrame(shot->firstFrame.value);
            requestFrame(shot->firstFrame.value);
        }
    });
    // A list that is built anew has no chosen row, and says nothing of it.
    connect(m_shots, &QAbstractItemModel::modelReset, this,
            [this] { m_timeLine->setChosenShot(std::nullopt); });
    connect(m_shotView, &QTableView::activated, this, [this](const QModelIndex& index) {
        Q_EMIT shotActivated(m_shots->shotAt(index.row()));
    });
    connect(m_timeLine, &ClipTimeLine::frameChosen, this, &FootageScreen::requestFrame);
    connect(m_timeLine, &ClipTimeLine::shotChosen, this, &FootageScreen::chooseShot);
    connect(m_timeLine, &ClipTimeLine::rangeChosen, this, &FootageScreen::changeRange);
    connect(m_timeLine, &ClipTimeLine::shotWanted, this, &FootageScreen::addShotHere);
    connect(m_timeLine, &ClipTimeLine::splitWanted, this, &FootageScreen::splitHere);
    connect(m_timeLine, &ClipTimeLine::joinWanted, this, &FootageScreen::joinWithNext);
    connect(m_timeLine, &ClipTimeLine::dropWanted, this, &FootageScreen::removeChosenShots);
    connect(m_splitShot, &QPushButton::clicked, this, &FootageScreen::splitHere);
    connect(m_joinShot, &QPushButton::clicked, this, &FootageScreen::joinWithNext);
    connect(m_findShots, &QPushButton::clicked, this, &FootageScreen::findShots);
    connect(m_finder, &ShotFinder::finished, this, [this](const QString& text, bool isTrouble) {
        isTrouble ? addTrouble(text) : Q_EMIT statusChanged(text);
    });
    connect(m_addShot, &QPushButton::clicked, this, &FootageScreen::addShotHere);
    connect(m_pointAt, &QPushButton::clicked, this, [this] {
        const QString file = QFileDialog::getOpenFileName(
            this, QStringLiteral("Show where the clip is"), {}, videoFilter());
        if (!file.isEmpty()) {
            pointChosenClipTo(file);
        }
    });
    connect(m_removeShot, &QPushButton::clicked, this, &FootageScreen::removeChosenShots);
    connect(&m_pictures, &bridge::FrameRequester::pictureReady, this,
            [this](quint64 number, qint64 frame, const QImage& picture) {
                if (number == m_pictureNumber) {
                    m_preview->showPicture(picture, QStringLiteral("frame %1").arg(frame));
                }
            });
    connect(&m_pictures, &bridge::FrameRequester::pictureFailed, this,
            [this](quint64 number, qint64 frame, const QString& reason) {
                if (number == m_pictureNumber) {
                    m_preview->showText(
                        QStringLiteral("Frame %1 cannot be shown. %2").arg(frame).arg(reason));
                }
            });
}

void FootageScreen::refreshEmptiness() {
    m_pages->setCurrentIndex(m_clips->rowCount() == 0 ? 1 : 0);
}

std::optional<ClipId> FootageScreen::chosenClip() const {
    const auto rows = m_clipView->selectionModel()->selectedRows();
    return rows.isEmpty() ? std::nullopt : std::optional{m_clips->clipAt(rows.front().row())};
}

std::vector<ShotId> FootageScreen::chosenShots() const {
    std::vector<ShotId> shots;
    for (const auto& index : m_shotView->selectionModel()->selectedRows()) {
        shots.push_back(m_shots->shotAt(index.row()));
    }
    return shots;
}

void FootageScreen::onClipChosen() {
    const auto clip = chosenClip();
    m_lastClip = clip ? clip : m_lastClip;
    m_shots->showClip(clip);
    m_clock->showClip(clip);
    m_findShots->setEnabled(clip.has_value());
    m_addShot->setEnabled(clip.has_value());
    const auto snapshot = m_store.snapshot();
    const auto* record = clip ? snapshot->clips.find(*clip) : nullptr;
    m_session->showSession(record != nullptr ? std::optional{record->session} : std::nullopt);
    openChosenClip();
    refreshBlocks();
    onShotsChosen();
    if (record != nullptr) {
        requestFrame(m_timeLine->frame());
        Q_EMIT statusChanged(QString::fromStdString(record->path));
    } else {
        m_preview->showText(QStringLiteral("Choose a clip to look at it."));
        Q_EMIT statusChanged({});
    }
}

void FootageScreen::onShotsChosen() {
    auto shots = chosenShots();
    m_removeShot->setEnabled(!shots.empty());
    m_splitShot->setEnabled(shots.size() == 1);
    m_joinShot->setEnabled(shots.size() == 1);
    if (!shots.empty()) {
        const auto count = shots.size();
        m_assign->setShots(std::move(shots), count == 1 ? QStringLiteral("1 shot")
                                                        : QStringLiteral("%1 shots").arg(count));
        return;
    }
    const auto snapshot = m_store.snapshot();
    const auto rows = m_clipView->selectionModel()->selectedRows();
    for (const auto& index : rows) {
        for (const auto* shot :
             core::project::shotsOfClip(*snapshot, m_clips->clipAt(index.row()))) {
            shots.push_back(shot->id);
        }
    }
    const auto count = shots.size();
    m_assign->setShots(
        std::move(shots),
        QStringLiteral("%1 of %2")
            .arg(count == 1 ? QStringLiteral("1 shot") : QStringLiteral("all %1 shots").arg(count),
                 rows.size() == 1 ? QStringLiteral("this clip")
                                  : QStringLiteral("%1 clips").arg(rows.size())));
}

void FootageScreen::openChosenClip() {
    m_open.reset();
    m_pointAt->hide();
    const auto clip = chosenClip();
    const auto snapshot = m_store.snapshot();
    const auto* record = clip ? snapshot->clips.find(*clip) : nullptr;
    if (record == nullptr) {
        return;
    }
    const auto frames = m_store.clipFrames(*clip);
    if (!frames) {
        say(QString::fromStdString(frames.error().message));
        return;
    }
    const auto file = core::intake::findClip(m_store, *clip);
    if (!file) {
        m_preview->showText(QString::fromStdString(file.error().message));
        m_pointAt->setVisible(!core::project::isTally(*record));
        return;
    }
    m_open = m_pictures.openClip(file.value(), core::intake::indexOf(*record, *frames.value()));
}

void FootageScreen::refreshBlocks() {
    const auto clip = chosenClip();
    const auto snapshot = m_store.snapshot();
    const auto* record = clip ? snapshot->clips.find(*clip) : nullptr;
    std::vector<ClipTimeLine::Block> blocks;
    if (record != nullptr) {
        for (const auto* shot : core::project::shotsOfClip(*snapshot, *clip)) {
            blocks.push_back(
                {shot->id, shot->firstFrame.value, shot->lastFrame.value,
                 shot->strikeFrame ? std::optional<qint64>{shot->strikeFrame->value} : std::nullopt,
                 QString::number(shot->ordinal)});
        }
    }
    m_timeLine->showClip(record != nullptr ? record->frameCount : 0, std::move(blocks));
}

void FootageScreen::requestFrame(qint64 frame) {
    if (m_open && isVisible()) {
        m_pictureNumber =
            m_pictures.requestPicture(*m_open, {frame}, bridge::FrameRequester::Direction::Forward,
                                      m_preview->size() * m_preview->devicePixelRatioF());
    }
}

void FootageScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    onClipChosen();
}

void FootageScreen::chooseShot(ShotId shot) {
    const int row = m_shots->rowOf(shot);
    if (row >= 0) {
        const qint64 frame = m_timeLine->frame();
        m_shotView->selectRow(row);
        m_timeLine->setFrame(frame);
        requestFrame(frame);
    }
}

void FootageScreen::findShots() {
    say({});
    for (const auto& index : m_clipView->selectionModel()->selectedRows()) {
        m_finder->find(m_clips->clipAt(index.row()));
    }
}

void FootageScreen::addShotHere() {
    const auto clip = chosenClip();
    if (!clip) {
        return;
    }
    const auto added = core::intake::addShotByHand(m_store, *clip, {m_timeLine->frame()});
    if (!added) {
        say(QString::fromStdString(added.error().message));
        return;
    }
    say({});
    chooseShot(added.value());
}

std::optional<ShotId> FootageScreen::oneChosenShot() {
    const auto shots = chosenShots();
    if (shots.size() != 1) {
        say(QStringLiteral("Choose one shot first, on the time line or in the list."));
        return std::nullopt;
    }
    return shots.front();
}

void FootageScreen::splitHere() {
    if (const auto shot = oneChosenShot()) {
        const auto made = core::intake::splitShot(m_store, *shot, {m_timeLine->frame()});
        say(made ? QString{} : QString::fromStdString(made.error().message));
        chooseShot(made ? made.value() : *shot);
    }
}

void FootageScreen::joinWithNext() {
    if (const auto shot = oneChosenShot()) {
        report(core::intake::joinWithNext(m_store, *shot));
        chooseShot(*shot);
    }
}

void FootageScreen::removeChosenShots() {
    const auto shots = chosenShots();
    if (!shots.empty()) {
        report(core::intake::dropShots(m_store, shots));
    }
}

void FootageScreen::changeRange(ShotId shot, qint64 first, qint64 last,
                                std::optional<qint64> strike) {
    report(core::intake::moveShot(
        m_store, shot, {first}, {last},
        strike ? std::optional{core::timebase::FrameIndex{*strike}} : std::nullopt));
    refreshBlocks();
    chooseShot(shot);
}

void FootageScreen::pointChosenClipTo(const QString& file) {
    const auto clip = chosenClip();
    if (!clip) {
        return;
    }
    const auto done =
        core::intake::pointToClip(m_store, *clip, std::filesystem::path{file.toStdString()});
    report(done);
    if (done) {
        onClipChosen();
    }
}

void FootageScreen::chooseFiles() {
    addFiles(QFileDialog::getOpenFileNames(this, QStringLiteral("Add clips"), {}, videoFilter()));
}

void FootageScreen::addFiles(const QStringList& files) {
    say({});
    for (const QString& file : files) {
        m_jobs.start<core::intake::PreparedClip>(
            QStringLiteral("Reading %1").arg(file.section(QLatin1Char('/'), -1)),
            [path = std::filesystem::path{file.toStdString()},
             project = m_store.file()](bridge::JobContext& context) {
                return core::intake::prepareClip(path, project, context.stopToken());
            },
            this, [this, file](const auto& prepared) { comeHome(file, prepared); });
    }
}

core::Result<core::project::SessionId> FootageScreen::sessionForClips() {
    const auto snapshot = m_store.snapshot();
    if (!snapshot->sessions.isEmpty()) {
        return (snapshot->sessions.end() - 1)->id;
    }
    core::project::Session session;
    session.date = QDate::currentDate().toString(Qt::ISODate).toStdString();
    session.name = "Session of " + session.date;
    return m_store.addSession(session);
}

void FootageScreen::comeHome(const QString& file,
                             const core::Result<core::intake::PreparedClip>& prepared) {
    if (!prepared) {
        if (prepared.error().code != core::ErrorCode::Cancelled) {
            addTrouble(
                QStringLiteral("%1: %2").arg(file.section(QLatin1Char('/'), -1),
                                             QString::fromStdString(prepared.error().message)));
        }
        return;
    }
    const auto session = sessionForClips();
    if (!session) {
        say(QString::fromStdString(session.error().message));
        return;
    }
    const auto added = core::intake::addPreparedClip(m_store, session.value(), prepared.value());
    if (!added) {
        addTrouble(QString::fromStdString(added.error().message));
        return;
    }
    m_clipView->selectRow(m_clips->rowOf(added.value()));
    const auto snapshot = m_store.snapshot();
    const auto* clip = snapshot->clips.find(added.value());
    if (clip != nullptr && clip->clock) {
        m_finder->find(added.value());
    }
}

void FootageScreen::dragEnterEvent(QDragEnterEvent* event) {
    if (event->mimeData()->hasUrls()) {
        event->acceptProposedAction();
    }
}

void FootageScreen::dropEvent(QDropEvent* event) {
    QStringList files;
    for (const QUrl& url : event->mimeData()->urls()) {
        if (url.isLocalFile()) {
            files << url.toLocalFile();
        }
    }
    addFiles(files);
}

void FootageScreen::report(const core::Result<void>& result) {
    say(result ? QString{} : QString::fromStdString(result.error().message));
}

void FootageScreen::addTrouble(const QString& line) {
    say(m_trouble->text().isEmpty() ? line : m_trouble->text() + QLatin1Char('\n') + line);
}

void FootageScreen::say(const QString& trouble) {
    m_trouble->setText(trouble);
    m_trouble->setVisible(!trouble.isEmpty());
}

}  // namespace ui::footage
