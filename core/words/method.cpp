#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/project/reading_effort.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::words {
namespace {

using findings::Comparison;
using findings::ComparisonModel;
using findings::Findings;
using findings::MethodFacts;

std::string readSentence(const MethodFacts& by) {
    std::vector<std::string> methods;
    if (by.marks > 0) {
        methods.push_back(saidOf(by.marks, "{} shot from marks", "{} shots from marks", by.marks));
    }
    if (by.fits > 0) {
        methods.push_back(
            saidOf(by.fits, "{} shot from the pictures", "{} shots from the pictures", by.fits));
    }
    for (const auto& [habit, count] : by.counts) {
        methods.push_back(saidOf(count, "{} shot from whole-frame counts ({})",
                                 "{} shots from whole-frame counts ({})", count,
                                 spin::habitWords(habit)));
    }
    std::vector<std::string> readers{by.readers.begin(), by.readers.end()};
    std::erase(readers, std::string{});
    if (readers.size() < by.readers.size() && !readers.empty()) {
        readers.push_back(reader({}));
    }
    const std::string versions = joined({by.versions.begin(), by.versions.end()});
    return readers.empty() ? said("Read: {}; version of the method: {}.", joined(methods), versions)
                           : said("Read: {}, by {}; version of the method: {}.", joined(methods),
                                  joined(readers), versions);
}

std::string durationText(double seconds) {
    if (seconds < 90.0) {
        return fmt::format("{:.0f} s", seconds);
    }
    const auto minutes = std::llround(seconds / 60.0);
    return minutes < 90 ? fmt::format("{} min", minutes)
                        : fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

/// "1 key or click", "2.5 keys or clicks".
std::string pressesText(double count) {
    return count == 1.0 ? said("1 key or click")
                        : said("{} keys or clicks", report::shortest(count));
}

std::string effortSentence(const MethodFacts::Effort& effort, std::size_t kept) {
    std::string sentence = said(
        "Reading took {} of a person's time for {} (median {} s and {} a shot; of a pause at most "
        "{:.0f} s count)",
        durationText(effort.seconds),
        effort.shots == kept
            ? counted(kept, "shot", "shots")
            : said("{} of the {} kept shots, the others were not timed", effort.shots, kept),
        report::fixed(effort.medianSeconds, effort.medianSeconds < 10.0 ? 1 : 0),
        pressesText(effort.medianPresses), project::kLongestPauseSeconds);
    if (effort.hidden > 0) {
        sentence += effort.hidden == effort.shots
                        ? saidOf(effort.hidden,
                                 "; it was read with implement and hitter hidden, in shuffled "
                                 "order",
                                 "; all were read with implement and hitter hidden, in shuffled "
                                 "order")
                        : saidOf(effort.hidden,
                                 "; {} of them was read with implement and hitter hidden, in "
                                 "shuffled order",
                                 "; {} of them were read with implement and hitter hidden, in "
                                 "shuffled order",
                                 effort.hidden);
    }
    return sentence + ".";
}

std::string clockSentence(const MethodFacts& by) {
    return said(
        "Clock: shots of one clip, or of one table of counts, share a relative standard "
        "uncertainty of {}; it is added to a mean after averaging, because more shots do not make "
        "it smaller.",
        by.leastClock == by.mostClock
            ? said("{:.2g} %", 100.0 * by.mostClock)
            : said("{:.2g} % to {:.2g} %", 100.0 * by.leastClock, 100.0 * by.mostClock));
}

std::string sharedSentence(const MethodFacts& by) {
    std::vector<std::string> parts;
    if (by.hasView) {
        parts.push_back(said("the line of sight"));
    }
    if (by.counts.contains(spin::CountingHabit::Unknown)) {
        parts.push_back(said("the counting habit, which is not known"));
    }
    return saidOf(
        parts.size(),
        "Like the clock, {} is shared by the shots of a filming day: added once to a mean, and "
        "taken out of differences as far as both have it.",
        "Like the clock, {} are shared by the shots of a filming day: added once to a mean, and "
        "taken out of differences as far as both have it.",
        joined(parts));
}

std::string comparisonSentence(const Comparison& comparison) {
    return comparison.model == ComparisonModel::CellMeans
               ? said(
                     "Compared: the plain average of each implement's cells, pairs by Games and "
                     "Howell (scatter and counts may differ), 95 % for all pairs at once; letters "
                     "by Piepho (2004).")
               : said(
                     "Compared: means adjusted by an additive model of implement and of hitter on "
                     "a filming day, because cells are missing; pairs by Tukey and Kramer, 95 % "
                     "for all pairs at once; letters by Piepho (2004).");
}

std::string controlSentence(const std::vector<findings::ControlFinding>& controls, Advice advice) {
    return (controls.empty()
                ? said("No control was struck, so a drift within a filming day could be seen only "
                       "from the order of its shots.")
                : said("Control: an implement struck at the start, the middle and the end of a "
                       "filming day, to see whether spin drifted.")) +
           (advice == Advice::With
                ? said(" An implement is a control when the plan says so, or when its condition or "
                       "one of its attributes is named \"control\".")
                : std::string{});
}

/// Whether chance decided what was struck when.
std::string orderSentence(const plan::Plan& planned) {
    if (planned.isEmpty()) {
        return said(
            "No plan was kept, so it is not known whether the implements were struck in random "
            "order.");
    }
    std::string_view order;
    switch (planned.order) {
        case plan::OrderKind::Random:
            order = toSay("random");
            break;
        case plan::OrderKind::Blocked:
            order = toSay("implement by implement, the implements in random order");
            break;
        case plan::OrderKind::LatinSquare:
            order = toSay("balanced, each implement as often in every place");
            break;
        case plan::OrderKind::Williams:
            order = toSay("balanced, each implement as often in every place and after every other");
            break;
    }
    return said("Order of the shots as planned: {} (seed {}).", saidText(order), planned.seed);
}

std::string bandsSentence(const findings::Bands& bands) {
    std::vector<std::string> ranges;
    for (const findings::Band& band : bands.all()) {
        ranges.push_back(said("{} ({} rpm)", band.name, rangeText(band)));
    }
    return said("Bands, set by the tester: {}.", joined(ranges));
}

std::string asideSentence(std::size_t aside) {
    return aside == 0 ? said("No shot was set aside.")
                      : saidOf(aside,
                               "Set aside, each with a reason: {} shot; they stay in the "
                               "project and are in no number here.",
                               "Set aside, each with a reason: {} shots; they stay in the "
                               "project and are in no number here.",
                               aside);
}

/// How shots were read: by what, in which order, and what readings share.
void addReading(const MethodFacts& by, std::vector<std::string>& sentences) {
    sentences.push_back(readSentence(by));
    if (by.effort) {
        sentences.push_back(effortSentence(*by.effort, by.kept()));
    }
    sentences.push_back(orderSentence(by.plan));
    sentences.push_back(clockSentence(by));
    if (by.hasView || by.counts.contains(spin::CountingHabit::Unknown)) {
        sentences.push_back(sharedSentence(by));
    }
    if (!by.counts.empty()) {
        sentences.push_back(
            said("Whole-frame counts enter by what they leave possible (the interval or triangle "
                 "of periods), so equal counts are not taken for equal spins."));
    }
}

/// What the tester has set.
void addSettings(const Findings& findings, std::vector<std::string>& sentences) {
    sentences.push_back(findings.noticeableStep
                            ? said("Noticeable step, set by the tester: {} rpm.",
                                   report::shortest(findings.noticeableStep->rpm))
                            : said("No noticeable step is set."));
    if (!findings.bands.isEmpty()) {
        sentences.push_back(bandsSentence(findings.bands));
    }
}

}  // namespace

std::vector<std::string> methodSentences(const Findings& findings, Advice advice) {
    const MethodFacts& by = findings.method;
    std::vector<std::string> leftOut;
    for (const auto& clip : findings.summary.leftOut) {
        leftOut.push_back(report::leftOutSentence(clip));
    }
    if (by.kept() == 0) {
        return leftOut.empty() ? std::vector{said("No shot has been kept yet.")} : leftOut;
    }
    std::vector<std::string> sentences;
    addReading(by, sentences);
    if (!findings.together().pairs.empty()) {
        sentences.push_back(comparisonSentence(findings.together()));
        sentences.push_back(said(
            "Ranks: simulated {} times with seed {}; the interval of ranks holds the true rank "
            "with 95 % confidence, each implement by itself.",
            findings.draws, findings.seed));
    }
    sentences.push_back(asideSentence(by.setAside));
    sentences.insert(sentences.end(), leftOut.begin(), leftOut.end());
    for (const auto& flight : by.overruled) {
        sentences.push_back(
            said("The flight speaks against the capture rate of {}: {} It was overruled: {}.",
                 flight.clip, saidKept(flight.statement), flight.why));
    }
    addSettings(findings, sentences);
    if (by.marks + by.fits > 0) {
        sentences.push_back(controlSentence(findings.controls, advice));
    }
    sentences.push_back(looksSentence(findings.looks, advice));
    sentences.push_back(
        said("The table describes these specimens and these hitters, and no others."));
    return sentences;
}

}  // namespace core::words
