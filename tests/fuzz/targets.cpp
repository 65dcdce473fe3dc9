#include "tests/fuzz/targets.h"

#include <array>

namespace tests::fuzz {

std::span<const Target> targets() {
    static constexpr std::array kTargets{Target{"project", feedProject},
                                         Target{"tally", feedTally},
                                         Target{"implements", feedImplements},
                                         Target{"slate", feedSlate},
                                         Target{"inputs", feedInputs},
                                         Target{"archive", feedArchive},
                                         Target{"clip", feedClip}};
    return kTargets;
}

}  // namespace tests::fuzz
