#pragma once

#include <QHash>
#include <QImage>
#include <QRectF>
#include <memory>
#include <vector>

#include "core/project/store.h"
#include "core/reading/ball_places.h"
#include "ui/bridge/cut_out.h"

namespace ui::reading {

/// The pictures of a shot that are kept in the project, ready to be painted. Immutable value.
class KeptPictures {
public:
    explicit KeptPictures(const core::project::StoredPictures& evidence);

    struct Picture {
        QImage image;
        QRectF place;  ///< in the picture as shown, px
    };
    /// Null when the frame was not kept or cannot be read.
    [[nodiscard]] const Picture* at(core::timebase::FrameIndex frame) const;
    /// The kept picture looked at through another cut-out; what was not kept is black.
    [[nodiscard]] QImage cutOut(const bridge::CutOut& cutOut) const;
    /// Where the ball was when the pictures were kept.
    [[nodiscard]] const std::vector<core::reading::KnownPlace>& balls() const { return m_balls; }

private:
    QHash<qint64, Picture> m_pictures;
    std::vector<core::reading::KnownPlace> m_balls;
};

/// Null when nothing is kept of the shot.
[[nodiscard]] std::shared_ptr<const KeptPictures> keptPicturesOf(const core::project::Store& store,
                                                                 core::project::ShotId shot);

}  // namespace ui::reading
