#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/base/words.h"
#include "core/publish/page/content_parts.h"
#include "core/publish/page/marking_words.h"
#include "core/reading/project_reading.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"

namespace core::publish {
namespace {

using project::Snapshot;

/// "0.00241 s", "0.000577" of what has no unit.
std::string withUnitOf(double value, const std::string& unit) {
    return words::decimal(fmt::format("{:.3g}", value)) +
           (unit.empty() || unit == "1" ? "" : " " + unit);
}

std::string distributionWords(spin::Distribution distribution) {
    std::string words = saidText(spin::distributionName(distribution));
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

/// The uncertainty of one reading by marks, contribution by contribution (JCGM 100:2008, clause 8).
TableBlock budgetTable(const spin::MarksReading& read, const std::string& shot) {
    TableBlock table;
    table.caption =
        said("Uncertainty budget of one reading, {}: {} rpm (value and standard uncertainty).",
             shot, report::plusMinus(read.estimate.rpm, read.standardUncertainty.rpm));
    table.columns = {{said("contribution"), false, 2.2},
                     {said("distribution"), false, 1.4},
                     {said("u of the input"), true, 1.4},
                     {said("u in rpm"), true, 1.0},
                     {said("share of the variance"), true, 1.2}};
    for (const auto& row : read.budget.rows) {
        const bool isAssessed = row.distribution != spin::Distribution::NotAssessed;
        table.rows.push_back({saidText(row.name), distributionWords(row.distribution),
                              isAssessed ? withUnitOf(row.sigma, row.unit) : "–",
                              isAssessed ? report::fixed(row.contribution, 2) : "–",
                              isAssessed ? report::fixed(100.0 * row.share, 1) + " %" : "–"});
    }
    return table;
}

/// The budget of the first median shot, in the order of the ranks, that was read by marks.
void appendBudget(const ContentInput& input, Section& section) {
    const Snapshot& snapshot = *input.material.snapshot;
    for (const auto& row : input.findings.summary.implements) {
        const auto* shot = medianShot(snapshot, row.implement);
        const auto* reading = shot != nullptr ? snapshot.readings.find(*shot->counting) : nullptr;
        const auto frames =
            shot != nullptr ? input.material.frames.find(shot->clip) : input.material.frames.end();
        const bool isByMarks =
            reading != nullptr && reading->method == project::ReadingMethod::Marks;
        if (!isByMarks || frames == input.material.frames.end()) {
            continue;
        }
        if (const auto read = reading::readAgain(*reading, *frames->second)) {
            section.blocks.emplace_back(
                budgetTable(read.value(), project::shotName(snapshot, *shot)));
            return;
        }
    }
}

std::string withUnit(std::optional<double> value, double factor, const char* unit) {
    return value ? words::decimal(fmt::format("{:.4g} {}", *value * factor, unit))
                 : said("not known");
}

std::string captureWords(const project::Clip& clip) {
    const project::ClockSetting& clock = *clip.clock;
    if (clock.kind == timebase::ClockKind::Counted && clock.counted) {
        const double fps = clock.counted->fps.toDouble();
        return project::isTally(clip) ? said("{:.6g} frames/s, stated with the counts", fps)
                                      : said("{:.6g} frames/s, frames counted", fps);
    }
    const double stretch = clock.stretch.toDouble();
    const double rate = clip.playbackRate ? clip.playbackRate->fps.toDouble() * stretch : 0.0;
    return clock.kind == timebase::ClockKind::Stretched
               ? said("{:.6g} frames/s, played {:.4g} times slower", rate, stretch)
               : said("{:.6g} frames/s, time stamps trusted", rate);
}

std::string clocksOf(const Snapshot& snapshot, project::SessionId session) {
    std::set<std::string> words;
    for (const auto& clip : snapshot.clips) {
        if (clip.session == session) {
            words.insert(clip.clock ? captureWords(clip) : said("not settled"));
        }
    }
    std::string all;
    for (const auto& item : words) {
        all += (all.empty() ? "" : "; ") + item;
    }
    return all;
}

}  // namespace

Section methodSection(const ContentInput& input) {
    Section section{"method", said("How it was measured"), {}, true};
    const Sources sources = sourcesOf(*input.material.snapshot);
    if (sources.hasFilms) {
        section.blocks.emplace_back(Paragraph{
            said("A marked ball is filmed just after it is struck. Its spin rate is the number of "
                 "turns divided by the time they took, read from the frames of the film.")});
    }
    if (sources.hasCounts) {
        section.blocks.emplace_back(Paragraph{said(
            "Somebody counted the frames of a film from one orientation of the ball's mark until "
            "it was back there, and the counts were entered as a table. The spin rate is the "
            "number of turns divided by these frames and multiplied by the capture rate as it was "
            "stated. The films are not part of the project, so nobody can look at a shot again.")});
    }
    section.blocks.emplace_back(Paragraph{
        said("Every rate has a standard uncertainty worked out from everything that is known to "
             "blur it, and a 95 % interval (JCGM 100 and 101). The interval of a mean comes from "
             "the scatter of the shots and from what each reading leaves possible; what readings "
             "share, such as the clock, is added afterwards.")});
    section.blocks.emplace_back(
        BulletList{words::methodSentences(input.findings, words::Advice::Without)});
    appendBudget(input, section);
    return section;
}

Section daysSection(const ContentInput& input) {
    const Snapshot& snapshot = *input.material.snapshot;
    Section section{"days", said("Filming days"), {}, true};
    TableBlock table;
    table.caption = said("A row is one day with one set-up.");
    table.columns = {{said("day"), false, 1.6},     {said("date"), false, 1.0},
                     {said("ball"), false, 1.3},    {said("diameter"), true, 0.9},
                     {said("exposure"), true, 0.9}, {said("capture rate"), false, 1.8}};
    for (const auto& day : snapshot.sessions) {
        const bool areCounts = isCounted(snapshot, day.id);
        table.rows.push_back({day.name, day.date.empty() ? "–" : day.date,
                              areCounts ? "–" : markingWords(day.marking),
                              areCounts ? "–" : withUnit(day.ballDiameterMm, 1.0, "mm"),
                              areCounts ? "–" : withUnit(day.exposureSeconds, 1000.0, "ms"),
                              clocksOf(snapshot, day.id)});
    }
    if (!table.rows.empty()) {
        section.blocks.emplace_back(std::move(table));
    }
    for (const auto& day : snapshot.sessions) {
        if (!day.note.empty()) {
            section.blocks.emplace_back(Paragraph{day.name + ": " + day.note, Tone::Quiet});
        }
    }
    return section;
}

Section asideSection(const ContentInput& input) {
    const Snapshot& snapshot = *input.material.snapshot;
    Section section{"aside", said("Shots set aside, and shots far from the others"), {}, true};
    TableBlock aside;
    aside.columns = {{said("shot"), false, 1.6},
                     {said("implement and hitter"), false, 1.8},
                     {said("reason"), false, 2.6}};
    std::size_t open = 0;
    for (const auto* shot : project::shotsInOrder(snapshot)) {
        open += shot->standing == project::ShotStanding::Open ? 1U : 0U;
        if (shot->standing == project::ShotStanding::SetAside) {
            aside.rows.push_back({project::shotName(snapshot, *shot),
                                  shot->cell ? project::cellName(snapshot, *shot->cell) : "–",
                                  shot->reason});
        }
    }
    aside.caption = said("{} by the tester; in no number above.",
                         counted(aside.rows.size(), "shot set aside", "shots set aside"));
    if (open > 0) {
        section.blocks.emplace_back(
            Paragraph{said("{}; in no number above.",
                           counted(open, "shot is not yet read", "shots are not yet read"))});
    }
    if (!aside.rows.empty()) {
        section.blocks.emplace_back(std::move(aside));
    }
    BulletList odd;
    for (const auto& shot : input.findings.oddShots()) {
        odd.items.push_back(words::sentence(shot, words::Advice::Without));
    }
    if (!odd.items.empty()) {
        section.blocks.emplace_back(
            Paragraph{said("Shots far from the others of their cell, which do count:")});
        section.blocks.emplace_back(std::move(odd));
    }
    return section;
}

Section cautionsSection() {
    return {
        "cautions",
        said("Before you try this or choose by it"),
        {Paragraph{said("The table describes the specimens and hitters that were measured. Whether "
                        "an implement is legal to play with is for the governing body to say."),
                   Tone::Caution},
         Paragraph{
             said("A struck ball injures: nobody stands in the line of flight, the camera and its "
                  "operator are behind a net or screen, and whoever is near wears eye protection. "
                  "Repeated full swings injure the hitter: plan rest, and pain means stop. Follow "
                  "the rules of the place and the advice of a licensed coach or clinician."),
             Tone::Caution}}};
}

}  // namespace core::publish
