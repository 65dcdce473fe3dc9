#include <fmt/format.h>

#include <algorithm>

#include "core/publish/drawing/axis.h"
#include "core/publish/figures/figures.h"
#include "core/report/number_format.h"

namespace core::publish {
namespace {

using findings::Comparison;
using findings::Findings;
using findings::RankedImplement;

constexpr double kRowPt = 34.0;
constexpr double kNamePt = 11.0;
constexpr double kSidePt = 12.0;

struct RankedChart {
    const Findings& findings;
    const Comparison& table;
    Box box;
    Axis axis;
    std::vector<Drawn> drawn{};
};

Axis::Range rankedRange(const Findings& findings) {
    Axis::Range range = emptyRange();
    for (const auto& comparison : findings.comparisons) {
        for (const auto& row : comparison.ranked) {
            take(range, row.mean.value);
            if (!comparison.hitter) {
                take(range, row.mean.interval95.low);
                take(range, row.mean.interval95.high);
            }
        }
    }
    return range;
}

void drawBands(RankedChart& chart) {
    bool isSecond = false;
    for (const auto& band : chart.findings.bands.all()) {
        const double from = std::clamp(band.low ? chart.axis.at(band.low->rpm) : chart.box.left,
                                       chart.box.left, chart.box.right);
        const double to = std::clamp(band.high ? chart.axis.at(band.high->rpm) : chart.box.right,
                                     chart.box.left, chart.box.right);
        isSecond = !isSecond;
        if (to - from < 1.0) {
            continue;
        }
        chart.drawn.emplace_back(GroupStart{band.name + ": " + rangeText(band) + " rpm"});
        chart.drawn.emplace_back(Rectangle{{from, chart.box.top},
                                           to - from,
                                           chart.box.bottom - chart.box.top,
                                           isSecond ? Ink::BandA : Ink::BandB});
        chart.drawn.emplace_back(Text{{(from + to) / 2.0, chart.box.top - 4.0},
                                      cutToWidth(band.name, to - from - 4.0, 9.0),
                                      Anchor::Middle,
                                      9.0,
                                      Ink::Soft});
        chart.drawn.emplace_back(GroupEnd{});
    }
}

std::string rankedRowTitle(const RankedImplement& row) {
    return row.name + ": " + report::withDigitsOf(row.mean.value, row.mean.standardUncertainty) +
           " rpm, 95 % " +
           report::intervalText(row.mean.interval95.low, row.mean.interval95.high,
                                row.mean.standardUncertainty) +
           fmt::format(" rpm, {} shots", row.shots);
}

void drawRankedRow(RankedChart& chart, const RankedImplement& row, double top) {
    auto& drawn = chart.drawn;
    drawn.emplace_back(GroupStart{rankedRowTitle(row)});
    const double letterRoom = roughWidthPt(row.letters, kNamePt) + 10.0;
    const double nameRoom = chart.box.right - chart.box.left - letterRoom;
    drawn.emplace_back(Text{{chart.box.left, top + 12.0},
                            cutToWidth(row.name, nameRoom, kNamePt),
                            Anchor::Start,
                            kNamePt});
    drawn.emplace_back(
        Text{{chart.box.right, top + 12.0}, row.letters, Anchor::End, kNamePt, Ink::Soft, true});
    const double y = top + 23.0;
    const double low = chart.axis.at(row.mean.interval95.low);
    const double high = chart.axis.at(row.mean.interval95.high);
    drawn.emplace_back(Line{{low, y}, {high, y}, Ink::Text, 2.0});
    drawn.emplace_back(Line{{low, y - 4.0}, {low, y + 4.0}, Ink::Text, 1.2});
    drawn.emplace_back(Line{{high, y - 4.0}, {high, y + 4.0}, Ink::Text, 1.2});
    std::size_t hitter = 0;
    for (const auto& comparison : chart.findings.comparisons) {
        if (!comparison.hitter) {
            continue;
        }
        if (const auto* own = comparison.find(row.implement)) {
            const auto look = report::seriesLook(hitter);
            drawn.emplace_back(Marker{
                {chart.axis.at(own->mean.value), y}, look.shape, inkOf(look.colour), 6.0, false});
        }
        ++hitter;
    }
    drawn.emplace_back(Marker{{chart.axis.at(row.mean.value), y}, Shape::Disc, Ink::Text, 8.0});
    drawn.emplace_back(GroupEnd{});
}

/// Returns the bottom of the legend.
double drawLegend(std::vector<Drawn>& drawn, const Findings& findings, double top) {
    double x = kSidePt;
    double y = top + 12.0;
    const auto add = [&](const Marker& look, const std::string& words) {
        const std::string cut = cutToWidth(words, 180.0, 10.0);
        const double width = roughWidthPt(cut, 10.0) + 24.0;
        if (x + width > kFigureWidthPt - kSidePt && x > kSidePt) {
            x = kSidePt;
            y += 15.0;
        }
        Marker marker = look;
        marker.at = {x + 5.0, y - 3.5};
        drawn.emplace_back(marker);
        drawn.emplace_back(Text{{x + 13.0, y}, cut, Anchor::Start, 10.0, Ink::Soft});
        x += width;
    };
    add({{}, Shape::Disc, Ink::Text, 8.0}, "mean with 95 % interval");
    std::size_t hitter = 0;
    for (const auto& comparison : findings.comparisons) {
        if (comparison.hitter) {
            const auto look = report::seriesLook(hitter);
            add({{}, look.shape, inkOf(look.colour), 6.0, false},
                "hitter " + comparison.hitterName);
            ++hitter;
        }
    }
    return y + 6.0;
}

double drawStepRuler(RankedChart& chart, double top) {
    if (!chart.findings.noticeableStep) {
        return top;
    }
    const double step = chart.findings.noticeableStep->rpm;
    const double width = chart.axis.at(chart.axis.low() + step) - chart.box.left;
    const std::string words = "noticeable step: " + report::roundTrip(step) + " rpm";
    if (width > chart.box.right - chart.box.left) {
        chart.drawn.emplace_back(Text{{chart.box.left, top + 12.0},
                                      words + ", more than is shown here",
                                      Anchor::Start,
                                      10.0,
                                      Ink::Step});
        return top + 18.0;
    }
    const double y = top + 8.0;
    const double end = chart.box.left + width;
    chart.drawn.emplace_back(Line{{chart.box.left, y}, {end, y}, Ink::Step, 2.4});
    for (const double x : {chart.box.left, end}) {
        chart.drawn.emplace_back(Line{{x, y - 4.0}, {x, y + 4.0}, Ink::Step, 1.4});
    }
    const bool hasRoomBehind = end + 8.0 + roughWidthPt(words, 10.0) < chart.box.right;
    chart.drawn.emplace_back(
        Text{{hasRoomBehind ? end + 8.0 : chart.box.left, hasRoomBehind ? y + 3.5 : y + 16.0},
             words,
             Anchor::Start,
             10.0,
             Ink::Step});
    return y + (hasRoomBehind ? 10.0 : 22.0);
}

}  // namespace

Figure rankedFigure(const Findings& findings, const FigureOrigin& origin) {
    Figure figure;
    const Comparison& table = findings.together();
    const Axis::Range range = rankedRange(findings);
    if (table.ranked.empty() || isEmpty(range)) {
        return figure;
    }
    figure.name = "ranked";
    figure.title = "Mean spin by implement with 95 % intervals";
    figure.caption = table.sentence;
    for (const auto& row : table.ranked) {
        figure.description += (figure.description.empty() ? "" : "; ") + rankedRowTitle(row);
    }
    std::vector<Drawn> legend;
    const double legendBottom = drawLegend(legend, findings, 4.0);
    const double top = legendBottom + (findings.bands.isEmpty() ? 4.0 : 16.0);
    const double bottom = top + kRowPt * static_cast<double>(table.ranked.size()) + 2.0;
    const Box box{kSidePt, top, kFigureWidthPt - kSidePt, bottom};
    RankedChart chart{findings, table, box, Axis{range, box.left, box.right}};
    drawBands(chart);
    drawHorizontalAxis(chart.drawn, box, chart.axis, "spin, rpm");
    double y = top;
    for (const auto& row : table.ranked) {
        drawRankedRow(chart, row, y);
        y += kRowPt;
    }
    const double end = drawStepRuler(chart, bottom + 32.0);
    figure.drawn = std::move(chart.drawn);
    figure.drawn.insert(figure.drawn.end(), legend.begin(), legend.end());
    finishFigure(figure, end, origin);
    return figure;
}

}  // namespace core::publish
