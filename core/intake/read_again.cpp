#include "core/intake/read_again.h"

#include "core/base/kept_words.h"
#include "core/base/words.h"

namespace core::intake {
namespace {

const project::Reading* countingOf(const project::Snapshot& snapshot, const project::Shot& shot) {
    return shot.standing == project::ShotStanding::Kept && shot.counting
               ? snapshot.readings.find(*shot.counting)
               : nullptr;
}

}  // namespace

ReadAgain::ReadAgain(project::Store& store, std::vector<project::ShotId> shots)
    : m_store{store},
      m_shots{std::move(shots)},
      m_readings{store, {.begun = {}, .ended = [this](const ReadingAhead::Outcome& outcome) {
                             if (!outcome.reading) {
                                 m_failed[outcome.shot] = outcome.reading.error().message;
                             } else if (!outcome.kept) {
                                 m_failed[outcome.shot] = outcome.kept.error().message;
                             }
                         }}} {
    const auto snapshot = store.snapshot();
    for (const project::ShotId id : m_shots) {
        const auto* shot = snapshot->shots.find(id);
        const auto* counting = shot != nullptr ? countingOf(*snapshot, *shot) : nullptr;
        if (counting != nullptr && counting->method == project::ReadingMethod::RotationFit) {
            m_readings.queue(id);
        }
    }
}

std::optional<jobs::Source::Piece> ReadAgain::next() {
    auto piece = m_readings.next();
    if (piece) {
        piece->title = said("Reading kept shots again, {} to go", m_readings.waiting() + 1);
    }
    return piece;
}

void ReadAgain::cancel() {
    m_readings.cancel();
}

Result<project::Reading> ReadAgain::readingOf(const project::Snapshot& snapshot,
                                              const project::Shot& shot) const {
    const auto* counting = countingOf(snapshot, shot);
    if (counting == nullptr) {
        return fail(ErrorCode::NotFound, said("It is no longer kept."));
    }
    if (counting->method == project::ReadingMethod::Marks) {
        BOOST_OUTCOME_TRY(frames, m_store.clipFrames(shot.clip));
        BOOST_OUTCOME_TRY(read, reading::readMarks(snapshot, shot, *frames));
        return reading::makeMarksReading(snapshot, shot, *frames, read);
    }
    if (const auto failed = m_failed.find(shot.id); failed != m_failed.end()) {
        return fail(ErrorCode::Untrustworthy, failed->second);
    }
    BOOST_OUTCOME_TRY(request, reading::requestOf(snapshot, shot.id));
    const auto read = keptReading(m_store, shot.id, request);
    if (!read || !read->rate) {
        return fail(ErrorCode::Untrustworthy,
                    read ? saidKept(read->reason)
                         : said("Its pictures were not read: its clip was not found."));
    }
    return reading::makeFitReading(snapshot, shot, request, *read);
}

Result<ReadAgainReport> ReadAgain::keep() {
    ReadAgainReport report;
    report.isCancelled = isCancelled();
    const auto snapshot = m_store.snapshot();
    std::vector<project::Reading> readings;
    for (const project::ShotId id : m_shots) {
        const auto* shot = snapshot->shots.find(id);
        if (shot == nullptr || report.isCancelled) {
            continue;
        }
        auto made = readingOf(*snapshot, *shot);
        if (made) {
            readings.push_back(std::move(made).value());
        } else {
            report.refused.push_back({shotName(*snapshot, *shot), made.error().message});
        }
    }
    if (!readings.empty()) {
        const std::string what = toKeep(
            "Read {} again, because a fact changed on which they "
            "rest.",
            countToKeep(readings.size(), "kept shot", "kept shots"));
        BOOST_OUTCOME_TRY(m_store.together(what, [&]() -> Result<void> {
            BOOST_OUTCOME_TRY(m_store.keepReadings(readings));
            return ok();
        }));
    }
    report.kept = readings.size();
    return report;
}

}  // namespace core::intake
