#include "ui/bridge/clip_pictures.h"

#include "core/base/guarded.h"
#include "core/intake/clip_record.h"
#include "core/media/frames/frame_decoder.h"
#include "ui/bridge/cut_out.h"

namespace ui::bridge {
namespace {

using core::project::Clip;
using core::project::ClipId;

constexpr int kMostPictures = 500;   // some 50 kB each
constexpr qint64 kMostDecoded = 32;  // frames, for one picture

core::Result<QImage> decodedPicture(const std::filesystem::path& file, core::media::ClipIndex index,
                                    qint64 frame, QSize fitInto) {
    BOOST_OUTCOME_TRY(decoder, core::media::FrameDecoder::open(file, std::move(index), 1));
    const auto key = decoder->keyBefore({frame});
    const bool isNear = frame - key.value <= kMostDecoded;
    BOOST_OUTCOME_TRY(picture, decoder->decode(isNear ? core::timebase::FrameIndex{frame} : key));
    return wholePicture(*picture, fitInto);
}

}  // namespace

qint64 tellingFrame(const core::project::Snapshot& snapshot, const Clip& clip) {
    const auto shots = core::project::shotsOfClip(snapshot, clip.id);
    return shots.empty() ? clip.frameCount / 2
                         : (shots.front()->firstFrame.value + shots.front()->lastFrame.value) / 2;
}

ClipPictures::ClipPictures(core::project::Store& store, QObject* parent)
    : QObject{parent},
      m_store{store},
      m_shown{kMostPictures},
      m_home{*this},
      m_pool{{.threads = 1, .givesWay = core::BackgroundWork::Batch}} {}

ClipPictures::~ClipPictures() {
    m_home.close();
}

QImage ClipPictures::pictureOf(ClipId id, QSize fitInto) {
    const auto snapshot = m_store.snapshot();
    const Clip* clip = snapshot->clips.find(id);
    if (clip == nullptr || core::project::isTally(*clip)) {
        return {};
    }
    const Shown* shown = m_shown.object(id.value);
    if (shown == nullptr || shown->path != clip->path || shown->box != fitInto ||
        shown->rotationDegrees != clip->rotationDegrees) {
        ask(*clip, fitInto);
        return {};
    }
    return shown->picture;
}

void ClipPictures::ask(const Clip& clip, QSize fitInto) {
    m_shown.insert(clip.id.value, new Shown{clip.path, clip.rotationDegrees, fitInto, {}});
    const auto frames = m_store.clipFrames(clip.id);
    if (!frames) {
        return;
    }
    m_pool.add(
        {}, core::jobs::Priority::Ahead,
        [this, home = m_home, fitInto, id = clip.id,
         file = m_store.file().parent_path() / clip.path,
         index = core::intake::indexOf(clip, *frames.value()),
         frame = tellingFrame(*m_store.snapshot(), clip)](const core::jobs::Context& context) {
            if (context.isCancelled()) {
                return;
            }
            auto picture =
                core::guarded([&] { return decodedPicture(file, index, frame, fitInto); });
            if (!picture) {
                return;  // the list has an outline in its place; the viewer says why
            }
            home.post([this, id, fitInto, picture = std::move(picture).value()] {
                Shown* shown = m_shown.object(id.value);
                if (shown != nullptr && shown->box == fitInto) {
                    shown->picture = picture;
                    Q_EMIT arrived(id);
                }
            });
        });
}

}  // namespace ui::bridge
