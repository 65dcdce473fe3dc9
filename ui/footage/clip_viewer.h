#pragma once

#include <QWidget>
#include <optional>

#include "core/project/store.h"
#include "ui/bridge/frame_requester.h"

class QPushButton;

namespace ui::footage {

class ClipTimeLine;
class FramePreview;

/// One frame of the chosen clip above its time line; for a clip whose file is not found, the way to
/// point at it. Confined.
class ClipViewer : public QWidget {
    Q_OBJECT

public:
    ClipViewer(core::project::Store& store, bridge::FrameRequester& pictures,
               QWidget* parent = nullptr);

    [[nodiscard]] ClipTimeLine& timeLine() noexcept { return *m_timeLine; }
    /// Opens the file anew, which may have come back, and shows the frame of the time line.
    void showClip(std::optional<core::project::ClipId> clip);
    void showFrame(qint64 frame);
    /// The shots on the time line, as they are now.
    void refreshBlocks();
    /// Asks for the file of the clip.
    void askWhereItIs();
    /// Takes this file for the clip; refused when its content is another.
    void pointTo(const QString& file);

Q_SIGNALS:
    /// What went wrong; empty when something went well.
    void troubled(const QString& text);

private:
    void openClip();
    [[nodiscard]] qint64 tellingFrame() const;

    core::project::Store& m_store;
    bridge::FrameRequester& m_pictures;
    FramePreview* m_preview;
    ClipTimeLine* m_timeLine;
    QPushButton* m_pointAt;  ///< shown while the file of the clip is not found
    std::optional<core::project::ClipId> m_clip;
    std::optional<qint64> m_frameWithoutShots;  ///< that the clip was opened at before it had any
    std::optional<bridge::FrameRequester::Clip> m_open;
    int m_rotation{};  ///< of the clip as it is open
    quint64 m_pictureNumber{0};
};

}  // namespace ui::footage
