#include "ui/reading/pictures/kept_pictures.h"

#include "core/evidence/picture_codec.h"

namespace ui::reading {

using core::timebase::FrameIndex;

KeptPictures::KeptPictures(const core::project::StoredPictures& evidence) {
    for (const auto& kept : evidence.pictures) {
        if (kept.ball) {
            m_balls.push_back({kept.frame, {kept.ball->xPx, kept.ball->yPx, kept.ball->radiusPx}});
        }
        const auto pixels = core::evidence::decodePicture(evidence.codec, kept.bytes);
        if (pixels && !pixels.value().view().isEmpty()) {
            m_pictures.insert(kept.frame.value,
                              {bridge::imageOf(pixels.value()),
                               QRectF{kept.leftPx, kept.topPx, kept.sidePx, kept.sidePx}});
        }
    }
}

const KeptPictures::Picture* KeptPictures::at(FrameIndex frame) const {
    const auto found = m_pictures.constFind(frame.value);
    return found != m_pictures.constEnd() ? &found.value() : nullptr;
}

QImage KeptPictures::cutOut(const bridge::CutOut& cutOut) const {
    const Picture* picture = at(cutOut.frame);
    return picture != nullptr ? bridge::cutOutPicture(picture->image, picture->place, cutOut)
                              : QImage{};
}

std::shared_ptr<const KeptPictures> keptPicturesOf(const core::project::Store& store,
                                                   core::project::ShotId shot) {
    const auto evidence = store.picturesOf(shot);
    const auto snapshot = store.snapshot();
    const auto* of = snapshot->shots.find(shot);
    const auto* clip = of != nullptr ? snapshot->clips.find(of->clip) : nullptr;
    if (!evidence || !evidence.value() || clip == nullptr) {
        return nullptr;
    }
    for (const auto& picture : evidence.value()->pictures) {
        if (picture.turnedDegrees != clip->turnedDegrees) {
            return nullptr;  // kept before the clip was turned
        }
    }
    return std::make_shared<const KeptPictures>(*evidence.value());
}

}  // namespace ui::reading
