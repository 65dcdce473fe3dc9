#include "core/intake/slate_cards.h"

#include <algorithm>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/clip_record.h"
#include "core/intake/film_order.h"
#include "core/intake/find_clip.h"
#include "core/intake/planned_cells.h"
#include "core/intake/slate_scan.h"
#include "core/media/frames/frame_decoder.h"
#include "core/project/clip_clock.h"

namespace core::intake {
namespace {

using timebase::FrameIndex;

/// Capture time of every frame, or the file's own time while the clock is open.
std::vector<double> timesOf(const project::Clip& clip, const project::ClipFrames& frames) {
    std::vector<double> times;
    times.reserve(frames.stamps.ticks.size());
    const auto clock = clip.clock ? project::clipClock(*clip.clock, frames)
                                  : timebase::ClipClock::stamped(frames.stamps);
    const double tick = frames.stamps.timeBase.toDouble();
    for (std::int64_t i = 0; i < clip.frameCount; ++i) {
        const auto stamp = frames.stamps.ticks[static_cast<std::size_t>(i)];
        times.push_back(clock ? clock.value().captureSeconds({i}).seconds
                              : static_cast<double>(stamp) * tick);
    }
    return times;
}

/// The first frame, then one in every kSlateLookSeconds, and the last; key frames alone where they
/// suffice.
std::vector<FrameIndex> looksAt(const project::Clip& clip, const project::ClipFrames& frames) {
    const std::vector<double> times = timesOf(clip, frames);
    std::vector<FrameIndex> looks{{0}};
    std::size_t nextKey = 0;
    bool keysSuffice = false;
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (i == nextKey) {
            const auto key = std::find(frames.isKey.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                                       frames.isKey.end(), true);
            nextKey = static_cast<std::size_t>(key - frames.isKey.begin());
            keysSuffice = nextKey < times.size() && times[nextKey] - times[i] < kKeyFramesSuffice;
        } else if (keysSuffice) {
            continue;
        }
        const double since = times[i] - times[static_cast<std::size_t>(looks.back().value)];
        if (since >= kSlateLookSeconds || (i > 0 && i + 1 == times.size())) {
            looks.push_back({static_cast<std::int64_t>(i)});
        }
    }
    return looks;
}

/// Joins what is seen, look after look, into stretches.
class StretchMaker {
public:
    void add(FrameIndex frame, const std::vector<plan::SlateCard>& cards) {
        ++m_look;
        if (cards.empty()) {
            return;
        }
        const auto card = cards.size() == 1 ? std::optional{cards.front()} : std::nullopt;
        const bool goesOn = !m_stretches.empty() && m_stretches.back().card == card &&
                            m_look - m_lastSeen <= kMissedLooks + 1;
        if (goesOn) {
            m_stretches.back().last = frame;
        } else {
            m_stretches.push_back({frame, frame, card});
        }
        m_lastSeen = m_look;
    }
    [[nodiscard]] std::vector<SlateStretch> take() { return std::move(m_stretches); }

private:
    std::vector<SlateStretch> m_stretches;
    std::size_t m_look{0};
    std::size_t m_lastSeen{0};
};

/// What the cards say of one shot.
struct Said {
    const project::Shot* shot;
    std::optional<plan::SlateCard> card;
};

const ClipSlates* slatesOf(std::span<const ClipSlates> slates, project::ClipId clip) {
    const auto found = std::find_if(slates.begin(), slates.end(),
                                    [clip](const auto& each) { return each.clip == clip; });
    return found == slates.end() ? nullptr : &*found;
}

std::string implementOn(const plan::SlateCard& card) {
    return card.condition.empty() ? card.implement
                                  : fmt::format("{} ({})", card.implement, card.condition);
}

/// Goes through the session in film order with the card in force.
class SlateWalk {
public:
    SlateWalk(const project::Snapshot& snapshot, std::string session, AssignmentReport& report)
        : m_snapshot{snapshot}, m_session{std::move(session)}, m_report{report} {}

    void through(project::ClipId clip, const std::vector<SlateStretch>& stretches,
                 std::vector<Said>& said) {
        std::size_t next = 0;
        for (const auto* shot : shotsInFilmOrder(m_snapshot, {clip})) {
            while (next < stretches.size() && stretches[next].first <= shot->firstFrame) {
                comeInto(clip, stretches[next++]);
            }
            if (next > 0 && shot->firstFrame <= stretches[next - 1].last) {
                m_report.remarks.push_back(core::said(
                    "{} begins while a card is in view: check whether it is a shot at all.",
                    project::shotName(m_snapshot, *shot)));
            }
            said.push_back({shot, m_inForce});
        }
        while (next < stretches.size()) {
            comeInto(clip, stretches[next++]);
        }
    }

private:
    void comeInto(project::ClipId clip, const SlateStretch& stretch) {
        m_inForce = stretch.card;
        const std::string where =
            said("frame {} of clip {}", stretch.first.value, project::clipName(m_snapshot, clip));
        if (!stretch.card) {
            m_report.remarks.push_back(
                said("Different cards are in view at {}: the shots after it, up to the next card, "
                     "stay open.",
                     where));
        } else if (!stretch.card->session.empty() && stretch.card->session != m_session) {
            m_report.remarks.push_back(
                said("The card at {} ({}, hitter {}) was printed for the filming day \"{}\", not "
                     "for \"{}\".",
                     where, implementOn(*stretch.card), stretch.card->hitter, stretch.card->session,
                     m_session));
        }
    }

    const project::Snapshot& m_snapshot;
    std::string m_session;
    AssignmentReport& m_report;
    std::optional<plan::SlateCard> m_inForce;
};

}  // namespace

Result<SlateSearch> slateSearchOf(project::Store& store, project::ClipId id) {
    BOOST_OUTCOME_TRY(file, findClip(store, id));
    BOOST_OUTCOME_TRY(frames, store.clipFrames(id));
    const auto snapshot = store.snapshot();
    const project::Clip* clip = snapshot->clips.find(id);
    if (clip == nullptr) {
        return fail(ErrorCode::NotFound, said("The clip is no longer in the project."));
    }
    return SlateSearch{id, file, indexOf(*clip, *frames), looksAt(*clip, *frames)};
}

Result<std::vector<SlateStretch>> readSlateCards(const SlateSearch& search, std::stop_token stop,
                                                 const std::function<void(double)>& progress) {
    BOOST_OUTCOME_TRY(decoder, media::FrameDecoder::open(search.file, search.index));
    SlateScanner scanner;
    StretchMaker stretches;
    for (std::size_t i = 0; i < search.looks.size(); ++i) {
        const auto frame = decoder->decode(search.looks[i], stop);
        if (!frame && frame.error().code == ErrorCode::Cancelled) {
            return frame.error();
        }
        if (frame) {
            const PixelBuffer picture =
                frame.value()->rgbScaledToFit(kSlatePicturePx, kSlatePicturePx);
            stretches.add(search.looks[i], scanner.cardsIn(picture.view()));
        }
        if (progress) {
            progress(static_cast<double>(i + 1) / static_cast<double>(search.looks.size()));
        }
    }
    return stretches.take();
}

Result<AssignmentReport> assignBySlateCards(project::Store& store, project::SessionId session,
                                            std::span<const ClipSlates> slates) {
    BOOST_OUTCOME_TRY(order, filmOrder(store, session));
    const auto snapshot = store.snapshot();
    const project::Session* day = snapshot->sessions.find(session);
    if (day == nullptr) {
        return fail(ErrorCode::NotFound, said("The filming day is no longer in the project."));
    }
    AssignmentReport report;
    std::vector<Said> said;
    SlateWalk walk{*snapshot, day->name, report};
    for (const auto clip : order) {
        const ClipSlates* ofClip = slatesOf(slates, clip);
        if (ofClip == nullptr) {
            return fail(ErrorCode::InvalidInput,
                        core::said("Clip {} has not been searched for cards. Search all clips of "
                                   "the filming day first.",
                                   project::clipName(*snapshot, clip)));
        }
        walk.through(clip, ofClip->stretches, said);
    }
    std::vector<Said> open;
    for (const Said& each : said) {
        if (each.shot->cell) {
            const bool isRight =
                each.card && knownCell(*snapshot, session, *each.card) == each.shot->cell;
            ++(isRight ? report.alreadyRight : report.leftElsewhere);
        } else if (each.card) {
            open.push_back(each);
        } else {
            ++report.leftOpen;
        }
    }
    BOOST_OUTCOME_TRY(store.together(
        toKeep("Assigned {} by slate cards.", countToKeep(open.size(), "shot", "shots")),
        [&]() -> Result<void> {
            for (const Said& each : open) {
                BOOST_OUTCOME_TRY(cell, cellNamed(store, session, *each.card));
                BOOST_OUTCOME_TRY(store.assignShots(std::array{each.shot->id}, cell));
            }
            return ok();
        }));
    report.assigned = open.size();
    return report;
}

}  // namespace core::intake
