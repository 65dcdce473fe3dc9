#pragma once

#include <string>
#include <vector>

namespace tests {

/// One fitted shot beside its truth.
struct AccuracyRow {
    std::string name;
    std::string marking;
    double captureFps{};
    double trueRpm{};
    double axisToCameraDegrees{};
    double ballPx{};
    int frames{};
    double exposureTurnDegrees{};
    double framesPerTurn{};
    bool isReading{};
    double rpm{};
    double sigmaRpm{};
    bool isCovered{};  ///< the 95 % interval holds the truth
    double axisErrorDegrees{};
    double axisSigmaDegrees{};
    double fieldOfViewErrorDegrees{};
    double uniqueness{};
    double explained{};
    double nextRatio{};  ///< prediction error of the strongest other candidate over the best's
    double milliseconds{};
    std::string reason;

    [[nodiscard]] double relativeError() const { return rpm / trueRpm - 1.0; }
    /// What the fit is meant for.
    [[nodiscard]] bool isInScope() const {
        return ballPx >= 30.0 && frames >= 8 && exposureTurnDegrees <= 30.0;
    }
};

void printRow(const AccuracyRow& row);
/// Errors, coverage, blunders and refusals, in all and by condition.
void printTables(const std::vector<AccuracyRow>& rows);

}  // namespace tests
