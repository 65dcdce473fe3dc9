#include <algorithm>

#include "core/project/entity_json.h"
#include "core/project/entity_rows.h"
#include "core/project/json_parts.h"

namespace core::project {
namespace {

using timebase::Rational;

void append(Row& row, const std::optional<Rational>& fraction) {
    row.push_back(fraction ? Value{fraction->num()} : Value{});
    row.push_back(fraction ? Value{fraction->den()} : Value{});
}

void append(Row& row, const std::optional<ClockSetting>& clock) {
    if (!clock) {
        row.resize(row.size() + 6);
        return;
    }
    row.emplace_back(std::string{kClockKinds[static_cast<std::size_t>(clock->kind)]});
    append(row, std::optional{clock->stretch});
    append(row, clock->counted ? std::optional{clock->counted->fps} : std::nullopt);
    row.emplace_back(clock->relativeSigma);
}

std::optional<Rational> fractionFrom(RowReader& from) {
    const auto num = from.optionalInteger();
    const auto den = from.optionalInteger();
    if (!num || !den) {
        return std::nullopt;
    }
    if (*den <= 0 || *num <= 0) {
        from.reject("a fraction is not positive");
        return std::nullopt;
    }
    return Rational{*num, *den};
}

std::optional<ClockSetting> clockFrom(RowReader& from) {
    const auto kind = from.optionalWord<timebase::ClockKind>(kClockKinds);
    const auto stretch = fractionFrom(from);
    const auto counted = fractionFrom(from);
    const auto sigma = from.optionalReal();
    if (!kind) {
        return std::nullopt;
    }
    if (!stretch || !sigma) {
        from.reject("the clock is not complete");
        return std::nullopt;
    }
    ClockSetting clock{*kind, *stretch, std::nullopt, *sigma};
    if (counted) {
        clock.counted = timebase::CaptureRate{*counted};
    }
    return clock;
}

Blob bytesOf(const std::vector<std::int64_t>& ticks) {
    Blob bytes;
    bytes.reserve(ticks.size() * 8);
    for (const std::int64_t tick : ticks) {
        for (unsigned shift = 0; shift < 64; shift += 8) {
            bytes.push_back(static_cast<std::uint8_t>(static_cast<std::uint64_t>(tick) >> shift));
        }
    }
    return bytes;
}

std::vector<std::int64_t> ticksFrom(const Blob& bytes) {
    std::vector<std::int64_t> ticks(bytes.size() / 8);
    for (std::size_t i = 0; i < ticks.size(); ++i) {
        std::uint64_t tick = 0;
        for (std::size_t byte = 0; byte < 8; ++byte) {
            tick |= std::uint64_t{bytes[8 * i + byte]} << (8 * byte);
        }
        ticks[i] = static_cast<std::int64_t>(tick);
    }
    return ticks;
}

}  // namespace

const char* const RowsOf<Clip>::table = "clip";
const std::vector<std::string> RowsOf<Clip>::columns{"id",
                                                     "session_id",
                                                     "path",
                                                     "size_bytes",
                                                     "fingerprint",
                                                     "frame_count",
                                                     "width_px",
                                                     "height_px",
                                                     "rotation_deg",
                                                     "codec",
                                                     "container",
                                                     "has_sound",
                                                     "playback_rate_num",
                                                     "playback_rate_den",
                                                     "evidence_json",
                                                     "clock_kind",
                                                     "clock_stretch_num",
                                                     "clock_stretch_den",
                                                     "clock_counted_num",
                                                     "clock_counted_den",
                                                     "clock_relative_sigma",
                                                     "remarks_json",
                                                     "clock_remarks_json",
                                                     "lens_focal_length_mm",
                                                     "was_searched"};

Row RowsOf<Clip>::write(const Clip& clip) {
    Row row{clip.id.value,
            clip.session.value,
            clip.path,
            clip.sizeBytes,
            clip.fingerprint,
            clip.frameCount,
            std::int64_t{clip.width},
            std::int64_t{clip.height},
            std::int64_t{clip.rotationDegrees},
            clip.codec,
            clip.container,
            std::int64_t{clip.hasSound}};
    append(row, clip.playbackRate ? std::optional{clip.playbackRate->fps} : std::nullopt);
    row.emplace_back(evidenceToJson(clip.evidence));
    append(row, clip.clock);
    row.emplace_back(remarksToJson(clip.remarks));
    row.emplace_back(remarksToJson(clip.clockRemarks));
    row.emplace_back(valueOf(clip.lensFocalLengthMm));
    row.emplace_back(std::int64_t{clip.wasSearchedForShots});
    return row;
}

Result<Clip> RowsOf<Clip>::read(Row row) {
    RowReader from{std::move(row)};
    Clip clip;
    clip.id = {from.integer()};
    clip.session = {from.integer()};
    clip.path = from.text();
    clip.sizeBytes = from.integer();
    clip.fingerprint = from.text();
    clip.frameCount = from.integer();
    clip.width = static_cast<int>(from.integer());
    clip.height = static_cast<int>(from.integer());
    clip.rotationDegrees = static_cast<int>(from.integer());
    clip.codec = from.text();
    clip.container = from.text();
    clip.hasSound = from.integer() != 0;
    if (const auto fps = fractionFrom(from)) {
        clip.playbackRate = timebase::PlaybackRate{*fps};
    }
    clip.evidence = from.json(evidenceFromJson);
    clip.clock = clockFrom(from);
    clip.remarks = from.json(remarksFromJson);
    clip.clockRemarks = from.json(remarksFromJson);
    clip.lensFocalLengthMm = from.optionalReal();
    clip.wasSearchedForShots = from.integer() != 0;
    BOOST_OUTCOME_TRY(from.finish());
    return clip;
}

const char* const RowsOf<FramesOfClip>::table = "clip_frames";
const std::vector<std::string> RowsOf<FramesOfClip>::columns{"clip_id", "time_base_num",
                                                             "time_base_den", "ticks", "is_key"};

Row RowsOf<FramesOfClip>::write(const FramesOfClip& of) {
    const timebase::FrameStamps& stamps = of.frames.stamps;
    Blob keys(of.frames.isKey.size());
    std::copy(of.frames.isKey.begin(), of.frames.isKey.end(), keys.begin());
    return {of.id.value, stamps.timeBase.num(), stamps.timeBase.den(), bytesOf(stamps.ticks),
            std::move(keys)};
}

Result<FramesOfClip> RowsOf<FramesOfClip>::read(Row row) {
    RowReader from{std::move(row)};
    FramesOfClip of;
    of.id = {from.integer()};
    if (const auto timeBase = fractionFrom(from)) {
        of.frames.stamps.timeBase = *timeBase;
    }
    const Blob ticks = from.blob();
    const Blob keys = from.blob();
    if (ticks.size() != keys.size() * 8) {
        from.reject("the numbers of time stamps and of frames differ");
    }
    of.frames.stamps.ticks = ticksFrom(ticks);
    of.frames.isKey.assign(keys.begin(), keys.end());
    BOOST_OUTCOME_TRY(from.finish());
    return of;
}

}  // namespace core::project
