#include "core/publish/page/content_parts.h"
#include "core/base/number.h"
#include "core/publish/page/marking_words.h"

#include <fmt/format.h>

#include <array>
#include <set>

#include "core/reading/project_reading.h"
#include "core/report/number_format.h"

namespace core::publish {
namespace {

using project::Snapshot;

void addSentence(BulletList& list, const std::string& sentence) {
    if (!sentence.empty()) {
        list.items.push_back(sentence);
    }
}

/// The uncertainty of one reading by marks, contribution by contribution (JCGM 100:2008, clause 8).
TableBlock budgetTable(const spin::MarksReading& read, const std::string& shot) {
    TableBlock table;
    table.caption = "Uncertainty budget of one reading, " + shot + ": " +
                    report::plusMinus(read.estimate.rpm, read.standardUncertainty.rpm) +
                    " rpm (value and standard uncertainty).";
    table.columns = {{"contribution", false, 2.2},
                     {"distribution", false, 1.4},
                     {"u of the input", true, 1.4},
                     {"u in rpm", true, 1.0},
                     {"share of the variance", true, 1.2}};
    for (const auto& row : read.budget.rows) {
        const bool isAssessed = row.distribution != spin::Distribution::NotAssessed;
        std::string distribution{spin::distributionName(row.distribution)};
        std::replace(distribution.begin(), distribution.end(), '_', ' ');
        table.rows.push_back({row.name, distribution,
                              isAssessed ? fmt::format("{:.3g} {}", row.sigma, row.unit) : "–",
                              isAssessed ? fmt::format("{:.2f}", row.contribution) : "–",
                              isAssessed ? fmt::format("{:.1f} %", 100.0 * row.share) : "–"});
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
    return value ? fmt::format("{:.4g} {}", *value * factor, unit) : std::string{"not known"};
}

std::string captureWords(const project::ClockSetting& clock,
                         const std::optional<timebase::PlaybackRate>& playback) {
    if (clock.kind == timebase::ClockKind::Counted && clock.counted) {
        return fmt::format("{:.6g} fps, frames counted", clock.counted->fps.toDouble());
    }
    const double stretch = clock.stretch.toDouble();
    const double rate = playback ? playback->fps.toDouble() * stretch : 0.0;
    return clock.kind == timebase::ClockKind::Stretched
               ? fmt::format("{:.6g} fps, played {:.4g} times slower", rate, stretch)
               : fmt::format("{:.6g} fps, time stamps trusted", rate);
}

std::string clocksOf(const Snapshot& snapshot, project::SessionId session) {
    std::set<std::string> words;
    for (const auto& clip : snapshot.clips) {
        if (clip.session == session) {
            words.insert(clip.clock ? captureWords(*clip.clock, clip.playbackRate)
                                    : std::string{"not settled"});
        }
    }
    std::string all;
    for (const auto& item : words) {
        all += (all.empty() ? "" : "; ") + item;
    }
    return all;
}

}  // namespace

Section moreSection(const ContentInput& input) {
    const auto& findings = input.findings;
    Section section{"more", "Hitters, wear, attributes, drift and agreement", {}, true};
    BulletList list;
    addSentence(list, findings.hitters.sentence);
    addSentence(list, findings.hitters.missingSentence);
    for (const auto& cell : findings.hitters.interaction) {
        addSentence(list, cell.sentence);
    }
    for (const auto& contrast : findings.conditions) {
        addSentence(list, contrast.sentence);
    }
    for (const auto& attribute : findings.attributes) {
        addSentence(list, attribute.sentence);
    }
    for (const auto& drift : findings.drifts) {
        addSentence(list, drift.sentence);
    }
    for (const auto& control : findings.controls) {
        addSentence(list, control.sentence);
    }
    for (const auto& link : findings.sessions) {
        addSentence(list, link.sentence);
    }
    addSentence(list, findings.speed.sentence);
    addSentence(list, findings.agreement.methods.sentence);
    for (const auto& repeat : findings.agreement.repeats) {
        addSentence(list, repeat.sentence);
    }
    addSentence(list, findings.agreement.readers.sentence);
    for (const auto& pair : findings.agreement.readerPairs) {
        addSentence(list, pair.sentence);
    }
    if (!list.items.empty()) {
        section.blocks.emplace_back(std::move(list));
    }
    return section;
}

Section methodSection(const ContentInput& input) {
    Section section{"method", "How it was measured", {}};
    section.blocks.emplace_back(Paragraph{
        "A marked ball is filmed just after it is struck. Its spin rate is the number of turns "
        "divided by the time they took, read from the frames of the film. Every rate has a "
        "standard uncertainty worked out from everything that is known to blur it, and a 95 % "
        "interval (JCGM 100 and 101). The interval of a mean comes from the scatter of the shots; "
        "the uncertainty of the clock, which all shots of a clip share, is added afterwards."});
    section.blocks.emplace_back(BulletList{input.findings.method});
    appendBudget(input, section);
    return section;
}

Section filmingSection(const ContentInput& input) {
    const Snapshot& snapshot = *input.material.snapshot;
    Section section{"filming", "Filming days", {}};
    TableBlock table;
    table.caption = "One day with one set-up a row.";
    table.columns = {{"session", false, 1.6}, {"date", false, 1.0},
                     {"ball", false, 1.3},    {"diameter", true, 0.9},
                     {"exposure", true, 0.9}, {"capture rate", false, 1.8}};
    for (const auto& session : snapshot.sessions) {
        table.rows.push_back(
            {session.name, session.date.empty() ? "–" : session.date, markingWords(session.marking),
             withUnit(session.ballDiameterMm, 1.0, "mm"),
             withUnit(session.exposureSeconds, 1000.0, "ms"), clocksOf(snapshot, session.id)});
    }
    if (!table.rows.empty()) {
        section.blocks.emplace_back(std::move(table));
    }
    for (const auto& session : snapshot.sessions) {
        if (!session.note.empty()) {
            section.blocks.emplace_back(Paragraph{session.name + ": " + session.note, Tone::Quiet});
        }
    }
    return section;
}

Section asideSection(const ContentInput& input) {
    const Snapshot& snapshot = *input.material.snapshot;
    Section section{"aside", "Shots that do not count", {}};
    TableBlock aside;
    aside.columns = {{"shot", false, 1.6}, {"whose", false, 1.8}, {"reason", false, 2.6}};
    std::size_t open = 0;
    for (const auto* shot : project::shotsInOrder(snapshot)) {
        open += shot->standing == project::ShotStanding::Open ? 1U : 0U;
        if (shot->standing == project::ShotStanding::SetAside) {
            aside.rows.push_back({project::shotName(snapshot, *shot),
                                  shot->cell ? project::cellName(snapshot, *shot->cell) : "–",
                                  shot->reason});
        }
    }
    aside.caption =
        fmt::format("Set aside by the tester, {} in all; in no number above.", aside.rows.size());
    section.blocks.emplace_back(Paragraph{
        fmt::format("{} set aside with a reason, {} not decided.",
                    aside.rows.empty() ? std::string{"No shot was"}
                                       : counted(aside.rows.size(), "shot was", "shots were"),
                    open == 0 ? std::string{"none is"} : counted(open, "is", "are"))});
    if (!aside.rows.empty()) {
        section.blocks.emplace_back(std::move(aside));
    }
    BulletList odd;
    for (const auto& shot : input.findings.oddShots()) {
        addSentence(odd, shot.sentence);
    }
    if (!odd.items.empty()) {
        section.blocks.emplace_back(
            Paragraph{"Shots far from the others of their cell, which do count:"});
        section.blocks.emplace_back(std::move(odd));
    }
    return section;
}

Section cautionsSection() {
    return {"cautions",
            "Before you try this or choose by it",
            {Paragraph{"The table describes the specimens and hitters that were filmed. Whether an "
                       "implement is legal to play with is for the governing body to say.",
                       Tone::Caution},
             Paragraph{"A struck ball injures: nobody stands in the line of flight, the camera and "
                       "its operator are behind a net or screen, and whoever is near wears eye "
                       "protection. Repeated full swings injure the hitter: plan rest, and pain "
                       "means stop. Follow the rules of the place and the advice of a licensed "
                       "coach or clinician.",
                       Tone::Caution}}};
}

}  // namespace core::publish
