#include "core/findings/method.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/findings/words.h"
#include "core/report/number_format.h"

namespace core::findings {
namespace {

/// What the counting readings have in common.
struct ReadBy {
    std::size_t marks{};
    std::size_t fits{};
    std::set<std::string> readers;
    std::set<std::string> versions;
    double leastClock{1.0};
    double mostClock{0.0};
};

ReadBy readBy(const project::Snapshot& snapshot) {
    ReadBy by;
    for (const auto& shot : snapshot.shots) {
        if (shot.standing != project::ShotStanding::Kept || !shot.counting) {
            continue;
        }
        if (const auto* reading = snapshot.readings.find(*shot.counting)) {
            ++(reading->method == project::ReadingMethod::Marks ? by.marks : by.fits);
            by.readers.insert(reading->reader);
            by.versions.insert(reading->methodVersion);
            by.leastClock = std::min(by.leastClock, reading->clockRelativeSigma);
            by.mostClock = std::max(by.mostClock, reading->clockRelativeSigma);
        }
    }
    return by;
}

std::string readSentence(const ReadBy& by) {
    std::vector<std::string> methods;
    if (by.marks > 0) {
        methods.push_back(fmt::format("{} from marks", words::shots(by.marks)));
    }
    if (by.fits > 0) {
        methods.push_back(fmt::format("{} by rotation fit", words::shots(by.fits)));
    }
    return fmt::format("Read: {}, by {}; methods {}.", words::joined(methods),
                       words::joined({by.readers.begin(), by.readers.end()}),
                       words::joined({by.versions.begin(), by.versions.end()}));
}

std::string clockSentence(const ReadBy& by) {
    return fmt::format(
        "Clock: the relative standard uncertainty that all shots of a clip share is {}; it is "
        "added "
        "to a mean after averaging, because more shots do not make it smaller.",
        by.leastClock == by.mostClock
            ? fmt::format("{:.2g} %", 100.0 * by.mostClock)
            : fmt::format("{:.2g} % to {:.2g} %", 100.0 * by.leastClock, 100.0 * by.mostClock));
}

std::string comparisonSentence(const Comparison& comparison) {
    return comparison.model == ComparisonModel::CellMeans
               ? "Compared: the plain average of each implement's cells, pairs by Games and Howell "
                 "(scatter and counts may differ), 95 % for all pairs at once; letters by insert "
                 "and absorb."
               : "Compared: means adjusted by an additive model of implement and of hitter in "
                 "session, because cells are missing; pairs by Tukey and Kramer, 95 % for all "
                 "pairs at once; letters by insert and absorb.";
}

std::string controlSentence(const std::vector<ControlFinding>& controls) {
    const std::string how =
        "an implement is taken for one when its condition, or the name of one of its attributes, "
        "is \"control\"";
    return controls.empty()
               ? fmt::format(
                     "No control was filmed, so a drift of a session could be told from "
                     "the order of its shots only ({}).",
                     how)
               : fmt::format(
                     "Control: an implement struck at the start, the middle and the end "
                     "of a session, to see whether the session drifted ({}).",
                     how);
}

std::string bandsSentence(const Bands& bands) {
    std::vector<std::string> ranges;
    for (const Band& band : bands.all()) {
        ranges.push_back(fmt::format("{} ({} rpm)", band.name, rangeText(band)));
    }
    return fmt::format("Bands, set by the tester: {}.", words::joined(ranges));
}

}  // namespace

std::vector<std::string> methodSentences(const project::Snapshot& snapshot,
                                         const Findings& findings) {
    const ReadBy by = readBy(snapshot);
    if (by.marks + by.fits == 0) {
        return {"No shot has been kept yet."};
    }
    std::vector<std::string> sentences{readSentence(by), clockSentence(by),
                                       comparisonSentence(findings.together())};
    sentences.push_back(fmt::format(
        "Ranks: simulated {} times with seed {}; the interval of ranks holds the true rank with 95 "
        "% confidence, each implement by itself.",
        findings.draws, findings.seed));
    std::size_t aside = 0;
    for (const auto& shot : snapshot.shots) {
        aside += shot.standing == project::ShotStanding::SetAside ? 1U : 0U;
    }
    sentences.push_back(aside == 0
                            ? "No shot was set aside."
                            : fmt::format("Set aside, each with a reason: {}; they stay in the "
                                          "project and are in no number here.",
                                          words::shots(aside)));
    sentences.push_back(findings.noticeableStep
                            ? fmt::format("Noticeable step, set by the tester: {} rpm.",
                                          report::roundTrip(findings.noticeableStep->rpm))
                            : "No noticeable step is set.");
    if (!findings.bands.isEmpty()) {
        sentences.push_back(bandsSentence(findings.bands));
    }
    sentences.push_back(controlSentence(findings.controls));
    sentences.push_back(findings.looksSentence);
    sentences.push_back(
        "The table describes the specimens and hitters that were filmed, and no others.");
    return sentences;
}

}  // namespace core::findings
