#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "core/base/words.h"
#include "core/publish/drawing/axis.h"
#include "core/publish/figures/figures.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::publish {
namespace {

constexpr double kAgreementPanelPt = 170.0;
/// More points than these are thinned evenly: they would lie on each other.
constexpr std::size_t kMaxAgreementPoints = 1200;

struct AgreementPanel {
    std::string title;
    std::string sentence;
    const std::vector<findings::ReadTwice>* shots;
    const stats::AgreementLimits* limits;
};

/// Names of lines, each at that end and on that side of its line where it covers the fewest points.
class LineNames {
public:
    LineNames(const Box& box, std::vector<PointPt> points)
        : m_box{box}, m_points{std::move(points)} {}

    Text place(const std::string& words, double lineAt) {
        std::optional<Place> best;
        for (const Anchor anchor : {Anchor::End, Anchor::Start}) {
            for (const bool isAbove : {true, false}) {
                const Place place = placeOf(words, lineAt, anchor, isAbove);
                best = best && best->covered <= place.covered ? best : place;
            }
        }
        m_taken.push_back(best->area);
        return {best->at, words, best->anchor, kLeastTextPt, Ink::Series2};
    }

private:
    struct Place {
        PointPt at;
        Anchor anchor{};
        Box area;
        std::size_t covered{};
    };

    [[nodiscard]] Place placeOf(const std::string& words, double lineAt, Anchor anchor,
                                bool isAbove) const {
        constexpr double kAwayPt = 3.0;
        const double wide = widestPt({words}, kLeastTextPt);
        Place place;
        place.anchor = anchor;
        place.at.x = anchor == Anchor::End ? m_box.right : m_box.left + kAwayPt;
        place.at.y = isAbove ? lineAt - kAwayPt : lineAt + kAwayPt + 0.75 * kLeastTextPt;
        place.area.left = anchor == Anchor::End ? place.at.x - wide : place.at.x;
        place.area.right = place.area.left + wide;
        place.area.top = place.at.y - kLeastTextPt;
        place.area.bottom = place.at.y + 0.25 * kLeastTextPt;
        place.covered = coveredBy(place.area);
        return place;
    }

    [[nodiscard]] std::size_t coveredBy(const Box& area) const {
        constexpr double kPointRadiusPt = 2.25;
        const auto points =
            std::count_if(m_points.begin(), m_points.end(), [&area](const PointPt& point) {
                return point.x > area.left - kPointRadiusPt &&
                       point.x < area.right + kPointRadiusPt &&
                       point.y > area.top - kPointRadiusPt &&
                       point.y < area.bottom + kPointRadiusPt;
            });
        const bool isTaken = std::any_of(m_taken.begin(), m_taken.end(), [&area](const Box& other) {
            return area.left < other.right && other.left < area.right && area.top < other.bottom &&
                   other.top < area.bottom;
        });
        const bool isOutside = area.top < m_box.top - kLeastTextPt || area.bottom > m_box.bottom;
        return static_cast<std::size_t>(points) + (isTaken || isOutside ? m_points.size() + 1 : 0);
    }

    Box m_box;
    std::vector<PointPt> m_points;
    std::vector<Box> m_taken;
};

void drawLimits(std::vector<Drawn>& drawn, const stats::AgreementLimits& limits, const Box& box,
                const Axis& y, std::vector<PointPt> points) {
    LineNames names{box, std::move(points)};
    const auto across = [&](double value, bool isDashed, const std::string& words) {
        const double at = y.at(value);
        drawn.emplace_back(Line{{box.left, at}, {box.right, at}, Ink::Series2, 1.4, isDashed});
        drawn.emplace_back(names.place(words, at));
    };
    const auto number = [&](double value) {
        return report::withDigitsOf(value, limits.limitError);
    };
    across(limits.upper.value, true, said("upper limit {} rpm", number(limits.upper.value)));
    across(limits.meanDifference, false,
           said("mean difference {} rpm", number(limits.meanDifference)));
    across(limits.lower.value, true, said("lower limit {} rpm", number(limits.lower.value)));
}

void drawAgreementPanel(std::vector<Drawn>& drawn, const AgreementPanel& panel, double top) {
    drawn.emplace_back(GroupStart{panel.sentence});
    drawn.emplace_back(
        Text{{12.0, top + 12.0}, cutToWidth(panel.title, kFigureWidthPt - 24.0, kLeastTextPt)});
    Axis::Range means = emptyRange();
    Axis::Range differences = emptyRange();
    take(differences, 0.0);
    for (const auto& shot : *panel.shots) {
        take(means, (shot.firstRpm + shot.secondRpm) / 2.0);
        take(differences, shot.firstRpm - shot.secondRpm);
    }
    if (panel.limits != nullptr) {
        take(differences, panel.limits->lower.value);
        take(differences, panel.limits->upper.value);
    }
    const Box box{52.0, top + 34.0, kFigureWidthPt - 12.0, top + kAgreementPanelPt};
    const Axis x{means, box.left, box.right};
    const Axis y{differences, box.bottom, box.top};
    drawHorizontalAxis(drawn, box, x, said("mean of the two, rpm"));
    drawVerticalAxis(drawn, box, y, said("first less second, rpm"));
    std::vector<PointPt> points;
    const std::size_t stride = panel.shots->size() / (kMaxAgreementPoints + 1) + 1;
    for (std::size_t i = 0; i < panel.shots->size(); i += stride) {
        const auto& shot = (*panel.shots)[i];
        points.push_back(
            {x.at((shot.firstRpm + shot.secondRpm) / 2.0), y.at(shot.firstRpm - shot.secondRpm)});
        drawn.emplace_back(Marker{points.back(), Shape::Disc, Ink::Series1, 4.5});
    }
    if (panel.limits != nullptr) {
        drawLimits(drawn, *panel.limits, box, y, std::move(points));
    }
    drawn.emplace_back(GroupEnd{});
}

std::vector<AgreementPanel> panelsOf(const findings::AgreementFindings& agreement) {
    std::vector<AgreementPanel> panels;
    const auto& methods = agreement.methods;
    if (!methods.shots.empty()) {
        panels.push_back({said("by marks (first) and from the pictures (second)"),
                          words::sentence(methods, words::Advice::Without), &methods.shots,
                          methods.limits ? &*methods.limits : nullptr});
    }
    for (const auto& repeat : agreement.repeats) {
        if (!repeat.shots.empty()) {
            panels.push_back({said("read twice by {}", words::reader(repeat.reader)),
                              words::sentence(repeat, words::Advice::Without), &repeat.shots,
                              nullptr});
        }
    }
    return panels;
}

}  // namespace

Figure agreementFigure(const findings::Findings& findings, const FigureOrigin& origin) {
    Figure figure;
    figure.name = "agreement";
    figure.title = said("The same shots determined twice: difference against mean");
    const auto panels = panelsOf(findings.agreement);
    if (panels.empty()) {
        return figure;
    }
    double top = 4.0;
    for (const auto& panel : panels) {
        drawAgreementPanel(figure.drawn, panel, top);
        figure.caption += (figure.caption.empty() ? "" : " ") + panel.sentence;
        top += kAgreementPanelPt + 40.0;
    }
    figure.description = figure.caption;
    finishFigure(figure, top, origin);
    return figure;
}

}  // namespace core::publish
