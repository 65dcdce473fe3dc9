#include <algorithm>

#include "core/base/words.h"
#include "core/project/json_parts.h"
#include "core/project/marks_json.h"
#include "core/project/store/entity_json.h"
#include "core/project/store/kinds.h"

/// The columns of each kind (FORMAT.md R10 to R36).
namespace core::project {
namespace {

constexpr const char* kMarkings[] = {"three_quarter_dark", "half_dark", "band", "band_with_dot",
                                     "other"};
constexpr const char* kStrokes[] = {"not_known", "topspin", "backspin"};
constexpr const char* kStandings[] = {"open", "kept", "set_aside"};
constexpr const char* kCorrectionKinds[] = {"by_hand", "moved", "dropped"};
constexpr const char* kOutcomes[] = {"kept", "set_aside", "left"};
constexpr const char* kMethods[] = {"marks", "rotation_fit"};
constexpr const char* kHabits[] = {"nearest", "both", "after", "unknown"};

void clockFields(Fields& row, std::optional<ClockSetting>& clock) {
    std::optional<timebase::ClockKind> kind;
    std::optional<timebase::Rational> stretch;
    std::optional<timebase::Rational> counted;
    std::optional<double> sigma;
    if (clock) {
        kind = clock->kind;
        stretch = clock->stretch;
        sigma = clock->relativeSigma;
        if (clock->counted) {
            counted = clock->counted->fps;
        }
    }
    row.word("clock_kind", kind, kClockKinds);
    row.fraction("clock_stretch_num", "clock_stretch_den", stretch);
    row.fraction("clock_counted_num", "clock_counted_den", counted);
    row("clock_relative_sigma", sigma);
    if (!row.isReading() || !kind) {
        return;
    }
    if (!stretch || !sigma) {
        row.reject(said("the clock is not complete"));
        return;
    }
    clock = ClockSetting{*kind, *stretch, std::nullopt, *sigma};
    if (counted) {
        clock->counted = timebase::CaptureRate{*counted};
    }
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

void fields(Fields& row, Setting& setting) {
    row("id", setting.id.value);
    row("key", setting.key);
    row("value", setting.value);
}

void fields(Fields& row, Session& session) {
    row("id", session.id.value);
    row("name", session.name);
    row("date", session.date);
    row.word("marking", session.marking, kMarkings);
    row("ball_diameter_mm", session.ballDiameterMm);
    row("field_of_view_deg", session.fieldOfViewDeg);
    row("exposure_s", session.exposureSeconds);
    row("readout_s", session.readoutSeconds);
    row("note", session.note);
    row.word("stroke", session.stroke, kStrokes);
}

void fields(Fields& row, Implement& implement) {
    row("id", implement.id.value);
    row("name", implement.name);
    row("condition", implement.condition);
    row.json("attributes_json", implement.attributes, attributesToJson, attributesFromJson);
}

void fields(Fields& row, Hitter& hitter) {
    row("id", hitter.id.value);
    row("name", hitter.name);
}

void fields(Fields& row, Cell& cell) {
    row("id", cell.id.value);
    row("session_id", cell.session);
    row("implement_id", cell.implement);
    row("hitter_id", cell.hitter);
}

void fields(Fields& row, Clip& clip) {
    row("id", clip.id.value);
    row("session_id", clip.session);
    row("path", clip.path);
    row("size_bytes", clip.sizeBytes);
    row("fingerprint", clip.fingerprint);
    row("frame_count", clip.frameCount);
    row("width_px", clip.width);
    row("height_px", clip.height);
    row("rotation_deg", clip.rotationDegrees);
    row("codec", clip.codec);
    row("container", clip.container);
    row("has_sound", clip.hasSound);
    std::optional<timebase::Rational> playback;
    if (clip.playbackRate) {
        playback = clip.playbackRate->fps;
    }
    row.fraction("playback_rate_num", "playback_rate_den", playback);
    if (row.isReading() && playback) {
        clip.playbackRate = timebase::PlaybackRate{*playback};
    }
    row.json("evidence_json", clip.evidence, evidenceToJson, evidenceFromJson);
    clockFields(row, clip.clock);
    row.json("remarks_json", clip.remarks, remarksToJson, remarksFromJson);
    row.json("clock_remarks_json", clip.clockRemarks, remarksToJson, remarksFromJson);
    row("lens_focal_length_mm", clip.lensFocalLengthMm);
    row("was_searched", clip.wasSearchedForShots);
    row("turned_deg", clip.turnedDegrees);
}

void fields(Fields& row, FramesOfClip& of) {
    timebase::FrameStamps& stamps = of.frames.stamps;
    row("clip_id", of.id.value);
    std::optional<timebase::Rational> timeBase = stamps.timeBase;
    row.fraction("time_base_num", "time_base_den", timeBase);
    Blob ticks = row.isWriting() ? bytesOf(stamps.ticks) : Blob{};
    Blob keys(of.frames.isKey.begin(), of.frames.isKey.end());
    row("ticks", ticks);
    row("is_key", keys);
    if (!row.isReading()) {
        return;
    }
    if (ticks.size() != keys.size() * 8) {
        row.reject(said("the numbers of time stamps and of frames differ"));
    }
    stamps.timeBase = timeBase.value_or(stamps.timeBase);
    stamps.ticks = ticksFrom(ticks);
    of.frames.isKey.assign(keys.begin(), keys.end());
}

void fields(Fields& row, Shot& shot) {
    row("id", shot.id.value);
    row("clip_id", shot.clip);
    row("cell_id", shot.cell);
    row("ordinal", shot.ordinal);
    row("first_frame", shot.firstFrame);
    row("last_frame", shot.lastFrame);
    row("strike_frame", shot.strikeFrame);
    row.json("clicks_json", shot.clicks, clicksToJson, clicksFromJson);
    row.json("marks_json", shot.marks, marksToJson, marksFromJson);
    row.word("standing", shot.standing, kStandings);
    row("reason", shot.reason);
    row("doubtful", shot.doubtful);
    row("counting_reading_id", shot.counting);
    row("note", shot.note);
    row.word("stroke", shot.stroke, kStrokes);
}

void fields(Fields& row, Reading& reading) {
    row("id", reading.id.value);
    row("shot_id", reading.shot);
    row.word("method", reading.method, kMethods);
    row("method_version", reading.methodVersion);
    row("reader", reading.reader);
    row("made_at", reading.madeAt);
    row("rate_rpm", reading.rate.value.rpm);
    row("rate_sigma_rpm", reading.rate.sigma.rpm);
    row("interval95_low_rpm", reading.interval95.low.rpm);
    row("interval95_high_rpm", reading.interval95.high.rpm);
    std::optional<double> low;
    std::optional<double> high;
    if (reading.bounds) {
        low = reading.bounds->low.rpm;
        high = reading.bounds->high.rpm;
    }
    row("bounds_low_rpm", low);
    row("bounds_high_rpm", high);
    if (row.isReading() && low && high) {
        reading.bounds = Interval<Rpm>{{*low}, {*high}};
    }
    row("clock_relative_sigma", reading.clockRelativeSigma);
    row("inputs_json", reading.inputsJson);
    row.word("counting_habit", reading.habit, kHabits);
    row("view_relative_sigma", reading.viewRelativeSigma);
}

void fields(Fields& row, PlanRecord& record) {
    row("id", record.id.value);
    row.json("plan_json", record.plan, plan::planToJson, plan::planFromJson);
}

void fields(Fields& row, ArchiveOfShot& of) {
    row("shot_id", of.id.value);
    row("archive_key", of.archive.key);
    Blob bytes{of.archive.bytes.begin(), of.archive.bytes.end()};
    row("archive", bytes);
    if (row.isReading()) {
        of.archive.bytes.assign(bytes.begin(), bytes.end());
    }
}

void fields(Fields& row, ShotCorrection& correction) {
    row("id", correction.id.value);
    row("clip_id", correction.clip);
    row("shot_id", correction.shot.value);
    row.word("kind", correction.kind, kCorrectionKinds);
    row("first_frame", correction.firstFrame);
    row("last_frame", correction.lastFrame);
}

void fields(Fields& row, SecondLook& look) {
    row("id", look.id.value);
    row("shot_id", look.shot);
    row("reasons", look.reasons);
}

void fields(Fields& row, SecondReading& second) {
    row("id", second.id.value);
    row("shot_id", second.shot);
    row("position", second.position);
    row.json("marks_json", second.marks, marksToJson, marksFromJson);
    row("reading_id", second.reading);
}

void fields(Fields& row, PicturesOfShot& of) {
    StoredPictures& stored = of.stored;
    row("shot_id", of.id.value);
    row("made_at", stored.madeAt);
    row("codec", stored.codec);
    timebase::FrameIndex first;
    timebase::FrameIndex last;
    if (!stored.pictures.empty()) {
        first = stored.pictures.front().frame;
        last = stored.pictures.back().frame;
    }
    row("first_frame", first);
    row("last_frame", last);
    row.json("pictures_json", stored.pictures, picturesToJson, picturesFromJson);
    Blob bytes;
    for (const StoredPicture& picture : stored.pictures) {
        bytes.insert(bytes.end(), picture.bytes.begin(), picture.bytes.end());
    }
    row("pictures", bytes);
    if (!row.isReading()) {
        return;
    }
    auto at = bytes.begin();
    for (StoredPicture& picture : stored.pictures) {
        const auto size = static_cast<std::ptrdiff_t>(picture.bytes.size());  // so far of blanks
        if (size > bytes.end() - at) {
            row.reject(said("a picture is cut off"));
            return;
        }
        picture.bytes.assign(at, at + size);
        at += size;
    }
}

void fields(Fields& row, ReadingEffort& visit) {
    row("id", visit.id.value);
    row("shot_id", visit.shot.value);
    row("reader", visit.reader);
    row("began_at", visit.beganAt);
    row("keys", visit.keys);
    row("clicks", visit.clicks);
    row("active_seconds", visit.activeSeconds);
    row("names_hidden", visit.namesHidden);
    row.word("outcome", visit.outcome, kOutcomes);
}

void fields(Fields& row, HistoryEntry& entry) {
    row("id", entry.id.value);
    row("at", entry.at);
    row("reader", entry.reader);
    row("what", entry.what);
}

void fields(Fields& row, HistoryLink& link) {
    row("id", link.id.value);
    row("history_id", link.history.value);
    row("shot_id", link.shot.value);
}

void fields(Fields& row, UndoStep& step) {
    row("id", step.id.value);
    row("history_id", step.history.value);
    row("changeset", step.changeset);
}

void fields(Fields& row, UndoPosition& position) {
    row("id", position.id.value);
    row("last_done_step_id", position.lastDone.value);
}

}  // namespace core::project
