#include "core/project/shuffled_order.h"

#include <algorithm>
#include <charconv>
#include <cstdint>

namespace core::project {
namespace {

/// The output function of SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, Fast splittable
/// pseudorandom number generators, OOPSLA 2014, doi:10.1145/2660193.2660195).
std::uint64_t mixed(std::uint64_t z) {
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31U);
}

/// The first 64 bits of a clip's fingerprint, which is hexadecimal.
std::uint64_t seedOf(const std::string& fingerprint) {
    constexpr std::size_t kDigits = 16;
    std::uint64_t seed = 0;
    std::from_chars(fingerprint.data(), fingerprint.data() + std::min(kDigits, fingerprint.size()),
                    seed, 16);
    return seed;
}

}  // namespace

std::vector<const Shot*> shotsShuffled(const Snapshot& snapshot) {
    constexpr std::uint64_t kGoldenGamma = 0x9e3779b97f4a7c15ULL;
    struct Drawn {
        std::uint64_t number;
        const Shot* shot;
    };
    std::vector<Drawn> drawn;
    drawn.reserve(snapshot.shots.size());
    for (const Shot& shot : snapshot.shots) {
        const Clip* clip = snapshot.clips.find(shot.clip);
        const std::uint64_t seed = clip != nullptr ? seedOf(clip->fingerprint) : 0;
        drawn.push_back(
            {mixed(seed + kGoldenGamma * static_cast<std::uint64_t>(shot.id.value)), &shot});
    }
    std::sort(drawn.begin(), drawn.end(), [](const Drawn& a, const Drawn& b) {
        return a.number != b.number ? a.number < b.number : a.shot->id < b.shot->id;
    });
    std::vector<const Shot*> shots;
    shots.reserve(drawn.size());
    for (const Drawn& each : drawn) {
        shots.push_back(each.shot);
    }
    return shots;
}

}  // namespace core::project
