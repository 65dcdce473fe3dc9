#include "core/findings/method.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/findings/advice.h"
#include "core/findings/words.h"
#include "core/project/clock_refutation.h"
#include "core/report/number_format.h"

namespace core::findings {
namespace {

/// What the counting readings have in common.
struct ReadBy {
    std::size_t marks{};
    std::size_t fits{};
    std::map<spin::CountingHabit, std::size_t> counts;  ///< whole frames, counted elsewhere
    std::set<std::string> readers;
    std::set<std::string> versions;
    bool hasView{};
    double leastClock{1.0};
    double mostClock{0.0};
};

ReadBy readBy(const project::Snapshot& snapshot) {
    ReadBy by;
    for (const auto& shot : snapshot.shots) {
        if (!project::isCounted(snapshot, shot)) {
            continue;
        }
        if (const auto* reading = snapshot.readings.find(*shot.counting)) {
            ++(reading->habit                                     ? by.counts[*reading->habit]
               : reading->method == project::ReadingMethod::Marks ? by.marks
                                                                  : by.fits);
            by.hasView = by.hasView || reading->viewRelativeSigma;
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
        readers.push_back(words::reader({}));
    }
    const std::string versions = words::joined({by.versions.begin(), by.versions.end()});
    return readers.empty()
               ? said("Read: {}; version of the method: {}.", words::joined(methods), versions)
               : said("Read: {}, by {}; version of the method: {}.", words::joined(methods),
                      words::joined(readers), versions);
}

double medianOf(std::vector<double>& values) {
    const auto upper = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), upper, values.end());
    return values.size() % 2 == 1 ? *upper
                                  : 0.5 * (*upper + *std::max_element(values.begin(), upper));
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

/// What reading the kept shots cost; empty where that is known of none. It is known of a shot when
/// a visit that was counted kept a reading of it.
std::string effortSentence(const project::Snapshot& snapshot, std::size_t kept) {
    std::vector<double> seconds;
    std::vector<double> presses;
    std::size_t hidden = 0;
    double total = 0.0;
    for (const auto& [id, effort] : project::effortByShot(snapshot)) {
        const auto* shot = snapshot.shots.find(id);
        if (!effort.namesHidden || shot == nullptr ||
            shot->standing != project::ShotStanding::Kept) {
            continue;
        }
        total += effort.activeSeconds;
        seconds.push_back(effort.activeSeconds);
        presses.push_back(static_cast<double>(effort.keys + effort.clicks));
        hidden += *effort.namesHidden ? 1U : 0U;
    }
    if (seconds.empty()) {
        return {};
    }
    const double median = medianOf(seconds);
    std::string sentence = said(
        "Reading took {} of a person's time for {} (median {} s and {} a shot; of a pause at most "
        "{:.0f} s count)",
        durationText(total),
        seconds.size() == kept
            ? counted(kept, "shot", "shots")
            : said("{} of the {} kept shots, the others were not timed", seconds.size(), kept),
        report::fixed(median, median < 10.0 ? 1 : 0), pressesText(medianOf(presses)),
        project::kLongestPauseSeconds);
    if (hidden > 0) {
        sentence += hidden == seconds.size()
                        ? saidOf(hidden,
                                 "; it was read with implement and hitter hidden, in shuffled "
                                 "order",
                                 "; all were read with implement and hitter hidden, in shuffled "
                                 "order")
                        : saidOf(hidden,
                                 "; {} of them was read with implement and hitter hidden, in "
                                 "shuffled order",
                                 "; {} of them were read with implement and hitter hidden, in "
                                 "shuffled order",
                                 hidden);
    }
    return sentence + ".";
}

std::string clockSentence(const ReadBy& by) {
    return said(
        "Clock: shots of one clip, or of one table of counts, share a relative standard "
        "uncertainty of {}; it is added to a mean after averaging, because more shots do not make "
        "it smaller.",
        by.leastClock == by.mostClock
            ? said("{:.2g} %", 100.0 * by.mostClock)
            : said("{:.2g} % to {:.2g} %", 100.0 * by.leastClock, 100.0 * by.mostClock));
}

std::string sharedSentence(const ReadBy& by) {
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
        words::joined(parts));
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

std::string controlSentence(const std::vector<ControlFinding>& controls) {
    return (controls.empty()
                ? said("No control was struck, so a drift within a filming day could be seen only "
                       "from the order of its shots.")
                : said("Control: an implement struck at the start, the middle and the end of a "
                       "filming day, to see whether spin drifted.")) +
           saidText(advice::kNameControl);
}

/// Whether chance decided what was struck when.
std::string orderSentence(const project::Snapshot& snapshot) {
    const plan::Plan& planned = project::planOf(snapshot);
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

std::string bandsSentence(const Bands& bands) {
    std::vector<std::string> ranges;
    for (const Band& band : bands.all()) {
        ranges.push_back(said("{} ({} rpm)", band.name, rangeText(band)));
    }
    return said("Bands, set by the tester: {}.", words::joined(ranges));
}

/// Clocks that a person keeps although the flight speaks against them.
void addOverruled(const project::Snapshot& snapshot, std::vector<std::string>& sentences) {
    for (const auto& clip : snapshot.clips) {
        const auto refutation = project::refutationOf(snapshot, clip);
        if (refutation && !refutation->overruled.empty()) {
            sentences.push_back(
                said("The flight speaks against the capture rate of {}: {} It was overruled: {}.",
                     clipName(snapshot, clip.id), saidKept(refutation->statement),
                     refutation->overruled));
        }
    }
}

}  // namespace

std::vector<std::string> methodSentences(const project::Snapshot& snapshot,
                                         const Findings& findings) {
    const ReadBy by = readBy(snapshot);
    std::size_t kept = by.marks + by.fits;
    for (const auto& [habit, count] : by.counts) {
        kept += count;
    }
    std::vector<std::string> leftOut;
    for (const auto& clip : findings.summary.leftOut) {
        leftOut.push_back(report::leftOutSentence(clip));
    }
    if (kept == 0) {
        return leftOut.empty() ? std::vector{said("No shot has been kept yet.")} : leftOut;
    }
    std::vector<std::string> sentences{readSentence(by)};
    if (auto effort = effortSentence(snapshot, kept); !effort.empty()) {
        sentences.push_back(std::move(effort));
    }
    sentences.push_back(orderSentence(snapshot));
    sentences.push_back(clockSentence(by));
    if (by.hasView || by.counts.contains(spin::CountingHabit::Unknown)) {
        sentences.push_back(sharedSentence(by));
    }
    if (!by.counts.empty()) {
        sentences.push_back(
            said("Whole-frame counts enter by what they leave possible (the interval or triangle "
                 "of periods), so equal counts are not taken for equal spins."));
    }
    if (!findings.together().pairs.empty()) {
        sentences.push_back(comparisonSentence(findings.together()));
        sentences.push_back(said(
            "Ranks: simulated {} times with seed {}; the interval of ranks holds the true rank "
            "with 95 % confidence, each implement by itself.",
            findings.draws, findings.seed));
    }
    std::size_t aside = 0;
    for (const auto& shot : snapshot.shots) {
        aside += shot.standing == project::ShotStanding::SetAside ? 1U : 0U;
    }
    sentences.push_back(aside == 0
                            ? said("No shot was set aside.")
                            : saidOf(aside,
                                     "Set aside, each with a reason: {} shot; they stay in the "
                                     "project and are in no number here.",
                                     "Set aside, each with a reason: {} shots; they stay in the "
                                     "project and are in no number here.",
                                     aside));
    sentences.insert(sentences.end(), leftOut.begin(), leftOut.end());
    addOverruled(snapshot, sentences);
    sentences.push_back(findings.noticeableStep
                            ? said("Noticeable step, set by the tester: {} rpm.",
                                   report::shortest(findings.noticeableStep->rpm))
                            : said("No noticeable step is set."));
    if (!findings.bands.isEmpty()) {
        sentences.push_back(bandsSentence(findings.bands));
    }
    if (by.marks + by.fits > 0) {
        sentences.push_back(controlSentence(findings.controls));
    }
    sentences.push_back(findings.looksSentence);
    sentences.push_back(
        said("The table describes these specimens and these hitters, and no others."));
    return sentences;
}

}  // namespace core::findings
