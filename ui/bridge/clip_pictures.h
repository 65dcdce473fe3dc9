#pragma once

#include <QCache>
#include <QImage>
#include <QObject>
#include <QSize>

#include "core/jobs/pool.h"
#include "core/project/store.h"
#include "ui/bridge/home.h"

namespace ui::bridge {

/// Where a clip shows what it is of: the middle of its first shot, where the ball flies; without
/// shots the middle of the clip.
[[nodiscard]] qint64 tellingFrame(const core::project::Snapshot& snapshot,
                                  const core::project::Clip& clip);

/// Small pictures of whole clips, for lists: the middle of the first shot, or the key frame before
/// it where that is far. Confined to the thread it lives in.
class ClipPictures : public QObject {
    Q_OBJECT

public:
    /// The store must outlive it.
    explicit ClipPictures(core::project::Store& store, QObject* parent = nullptr);
    ~ClipPictures() override;

    /// Fits into the box, in pixels of the display. Null while it is on its way, when arrived()
    /// follows, and for good where the file has none to give. Other boxes, another file and a clip
    /// that was turned ask anew.
    [[nodiscard]] QImage pictureOf(core::project::ClipId clip, QSize fitInto);

Q_SIGNALS:
    void arrived(core::project::ClipId clip);

private:
    struct Shown {
        std::string path;
        int rotationDegrees{};
        QSize box;
        QImage picture;
    };
    void ask(const core::project::Clip& clip, QSize fitInto);

    core::project::Store& m_store;
    QCache<qint64, Shown> m_shown;
    Home m_home;
    core::jobs::Pool m_pool;  // last: joined first
};

}  // namespace ui::bridge
