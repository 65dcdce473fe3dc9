#include <algorithm>
#include <limits>

#include "core/findings/find_trends.h"
#include "core/stats/comparison/pairwise.h"

namespace core::findings {
namespace {

/// Cells of one session that have a mean with a known uncertainty.
struct FilmedSession {
    project::SessionId id;
    std::string name;
    std::vector<const CellFinding*> cells;
};

std::vector<FilmedSession> filmedSessions(const std::vector<CellFinding>& cells) {
    std::vector<FilmedSession> sessions;
    for (const CellFinding& cell : cells) {
        if (!cell.row.estimate || !(cell.row.estimate->variance() > 0.0)) {
            continue;
        }
        auto at = std::find_if(sessions.begin(), sessions.end(), [&cell](const auto& session) {
            return session.id == cell.row.session;
        });
        if (at == sessions.end()) {
            sessions.push_back({cell.row.session, cell.row.sessionName, {}});
            at = sessions.end() - 1;
        }
        at->cells.push_back(&cell);
    }
    std::sort(sessions.begin(), sessions.end(),
              [](const auto& a, const auto& b) { return a.id < b.id; });
    return sessions;
}

/// Weighted cell means, and what they share.
struct LinkSum {
    std::vector<stats::IndependentMean> means;
    std::vector<double> weights;
    report::SharedParts shared;

    void add(const CellFinding& cell, double weight) {
        means.push_back(cell.row.estimate->independent());
        weights.push_back(weight);
        report::addParts(shared, cell.row.estimate->shared, weight);
    }
};

SessionLink linkOf(const FilmedSession& a, const FilmedSession& b) {
    SessionLink link{.first = a.id, .second = b.id, .firstName = a.name, .secondName = b.name};
    LinkSum sum;
    for (const CellFinding* first : a.cells) {
        for (const CellFinding* second : b.cells) {
            if (first->row.implement == second->row.implement &&
                first->row.hitter == second->row.hitter) {
                ++link.sharedCells;
                sum.add(*first, 1.0);
                sum.add(*second, -1.0);
            }
        }
    }
    if (link.sharedCells == 0) {
        link.difference = WhyNot::Kind::NoCellOnBothDays;
        return link;
    }
    const auto shared = static_cast<double>(link.sharedCells);
    for (double& weight : sum.weights) {
        weight /= shared;
    }
    // What each session shares errs by itself.
    sum.means.push_back({0.0,
                         report::varianceOf(sum.shared) / (shared * shared),
                         {std::numeric_limits<double>::infinity()}});
    sum.weights.push_back(1.0);
    link.difference = Said<stats::JudgedEstimate>{stats::contrast(sum.means, sum.weights)};
    return link;
}

}  // namespace

std::vector<SessionLink> findSessionLinks(const std::vector<CellFinding>& cells) {
    const auto sessions = filmedSessions(cells);
    std::vector<SessionLink> links;
    for (std::size_t i = 0; i < sessions.size(); ++i) {
        for (std::size_t j = i + 1; j < sessions.size(); ++j) {
            links.push_back(linkOf(sessions[i], sessions[j]));
        }
    }
    return links;
}

}  // namespace core::findings
