#include <algorithm>

#include "core/base/words.h"
#include "core/publish/drawing/axis.h"
#include "core/publish/figures/figures.h"
#include "core/report/number_format.h"

namespace core::publish {
namespace {

using findings::Comparison;
using findings::Findings;
using findings::RankedImplement;

constexpr double kSidePt = 8.0;
constexpr double kMostRankedNamePt = 150.0;

/// Where names and letters stand.
struct RankedLayout {
    bool isNameAbove{};
    double rowPt{};
    std::vector<std::string> names{};  ///< of the rows, where they stand beside them
    double nameRoomPt{};               ///< left of the box
    double letterRoomPt{};             ///< right of the box
};

struct RankedChart {
    const Findings& findings;
    RankedLayout layout;
    Box box;
    Axis axis;
    std::vector<Drawn> drawn{};
};

RankedLayout layoutOfRanks(const Comparison& table) {
    if (table.ranked.size() <= kMostNamesAbove) {
        return {true, 34.0};
    }
    std::vector<std::string> names;
    for (const auto& row : table.ranked) {
        names.push_back(row.name);
    }
    if (widestPt(names, kLeastTextPt) > kMostRankedNamePt) {
        return {true, 29.0};  // no name is cut
    }
    RankedLayout layout{false, 17.0};
    for (const auto& row : table.ranked) {
        layout.letterRoomPt =
            std::max(layout.letterRoomPt, roughWidthPt(row.letters, kLeastTextPt) + 6.0);
    }
    layout.letterRoomPt = std::min(layout.letterRoomPt, 60.0);
    layout.names = std::move(names);
    layout.nameRoomPt = widestPt(layout.names, kLeastTextPt) + 6.0;
    return layout;
}

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
        chart.drawn.emplace_back(GroupStart{said("{}: {} rpm", band.name, rangeText(band))});
        chart.drawn.emplace_back(Rectangle{{from, chart.box.top},
                                           to - from,
                                           chart.box.bottom - chart.box.top,
                                           isSecond ? Ink::BandA : Ink::BandB});
        chart.drawn.emplace_back(Text{{(from + to) / 2.0, chart.box.top - 4.0},
                                      cutToWidth(band.name, to - from - 2.0, kLeastTextPt),
                                      Anchor::Middle,
                                      kLeastTextPt,
                                      Ink::Soft});
        chart.drawn.emplace_back(GroupEnd{});
    }
}

std::string rankedRowTitle(const RankedImplement& row) {
    return said("{}: {} rpm, 95 % {} rpm, {}", row.name,
                report::withDigitsOf(row.mean.value, row.mean.standardUncertainty),
                report::intervalText(row.mean.interval95.low, row.mean.interval95.high,
                                     row.mean.standardUncertainty),
                counted(row.shots, "shot", "shots"));
}

void drawNameAndLetters(RankedChart& chart, std::size_t place, double top) {
    const RankedImplement& row = chart.findings.together().ranked[place];
    const RankedLayout& layout = chart.layout;
    if (layout.isNameAbove) {
        const double letterRoom = roughWidthPt(row.letters, kLeastTextPt) + 10.0;
        const double nameRoom = chart.box.right - chart.box.left - letterRoom;
        chart.drawn.emplace_back(
            Text{{chart.box.left, top + 12.0}, cutToWidth(row.name, nameRoom, kLeastTextPt)});
        chart.drawn.emplace_back(Text{{chart.box.right, top + 12.0},
                                      row.letters,
                                      Anchor::End,
                                      kLeastTextPt,
                                      Ink::Soft,
                                      true});
        return;
    }
    const double y = top + layout.rowPt / 2.0 + 0.35 * kLeastTextPt;
    chart.drawn.emplace_back(Text{{kSidePt, y}, layout.names[place]});
    chart.drawn.emplace_back(Text{{chart.box.right + 6.0, y},
                                  cutToWidth(row.letters, layout.letterRoomPt, kLeastTextPt),
                                  Anchor::Start,
                                  kLeastTextPt,
                                  Ink::Soft,
                                  true});
}

void drawRankedRow(RankedChart& chart, std::size_t place, double top) {
    const RankedImplement& row = chart.findings.together().ranked[place];
    auto& drawn = chart.drawn;
    drawn.emplace_back(GroupStart{rankedRowTitle(row)});
    drawNameAndLetters(chart, place, top);
    const double y = top + (chart.layout.isNameAbove ? 23.0 : chart.layout.rowPt / 2.0);
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
        const std::string cut = cutToWidth(words, 180.0, kLeastTextPt);
        const double width = roughWidthPt(cut, kLeastTextPt) + 24.0;
        if (x + width > kFigureWidthPt - kSidePt && x > kSidePt) {
            x = kSidePt;
            y += 15.0;
        }
        Marker marker = look;
        marker.at = {x + 5.0, y - 3.5};
        drawn.emplace_back(marker);
        drawn.emplace_back(Text{{x + 13.0, y}, cut, Anchor::Start, kLeastTextPt, Ink::Soft});
        x += width;
    };
    add({{}, Shape::Disc, Ink::Text, 8.0}, said("mean with 95 % interval"));
    std::size_t hitter = 0;
    for (const auto& comparison : findings.comparisons) {
        if (comparison.hitter) {
            const auto look = report::seriesLook(hitter);
            add({{}, look.shape, inkOf(look.colour), 6.0, false},
                said("hitter {}", comparison.hitterName));
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
    const std::string ruler = said("noticeable step: {} rpm", report::shortest(step));
    if (width > chart.box.right - chart.box.left) {
        chart.drawn.emplace_back(Text{{chart.box.left, top + 12.0},
                                      said("{}, more than is shown here", ruler),
                                      Anchor::Start,
                                      kLeastTextPt,
                                      Ink::Step});
        return top + 18.0;
    }
    const double y = top + 8.0;
    const double end = chart.box.left + width;
    chart.drawn.emplace_back(Line{{chart.box.left, y}, {end, y}, Ink::Step, 2.4});
    for (const double x : {chart.box.left, end}) {
        chart.drawn.emplace_back(Line{{x, y - 4.0}, {x, y + 4.0}, Ink::Step, 1.4});
    }
    const bool hasRoomBehind = end + 8.0 + roughWidthPt(ruler, kLeastTextPt) < chart.box.right;
    chart.drawn.emplace_back(
        Text{{hasRoomBehind ? end + 8.0 : chart.box.left, hasRoomBehind ? y + 3.5 : y + 16.0},
             ruler,
             Anchor::Start,
             kLeastTextPt,
             Ink::Step});
    return y + (hasRoomBehind ? 10.0 : 22.0);
}

Figure rankedPart(const Findings& findings, const Axis::Range& range, const FigureRows& rows,
                  const FigureOrigin& origin) {
    const Comparison& table = findings.together();
    Figure figure;
    figure.name = "ranked";
    figure.title = said("Mean spin by implement with 95 % intervals");
    if (std::any_of(table.ranked.begin(), table.ranked.end(),
                    [](const auto& row) { return !row.letters.empty(); })) {
        figure.caption =
            said("Highest mean first. Implements that share a letter cannot be told apart.");
    }
    const RankedLayout layout = layoutOfRanks(table);
    std::vector<Drawn> legend;
    const double legendBottom = drawLegend(legend, findings, 4.0);
    const double top = legendBottom + (findings.bands.isEmpty() ? 4.0 : 16.0);
    const double bottom =
        top + layout.rowPt * static_cast<double>(rows.behindLast - rows.first) + 2.0;
    const Box box{kSidePt + layout.nameRoomPt, top, kFigureWidthPt - kSidePt - layout.letterRoomPt,
                  bottom};
    RankedChart chart{findings, layout, box, Axis{range, box.left, box.right}};
    drawBands(chart);
    drawHorizontalAxis(chart.drawn, box, chart.axis, said("spin, rpm"));
    double y = top;
    for (std::size_t i = rows.first; i < rows.behindLast; ++i) {
        figure.description +=
            (figure.description.empty() ? "" : "; ") + rankedRowTitle(table.ranked[i]);
        drawRankedRow(chart, i, y);
        y += layout.rowPt;
    }
    const double end = drawStepRuler(chart, bottom + 32.0);
    figure.drawn = std::move(chart.drawn);
    figure.drawn.insert(figure.drawn.end(), legend.begin(), legend.end());
    finishFigure(figure, end, origin);
    return figure;
}

}  // namespace

std::vector<Figure> rankedFigures(const Findings& findings, const FigureOrigin& origin) {
    std::vector<Figure> figures;
    const Axis::Range range = rankedRange(findings);
    if (findings.together().ranked.empty() || isEmpty(range)) {
        return figures;
    }
    const std::size_t rowsOfOne = layoutOfRanks(findings.together()).isNameAbove ? 2 : 1;
    const auto parts =
        figureRows(std::vector<std::size_t>(findings.together().ranked.size(), rowsOfOne));
    for (const FigureRows& rows : parts) {
        figures.push_back(rankedPart(findings, range, rows, origin));
        numberFigure(figures.back(), figures.size() - 1, parts.size());
    }
    return figures;
}

}  // namespace core::publish
