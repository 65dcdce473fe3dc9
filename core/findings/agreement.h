#pragma once

#include <string>
#include <vector>

#include "core/findings/said.h"
#include "core/project/model.h"
#include "core/stats/readers/agreement.h"
#include "core/stats/readers/gauge_study.h"
#include "core/stats/readers/intraclass.h"

namespace core::findings {

/// The same shot determined twice, by two methods or by two readers.
struct ReadTwice {
    project::ShotId shot{};
    double firstRpm{};
    double secondRpm{};
};

/// Marks against rotation fit on the same shots.
struct MethodAgreement {
    std::vector<ReadTwice> shots{};  ///< first by marks, second by rotation fit
    Said<stats::AgreementLimits> limits{};
};

/// The same shots read by the same reader again.
struct RepeatFinding {
    std::string reader{};
    std::vector<ReadTwice> shots{};
    Said<stats::Repeatability> repeatability{};
};

/// The same shots read by several readers.
struct ReaderStudy {
    std::vector<std::string> readers{};
    std::vector<project::ShotId> shots{};       ///< that all of them have read
    std::size_t repeats{};                      ///< by each reader, at least
    Said<stats::GaugeStudy> gauge{};            ///< repeatability and reproducibility
    Said<stats::IntraclassForms> intraclass{};  ///< first reading of each
};

/// Two readers on the shots that both have read by marks.
struct ReaderPair {
    std::string first{};
    std::string second{};
    std::vector<ReadTwice> shots{};  ///< the first reading of each
    Said<stats::AgreementLimits> limits{};
};

struct AgreementFindings {
    MethodAgreement methods;
    std::vector<RepeatFinding> repeats{};
    ReaderStudy readers;
    std::vector<ReaderPair> readerPairs{};  ///< with three shots in common and more
};

}  // namespace core::findings
