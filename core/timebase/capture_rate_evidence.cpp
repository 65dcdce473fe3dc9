#include "core/timebase/capture_rate_evidence.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/timebase/free_fall.h"

namespace core::timebase {
namespace {

// A clock check must separate rates 0.1 % apart by three of its standard uncertainties.
constexpr double kDecidingSigma = 0.0003;
constexpr double kConflictSigmas = 3.0;
// Statements closer than this are equal: six digits of a rounded tag.
constexpr double kSameRate = 5e-6;
// Terms of a stretch that keep time stamps of many hours within 64 bits; error below 1e-12.
constexpr std::int64_t kMaxStretchTerm = 1'000'000;

std::string number(double value) {
    return words::decimal(fmt::format("{:.7g}", value));
}

std::string rateText(const CaptureRate& rate) {
    std::string text = number(rate.fps.toDouble());
    if (rate.fps.den() != 1) {
        text += " (" + rate.fps.toString() + ")";
    }
    return said("{} frames per second", text);
}

double relativeDifference(double a, double b) {
    return std::abs(a - b) / std::max(a, b);
}

// A piece of evidence reduced to a rate with its uncertainty.
struct Statement {
    double fps{};
    double relativeSigma{};  // 0: taken at its word
    std::optional<CaptureRate> exact{};
    const CaptureRateEvidence* source{};
};

struct Weighed {
    std::optional<Statement> entry;
    std::optional<Statement> tag;
    std::optional<Statement> check;
    std::vector<Statement> all;
    std::vector<const CaptureRateEvidence*> gravity;
};

Result<void> checkRate(const CaptureRate& rate, std::string whyNot) {
    if (rate.fps <= Rational{0}) {
        return fail(ErrorCode::OutOfRange, std::move(whyNot));
    }
    return ok();
}

Result<void> add(const ContainerTag& tag, Statement statement, Weighed& weighed) {
    BOOST_OUTCOME_TRY(checkRate(
        tag.rate,
        said("The capture rate in the tag {} must be above 0 frames per second.", tag.tag)));
    if (tag.isSetAside) {
        return ok();
    }
    statement.exact = tag.rate;
    statement.fps = tag.rate.fps.toDouble();
    weighed.tag = weighed.tag ? weighed.tag : statement;
    weighed.all.push_back(statement);
    return ok();
}

Result<void> add(const ReviewerEntry& entry, Statement statement, Weighed& weighed) {
    BOOST_OUTCOME_TRY(checkRate(
        entry.rate, said("The capture rate that was entered must be above 0 frames per second.")));
    const double sigma = entry.relativeSigma.value_or(0.0);
    if (!std::isfinite(sigma) || sigma < 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The uncertainty of the entered capture rate must be zero or positive."));
    }
    statement.exact = entry.rate;
    statement.fps = entry.rate.fps.toDouble();
    statement.relativeSigma = sigma;
    weighed.entry = weighed.entry ? weighed.entry : statement;
    weighed.all.push_back(statement);
    return ok();
}

Result<void> add(const ClockCheck& check, Statement statement, Weighed& weighed) {
    BOOST_OUTCOME_TRY(result, evaluateClockCheck(check));
    statement.fps = result.rateFps;
    statement.relativeSigma = result.relativeSigma();
    if (!weighed.check || statement.relativeSigma < weighed.check->relativeSigma) {
        weighed.check = statement;
    }
    weighed.all.push_back(statement);
    return ok();
}

Result<void> add(const GravityCheck& gravity, const Statement& statement, Weighed& weighed) {
    BOOST_OUTCOME_TRY(checkRate(
        gravity.assumed,
        said("The capture rate of the gravity check must be above 0 frames per second.")));
    if (!std::isfinite(gravity.apparentGravity)) {
        return fail(ErrorCode::NotFinite, said("The gravity check is not a number."));
    }
    weighed.gravity.push_back(statement.source);
    return ok();
}

Result<void> checkPairs(const std::vector<Statement>& all) {
    for (std::size_t i = 0; i < all.size(); ++i) {
        for (std::size_t j = i + 1; j < all.size(); ++j) {
            const double joint = std::hypot(all[i].relativeSigma, all[j].relativeSigma);
            const double allowed = std::max(kRateAgreement, kConflictSigmas * joint);
            if (relativeDifference(all[i].fps, all[j].fps) > allowed) {
                return fail(ErrorCode::Contradiction,
                            said("The evidence for the capture rate conflicts. {} {} Decide which "
                                 "is right and set the other aside.",
                                 describe(*all[i].source), describe(*all[j].source)));
            }
        }
    }
    return ok();
}

Result<void> checkGravity(const GravityCheck& check, double fps, const std::string& who) {
    const double scale = fps / check.assumed.fps.toDouble();
    const double gravity = check.apparentGravity * scale * scale;
    if (judgeFall(gravity, 0.0) != FallVerdict::DoesNotFit) {
        return ok();
    }
    return fail(
        ErrorCode::Contradiction,
        said("The evidence for the capture rate conflicts. {} With {} frames per second the ball "
             "would fall with {} m/s² instead of 9.8 m/s², so the gravity check points to a rate "
             "about {} times that. Decide which is right and set the other aside.",
             who, number(fps), number(gravity), number(std::sqrt(kStandardGravity / gravity))));
}

void tellDifference(const Statement& chosen, const Statement& other,
                    std::vector<ClockNote>& notes) {
    const double difference = relativeDifference(chosen.fps, other.fps);
    if (difference <= std::max(kSameRate, kConflictSigmas * other.relativeSigma)) {
        return;
    }
    notes.push_back(
        {ClockNote::Kind::NominalAgainstExact,
         said("Two statements of the capture rate differ by {} %. {} {} A nominal rate and the "
              "exact one often differ by 0.1 %.",
              number(100.0 * difference), describe(*chosen.source), describe(*other.source))});
}

double ownSigma(const CaptureRate& rate) {
    return rate.fps.den() == 1 ? kNominalRateSigma : kCameraClockSigma;
}

CaptureRate rateFromCheck(const Statement& check) {
    return {Rational::fromDecimal(check.fps, kMaxStretchTerm).value()};
}

// A check that is good enough chooses between a rate and its neighbour a factor 1.001 away.
CaptureRate decideByCheck(const CaptureRate& stated, const Statement& check,
                          std::vector<ClockNote>& notes) {
    const auto isMet = [&](const CaptureRate& rate) {
        return relativeDifference(rate.fps.toDouble(), check.fps) <=
               kConflictSigmas * check.relativeSigma;
    };
    if (check.relativeSigma > kDecidingSigma || isMet(stated)) {
        return stated;
    }
    CaptureRate decided = rateFromCheck(check);
    for (const CaptureRate& neighbour : {CaptureRate{stated.fps * Rational{1000, 1001}},
                                         CaptureRate{stated.fps * Rational{1001, 1000}}}) {
        if (isMet(neighbour)) {
            decided = neighbour;
        }
    }
    notes.push_back({ClockNote::Kind::CheckDecided,
                     said("The clock check decides for {} instead of the stated {}.",
                          rateText(decided), rateText(stated))});
    return decided;
}

bool isDecidedByCheck(const std::vector<ClockNote>& notes) {
    return std::any_of(notes.begin(), notes.end(), [](const ClockNote& note) {
        return note.kind == ClockNote::Kind::CheckDecided;
    });
}

ClockDecision decideRate(const Weighed& weighed, const CaptureRateEvidence* first) {
    ClockDecision decision;
    const Statement& chosen = weighed.entry ? *weighed.entry
                              : weighed.tag ? *weighed.tag
                                            : *weighed.check;
    decision.decidedBy = static_cast<std::size_t>(chosen.source - first);
    for (const Statement& other : weighed.all) {
        if (other.source != chosen.source) {
            tellDifference(chosen, other, decision.notes);
        }
    }
    if (!chosen.exact) {
        decision.rate = rateFromCheck(chosen);
        decision.relativeSigma = chosen.relativeSigma;
        return decision;
    }
    const bool isStated = weighed.entry && chosen.relativeSigma > 0.0;
    decision.rate = weighed.check && !isStated
                        ? decideByCheck(*chosen.exact, *weighed.check, decision.notes)
                        : *chosen.exact;
    if (isDecidedByCheck(decision.notes)) {
        decision.decidedBy = static_cast<std::size_t>(weighed.check->source - first);
    }
    decision.relativeSigma = isStated ? chosen.relativeSigma : ownSigma(*decision.rate);
    if (weighed.check && !isStated) {
        decision.relativeSigma = std::min(decision.relativeSigma, weighed.check->relativeSigma);
    }
    return decision;
}

ClockDecision decideWithoutEvidence(const std::optional<PlaybackRate>& playback) {
    ClockDecision decision;
    decision.relativeSigma = kUnprovenStampSigma;
    if (playback) {
        decision.rate = CaptureRate{playback->fps};
    }
    decision.notes.push_back(
        {ClockNote::Kind::NoEvidence,
         said("Nothing states the capture rate, so the file is taken to play at real speed. If it "
              "is a slow-motion export, every spin is too low: enter the rate.")});
    return decision;
}

Rational stretchOf(const Rational& capture, const Rational& playback) {
    const Rational exact = capture / playback;
    if (exact.num() <= kMaxStretchTerm && exact.den() <= kMaxStretchTerm) {
        return exact;
    }
    return Rational::fromDecimal(exact.toDouble(), kMaxStretchTerm).value();
}

void applyPlayback(const PlaybackRate& playback, ClockDecision& decision) {
    const double ratio = decision.rate->fps.toDouble() / playback.fps.toDouble();
    if (std::abs(ratio - 1.0) <= kPlaybackAgreement) {
        decision.relativeSigma = std::min(decision.relativeSigma, kUnprovenStampSigma);
        if (std::abs(ratio - 1.0) > kSameRate) {
            decision.notes.push_back(
                {ClockNote::Kind::NominalAgainstExact,
                 said("The file plays at {} frames per second and the stated capture rate is {}. "
                      "Its time stamps are taken as they are.",
                      number(playback.fps.toDouble()), rateText(*decision.rate))});
            decision.rate = CaptureRate{playback.fps};
        }
        return;
    }
    decision.kind = ClockKind::Stretched;
    decision.stretch = stretchOf(decision.rate->fps, playback.fps);
    const double whole = std::round(ratio);
    const double off = whole >= 1.0 ? std::abs(ratio / whole - 1.0) : 1.0;
    if (off <= kPlaybackAgreement && off > kSameRate) {
        decision.relativeSigma = std::max(decision.relativeSigma, off / std::sqrt(3.0));
        decision.notes.push_back(
            {ClockNote::Kind::NotWholeStretch,
             said("The capture rate is {} times the playback rate; a whole {} would mean {} frames "
                  "per second. One of the two rates may be nominal.",
                  number(ratio), number(whole), number(whole * playback.fps.toDouble()))});
    }
    if (ratio < 1.0) {
        decision.notes.push_back({ClockNote::Kind::FasterThanCaptured,
                                  said("The file plays faster than it was captured: a time lapse, "
                                       "or pictures that an editor repeated.")});
    }
}

}  // namespace

std::string_view evidenceName(const CaptureRateEvidence& evidence) noexcept {
    constexpr std::array<std::string_view, 4> kNames{"container_tag", "reviewer_entry",
                                                     "clock_check", "gravity_check"};
    return kNames.at(evidence.index());
}

std::string_view clockNoteName(ClockNote::Kind kind) noexcept {
    constexpr std::array<std::string_view, 6> kNames{"no_evidence",       "nominal_against_exact",
                                                     "not_whole_stretch", "faster_than_captured",
                                                     "check_decided",     "stamps_not_used"};
    return kNames.at(static_cast<std::size_t>(kind));
}

std::string describe(const CaptureRateEvidence& evidence) {
    if (const auto* tag = std::get_if<ContainerTag>(&evidence)) {
        return tag->isSetAside ? said("The tag {} says {}; it was set aside by hand.", tag->tag,
                                      rateText(tag->rate))
                               : said("The tag {} says {}.", tag->tag, rateText(tag->rate));
    }
    if (const auto* entry = std::get_if<ReviewerEntry>(&evidence)) {
        return said("The rate entered by hand is {}.", rateText(entry->rate));
    }
    if (const auto* check = std::get_if<ClockCheck>(&evidence)) {
        const auto result = evaluateClockCheck(*check);
        const std::string what = check->filmed.empty()
                                     ? said("The clock check")
                                     : saidKept(toKeep("The clock check ({})", check->filmed));
        if (!result) {
            return said("{} gives no rate.", what);
        }
        return said("{} gives {} ± {:.2g} frames per second (standard uncertainty).", what,
                    number(result.value().rateFps), result.value().sigmaFps);
    }
    const auto& gravity = std::get<GravityCheck>(evidence);
    return said("The gravity check finds {} m/s² at an assumed {}.",
                number(gravity.apparentGravity), rateText(gravity.assumed));
}

Result<ClockDecision> settleCaptureRate(std::optional<PlaybackRate> playback,
                                        std::span<const CaptureRateEvidence> evidence,
                                        StampTrust trust) {
    if (playback && playback->fps <= Rational{0}) {
        return fail(ErrorCode::OutOfRange,
                    said("The playback rate must be above 0 frames per second."));
    }
    Weighed weighed;
    for (const auto& one : evidence) {
        const Statement empty{.source = &one};
        BOOST_OUTCOME_TRY(
            std::visit([&](const auto& kind) { return add(kind, empty, weighed); }, one));
    }
    BOOST_OUTCOME_TRY(checkPairs(weighed.all));
    if (weighed.all.empty() && trust == StampTrust::NotTrusted) {
        return fail(ErrorCode::InvalidInput,
                    said("The time stamps of the clip are not trusted and nothing states its "
                         "capture rate. Enter the capture rate or mark a clock check."));
    }
    ClockDecision decision = weighed.all.empty() ? decideWithoutEvidence(playback)
                                                 : decideRate(weighed, evidence.data());
    for (const auto* gravity : weighed.gravity) {
        if (decision.rate) {
            BOOST_OUTCOME_TRY(checkGravity(std::get<GravityCheck>(*gravity),
                                           decision.rate->fps.toDouble(), describe(*gravity)));
        }
    }
    if (trust == StampTrust::NotTrusted) {
        decision.kind = ClockKind::Counted;
        decision.notes.push_back(
            {ClockNote::Kind::StampsNotUsed,
             said("The time stamps are not used; frames are counted at the capture rate.")});
    } else if (playback && !weighed.all.empty()) {
        applyPlayback(*playback, decision);
    }
    return decision;
}

const CaptureRateEvidence* decidingEvidence(std::span<const CaptureRateEvidence> evidence) {
    const auto decision = settleCaptureRate(std::nullopt, evidence);
    return decision && decision.value().decidedBy ? &evidence[*decision.value().decidedBy]
                                                  : nullptr;
}

Result<ClipClock> makeClock(const ClockDecision& decision, FrameStamps stamps) {
    switch (decision.kind) {
        case ClockKind::Stamped:
            return ClipClock::stamped(std::move(stamps), decision.relativeSigma);
        case ClockKind::Stretched:
            return ClipClock::stretched(std::move(stamps), decision.stretch,
                                        decision.relativeSigma);
        case ClockKind::Counted:
            break;
    }
    if (!decision.rate) {
        return fail(ErrorCode::InvalidInput, said("Counting frames needs a capture rate."));
    }
    return ClipClock::counted(static_cast<std::int64_t>(stamps.ticks.size()), *decision.rate,
                              decision.relativeSigma);
}

}  // namespace core::timebase
