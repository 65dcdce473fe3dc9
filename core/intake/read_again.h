#pragma once

#include <string>
#include <vector>

#include "core/intake/film_files.h"
#include "core/intake/reading_ahead.h"

namespace core::intake {

/// What came of reading kept shots again.
struct ReadAgainReport {
    std::size_t kept{};            ///< shots with a new number that counts
    std::vector<Refused> refused;  ///< shots that keep their old number, and why
    bool isCancelled{};
};

/// Kept shots that are read again because a fact changed on which they rest, each by the method of
/// the reading that counts. The pictures are read piece by piece; keep() then makes the new numbers
/// count, as one edit. What counted before stays among the readings of the shot. Confined to the
/// thread of the store.
class ReadAgain : public jobs::Source {
public:
    /// The store must outlive it.
    ReadAgain(project::Store& store, std::vector<project::ShotId> shots);
    ReadAgain(const ReadAgain&) = delete;
    ReadAgain& operator=(const ReadAgain&) = delete;

    std::optional<Piece> next() override;
    void cancel() override;
    [[nodiscard]] bool isCancelled() const override { return m_readings.isCancelled(); }

    [[nodiscard]] std::size_t shots() const noexcept { return m_shots.size(); }
    /// When everything has come home. After a cancel nothing is changed.
    /// Errors: those of project::Store::keepReadings().
    Result<ReadAgainReport> keep();

private:
    Result<project::Reading> readingOf(const project::Snapshot& snapshot,
                                       const project::Shot& shot) const;

    project::Store& m_store;
    std::vector<project::ShotId> m_shots;
    std::map<project::ShotId, std::string> m_failed;  ///< shots whose pictures were not read
    ReadingAhead m_readings;
};

}  // namespace core::intake
