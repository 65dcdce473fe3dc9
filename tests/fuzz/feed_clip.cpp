#include <fstream>

#include "core/media/file/clip_index.h"
#include "core/media/file/sound_envelope.h"
#include "core/media/frames/frame_decoder.h"
#include "tests/core/project/project_maker.h"
#include "tests/fuzz/promise.h"
#include "tests/fuzz/taken.h"

namespace tests::fuzz {
namespace {

using namespace core;
namespace fs = std::filesystem;

constexpr std::int64_t kMostFrames = 40;

void holdIndex(const media::ClipIndex& index) {
    promise(index.facts.width > 0 && index.facts.height > 0, "pictures have a size");
    promise(index.frameCount() > 0, "a clip has frames");
    promise(index.isKey.size() == index.stamps.ticks.size(), "every frame has its key mark");
    promise(index.stamps.timeBase.num() > 0, "ticks have a length");
    for (const media::TaggedCaptureRate& tagged : index.taggedRates) {
        promise(tagged.rate.fps.num() > 0, "a rate is positive");
    }
    for (const media::ClipWarning& warning : index.warnings) {
        promise(isUtf8Text(warning.message), "words are text");
        promise(!warning.frame ||
                    (warning.frame->value >= 0 && warning.frame->value < index.frameCount()),
                "a warning is about a frame of the clip");
    }
}

void decode(const fs::path& file, const media::ClipIndex& index) {
    const auto decoder = media::FrameDecoder::open(file, index, 1);
    if (!decoder) {
        promiseWords(decoder.error());
        return;
    }
    const std::int64_t last = std::min(index.frameCount(), kMostFrames) - 1;
    const auto run = decoder.value()->decodeRange(
        {0}, {last}, [&](timebase::FrameIndex frame, const Result<media::FramePtr>& result) {
            if (!result) {
                promiseWords(result.error());
                return true;
            }
            promise(result.value()->index() == frame, "a frame is the one that was asked for");
            promise(result.value()->width() == index.facts.width &&
                        result.value()->height() == index.facts.height,
                    "a frame has the size of the clip");
            promise(!result.value()->rgbRegion(-3, 5, 40, 9).view().isEmpty(), "it can be shown");
            return true;
        });
    if (!run) {
        promiseWords(run.error());
    }
    static_cast<void>(decoder.value()->decode({last / 2}));
}

}  // namespace

void feedClip(Bytes bytes) {
    static const tests::project::TemporaryFolder kFolder;
    const fs::path file = kFolder.path() / "clip";
    std::ofstream{file, std::ios::binary | std::ios::trunc} << asText(bytes);
    const auto index = media::readClipIndex(file);
    if (!index) {
        promiseWords(index.error());
    } else {
        holdIndex(index.value());
        decode(file, index.value());
    }
    if (const auto sound = media::readSoundEnvelope(file); !sound) {
        promiseWords(sound.error());
    }
    static_cast<void>(media::fingerprint(file));
}

}  // namespace tests::fuzz
