#include "core/intake/day_setup.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <tuple>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/clock_evidence.h"
#include "core/reading/inputs.h"
#include "core/reading/inputs_json.h"

namespace core::intake {
namespace {

using project::Clip;
using project::ClipId;
using project::Session;
using project::Snapshot;
using timebase::CaptureRate;

std::string rateKey(project::SessionId session) {
    return fmt::format("capture_rate_of_day_{}", session.value);
}

std::string notKnownKey(project::SessionId session) {
    return fmt::format("ball_diameter_not_known_of_day_{}", session.value);
}

bool isDiameterNotKnown(const Snapshot& snapshot, project::SessionId session) {
    const auto kept = snapshot.settings.find(notKnownKey(session));
    return kept != snapshot.settings.end() && kept->second == "yes";
}

/// Absent also for a text that is no rate: then none is known.
std::optional<CaptureRate> rateFrom(const std::string& text) {
    const std::size_t bar = text.find('/');
    if (bar == std::string::npos) {
        return std::nullopt;
    }
    std::int64_t num = 0;
    std::int64_t den = 0;
    const char* end = text.data() + text.size();
    const auto first = std::from_chars(text.data(), text.data() + bar, num);
    const auto second = std::from_chars(text.data() + bar + 1, end, den);
    const bool isWhole = first.ptr == text.data() + bar && second.ptr == end;
    return isWhole && num > 0 && den > 0 ? std::optional{CaptureRate{timebase::Rational{num, den}}}
                                         : std::nullopt;
}

std::optional<CaptureRate> rateOfDay(const Snapshot& snapshot, project::SessionId session) {
    const auto kept = snapshot.settings.find(rateKey(session));
    return kept == snapshot.settings.end() ? std::nullopt : rateFrom(kept->second);
}

const timebase::ReviewerEntry* entryOf(const Clip& clip) {
    for (const auto& one : clip.evidence) {
        if (const auto* entry = std::get_if<timebase::ReviewerEntry>(&one)) {
            return entry;
        }
    }
    return nullptr;
}

/// The rate at which the clip is taken to be captured.
std::optional<double> capturedAt(const Clip& clip) {
    if (!clip.clock) {
        return std::nullopt;
    }
    if (clip.clock->counted) {
        return clip.clock->counted->fps.toDouble();
    }
    return clip.playbackRate
               ? std::optional{(clip.playbackRate->fps * clip.clock->stretch).toDouble()}
               : std::nullopt;
}

bool isSameRate(double a, double b) {
    return std::abs(a - b) <= timebase::kPlaybackAgreement * std::max(a, b);
}

/// The clip with the day's rate, where that is for it to follow. before: the day's rate up to now.
std::optional<Clip> following(const Clip& clip, const timebase::FrameStamps& stamps,
                              const std::optional<CaptureRate>& before,
                              const std::optional<CaptureRate>& now) {
    const auto* entry = entryOf(clip);
    const bool isOfDay = entry != nullptr && before && entry->rate == *before;
    if (isTally(clip) || (entry != nullptr && !isOfDay) || (entry == nullptr && !now)) {
        return std::nullopt;  // it has a word of its own, or nothing is said
    }
    const auto captured = capturedAt(clip);
    if (now && captured && !isOfDay && !clip.evidence.empty() &&
        isSameRate(*captured, now->fps.toDouble())) {
        return std::nullopt;  // the file says the same, and finer
    }
    auto stated = withReviewersWord(clip, stamps, {.rate = now});
    return stated ? std::optional{std::move(stated).value()}
                  : std::nullopt;  // the file contradicts
}

/// How a clip looks from outside.
using Look = std::tuple<int, int, long>;

Look lookOf(const Clip& clip) {
    const auto [small, large] = std::minmax(clip.width, clip.height);
    return {small, large, clip.playbackRate ? std::lround(clip.playbackRate->fps.toDouble()) : 0L};
}

/// That of most clips of each day; none where there is no majority.
std::map<project::SessionId, Look> usualLooks(const Snapshot& snapshot) {
    std::map<project::SessionId, std::map<Look, int>> counts;
    std::map<project::SessionId, int> all;
    for (const Clip& clip : snapshot.clips) {
        if (!isTally(clip)) {
            ++counts[clip.session][lookOf(clip)];
            ++all[clip.session];
        }
    }
    std::map<project::SessionId, Look> usual;
    for (const auto& [session, looks] : counts) {
        for (const auto& [look, count] : looks) {
            if (2 * count > all[session]) {
                usual[session] = look;
            }
        }
    }
    return usual;
}

std::string shapeOf(const Look& look) {
    return said("{} x {} at {} frames per second", std::get<1>(look), std::get<0>(look),
                std::get<2>(look));
}

std::string differenceOf(const Clip& clip, const std::optional<CaptureRate>& day,
                         const std::optional<Look>& usual) {
    const auto captured = capturedAt(clip);
    if (day && captured && !isSameRate(*captured, day->fps.toDouble())) {
        return said("Captured at {:.6g} frames per second, and the set-up of the day says {:.6g}.",
                    *captured, day->fps.toDouble());
    }
    if (usual && lookOf(clip) != *usual) {
        return said(
            "The file has {}, most clips of the day have {}: was it filmed with "
            "other settings?",
            shapeOf(lookOf(clip)), shapeOf(*usual));
    }
    return {};
}

reading::ShotRequest factsFor(const Session& session, const Clip& clip) {
    reading::ShotRequest request;
    request.facts = reading::factsOf(session, clip);
    request.clock = clip.clock.value_or(project::ClockSetting{});
    return request;
}

/// Which readings rest on what changes about a clip.
struct Touched {
    bool byPictures{};
    bool byMarks{};
    bool byStroke{};  ///< from the pictures, where the day's stroke decided
};

Touched touchedBy(const Session& sessionBefore, const Clip& clipBefore, Session session,
                  const Clip& clip) {
    const auto before = factsFor(sessionBefore, clipBefore);
    Touched touched{!(before == factsFor(session, clip)), false};
    session.ballDiameterMm = sessionBefore.ballDiameterMm;
    touched.byMarks = !(before == factsFor(session, clip));
    touched.byStroke = session.stroke != sessionBefore.stroke;
    return touched;
}

template <class Entity>
const Entity* changedOne(const std::vector<Entity>& changed, project::Id<Entity> id) {
    const auto at = std::find_if(changed.begin(), changed.end(),
                                 [id](const Entity& each) { return each.id == id; });
    return at == changed.end() ? nullptr : &*at;
}

/// The day of a clip once facts have changed.
const Session* dayAfter(const Snapshot& snapshot, const FactChange& change, const Clip& clip) {
    const Session* changed = changedOne(change.sessions, clip.session);
    return changed != nullptr ? changed : snapshot.sessions.find(clip.session);
}

/// "1 to 4, 7" of ascending numbers.
std::string runsOf(const std::vector<std::int64_t>& numbers) {
    std::string words;
    for (std::size_t i = 0; i < numbers.size();) {
        std::size_t last = i;
        while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1) {
            ++last;
        }
        words += words.empty() ? "" : ", ";
        words +=
            i == last ? fmt::format("{}", numbers[i]) : said("{} to {}", numbers[i], numbers[last]);
        i = last + 1;
    }
    return words;
}

}  // namespace

Result<DaySetUp> setUpOf(const Snapshot& snapshot, project::SessionId id) {
    const Session* session = snapshot.sessions.find(id);
    if (session == nullptr) {
        return fail(ErrorCode::NotFound, said("The filming day is no longer in the project."));
    }
    return DaySetUp{*session, rateOfDay(snapshot, id), isDiameterNotKnown(snapshot, id)};
}

bool needsDiameter(const Snapshot& snapshot, project::SessionId id) {
    const Session* session = snapshot.sessions.find(id);
    return session != nullptr && !session->ballDiameterMm && !isDiameterNotKnown(snapshot, id);
}

ProposedSetUp proposedSetUp(const Snapshot& snapshot, DaySetUp known) {
    ProposedSetUp proposed{std::move(known)};
    Session& day = proposed.setUp.session;
    const plan::FilmingSetup& planned = project::planOf(snapshot).filming;
    if (!day.exposureSeconds && planned.exposureSeconds) {
        day.exposureSeconds = planned.exposureSeconds;
        proposed.isFromPlan = true;
    }
    if (!proposed.setUp.captureRate && planned.captureFps) {
        if (const auto rate = timebase::captureRateFromDecimal(*planned.captureFps)) {
            proposed.setUp.captureRate = rate.value();
            proposed.isFromPlan = true;
        }
    }
    const Session* before = nullptr;
    for (const Session& other : snapshot.sessions) {
        before = other.id != day.id && other.ballDiameterMm ? &other : before;
    }
    if (before == nullptr || day.ballDiameterMm) {
        return proposed;
    }
    day.ballDiameterMm = before->ballDiameterMm;
    day.marking = before->marking;
    proposed.fromDayBefore = before->name;
    const auto fill = [](auto& own, const auto& other) { own = own ? own : other; };
    fill(day.exposureSeconds, before->exposureSeconds);
    fill(day.fieldOfViewDeg, before->fieldOfViewDeg);
    fill(day.readoutSeconds, before->readoutSeconds);
    fill(proposed.setUp.captureRate, rateOfDay(snapshot, before->id));
    day.note = day.note.empty() ? before->note : day.note;
    day.stroke = day.stroke == project::Stroke::NotKnown ? before->stroke : day.stroke;
    return proposed;
}

Result<FactChange> factChangeOf(const project::Store& store, const DaySetUp& setUp) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(before, setUpOf(*snapshot, setUp.session.id));
    FactChange change;
    if (before.session != setUp.session) {
        change.sessions.push_back(setUp.session);
    }
    if (before.captureRate == setUp.captureRate) {
        return change;
    }
    for (const Clip& clip : snapshot->clips) {
        if (clip.session != setUp.session.id) {
            continue;
        }
        BOOST_OUTCOME_TRY(frames, store.clipFrames(clip.id));
        if (auto changed = following(clip, frames->stamps, before.captureRate, setUp.captureRate)) {
            change.clips.push_back(std::move(*changed));
        }
    }
    return change;
}

Result<std::vector<project::ShotId>> setUpDay(project::Store& store, const DaySetUp& setUp) {
    const project::SessionId id = setUp.session.id;
    BOOST_OUTCOME_TRY(change, factChangeOf(store, setUp));
    BOOST_OUTCOME_TRY(before, setUpOf(*store.snapshot(), id));
    auto resting = keptShotsRestingOn(*store.snapshot(), change);
    if (before == setUp) {
        return resting;
    }
    const std::string& day = setUp.session.name;
    const std::string sentence =
        change.clips.empty() ? toKeep("Set up the filming day {:s}.", day)
                             : toKeep("Set up the filming day {:s}. {} at its capture rate.", day,
                                      countToKeep(change.clips.size(), "clip is", "clips are"));

    BOOST_OUTCOME_TRY(store.together(sentence, [&]() -> Result<void> {
        BOOST_OUTCOME_TRY(store.changeSession(setUp.session));
        if (before.captureRate != setUp.captureRate) {
            BOOST_OUTCOME_TRY(store.setSetting(
                rateKey(id), setUp.captureRate ? setUp.captureRate->fps.toString() : ""));
        }
        if (before.isDiameterNotKnown != setUp.isDiameterNotKnown) {
            BOOST_OUTCOME_TRY(
                store.setSetting(notKnownKey(id), setUp.isDiameterNotKnown ? "yes" : ""));
        }
        for (const Clip& clip : change.clips) {
            BOOST_OUTCOME_TRY(
                store.setClipClock(clip.id, clip.evidence, clip.clock, clip.clockRemarks));
        }
        return ok();
    }));
    return resting;
}

Clip asFilmedOnDay(const Snapshot& snapshot, Clip clip, const timebase::FrameStamps& stamps) {
    const auto rate = rateOfDay(snapshot, clip.session);
    auto followed = following(clip, stamps, rate, rate);
    return followed ? std::move(*followed) : std::move(clip);
}

Result<FactChange> factChangeOfMove(const project::Store& store, std::span<const ClipId> clips,
                                    std::optional<project::SessionId> day) {
    const auto snapshot = store.snapshot();
    const project::SessionId session = day.value_or(project::SessionId{});
    FactChange change;
    if (!day) {
        change.sessions.emplace_back();
    }
    for (const ClipId id : clips) {
        const Clip* clip = snapshot->clips.find(id);
        if (clip == nullptr || (day && snapshot->sessions.find(session) == nullptr)) {
            return fail(ErrorCode::NotFound,
                        said("The clip or the filming day is no longer there."));
        }
        if (clip->session == session) {
            continue;
        }
        BOOST_OUTCOME_TRY(frames, store.clipFrames(id));
        auto moved = following(*clip, frames->stamps, rateOfDay(*snapshot, clip->session),
                               rateOfDay(*snapshot, session));
        change.clips.push_back(moved ? std::move(*moved) : *clip);
        change.clips.back().session = session;
    }
    return change;
}

std::map<ClipId, std::string> differencesFromDay(const Snapshot& snapshot) {
    const auto usual = usualLooks(snapshot);
    std::map<ClipId, std::string> differences;
    for (const Clip& clip : snapshot.clips) {
        if (isTally(clip)) {
            continue;
        }
        const auto look = usual.find(clip.session);
        std::string words =
            differenceOf(clip, rateOfDay(snapshot, clip.session),
                         look == usual.end() ? std::nullopt : std::optional{look->second});
        if (!words.empty()) {
            differences[clip.id] = std::move(words);
        }
    }
    return differences;
}

namespace {

std::map<ClipId, Touched> touchedClips(const Snapshot& snapshot, const FactChange& change) {
    std::map<ClipId, Touched> touched;
    for (const Clip& clip : snapshot.clips) {
        const Session* session = snapshot.sessions.find(clip.session);
        const Clip* changed = changedOne(change.clips, clip.id);
        const Clip& clipAfter = changed != nullptr ? *changed : clip;
        const Session* sessionAfter = dayAfter(snapshot, change, clipAfter);
        const bool isChanged =
            changed != nullptr || changedOne(change.sessions, clip.session) != nullptr;
        if (session != nullptr && sessionAfter != nullptr && !isTally(clip) && isChanged) {
            touched[clip.id] = touchedBy(*session, clip, *sessionAfter, clipAfter);
        }
    }
    return touched;
}

}  // namespace

std::vector<project::ShotId> keptShotsRestingOn(const Snapshot& snapshot,
                                                const FactChange& change) {
    const std::map<ClipId, Touched> touched = touchedClips(snapshot, change);
    std::vector<project::ShotId> shots;
    for (const project::Shot* shot : project::shotsInOrder(snapshot)) {
        const auto of = touched.find(shot->clip);
        const auto* reading = shot->standing == project::ShotStanding::Kept && shot->counting
                                  ? snapshot.readings.find(*shot->counting)
                                  : nullptr;
        if (reading == nullptr || of == touched.end()) {
            continue;
        }
        const bool isByMarks = reading->method == project::ReadingMethod::Marks;
        if ((isByMarks ? of->second.byMarks : of->second.byPictures) ||
            (of->second.byStroke && !shot->stroke && restsOnStroke(snapshot, *shot))) {
            shots.push_back(shot->id);
        }
    }
    return shots;
}

bool restsOnStroke(const Snapshot& snapshot, const project::Shot& shot) {
    const auto* reading = shot.standing == project::ShotStanding::Kept && shot.counting
                              ? snapshot.readings.find(*shot.counting)
                              : nullptr;
    if (reading == nullptr || reading->method != project::ReadingMethod::RotationFit) {
        return false;
    }
    const auto kept = reading::keptFitFromJson(reading->inputsJson);
    return kept && kept.value().restsOnStroke;
}

std::vector<project::ShotId> keptShotsRestingOnChange(const Snapshot& before,
                                                      const Snapshot& after) {
    return keptShotsRestingOn(before, {{after.sessions.begin(), after.sessions.end()},
                                       {after.clips.begin(), after.clips.end()}});
}

std::string namesOfShots(const Snapshot& snapshot, const std::vector<project::ShotId>& shots,
                         std::size_t most) {
    std::vector<std::pair<ClipId, std::vector<std::int64_t>>> clips;
    for (const project::ShotId id : shots) {
        if (const auto* shot = snapshot.shots.find(id)) {
            if (clips.empty() || clips.back().first != shot->clip) {
                clips.push_back({shot->clip, {}});
            }
            clips.back().second.push_back(shot->ordinal);
        }
    }
    std::string words;
    for (std::size_t i = 0; i < std::min(most, clips.size()); ++i) {
        words += words.empty() ? "" : "; ";
        words += said("{} of {}", runsOf(clips[i].second), clipName(snapshot, clips[i].first));
    }
    if (clips.size() > most) {
        words += saidOf(clips.size() - most, "; and in {} more clip", "; and in {} more clips",
                        clips.size() - most);
    }
    return words;
}

}  // namespace core::intake
