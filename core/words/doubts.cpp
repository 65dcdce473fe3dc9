#include "core/words/doubts.h"

#include <array>
#include <cmath>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/words/findings.h"

namespace core::words {
namespace {

using doubts::Reason;

constexpr std::array<std::string_view, doubts::kReasonCount> kReasons{
    toSay("marked as doubtful"),
    toSay("flight does not fit the capture rate"),
    toSay("capture rate not checked"),
    toSay("read with another capture rate"),
    toSay("turns miscounted"),
    toSay("marks and pictures differ"),
    toSay("repeated reading differs"),
    toSay("frames missing inside"),
    toSay("outlier in its cell"),
    toSay("straggler in its cell"),
    toSay("pictures do not confirm the marks"),
    toSay("another rate fits nearly as well"),
    toSay("no steady turning"),
    toSay("few frames a turn"),
    toSay("whole number of frames a turn"),
    toSay("blurred mark"),
    toSay("interval wide for its cell"),
    toSay("unusual ball speed"),
    toSay("hitters disagree on the implement"),
    toSay("scatter unlike the other cells"),
};

std::string wholeRpm(Rpm rate) {
    return said("{:.0f} rpm", rate.rpm);
}

/// What each kind of facts comes to.
struct DoubtWords {
    Reason reason;

    std::string operator()(std::monostate /*none*/) const {
        return reason == Reason::Marked
                   ? said("A reader has marked this shot as doubtful.")
                   : said(
                         "Nothing checks the capture rate: the ball's diameter is not known. If "
                         "this clip is a slow-motion export, its spin is several times too low. "
                         "Enter the diameter in the set-up of the filming day.");
    }
    std::string operator()(const doubts::FlightAgainstClock& flight) const {
        const std::string statement = saidKept(flight.statement);
        if (!flight.overruled.empty()) {
            return said("{} The reader keeps the capture rate all the same: {}.", statement,
                        flight.overruled);
        }
        return flight.isNoted
                   ? said(
                         "{} Every spin rate of this clip is wrong by the same factor as its "
                         "clock, and its shots are in no summary: settle the capture rate in "
                         "Footage, then read again. Or overrule the flight, with a reason.",
                         statement)
                   : said(
                         "{} Every spin rate of this clip is wrong by the same factor as its "
                         "clock: settle the capture rate in Footage, then read again.",
                         statement);
    }
    std::string operator()(const doubts::ClockSinceReading& clock) const {
        return clock.isUnsettled
                   ? said(
                         "The evidence for the capture rate of this clip conflicts since the shot "
                         "was read. Settle it in Footage, then read again.")
                   : said(
                         "The clock of this clip was changed after the shot was read. Read it "
                         "again.");
    }
    std::string operator()(const doubts::SilentPictures& pictures) const {
        return said(
            "The shot was read by marks, and its pictures neither confirm nor contradict it: {} "
            "Check whether the mark can be seen at the start and the returns.",
            saidKept(pictures.why));
    }
    std::string operator()(const doubts::MarksAgainstPictures& rates) const {
        return said("The marks give {}, the pictures {}: their intervals do not overlap.",
                    wholeRpm(rates.marks), wholeRpm(rates.pictures));
    }
    std::string operator()(const doubts::TurnsOff& turns) const {
        const bool isWhole = turns.off == std::round(turns.off);
        return said(
                   "The marks count {} to frame {} and give {}; by the pictures it is {:.1f} "
                   "turns "
                   "and {}.",
                   counted(turns.counted, "turn", "turns"), turns.last.value,
                   wholeRpm(turns.rates.marks), turns.counted + turns.off,
                   wholeRpm(turns.rates.pictures)) +
               " " +
               (isWhole ? said("One turn too many or too few was counted.")
                        : said("Half a turn was taken for a whole one."));
    }
    std::string operator()(const doubts::RepeatedReading& reading) const {
        const std::string other = wholeRpm(reading.other);
        const std::string counting = wholeRpm(reading.counting);
        return reading.reader.empty() ? said(
                                            "This shot was also read as {} by a reader who is not "
                                            "named; {} counts. The intervals do not overlap.",
                                            other, counting)
                                      : said(
                                            "This shot was also read as {} by {}; {} counts. The "
                                            "intervals do not overlap.",
                                            other, reading.reader, counting);
    }
    std::string operator()(const doubts::MissingFrames& missing) const {
        return saidOf(missing.count, "{} frame is missing after frame {}, inside the reading.",
                      "{} frames are missing after frame {}, inside the reading.", missing.count,
                      missing.after.value) +
               " " +
               (missing.isClockCounted
                    ? said("The clock of this clip counts frames, so the time is too short and the "
                           "rate too high.")
                    : said("The time stamps show the gap; the rate is right only if they are the "
                           "camera's own."));
    }
    std::string operator()(const doubts::NearRate& near) const {
        return near.rate
                   ? said(
                         "The pictures fit {} nearly as well: the difference is {:.1f} standard "
                         "errors.",
                         wholeRpm(*near.rate), near.standardErrors)
                   : said(
                         "The pictures fit another rate nearly as well: the difference is {:.1f} "
                         "standard errors.",
                         near.standardErrors);
    }
    std::string operator()(const doubts::WideInCell& wide) const {
        return said(
            "The standard uncertainty is {:.0f} rpm; that of the other shots of "
            "the cell is about {:.0f} rpm.",
            wide.sigma.rpm, wide.usual.rpm);
    }
    std::string operator()(const doubts::SpeedInCell& speed) const {
        return said(
            "The ball left at {:.1f} m/s; the others of the cell at about {:.1f} "
            "m/s. Another stroke gives another spin.",
            speed.metresPerSecond, speed.usual);
    }
    std::string operator()(const spin::MarksWarning& warning) const { return warning.message; }
    std::string operator()(const findings::OddShot& odd) const { return sentence(odd); }
    std::string operator()(const findings::OddScatter& scatter) const { return sentence(scatter); }
    std::string operator()(const std::vector<findings::InteractionCell>& cells) const {
        return sentence(cells);
    }
};

}  // namespace

std::string reasonWords(Reason reason) {
    return saidText(kReasons[static_cast<std::size_t>(reason)]);
}

std::string sentence(const doubts::Doubt& doubt) {
    return std::visit(DoubtWords{doubt.reason}, doubt.facts);
}

}  // namespace core::words
