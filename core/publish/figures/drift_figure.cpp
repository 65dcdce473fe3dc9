#include <algorithm>

#include "core/base/words.h"
#include "core/publish/drawing/axis.h"
#include "core/publish/figures/figures.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"

namespace core::publish {
namespace {

using findings::DriftFinding;

constexpr double kPanelPt = 150.0;
constexpr std::size_t kMaxPanels = 6;
/// More points than these are thinned evenly: they would lie on each other.
constexpr std::size_t kMaxDriftPoints = 1200;

std::size_t strideOf(const DriftFinding& drift) {
    return drift.points.size() / (kMaxDriftPoints + 1) + 1;
}

void drawDriftPanel(std::vector<Drawn>& drawn, const DriftFinding& drift, double top) {
    drawn.emplace_back(GroupStart{words::sentence(drift, words::Advice::Without)});
    std::string title = said("{}, hitter {}", drift.sessionName, drift.hitterName);
    if (strideOf(drift) > 1) {
        title += " " + said("(every {}th shot drawn)", strideOf(drift));
    }
    drawn.emplace_back(
        Text{{12.0, top + 12.0}, cutToWidth(title, kFigureWidthPt - 24.0, kLeastTextPt)});
    Axis::Range across = emptyRange();
    Axis::Range up = emptyRange();
    for (const auto& point : drift.points) {
        take(across, point.x);
        take(up, point.y);
    }
    take(up, 0.0);
    const Box box{52.0, top + 34.0, kFigureWidthPt - 12.0, top + kPanelPt};
    const Axis x{across, box.left, box.right};
    const Axis y{up, box.bottom, box.top};
    drawHorizontalAxis(drawn, box, x, said("shot number of the hitter"));
    drawVerticalAxis(drawn, box, y, said("rpm above the level of its cell"));
    for (std::size_t i = 0; i < drift.points.size(); i += strideOf(drift)) {
        drawn.emplace_back(Marker{
            {x.at(drift.points[i].x), y.at(drift.points[i].y)}, Shape::Disc, Ink::Series1, 4.0});
    }
    if (drift.isShown()) {
        const auto height = [&](double at) {
            return std::clamp(y.at(drift.perShot->estimate * (at - drift.centre)), box.top,
                              box.bottom);
        };
        drawn.emplace_back(Line{{x.at(across.low), height(across.low)},
                                {x.at(across.high), height(across.high)},
                                Ink::Series2,
                                2.0});
    }
    drawn.emplace_back(GroupEnd{});
}

}  // namespace

Figure driftFigure(const findings::Findings& findings, const FigureOrigin& origin) {
    Figure figure;
    figure.name = "drift";
    figure.title = said("Spin against shot number within a filming day");
    std::vector<const DriftFinding*> shown;
    std::size_t all = 0;
    for (const auto& drift : findings.drifts) {
        if (drift.points.size() < 3 || !drift.perShot) {
            continue;
        }
        ++all;
        if (shown.size() < kMaxPanels) {
            shown.push_back(&drift);
        }
    }
    if (shown.empty()) {
        return figure;
    }
    double top = 4.0;
    for (const auto* drift : shown) {
        drawDriftPanel(figure.drawn, *drift, top);
        figure.caption +=
            (figure.caption.empty() ? "" : " ") + words::sentence(*drift, words::Advice::Without);
        top += kPanelPt + 40.0;
    }
    if (all > shown.size()) {
        figure.caption +=
            " " + said("Drawn are the first {} of {} hitters on their days.", shown.size(), all);
    }
    figure.description = figure.caption;
    finishFigure(figure, top, origin);
    return figure;
}

}  // namespace core::publish
