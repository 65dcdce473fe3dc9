#include "core/synthesis/footage_maker.h"

#include <fmt/format.h>

#include <fstream>

#include "core/media/film/film_writer.h"
#include "core/synthesis/scene_renderer.h"

namespace core::synthesis {
namespace {

/// Every film is encoded with as many threads, so that its bytes do not depend on the machine.
constexpr int kEncoderThreads = 2;

media::FilmWriter::Options writerOptions(const Scene& scene, const CaptureSchedule& schedule,
                                         const FilmEncoding& encoding) {
    media::FilmWriter::Options options;
    options.encoder = encoding.codec == FilmCodec::Hevc ? "libx265" : "libx264";
    options.width = scene.camera.widthPx;
    options.height = scene.camera.heightPx;
    options.timeBase = schedule.timeBase;
    options.bitsPerSecond = encoding.bitsPerSecond;
    options.constantQuality = encoding.constantQuality;
    options.keyFrameInterval = encoding.keyFrameInterval;
    options.bFrames = encoding.bFrames;
    options.encoderOptions["preset"] = encoding.preset;
    options.threads = kEncoderThreads;
    if (encoding.codec == FilmCodec::Hevc) {
        options.encoderOptions["x265-params"] = "log-level=none";
    }
    if (encoding.tagCaptureRate) {
        options.tags["com.android.capture.fps"] =
            fmt::format("{:.6f}", scene.timing.captureRate.toDouble());
    }
    if (scene.sound) {
        options.soundSamplesPerSecond = scene.sound->samplesPerSecond;
    }
    return options;
}

Result<void> writeFrames(SceneRenderer& renderer, media::FilmWriter& writer,
                         const std::vector<float>& sound, const FilmProgress& progress,
                         const std::stop_token& stop) {
    const auto& frames = renderer.schedule().frames;
    std::size_t soundDone = 0;
    for (std::size_t i = 0; i < frames.size(); ++i) {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, "The film was not finished because it was stopped.");
        }
        const PixelBuffer picture = renderer.render({static_cast<std::int64_t>(i)});
        BOOST_OUTCOME_TRY(writer.add(picture.view(), frames[i].ticks, frames[i].durationTicks));
        const std::size_t soundDue = sound.size() * (i + 1) / frames.size();
        if (soundDue > soundDone) {
            BOOST_OUTCOME_TRY(writer.addSound(sound.data() + soundDone, soundDue - soundDone));
            soundDone = soundDue;
        }
        if (progress) {
            progress(static_cast<std::int64_t>(i) + 1, static_cast<std::int64_t>(frames.size()));
        }
    }
    return ok();
}

Result<void> writeTruth(const ClipTruth& truth, const Scene& scene, const FilmEncoding& encoding,
                        const std::filesystem::path& file) {
    FilmFacts facts{.fileName = file.filename().string(),
                    .codec = encoding.codec == FilmCodec::Hevc ? "hevc" : "h264",
                    .megabitPerSecond = std::nullopt,
                    .taggedCaptureFps = std::nullopt};
    if (encoding.bitsPerSecond > 0) {
        facts.megabitPerSecond = static_cast<double>(encoding.bitsPerSecond) * 1e-6;
    }
    if (encoding.tagCaptureRate) {
        facts.taggedCaptureFps = scene.timing.captureRate.toDouble();
    }
    std::filesystem::path beside = file;
    beside.replace_extension(".json");
    std::ofstream out{beside, std::ios::binary};
    out << truthJson(truth, facts);
    out.close();
    if (!out) {
        return fail(ErrorCode::WriteFailed, "The truth of the film could not be written to " +
                                                beside.string() +
                                                ". Check the folder and the free space.");
    }
    return ok();
}

}  // namespace

Result<ClipTruth> makeFootage(const Scene& scene, const FilmEncoding& encoding,
                              const std::filesystem::path& file, const FilmProgress& progress,
                              std::stop_token stop) {
    BOOST_OUTCOME_TRY(renderer, SceneRenderer::create(scene));
    BOOST_OUTCOME_TRY(truth, truthOf(scene));
    const CaptureSchedule& schedule = renderer->schedule();
    BOOST_OUTCOME_TRY(writer,
                      media::FilmWriter::create(file, writerOptions(scene, schedule, encoding)));
    const ScheduledFrame& last = schedule.frames.back();
    const Seconds duration{
        (timebase::Rational{last.ticks + last.durationTicks} * schedule.timeBase).toDouble()};
    BOOST_OUTCOME_TRY(writeFrames(*renderer, *writer, soundOf(scene, duration), progress, stop));
    BOOST_OUTCOME_TRY(writer->finish());
    BOOST_OUTCOME_TRY(writeTruth(truth, scene, encoding, file));
    return std::move(truth);
}

}  // namespace core::synthesis
