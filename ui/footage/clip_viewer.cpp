#include "ui/footage/clip_viewer.h"

#include <QPushButton>
#include <QVBoxLayout>

#include "core/intake/clip_record.h"
#include "core/intake/find_clip.h"
#include "ui/bridge/clip_pictures.h"
#include "ui/footage/clip_time_line.h"
#include "ui/footage/film_filter.h"
#include "ui/footage/frame_preview.h"
#include "ui/style/ask.h"
#include "ui/style/rank.h"

namespace ui::footage {

ClipViewer::ClipViewer(core::project::Store& store, bridge::FrameRequester& pictures,
                       QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_pictures{pictures},
      m_preview{new FramePreview},
      m_timeLine{new ClipTimeLine},
      m_pointAt{new QPushButton{tr("Show where it is…")}} {
    m_pointAt->setObjectName(QStringLiteral("point_at"));
    style::setRank(m_pointAt, style::Rank::Quiet);
    m_pointAt->setToolTip(tr("The file is recognised by its content, whatever its name is now"));
    m_pointAt->hide();
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_preview, 1);
    layout->addWidget(m_pointAt, 0, Qt::AlignHCenter);
    layout->addWidget(m_timeLine);
    connect(m_timeLine, &ClipTimeLine::frameChosen, this, &ClipViewer::showFrame);
    // A drag that is refused leaves nothing behind.
    connect(m_timeLine, &ClipTimeLine::rangeChosen, this, &ClipViewer::refreshBlocks);
    connect(m_pointAt, &QPushButton::clicked, this, &ClipViewer::askWhereItIs);
    connect(&m_pictures, &bridge::FrameRequester::pictureReady, this,
            [this](quint64 number, qint64 frame, const QImage& picture) {
                if (number == m_pictureNumber) {
                    m_preview->showPicture(picture, tr("frame %1").arg(frame));
                }
            });
    connect(&m_pictures, &bridge::FrameRequester::pictureFailed, this,
            [this](quint64 number, qint64 frame, const QString& reason) {
                if (number == m_pictureNumber) {
                    m_preview->showText(tr("Frame %1 cannot be shown. %2").arg(frame).arg(reason));
                }
            });
}

void ClipViewer::showClip(std::optional<core::project::ClipId> clip) {
    const bool isOther = m_clip != clip;
    m_clip = clip;
    openClip();
    refreshBlocks();
    if (!clip) {
        m_preview->showText(tr("Choose a clip to look at it."));
    }
    if (isOther) {
        m_timeLine->setFrame(tellingFrame());
        m_frameWithoutShots.reset();
        if (clip && core::project::shotsOfClip(*m_store.snapshot(), *clip).empty()) {
            m_frameWithoutShots = m_timeLine->frame();
        }
    } else {
        showFrame(m_timeLine->frame());
    }
}

qint64 ClipViewer::tellingFrame() const {
    const auto snapshot = m_store.snapshot();
    const auto* record = m_clip ? snapshot->clips.find(*m_clip) : nullptr;
    return record == nullptr ? 0 : bridge::tellingFrame(*snapshot, *record);
}

void ClipViewer::openClip() {
    m_open.reset();
    m_pointAt->hide();
    const auto snapshot = m_store.snapshot();
    const auto* record = m_clip ? snapshot->clips.find(*m_clip) : nullptr;
    if (record == nullptr) {
        return;
    }
    const auto frames = m_store.clipFrames(*m_clip);
    if (!frames) {
        Q_EMIT troubled(QString::fromStdString(frames.error().message));
        return;
    }
    const auto file = core::intake::findClip(m_store, *m_clip);
    if (!file) {
        m_preview->showText(QString::fromStdString(file.error().message));
        m_pointAt->setVisible(!core::project::isTally(*record));
        return;
    }
    m_rotation = record->rotationDegrees;
    m_open = m_pictures.openClip(file.value(), core::intake::indexOf(*record, *frames.value()));
}

void ClipViewer::showFrame(qint64 frame) {
    if (m_open && isVisible()) {
        m_pictureNumber =
            m_pictures.requestPicture(*m_open, {frame}, bridge::FrameRequester::Direction::Forward,
                                      m_preview->size() * m_preview->devicePixelRatioF());
    }
}

void ClipViewer::refreshBlocks() {
    const auto snapshot = m_store.snapshot();
    const auto* record = m_clip ? snapshot->clips.find(*m_clip) : nullptr;
    std::vector<ClipTimeLine::Block> blocks;
    if (record != nullptr) {
        for (const auto* shot : core::project::shotsOfClip(*snapshot, *m_clip)) {
            blocks.push_back(
                {shot->id, shot->firstFrame.value, shot->lastFrame.value,
                 shot->strikeFrame ? std::optional<qint64>{shot->strikeFrame->value} : std::nullopt,
                 QString::number(shot->ordinal)});
        }
    }
    const bool areFound = m_frameWithoutShots == m_timeLine->frame() && !blocks.empty();
    m_timeLine->showClip(record != nullptr ? record->frameCount : 0, std::move(blocks));
    if (areFound) {  // nobody has looked elsewhere meanwhile
        m_frameWithoutShots.reset();
        m_timeLine->setFrame(tellingFrame());
    }
    if (m_open && record != nullptr && record->rotationDegrees != m_rotation) {  // it was turned
        openClip();
        showFrame(m_timeLine->frame());
    }
}

void ClipViewer::askWhereItIs() {
    style::askForFile(*this, {tr("Show where the clip is"), {}, filmFilter()},
                      [this](const QString& file) { pointTo(file); });
}

void ClipViewer::pointTo(const QString& file) {
    if (!m_clip) {
        return;
    }
    const auto done =
        core::intake::pointToClip(m_store, *m_clip, std::filesystem::path{file.toStdString()});
    Q_EMIT troubled(done ? QString{} : QString::fromStdString(done.error().message));
    if (done) {
        showClip(m_clip);
    }
}

}  // namespace ui::footage
