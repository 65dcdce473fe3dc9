#include "core/intake/intake_words.h"

#include <algorithm>
#include <cmath>

#include "core/base/words.h"

namespace core::intake {

std::string_view phaseWords(TakeInProgress::Phase phase) {
    switch (phase) {
        case TakeInProgress::Phase::Add:
            return words::inLanguage(toSay("adding clips"));
        case TakeInProgress::Phase::FindShots:
            return words::inLanguage(toSay("finding shots"));
        case TakeInProgress::Phase::ReadCards:
            return words::inLanguage(toSay("reading slate cards"));
        case TakeInProgress::Phase::ReadPictures:
            return words::inLanguage(toSay("reading shots"));
    }
    return "";
}

std::string durationWords(double seconds) {
    const long long all = std::llround(std::max(0.0, seconds));
    const long long hours = all / 3600;
    const long long minutes = all / 60 % 60;
    if (hours > 0) {
        return fmt::format("{} h {} min", hours, minutes);
    }
    const std::string rest = std::to_string(all % 60) + " s";
    return minutes > 0 ? fmt::format("{} min {}", minutes, rest) : rest;
}

std::vector<std::string> reportLines(const TakeInReport& report, const TakeInOptions& steps) {
    std::vector<std::string> lines{said("{} added, {} already there, {} skipped",
                                        counted(report.added, "clip", "clips"), report.alreadyThere,
                                        counted(report.passedOver, "other file", "other files"))};
    if (report.foundAgain > 0) {
        lines.push_back(saidOf(report.foundAgain, "{} clip found again where it is now",
                               "{} clips found again where they are now", report.foundAgain));
    }
    if (steps.findShots) {
        lines.push_back(said("{} searched, {} found", counted(report.searched, "clip", "clips"),
                             counted(report.shotsFound, "shot", "shots")));
    }
    if (report.cards) {
        lines.push_back(said("{} assigned by slate cards, {} left open",
                             counted(report.cards->assigned, "shot", "shots"),
                             report.cards->leftOpen));
        lines.insert(lines.end(), report.cards->remarks.begin(), report.cards->remarks.end());
    }
    if (steps.readPictures) {
        lines.push_back(saidOf(report.shotsRead,
                               "{} shot read from their pictures, {} cannot be read so",
                               "{} shots read from their pictures, {} cannot be read so",
                               report.shotsRead, report.shotsUnread));
    }
    return lines;
}

}  // namespace core::intake
