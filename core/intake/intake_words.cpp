#include "core/intake/intake_words.h"

#include <algorithm>
#include <cmath>

#include "core/base/words.h"

namespace core::intake {

std::string_view phaseWords(TakeInProgress::Phase phase) noexcept {
    switch (phase) {
        case TakeInProgress::Phase::Add:
            return "adding clips";
        case TakeInProgress::Phase::FindShots:
            return "finding shots";
        case TakeInProgress::Phase::ReadCards:
            return "reading slate cards";
        case TakeInProgress::Phase::ReadPictures:
            return "reading shots";
    }
    return "";
}

std::string durationWords(double seconds) {
    const long long all = std::llround(std::max(0.0, seconds));
    const long long hours = all / 3600;
    const long long minutes = all / 60 % 60;
    if (hours > 0) {
        return std::to_string(hours) + " h " + std::to_string(minutes) + " min";
    }
    const std::string rest = std::to_string(all % 60) + " s";
    return minutes > 0 ? std::to_string(minutes) + " min " + rest : rest;
}

std::vector<std::string> reportLines(const TakeInReport& report, const TakeInOptions& steps) {
    std::vector<std::string> lines{counted(report.added, "clip", "clips") + " added, " +
                                   std::to_string(report.alreadyThere) + " there already, " +
                                   counted(report.passedOver, "other file", "other files") +
                                   " passed over"};
    if (report.foundAgain > 0) {
        lines.push_back(counted(report.foundAgain, "clip", "clips") + " found again where " +
                        (report.foundAgain == 1 ? "it is now" : "they are now"));
    }
    if (steps.findShots) {
        lines.push_back(counted(report.searched, "clip", "clips") + " searched, " +
                        counted(report.shotsFound, "shot", "shots") + " found");
    }
    if (report.cards) {
        lines.push_back(counted(report.cards->assigned, "shot", "shots") +
                        " assigned by slate cards, " + std::to_string(report.cards->leftOpen) +
                        " left open");
        lines.insert(lines.end(), report.cards->remarks.begin(), report.cards->remarks.end());
    }
    if (steps.readPictures) {
        lines.push_back(counted(report.shotsRead, "shot", "shots") + " read from their pictures, " +
                        std::to_string(report.shotsUnread) + " cannot be read so");
    }
    return lines;
}

}  // namespace core::intake
