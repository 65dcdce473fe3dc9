#include "core/base/words.h"
#include "core/findings/find_trends.h"
#include "core/findings/words.h"

namespace core::findings {
namespace {

constexpr std::size_t kFewestShots = 3;  // of an implement, with a speed

}  // namespace

SpeedFinding findSpeed(const std::vector<ImplementFinding>& implements, const BallSpeeds& speeds) {
    SpeedFinding found;
    std::vector<std::vector<double>> x;
    std::vector<std::vector<double>> y;
    for (const ImplementFinding& implement : implements) {
        std::vector<double> speed;
        std::vector<double> rate;
        for (const auto& reading : implement.row.readings) {
            const auto at = speeds.find(reading.shot);
            if (at != speeds.end()) {
                speed.push_back(at->second);
                rate.push_back(reading.rate.value.rpm);
            }
        }
        if (speed.size() >= kFewestShots) {
            x.push_back(std::move(speed));
            y.push_back(std::move(rate));
        }
    }
    if (x.size() < 2) {
        found.analysis = Said<stats::CovarianceAnalysis>::because(said(
            "Implements cannot be compared at equal ball speed: fewer than two of them have three "
            "kept readings with a ball speed. A reading from the pictures gives it when the "
            "filming day says how large the ball is."));
        found.sentence = found.analysis.whyNot();
        return found;
    }
    std::vector<stats::PairedValues> groups;
    for (std::size_t i = 0; i < x.size(); ++i) {
        groups.push_back({x[i], y[i]});
    }
    found.analysis = Said<stats::CovarianceAnalysis>{stats::analyseCovariance(groups)};
    if (!found.analysis) {
        found.sentence = found.analysis.whyNot();
        return found;
    }
    const auto& slope = found.analysis->slope;
    found.sentence = said(
        "One metre a second more goes with {} of spin; at equal ball speed {} ({}).",
        words::difference(slope),
        found.analysis->groups.pValue < 0.05 ? said("the implements differ")
                                             : said("no difference shown between the implements"),
        words::p(found.analysis->groups.pValue));
    if (found.analysis->equalSlopes && found.analysis->equalSlopes->pValue < 0.05) {
        found.sentence += said(
            " The implements do not share one slope, so one number for all of them hides "
            "differences.");
    }
    return found;
}

}  // namespace core::findings
