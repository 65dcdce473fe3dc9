#pragma once

#include <QImage>
#include <QObject>
#include <QString>
#include <filesystem>
#include <map>
#include <optional>
#include <vector>

#include "core/jobs/pool.h"
#include "core/media/frames/frame_service.h"
#include "ui/bridge/cut_out.h"
#include "ui/bridge/home.h"

namespace ui::bridge {

/// Pictures for the window, without waiting. Confined to the thread it lives in, where all signals
/// arrive by queued connection.
///
/// Requests are numbered; replies to an older request of the same kind are dropped, also when they
/// were on their way already. Pictures are converted on a thread of its own.
class FrameRequester : public QObject {
    Q_OBJECT

public:
    using Clip = core::media::FrameService::ClipId;
    using Direction = core::media::FrameService::Direction;

    /// The service must outlive the requester.
    explicit FrameRequester(core::media::FrameService& service, QObject* parent = nullptr);
    ~FrameRequester() override;

    /// The clip of a file that is open; absent when it is not.
    [[nodiscard]] std::optional<Clip> findClip(const std::filesystem::path& file,
                                               int rotationDegrees) const;
    /// The same file gives the same clip until closeClips().
    Clip openClip(const std::filesystem::path& file, const core::media::ClipIndex& index);
    /// Closes all clips and drops what is under way: the project has changed.
    void closeClips();

    /// Asks for the whole picture, scaled down to fit into the box (an empty box: as it is).
    /// pictureReady or pictureFailed follows with the number returned here unless a newer request
    /// comes before.
    quint64 requestPicture(Clip clip, core::timebase::FrameIndex frame, Direction direction,
                           QSize fitInto);
    /// The same at once when the frame is decoded already, else null. Converts on this thread,
    /// which takes some milliseconds: for what has to be there at the first sight.
    [[nodiscard]] QImage pictureNow(Clip clip, core::timebase::FrameIndex frame, QSize fitInto);
    /// Asks for cut-outs of frames of one clip; cutOutReady follows for each as it is decoded,
    /// in no fixed order. A newer set replaces this one. Drops what was to be prepared.
    quint64 requestCutOuts(Clip clip, std::vector<CutOut> cutOuts);
    /// Decodes a stretch ahead when nothing more urgent waits.
    void prepare(Clip clip, core::timebase::FrameIndex first, core::timebase::FrameIndex last);

Q_SIGNALS:
    void pictureReady(quint64 number, qint64 frame, const QImage& picture);
    void pictureFailed(quint64 number, qint64 frame, const QString& reason);
    void cutOutReady(quint64 number, qint64 frame, const QImage& picture);
    void cutOutFailed(quint64 number, qint64 frame, const QString& reason);

private:
    void convertPicture(quint64 number, const core::media::FramePtr& frame, QSize fitInto);
    void convertCutOut(quint64 number, const core::media::FramePtr& frame, const CutOut& cutOut);

    core::media::FrameService& m_service;
    struct OpenClip {
        Clip clip{};
        int rotationDegrees{};
    };
    std::map<std::filesystem::path, OpenClip> m_clips;
    quint64 m_newestPicture{0};
    quint64 m_newestCutOuts{0};
    Home m_home;                        // callbacks of the service may outlive the requester
    std::stop_source m_cutOutsDropped;  ///< of the newest set
    core::jobs::JobId m_pictureJob{0};
    core::jobs::Pool m_converter{
        {.threads = 1, .givesWay = core::BackgroundWork::Pictures}};  // last: joined first
};

}  // namespace ui::bridge
