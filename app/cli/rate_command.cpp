#include <algorithm>
#include <charconv>
#include <iostream>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/cli/command.h"
#include "core/base/number.h"
#include "core/media/file/clip_index.h"
#include "core/report/reading_report.h"
#include "core/spin/reading_by_marks.h"
#include "core/timebase/capture_rate_evidence.h"

namespace cli {
namespace {

using core::ErrorCode;
using core::fail;
using core::Result;
using core::spin::FrameIndex;

struct RateOptions {
    std::optional<double> captureRate;
    std::string clip;
    std::int64_t start{};
    std::optional<double> startSpread;
    std::vector<std::string> returns;
    std::vector<std::string> between;
    std::optional<double> fraction;
    double fractionHalfWidth{0.25};
    std::vector<std::string> angles;
    double angleSpreadDeg{5.0};
    int symmetry{1};
    std::optional<double> exposureMs;
    bool json{};
};

Result<std::int64_t> wholeNumber(const std::string& text, const std::string& option) {
    std::int64_t value = 0;
    const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (problem != std::errc{} || end != text.data() + text.size() || text.empty()) {
        return fail(ErrorCode::InvalidInput,
                    option + ": \"" + text + "\" is not a whole number. Frames count from 0.");
    }
    return value;
}

/// "14" or "14:3": a frame and the number of turns made by then.
struct FrameAndTurns {
    FrameIndex frame;
    std::optional<int> turns;
};

Result<FrameAndTurns> frameAndTurns(const std::string& text, const std::string& option) {
    const auto colon = text.find(':');
    BOOST_OUTCOME_TRY(frame, wholeNumber(text.substr(0, colon), option));
    FrameAndTurns parsed{{frame}, std::nullopt};
    if (colon != std::string::npos) {
        BOOST_OUTCOME_TRY(turns, wholeNumber(text.substr(colon + 1), option));
        if (turns < 1 || turns > 100000) {
            return fail(ErrorCode::OutOfRange,
                        option + ": a return comes after 1 to 100000 turns, not " +
                            std::to_string(turns) + ".");
        }
        parsed.turns = static_cast<int>(turns);
    }
    return parsed;
}

Result<core::spin::AngleMark> angleMark(const std::string& text, double spreadDeg) {
    const auto colon = text.find(':');
    if (colon == std::string::npos) {
        return fail(ErrorCode::InvalidInput, "--angle: write FRAME:DEGREES, for example 12:-35.5.");
    }
    BOOST_OUTCOME_TRY(frame, wholeNumber(text.substr(0, colon), "--angle"));
    BOOST_OUTCOME_TRY(degrees, core::numberFrom(text.substr(colon + 1)));
    core::spin::AngleMark mark;
    mark.frame = {frame};
    mark.angle = core::fromDegrees(degrees);
    mark.spread = core::fromDegrees(spreadDeg);
    return mark;
}

Result<core::spin::MarkSet> marksOf(const RateOptions& options) {
    using core::spin::ReturnMark;
    core::spin::MarkSet marks;
    marks.start = core::spin::StartMark{{options.start}, options.startSpread};
    for (const auto& text : options.returns) {
        BOOST_OUTCOME_TRY(at, frameAndTurns(text, "--return"));
        marks.returns.push_back(ReturnMark::nearest(at.frame, at.turns));
    }
    std::optional<core::spin::BracketFraction> fraction;
    if (options.fraction) {
        fraction = core::spin::BracketFraction{*options.fraction, options.fractionHalfWidth};
    }
    for (std::size_t i = 0; i + 1 < options.between.size(); i += 2) {
        BOOST_OUTCOME_TRY(before, wholeNumber(options.between[i], "--between"));
        BOOST_OUTCOME_TRY(after, frameAndTurns(options.between[i + 1], "--between"));
        marks.returns.push_back(ReturnMark::between({before}, after.frame, after.turns, fraction));
    }
    for (const auto& text : options.angles) {
        BOOST_OUTCOME_TRY(mark, angleMark(text, options.angleSpreadDeg));
        marks.angles.push_back(mark);
    }
    return marks;
}

std::int64_t lastFrameOf(const core::spin::MarkSet& marks) {
    std::int64_t last = marks.start ? marks.start->frame.value : 0;
    for (const auto& mark : marks.returns) {
        last = std::max({last, mark.frame.value, mark.frameAfter.value});
    }
    for (const auto& mark : marks.angles) {
        last = std::max(last, mark.frame.value);
    }
    return last;
}

/// The clock of a clip, or of frames at a constant rate with one frame of margin after the marks.
Result<core::timebase::ClipClock> clockFor(const RateOptions& options,
                                           const core::spin::MarkSet& marks) {
    using namespace core::timebase;
    std::vector<CaptureRateEvidence> evidence;
    if (options.captureRate) {
        BOOST_OUTCOME_TRY(rate, captureRateFromDecimal(*options.captureRate));
        evidence.emplace_back(ReviewerEntry{rate, std::nullopt});
    }
    if (options.clip.empty()) {
        if (evidence.empty()) {
            return fail(ErrorCode::InvalidInput,
                        "Give --capture-rate, or --clip to take the time stamps from a file.");
        }
        constexpr std::int64_t kMostFrames = 1'000'000'000;  // more than a month at 240 per second
        if (const auto last = lastFrameOf(marks); last > kMostFrames) {
            return fail(ErrorCode::OutOfRange, "Frame " + std::to_string(last) +
                                                   " is in no film: give frame numbers up to " +
                                                   std::to_string(kMostFrames) +
                                                   ", counted from 0.");
        }
        BOOST_OUTCOME_TRY(decision,
                          settleCaptureRate(std::nullopt, evidence, StampTrust::NotTrusted));
        return ClipClock::counted(lastFrameOf(marks) + 2, *decision.rate, decision.relativeSigma);
    }
    BOOST_OUTCOME_TRY(index, core::media::readClipIndex(options.clip));
    for (const auto& tagged : index.taggedRates) {
        evidence.emplace_back(ContainerTag{tagged.tag, tagged.rate, false});
    }
    BOOST_OUTCOME_TRY(decision, settleCaptureRate(index.playbackRate, evidence));
    return makeClock(decision, index.stamps);
}

Result<void> printRate(const RateOptions& options) {
    BOOST_OUTCOME_TRY(marks, marksOf(options));
    BOOST_OUTCOME_TRY(clock, clockFor(options, marks));
    core::spin::ReadingContext context;
    context.symmetryOrder = options.symmetry;
    if (options.exposureMs) {
        context.exposure = core::Seconds{*options.exposureMs / 1000.0};
    }
    BOOST_OUTCOME_TRY(reading, core::spin::readMarks(marks, clock, context));
    std::cout << (options.json ? core::report::readingJson(reading) + "\n"
                               : core::report::readingText(reading));
    return core::ok();
}

}  // namespace

void addRate(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<RateOptions>();
    CLI::App* command = program.add_subcommand(
        "rate", "Computes a spin rate and its uncertainty from typed marks.");
    command->add_option("--capture-rate", options->captureRate, "frames per second of the camera");
    command->add_option("--clip", options->clip, "take the time stamps from this file")
        ->check(CLI::ExistingFile);
    command->add_option("--start", options->start, "frame whose orientation is the reference")
        ->required();
    command->add_option("--start-spread", options->startSpread,
                        "the start has a spread too: half-width in frames, for example 0.5");
    command->add_option("--return", options->returns,
                        "frame nearest to a return, as FRAME or FRAME:TURNS; may be repeated");
    command
        ->add_option("--between", options->between,
                     "a return between two frames, as A B or A B:TURNS; may be repeated")
        ->type_size(2)
        ->expected(-1);
    command->add_option("--fraction", options->fraction, "where between A and B, 0 to 1");
    command
        ->add_option("--fraction-half-width", options->fractionHalfWidth,
                     "half-width of the fraction")
        ->capture_default_str();
    command->add_option("--angle", options->angles,
                        "angle of the mark, as FRAME:DEGREES; may be repeated");
    command
        ->add_option("--angle-spread", options->angleSpreadDeg, "half-width of an angle in degrees")
        ->capture_default_str();
    command
        ->add_option("--symmetry", options->symmetry,
                     "the marking looks the same after 1/m of a turn")
        ->capture_default_str();
    command->add_option("--exposure-ms", options->exposureMs, "exposure time in milliseconds");
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return printRate(*options); }; });
}

}  // namespace cli
