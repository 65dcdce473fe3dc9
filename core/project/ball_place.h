#pragma once

#include <optional>
#include <vector>

#include "core/project/model.h"

namespace core::project {

/// Where the ball is in a frame, picture coordinates as shown.
struct BallPlace {
    std::int64_t frame{};
    double xPx{};
    double yPx{};
    double radiusPx{};
};

/// The ball in the frames of a shot: as the rotation fit of the reading tracked it, else as a
/// person pointed at it, in between by straight lines. Immutable.
class BallPlaces {
public:
    /// reading: the one that counts; null when there is none.
    BallPlaces(const Shot& shot, const Reading* reading);
    explicit BallPlaces(std::vector<BallPlace> known);

    /// Frames in which the ball is known to be, in order; empty when nobody has said where it is.
    [[nodiscard]] bool isEmpty() const noexcept { return m_known.empty(); }
    [[nodiscard]] std::int64_t first() const { return m_known.front().frame; }
    [[nodiscard]] std::int64_t last() const { return m_known.back().frame; }
    /// Absent outside first() to last().
    [[nodiscard]] std::optional<BallPlace> at(std::int64_t frame) const;
    /// As at(); before first() and after last() on the straight line of the two places next to it.
    /// Absent only when nothing is known.
    [[nodiscard]] std::optional<BallPlace> around(std::int64_t frame) const;

private:
    std::vector<BallPlace> m_known;
};

}  // namespace core::project
