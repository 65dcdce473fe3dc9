#include "core/findings/findings.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "core/findings/ball_speed.h"
#include "core/findings/compared_means.h"
#include "core/findings/find_agreement.h"
#include "core/findings/find_cells.h"
#include "core/findings/find_comparison.h"
#include "core/findings/find_hitters.h"
#include "core/findings/find_trends.h"
#include "core/findings/odd_cells.h"
#include "core/findings/settings.h"
#include "core/jobs/aside.h"

namespace core::findings {
namespace {

/// FNV-1a, 64 bits (Fowler, Noll and Vo; constants as in RFC 9923).
class Fingerprint {
public:
    void add(std::uint64_t value) {
        for (int byte = 0; byte < 8; ++byte) {
            m_hash = (m_hash ^ ((value >> (8 * byte)) & 0xFFU)) * 0x100000001b3ULL;
        }
    }
    void add(double value) { add(std::bit_cast<std::uint64_t>(value)); }
    void add(const std::string& text) {
        for (const char letter : text) {
            add(static_cast<std::uint64_t>(static_cast<unsigned char>(letter)));
        }
    }
    void add(const ImplementNote& note) {
        add(static_cast<std::uint64_t>(note.kind));
        add(static_cast<std::uint64_t>(note.count));
        for (const auto& hitter : note.hitters) {
            add(hitter.name);
            add(hitter.meanRpm);
            add(hitter.sigmaRpm);
        }
    }
    [[nodiscard]] std::uint64_t value() const { return m_hash; }

private:
    std::uint64_t m_hash{0xcbf29ce484222325ULL};
};

/// What numbers the findings rest on: readings by shot and cell, and what they are judged by.
std::uint64_t fingerprintOf(const Findings& findings) {
    Fingerprint print;
    for (const CellFinding& cell : findings.cells) {
        auto readings = cell.row.readings;
        std::sort(readings.begin(), readings.end(),
                  [](const auto& a, const auto& b) { return a.shot < b.shot; });
        print.add(static_cast<std::uint64_t>(cell.row.cell.value));
        for (const auto& reading : readings) {
            print.add(static_cast<std::uint64_t>(reading.shot.value));
            print.add(reading.rate.value.rpm);
        }
    }
    print.add(findings.noticeableStep ? findings.noticeableStep->rpm : 0.0);
    print.add(findings.bands.text());
    print.add(findings.seed);
    print.add(static_cast<std::uint64_t>(findings.draws));
    return print.value();
}

/// Everything that one comparison rests on.
std::uint64_t comparisonFingerprint(const Findings& findings,
                                    std::optional<project::HitterId> hitter) {
    Fingerprint print;
    for (const ImplementFinding& implement : findings.implements) {
        print.add(static_cast<std::uint64_t>(implement.row.implement.value));
        print.add(implement.name);
        for (const ImplementNote& note : implement.notes) {
            print.add(note);
        }
        for (const std::size_t at : implement.cells) {
            const auto& row = findings.cells[at].row;
            if (hitter && row.hitter != *hitter) {
                continue;
            }
            print.add(static_cast<std::uint64_t>(row.cell.value));
            for (const auto& reading : row.readings) {
                print.add(reading.rate.value.rpm);
                print.add(reading.clockRelativeSigma);
                print.add(reading.viewRelativeSigma);
                print.add(reading.habitRpm);
                print.add(reading.likelihood.value);
                print.add(reading.likelihood.sigma);
                print.add(reading.likelihood.top);
            }
        }
    }
    print.add(findings.noticeableStep ? findings.noticeableStep->rpm : 0.0);
    print.add(findings.bands.text());
    print.add(findings.seed);
    print.add(static_cast<std::uint64_t>(findings.draws));
    return print.value();
}

/// The hitters that a cell is planned for, as added.
std::vector<std::pair<project::HitterId, std::string>> hittersOf(const report::Summary& summary) {
    std::map<project::HitterId, std::string> names;
    for (const auto& cell : summary.cells) {
        names[cell.hitter] = cell.hitterName;
    }
    return {names.begin(), names.end()};
}

const Comparison* earlierComparison(const Findings* earlier, const Findings& now,
                                    std::optional<project::HitterId> hitter) {
    if (earlier == nullptr || earlier->noticeableStep != now.noticeableStep) {
        return nullptr;
    }
    const auto at =
        std::find_if(earlier->comparisons.begin(), earlier->comparisons.end(),
                     [hitter](const Comparison& known) { return known.hitter == hitter; });
    return at == earlier->comparisons.end() ? nullptr : &*at;
}

/// Whose comparisons there are: all hitters together, then, where several, each alone.
struct Scope {
    std::optional<project::HitterId> hitter;
    std::string name;
};

Result<Comparison> findComparison(const Findings& findings, const Scope& scope,
                                  const std::stop_token& stop, const Findings* earlier) {
    const std::uint64_t print = comparisonFingerprint(findings, scope.hitter);
    const Comparison* known = earlierComparison(earlier, findings, scope.hitter);
    if (known != nullptr && known->fingerprint == print) {
        return *known;
    }
    const ComparisonContext context{.step = findings.noticeableStep,
                                    .bands = &findings.bands,
                                    .seed = findings.seed,
                                    .draws = findings.draws,
                                    .stop = stop,
                                    .earlier = known};
    BOOST_OUTCOME_TRY(comparison,
                      compare(compareMeans(findings.implements, findings.cells, scope.hitter),
                              findings.implements, context));
    comparison.hitter = scope.hitter;
    comparison.hitterName = scope.name;
    comparison.fingerprint = print;
    return std::move(comparison);
}

/// All scopes at once: they need nothing of each other.
Result<void> findComparisons(Findings& findings, const std::stop_token& stop,
                             const Findings* earlier) {
    std::vector<Scope> scopes{{}};
    const auto hitters = hittersOf(findings.summary);
    for (std::size_t i = 0; hitters.size() > 1 && i < hitters.size(); ++i) {
        scopes.push_back({hitters[i].first, hitters[i].second});
    }
    std::vector<jobs::Aside<Result<Comparison>>> works;
    for (const Scope& scope : scopes) {
        works.emplace_back([&findings, &scope, &stop, earlier] {
            return findComparison(findings, scope, stop, earlier);
        });
    }
    std::vector<Comparison> comparisons;
    for (auto& work : works) {
        BOOST_OUTCOME_TRY(comparison, work.get());
        comparisons.push_back(std::move(comparison));
    }
    findings.comparisons = std::move(comparisons);
    return ok();
}

BallSpeeds findBallSpeeds(const project::Snapshot& snapshot, Findings& findings,
                          const Findings* earlier) {
    BallSpeeds speeds;
    for (const auto& reading : snapshot.readings) {
        if (reading.method != project::ReadingMethod::RotationFit) {
            continue;
        }
        const bool isKnown = earlier != nullptr && earlier->ballSpeeds.contains(reading.id);
        const auto speed = isKnown ? earlier->ballSpeeds.at(reading.id) : ballSpeed(reading);
        findings.ballSpeeds[reading.id] = speed;
        if (speed) {
            speeds[reading.shot] = *speed;
        }
    }
    return speeds;
}

}  // namespace

namespace {

struct Groups {
    Findings findings;
    Crossed crossed;
};

/// What is said of cells and hitters, before implements are compared.
Result<Groups> findGroups(const project::Snapshot& snapshot, const FindingsOptions& options,
                          const Findings* earlier) {
    Findings findings;
    findings.revision = snapshot.revision;
    findings.seed = options.seed;
    findings.draws = options.draws;
    BOOST_OUTCOME_TRY(step, noticeableStep(snapshot));
    BOOST_OUTCOME_TRY(edges, bands(snapshot));
    BOOST_OUTCOME_TRY(summary, report::summarise(snapshot));
    findings.noticeableStep = step;
    findings.bands = edges;
    findings.summary = std::move(summary);
    static const std::vector<CellFinding> kNoCells;
    findings.cells = findCells(findings.summary, earlier != nullptr ? earlier->cells : kNoCells);
    findOddScatters(findings.cells);
    findings.implements = findImplements(snapshot, findings.summary, findings.cells);
    Crossed crossed = crossCells(findings.implements, findings.cells);
    findings.hitters = findHitters(findings.implements, crossed, step);
    return Groups{std::move(findings), std::move(crossed)};
}

}  // namespace

Result<Findings> findCellsAndHitters(const project::Snapshot& snapshot) {
    BOOST_OUTCOME_TRY(groups, findGroups(snapshot, {}, nullptr));
    return std::move(groups.findings);
}

Result<Findings> findFindings(const project::Snapshot& snapshot, const FindingsOptions& options,
                              const std::stop_token& stop, const Findings* earlier) {
    BOOST_OUTCOME_TRY(groups, findGroups(snapshot, options, earlier));
    Findings findings = std::move(groups.findings);
    findings.fingerprint = fingerprintOf(findings);
    const Looks looked = looks(snapshot);
    findings.looks =
        looked.fingerprint == findings.fingerprint ? std::max(0, looked.count - 1) : looked.count;
    noteOddCells(findings.implements, groups.crossed, findings.hitters);
    BOOST_OUTCOME_TRY(findComparisons(findings, stop, earlier));
    if (stop.stop_requested()) {
        return fail(ErrorCode::Cancelled, "Cancelled.");
    }
    findings.conditions = findConditions(findings.implements, findings.together());
    findings.attributes = findAttributes(snapshot, findings.together());
    const ShotNumbers numbers = numberShots(snapshot);
    findings.drifts = findDrifts(findings.cells, numbers);
    findings.controls = findControls(snapshot, findings.cells, numbers);
    findings.sessions = findSessionLinks(findings.cells);
    findings.speed = findSpeed(findings.implements, findBallSpeeds(snapshot, findings, earlier));
    findings.agreement = findAgreement(snapshot);
    findings.method = methodOf(snapshot);
    return findings;
}

const Comparison* Findings::comparisonOf(project::HitterId hitter) const noexcept {
    const auto at =
        std::find_if(comparisons.begin(), comparisons.end(),
                     [hitter](const Comparison& found) { return found.hitter == hitter; });
    return at == comparisons.end() ? nullptr : &*at;
}

const ImplementFinding* Findings::find(project::ImplementId implement) const noexcept {
    const auto at = std::find_if(
        implements.begin(), implements.end(),
        [implement](const ImplementFinding& found) { return found.row.implement == implement; });
    return at == implements.end() ? nullptr : &*at;
}

std::vector<OddShot> Findings::oddShots() const {
    std::vector<OddShot> odd;
    for (const CellFinding& cell : cells) {
        odd.insert(odd.end(), cell.oddShots.begin(), cell.oddShots.end());
    }
    std::stable_sort(odd.begin(), odd.end(),
                     [](const OddShot& a, const OddShot& b) { return a.statistic > b.statistic; });
    return odd;
}

}  // namespace core::findings
