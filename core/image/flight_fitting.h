#pragma once

#include <optional>
#include <vector>

#include "core/image/flight_fit.h"
#include "core/image/kink.h"
#include "core/image/path_fit.h"

namespace core::image {

/// The frames a flight may occupy, and the fit over them. Internal to flight_fit.cpp, where the fit
/// is made, and flight_result.cpp, which tells what came of it. Confined.
class FlightFit {
public:
    FlightFit(FrameSource& source, const MovingPictures& moving, const LinkedFlight& flight,
              std::span<const BallHint> clicks, const TrackOptions& options);

    Result<BallTrack> run(const std::stop_token& stop);
    Result<FrameRange> seen(const std::stop_token& stop);

private:
    /// The path and the size from every third pixel, before edge, readout and errors are asked for.
    Result<void> fitCoarsely(PathFit& fit, const std::stop_token& stop) const;
    [[nodiscard]] double coarseEdge(double shareOfRadius) const;
    [[nodiscard]] double intervalSeconds() const;
    [[nodiscard]] Seconds longestReadout() const;
    Result<void> settleReadout(PathFit& fit, const std::stop_token& stop);
    [[nodiscard]] PathFit startFit() const;
    [[nodiscard]] SharedState startState(Seconds reference, Seconds span) const;
    [[nodiscard]] std::vector<SweptDisc> expectedBalls(const PathFit& fit,
                                                       double exposureSeconds) const;
    Result<void> cutPatches(PathFit& fit, double exposureSeconds, bool withNeighbours) const;
    [[nodiscard]] double visible(const PathFit& fit, const PathFrame& frame) const;
    void choose(PathFit& fit, bool isLast) const;
    [[nodiscard]] bool showsBall(const PathFit& fit, PathFrame& frame) const;
    [[nodiscard]] bool isShadow(const PathFit& fit) const;
    /// The frames in which the ball was seen whole, as points of its path.
    [[nodiscard]] std::vector<PathPoint> seenAlone(const PathFit& fit,
                                                   std::vector<std::size_t>& ordinals) const;
    /// The part of the flight that is the shot, when the flight has kinks.
    [[nodiscard]] std::optional<LinkedFlight> shotOf(const PathFit& fit) const;
    [[nodiscard]] bool endsAtKink() const {
        return m_flight.lastUsable < m_moving.frames.size() - 1;
    }
    /// On which side of a kink the frame next to it lies is not sure.
    [[nodiscard]] std::size_t lastSure() const {
        return m_flight.lastUsable - (endsAtKink() && m_flight.lastUsable > 0 ? 1 : 0);
    }
    [[nodiscard]] timebase::FrameIndex frameAfterKink() const {
        return m_moving.frames[m_flight.lastUsable + 1];
    }
    [[nodiscard]] Result<BallTrack> endAtKink(BallTrack track) const;
    [[nodiscard]] BallTrack collect(PathFit& fit) const;
    [[nodiscard]] BallInFrame describe(const PathFit& fit, const PathFrame& frame,
                                       std::size_t ordinal) const;
    [[nodiscard]] Ellipse outlineAt(const OutlineState& state) const;

    FrameSource& m_source;
    const MovingPictures& m_moving;
    const LinkedFlight& m_flight;
    std::span<const BallHint> m_clicks;
    const TrackOptions& m_options;
    PathFitSetup m_setup;
    std::optional<Seconds> m_givenReadout;
    std::optional<ReadoutEstimate> m_readoutSeen;
    std::size_t m_linkedFirst{};
    std::size_t m_linkedLast{};
    std::size_t m_first{};
    std::size_t m_last{};
    std::vector<PlacedFrame> m_placed;
};

}  // namespace core::image
