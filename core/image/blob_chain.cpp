#include "core/image/blob_chain.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "core/image/kink.h"
#include "core/image/median.h"

namespace core::image {

namespace {

constexpr double kMinRadiusPx = 5.0;  // a ball of 20 px of which only half stands out
constexpr double kMaxRadiusPx = 130.0;
constexpr double kMaxElongation = 7.0;
constexpr std::size_t kMaxMisses = 3;  // frames without a fitting blob before growth ends
constexpr double kMinAreaRatio = 0.3;  // against the median area of the flight
constexpr double kMaxAreaRatio = 2.2;
constexpr std::size_t kMinMembers = 4;
constexpr double kMinWay = 3.0;  // radii from first to last
constexpr double kGateRadii = 0.5;
constexpr double kGateStep = 0.12;  // of the way since the last member
constexpr double kGateFloorPx = 2.0;
constexpr double kAccelerationPerStep = 0.08;  // prior: change of the step from frame to frame
constexpr std::size_t kMaxBlobs = 40;          // largest in a frame that are looked at
constexpr double kBlobSigmaPx = 0.4;           // of a blob's centre, and with the radius
constexpr double kBlobSigmaRadii = 0.04;

bool couldBeBall(const Blob& blob) {
    const double half = 0.5 * (blob.varianceX + blob.varianceY);
    const double root = std::hypot(0.5 * (blob.varianceX - blob.varianceY), blob.varianceXY);
    const double radius = equivalentRadius(blob);
    return radius >= kMinRadiusPx && radius <= 1.5 * kMaxRadiusPx &&
           half + root <= kMaxElongation * kMaxElongation * std::max(half - root, 1.0);
}

// Radius across the direction of motion: the marginal of a disc has variance r^2/4.
double radiusAcross(const Blob& blob, PointPx velocity) {
    const double speed = std::hypot(velocity.x, velocity.y);
    const double nx = -velocity.y / speed;
    const double ny = velocity.x / speed;
    return 2.0 *
           std::sqrt(std::max(1.0, nx * nx * blob.varianceX + 2.0 * nx * ny * blob.varianceXY +
                                       ny * ny * blob.varianceY));
}

// Area of the blob against that of a disc swept along the motion with the same second moments.
bool isSweptDisc(const Blob& blob, PointPx velocity) {
    const double speed = std::hypot(velocity.x, velocity.y);
    const double ux = velocity.x / speed;
    const double uy = velocity.y / speed;
    const double along =
        ux * ux * blob.varianceX + 2.0 * ux * uy * blob.varianceXY + uy * uy * blob.varianceY;
    const double radius = radiusAcross(blob, velocity);
    const double smear = std::sqrt(std::max(0.0, 12.0 * (along - 0.25 * radius * radius)));
    const double expected = kPi * radius * radius + 2.0 * radius * smear;
    return blob.areaPx2 > 0.65 * expected && blob.areaPx2 < 1.3 * expected;
}

/// How many of the radii are near `size`.
double steadinessOf(const std::vector<double>& radii, double size) {
    double steadiness = 0.0;
    for (const double radius : radii) {
        steadiness += std::exp(-std::pow((radius - size) / (0.25 * size), 2));
    }
    return steadiness;
}

/// The middle area of the blobs that no border cuts; otherwise when there are none.
double middleArea(const std::vector<const Blob*>& blobs, double otherwise) {
    std::vector<double> areas;
    for (const Blob* blob : blobs) {
        if (blob != nullptr && !blob->touchesBorder) {
            areas.push_back(blob->areaPx2);
        }
    }
    return areas.empty() ? otherwise : medianOf(areas);
}

// A ball cut by the border has its centre elsewhere; left out when enough others remain.
BlobChain withoutBorder(const BlobChain& chain) {
    BlobChain whole;
    for (std::size_t k = 0; k < chain.ordinals.size(); ++k) {
        if (chain.blobs[k] == nullptr || !chain.blobs[k]->touchesBorder) {
            whole.ordinals.push_back(chain.ordinals[k]);
            whole.points.push_back(chain.points[k]);
        }
    }
    return whole.ordinals.size() >= kMinMembers ? whole : chain;
}

void addBlob(BlobChain& chain, std::size_t ordinal, const Blob* blob, bool atEnd) {
    const auto place = [atEnd](auto& list, auto value) {
        list.insert(atEnd ? list.end() : list.begin(), value);
    };
    place(chain.ordinals, ordinal);
    place(chain.points, blob->centre);
    place(chain.blobs, blob);
    chain.areaPx2 = middleArea(chain.blobs, chain.areaPx2);
}

}  // namespace

double equivalentRadius(const Blob& blob) {
    return std::sqrt(blob.areaPx2 / kPi);
}

BlobChain partOf(const BlobChain& chain, std::size_t begin, std::size_t end) {
    const auto cut = [begin, end](const auto& list) {
        return std::decay_t<decltype(list)>(list.begin() + static_cast<std::ptrdiff_t>(begin),
                                            list.begin() + static_cast<std::ptrdiff_t>(end));
    };
    BlobChain part{cut(chain.ordinals), cut(chain.points), cut(chain.blobs), chain.areaPx2};
    part.areaPx2 = middleArea(part.blobs, chain.areaPx2);
    return part;
}

ChainGrower::ChainGrower(const MovingPictures& moving) : m_moving{moving} {
    for (const auto& list : moving.blobs) {
        std::vector<const Blob*> usable;
        for (const Blob& blob : list) {
            if (couldBeBall(blob)) {
                usable.push_back(&blob);
            }
        }
        std::sort(usable.begin(), usable.end(),
                  [](const Blob* a, const Blob* b) { return a->areaPx2 > b->areaPx2; });
        usable.resize(std::min(usable.size(), kMaxBlobs));
        m_usable.push_back(std::move(usable));
    }
}

PointPx ChainGrower::Quadratic::at(double t) const {
    const Eigen::Vector3d b(1.0, t - t0, (t - t0) * (t - t0));
    return {x.dot(b), y.dot(b)};
}

ChainGrower::Quadratic ChainGrower::fit(const BlobChain& chain, std::size_t from,
                                        std::size_t to) const {
    Quadratic q;
    q.t0 = 0.5 * (time(chain.ordinals[from]) + time(chain.ordinals[to - 1]));
    const double interval = (time(chain.ordinals[to - 1]) - time(chain.ordinals[from])) /
                            static_cast<double>(chain.ordinals[to - 1] - chain.ordinals[from]);
    const PointPx first = chain.points[from];
    const PointPx last = chain.points[to - 1];
    const double step = std::hypot(last.x - first.x, last.y - first.y) /
                        static_cast<double>(chain.ordinals[to - 1] - chain.ordinals[from]);
    constexpr double kPointSigmaPx = 1.5;
    const double prior =
        kPointSigmaPx / (0.5 * kAccelerationPerStep * std::max(step, 1.0)) * interval * interval;
    Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
    Eigen::Vector3d rightX = Eigen::Vector3d::Zero();
    Eigen::Vector3d rightY = Eigen::Vector3d::Zero();
    for (std::size_t k = from; k < to; ++k) {
        const double t = time(chain.ordinals[k]) - q.t0;
        const Eigen::Vector3d b(1.0, t, t * t);
        normal += b * b.transpose();
        rightX += chain.points[k].x * b;
        rightY += chain.points[k].y * b;
    }
    normal(2, 2) += prior * prior;
    const auto solver = normal.ldlt();
    q.x = solver.solve(rightX);
    q.y = solver.solve(rightY);
    return q;
}

const Blob* ChainGrower::nearest(std::size_t ordinal, PointPx expected, double gate,
                                 double areaPx2) const {
    const Blob* best = nullptr;
    double bestDistance = gate;
    for (const Blob* blob : m_usable[ordinal]) {
        const double ratio = blob->areaPx2 / areaPx2;
        const double distance =
            std::hypot(blob->centre.x - expected.x, blob->centre.y - expected.y);
        const bool sizeFits =
            ratio < kMaxAreaRatio && (ratio > kMinAreaRatio || blob->touchesBorder);
        if (sizeFits && distance < bestDistance) {
            bestDistance = distance;
            best = blob;
        }
    }
    return best;
}

void ChainGrower::grow(BlobChain& chain) const {
    growOneWay(chain, true);
    growOneWay(chain, false);
}

void ChainGrower::growOneWay(BlobChain& chain, bool forward) const {
    constexpr std::size_t kMemory = 8;
    std::size_t misses = 0;
    std::size_t ordinal = forward ? chain.ordinals.back() : chain.ordinals.front();
    while (misses <= kMaxMisses && (forward ? ordinal + 1 < m_usable.size() : ordinal > 0)) {
        ordinal = forward ? ordinal + 1 : ordinal - 1;
        const std::size_t size = chain.ordinals.size();
        const std::size_t from = forward && size > kMemory ? size - kMemory : 0;
        const std::size_t to = !forward && size > kMemory ? kMemory : size;
        const Quadratic path = fit(chain, from, to);
        const PointPx expected = path.at(time(ordinal));
        const PointPx last = forward ? chain.points.back() : chain.points.front();
        const double way = std::hypot(expected.x - last.x, expected.y - last.y);
        const double gate =
            kGateFloorPx + kGateRadii * std::sqrt(chain.areaPx2 / kPi) + kGateStep * way;
        const Blob* found = nearest(ordinal, expected, gate, chain.areaPx2);
        if (found == nullptr) {
            ++misses;
            continue;
        }
        misses = 0;
        addBlob(chain, ordinal, found, forward);
    }
}

LinkedFlight ChainGrower::finish(const BlobChain& chain, double givenRadius) const {
    const BlobChain whole = withoutBorder(chain);
    const Quadratic path = fit(whole, 0, whole.ordinals.size());
    LinkedFlight flight;
    flight.referenceTime = {path.t0};
    for (int k = 0; k < 3; ++k) {
        flight.x[static_cast<std::size_t>(k)] = path.x[k];
        flight.y[static_cast<std::size_t>(k)] = path.y[k];
    }
    std::vector<double> radii;
    double swept = 0.0;
    double discs = 0.0;
    double square = 0.0;
    for (std::size_t k = 0; k < chain.ordinals.size(); ++k) {
        flight.members.push_back(
            {chain.ordinals[k], chain.points[k], m_moving.times[chain.ordinals[k]]});
        const Seconds t{time(chain.ordinals[k])};
        const PointPx expected = flight.centreAt(t);
        square += std::pow(expected.x - chain.points[k].x, 2) +
                  std::pow(expected.y - chain.points[k].y, 2);
        if (chain.blobs[k] != nullptr && !chain.blobs[k]->touchesBorder) {
            radii.push_back(radiusAcross(*chain.blobs[k], flight.velocityAt(t)));
            const bool isDisc = isSweptDisc(*chain.blobs[k], flight.velocityAt(t));
            swept += isDisc ? 1.0 : 0.3;
            discs += isDisc ? 1.0 : 0.0;
        }
    }
    constexpr std::size_t kEnoughRadii = 3;
    flight.radiusPx = givenRadius > 0.0 && radii.size() < kEnoughRadii ? givenRadius
                      : radii.empty()                                  ? 0.0
                                                                       : medianOf(radii);
    if (flight.radiusPx < kMinRadiusPx) {
        return flight;
    }
    const double count = static_cast<double>(chain.ordinals.size());
    flight.discShare = radii.empty() ? 0.0 : discs / static_cast<double>(radii.size());
    const double rms = std::sqrt(square / count) / (0.5 * flight.radiusPx + 2.0);
    const double size = radii.empty() ? 1.0 : medianOf(radii);
    const PointPx first = chain.points.front();
    const PointPx last = chain.points.back();
    const double way = std::hypot(last.x - first.x, last.y - first.y) / flight.radiusPx;
    flight.score = std::sqrt(swept * steadinessOf(radii, size)) * std::exp(-rms * rms) *
                   std::min(1.0, way / 10.0);
    if (chain.ordinals.size() < kMinMembers || way < kMinWay) {
        flight.score = 0.0;
    }
    return flight;
}

std::vector<BlobChain> ChainGrower::partsOf(const BlobChain& chain) const {
    std::vector<PathPoint> points;
    std::vector<std::size_t> places;  // of the points in the chain
    for (std::size_t k = 0; k < chain.blobs.size(); ++k) {
        const Blob* blob = chain.blobs[k];
        if (blob != nullptr && !blob->touchesBorder) {
            const double radius = equivalentRadius(*blob);
            points.push_back({m_moving.times[chain.ordinals[k]], chain.points[k], radius,
                              kBlobSigmaPx + kBlobSigmaRadii * radius});
            places.push_back(k);
        }
    }
    std::vector<BlobChain> parts;
    std::size_t begin = 0;
    for (const Kink& kink : findKinks(points)) {
        parts.push_back(partOf(chain, begin, places[kink.after]));
        begin = places[kink.after];
    }
    parts.push_back(partOf(chain, begin, chain.blobs.size()));
    return parts;
}

bool ChainGrower::isShortFlight(const BlobChain& chain) const {
    if (chain.blobs.size() < kFewestBlobs) {
        return false;
    }
    const LinkedFlight flight = finish(chain, 0.0);
    constexpr double kLikeArea = 1.5;
    constexpr double kNearPath = 0.25;  // radii
    for (std::size_t k = 0; k < chain.blobs.size(); ++k) {
        const Seconds at = m_moving.times[chain.ordinals[k]];
        const PointPx there = flight.centreAt(at);
        const double off = std::hypot(there.x - chain.points[k].x, there.y - chain.points[k].y);
        const double ratio = chain.blobs[k]->areaPx2 / chain.areaPx2;
        const bool isWhole = !chain.blobs[k]->touchesBorder;
        if (isWhole && (!isSweptDisc(*chain.blobs[k], flight.velocityAt(at)) || ratio > kLikeArea ||
                        ratio < 1.0 / kLikeArea || off > kNearPath * flight.radiusPx)) {
            return false;
        }
    }
    return flight.radiusPx >= kMinRadiusPx;
}

}  // namespace core::image
