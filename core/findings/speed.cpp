#include "core/findings/find_trends.h"

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
        found.analysis = WhyNot::Kind::FewBallSpeeds;
        return found;
    }
    std::vector<stats::PairedValues> groups;
    for (std::size_t i = 0; i < x.size(); ++i) {
        groups.push_back({x[i], y[i]});
    }
    found.analysis = Said<stats::CovarianceAnalysis>{stats::analyseCovariance(groups)};
    return found;
}

}  // namespace core::findings
