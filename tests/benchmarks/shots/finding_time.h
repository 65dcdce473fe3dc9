#pragma once

#include "tests/benchmarks/support/bench_clips.h"

namespace benchmarks {

/// Time of finding the shots of a long clip, 1080p at 240 a second with sound, against decoding all
/// of it, both in this run. Target: at most a fifth. The clip is twenty rendered seconds with two
/// strikes and a slammed door, a person in view, again and again; a key frame a second.
/// Throws std::runtime_error when a film cannot be made or read, or a shot is missed.
void measureFindingTime(const BenchClips& clips, double minutes);

}  // namespace benchmarks
