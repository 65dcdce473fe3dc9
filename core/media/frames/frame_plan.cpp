#include "core/media/frames/frame_plan.h"

#include <algorithm>
#include <cmath>

namespace core::media {
namespace {

constexpr double kWindowShare = 0.8;             // of the byte bound
constexpr double kShareInDirection = 2.0 / 3.0;  // of the window
constexpr double kFetchShare = 0.1;              // of the byte bound
constexpr double kMostFetchAhead = 16.0;

// A run backward. Stepping to and fro about a mark is none: then both sides of the place count.
constexpr int kStepsOfRun = 8;
constexpr std::int64_t kLongestStep = 4;       // of a run; more is a jump
constexpr std::int64_t kAheadInRun = 8;        // kept for going too far
constexpr double kRunShare = 0.95;             // of the byte bound, with no fetch() beside
constexpr double kMostPartShare = 0.6;         // of the frames kept behind
constexpr double kStepsPerDecodedFrame = 0.2;  // 30 steps a second, 150 frames decoded

}  // namespace

bool Task::leadsTo(FrameService::ClipId toClip, std::int64_t frame) const {
    return clip->id == toClip && frame >= first && frame <= last &&
           clip->index.keyAtOrBefore(frame).value_or(0) <= first + kCheapToGoOn;
}

void FramePlan::moveTo(const Place& to) {
    const bool isStep = place && place->clip == to.clip &&
                        to.direction == FrameService::Direction::Backward &&
                        to.frame < place->frame && place->frame - to.frame <= kLongestStep;
    const bool isSame = place && place->clip == to.clip && place->direction == to.direction &&
                        place->frame == to.frame;
    const int before = place ? place->stepsBack : 0;
    place = to;
    place->stepsBack = isStep ? before + 1 : isSame ? before : 0;
}

bool FramePlan::runsBackward(const Place& at) const {
    return at.stepsBack >= kStepsOfRun;
}

double FramePlan::runShare() const {
    return fetchWindow() ? kWindowShare : kRunShare;
}

ServedClipPtr FramePlan::clipOf(FrameService::ClipId id) const {
    const auto found = clips.find(id);
    return found == clips.end() ? nullptr : found->second;
}

bool FramePlan::isDone(const ServedClip& clip, std::int64_t frame) const {
    return cache.has({clip.id, frame}) || clip.damaged.contains(frame);
}

double FramePlan::framesIn(double share, const ServedClip& clip) const {
    const double fitting =
        static_cast<double>(cache.maxBytes()) / static_cast<double>(clip.bytesPerFrame);
    return std::floor(share * std::min(fitting, static_cast<double>(cache.maxPictures())));
}

std::optional<FramePlan::Window> FramePlan::windowOf(const Place& at) const {
    const ServedClipPtr clip = clipOf(at.clip);
    if (clip == nullptr || clip->cannotOpen || clip->bytesPerFrame == 0) {
        return std::nullopt;
    }
    const bool isRun = runsBackward(at);
    const double share = isRun ? runShare() : kWindowShare;
    const double frames = framesIn(share, *clip) - 1.0;  // beside the place itself
    if (frames < 0.0) {
        return std::nullopt;
    }
    const auto all = static_cast<std::int64_t>(frames);
    const auto third = all - static_cast<std::int64_t>(frames * kShareInDirection);
    const std::int64_t against = isRun ? std::min(kAheadInRun, third) : third;
    const std::int64_t inDirection = all - against;
    const bool isForward = at.direction == FrameService::Direction::Forward;
    const std::int64_t ahead = isForward ? inDirection : against;
    const std::int64_t behind = isForward ? against : inDirection;
    // Frame by frame, filling would move the decoder to and fro, a group of pictures each time: it
    // waits until half of a side is missing, but completes what reaches the clip's ends.
    Window window{std::max<std::int64_t>(0, at.frame - behind),
                  std::min(clip->index.frameCount() - 1, at.frame + ahead), behind / 2, ahead / 2};
    if (window.first == 0) {
        window.worthBehind = 0;
    }
    if (window.last == clip->index.frameCount() - 1) {
        window.worthAhead = 0;
    }
    return window;
}

std::optional<FramePlan::Window> FramePlan::fetchWindow() const {
    const ServedClipPtr clip = lastFetch ? clipOf(lastFetch->clip) : nullptr;
    if (clip == nullptr || clip->cannotOpen || clip->bytesPerFrame == 0) {
        return std::nullopt;
    }
    const double frames = std::min(kMostFetchAhead, framesIn(kFetchShare, *clip));
    const std::int64_t last = lastFetch->frame + static_cast<std::int64_t>(frames);
    return Window{lastFetch->frame + 1, std::min(clip->index.frameCount() - 1, last), 0, 0};
}

std::optional<Task> FramePlan::nextTask() {
    if (auto task = urgentTask()) {
        return task;
    }
    if (auto task = windowTask()) {
        return task;
    }
    if (auto task = fetchAheadTask()) {
        return task;
    }
    return stretchTask();
}

std::optional<Task> FramePlan::urgentTask() const {
    const auto newest = std::max_element(
        requests.begin(), requests.end(),
        [](const auto& a, const auto& b) { return a.second.number < b.second.number; });
    if (newest == requests.end()) {
        if (fetches.empty()) {
            return std::nullopt;
        }
        const WaitingFetch& oldest = *fetches.front();
        return Task{clipOf(oldest.clip), oldest.frame, oldest.frame, true, false};
    }
    const ServedClipPtr clip = clipOf(newest->first);
    const PendingRequest& request = newest->second;
    Task task{clip, request.frame, request.frame, true, false};
    if (request.direction == FrameService::Direction::Backward) {
        // What lies between the key frame and this one is decoded anyway and wanted next.
        const bool isAtPlace = place && place->clip == clip->id && place->frame == request.frame;
        const auto window =
            windowOf(isAtPlace ? *place : Place{clip->id, request.frame, request.direction});
        task.first = std::max(clip->index.keyAtOrBefore(request.frame).value_or(0),
                              window ? window->first : request.frame);
    }
    return task;
}

std::optional<Task> FramePlan::taskAhead(const ServedClipPtr& clip, std::int64_t from,
                                         std::int64_t last) const {
    std::int64_t first = from;
    while (first <= last && isDone(*clip, first)) {
        ++first;
    }
    if (first > last) {
        return std::nullopt;
    }
    std::int64_t end = first;
    while (end < last && !isDone(*clip, end + 1)) {
        ++end;
    }
    return Task{clip, first, end, false, false};
}

std::optional<Task> FramePlan::taskBehind(const ServedClipPtr& clip, std::int64_t from,
                                          std::int64_t first) const {
    std::int64_t last = from;
    while (last >= first && isDone(*clip, last)) {
        --last;
    }
    if (last < first) {
        return std::nullopt;
    }
    const std::int64_t key = clip->index.keyAtOrBefore(last).value_or(0);
    return Task{clip, std::max(key, first), last, false, false};
}

/// The next part of a run backward, if there is room for it. It may begin a little before all of it
/// fits: while the frames before the part are decoded, the reviewer makes room. By less than half a
/// part, so that a run that stops is not followed by work without end.
std::optional<Task> FramePlan::partBehind(const ServedClipPtr& clip) const {
    std::int64_t last = place->frame;
    while (last >= 0 && isDone(*clip, last)) {
        --last;
    }
    if (last < 0) {
        return std::nullopt;
    }
    const auto kept = static_cast<std::int64_t>(framesIn(runShare(), *clip)) - kAheadInRun;
    const auto most = std::max<std::int64_t>(
        1, static_cast<std::int64_t>(kMostPartShare * static_cast<double>(kept)));
    std::int64_t key = clip->index.keyAtOrBefore(last).value_or(0);
    while (key > 0) {  // small groups: several at once
        const std::int64_t earlier = clip->index.keyAtOrBefore(key - 1).value_or(0);
        if (last - earlier >= most / 2) {
            break;
        }
        key = earlier;
    }
    const std::int64_t frames = last - key + 1;
    const std::int64_t parts = (frames + most - 1) / most;
    const std::int64_t size = (frames + parts - 1) / parts;
    const auto freed =
        static_cast<std::int64_t>(kStepsPerDecodedFrame * static_cast<double>(frames - size));
    if (place->frame - last + size > kept + std::min(freed, (size - 1) / 2)) {
        return std::nullopt;
    }
    return Task{clip, last - size + 1, last, false, false};
}

std::optional<Task> FramePlan::windowTask() const {
    const auto window = place ? windowOf(*place) : std::nullopt;
    if (!window) {
        return std::nullopt;
    }
    const ServedClipPtr clip = clipOf(place->clip);
    if (runsBackward(*place)) {
        return partBehind(clip);
    }
    auto ahead = taskAhead(clip, place->frame, window->last);
    if (ahead && window->last - ahead->first + 1 < window->worthAhead) {
        ahead.reset();
    }
    auto behind = taskBehind(clip, place->frame, window->first);
    if (behind && behind->last - window->first + 1 < window->worthBehind) {
        behind.reset();
    }
    if (place->direction == FrameService::Direction::Forward) {
        return ahead ? ahead : behind;
    }
    return behind ? behind : ahead;
}

std::optional<Task> FramePlan::fetchAheadTask() const {
    const auto window = fetchWindow();
    return window ? taskAhead(clipOf(lastFetch->clip), window->first, window->last) : std::nullopt;
}

std::optional<Task> FramePlan::stretchTask() {
    for (Stretch& stretch : stretches) {
        const ServedClipPtr clip = clipOf(stretch.clip);
        if (clip == nullptr || clip->cannotOpen || stretch.next > stretch.last) {
            continue;
        }
        // Without anybody who looks at each frame, those that are there are done; and those that
        // would not fit beside more urgent ones are left.
        while (!stretch.onEach && stretch.next <= stretch.last && isDone(*clip, stretch.next)) {
            ++stretch.next;
        }
        const bool fits = cache.hasRoomFor(clip->bytesPerFrame) ||
                          cache.hasWorseThan(disposability({clip->id, stretch.next}, 0),
                                             [this](const auto& key, std::uint64_t use) {
                                                 return disposability(key, use);
                                             });
        if (stretch.next <= stretch.last && (stretch.onEach || fits)) {
            return Task{clip, stretch.next, stretch.last, false, true};
        }
        if (!fits) {
            stretch.next = stretch.last + 1;
        }
    }
    return std::nullopt;
}

double FramePlan::disposability(const FrameCache::Key& key, std::uint64_t lastUse) const {
    constexpr double kFetchAhead = 1e9;
    constexpr double kStretches = 1e12;
    constexpr double kOthers = 1e15;
    const auto [clip, frame] = key;
    if (place && place->clip == clip) {
        const auto window = windowOf(*place);
        if (window && frame >= window->first && frame <= window->last) {
            return std::abs(static_cast<double>(frame - place->frame));
        }
    }
    if (lastFetch && lastFetch->clip == clip) {
        const auto window = fetchWindow();
        if (window && frame >= window->first && frame <= window->last) {
            return kFetchAhead + static_cast<double>(frame - lastFetch->frame);
        }
    }
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        const Stretch& stretch = stretches[i];
        if (stretch.clip == clip && frame >= stretch.first && frame <= stretch.last) {
            return kStretches + static_cast<double>(i);
        }
    }
    return kOthers - static_cast<double>(lastUse);
}

}  // namespace core::media
