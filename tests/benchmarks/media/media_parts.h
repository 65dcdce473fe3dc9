#pragma once

#include "tests/benchmarks/support/bench_clips.h"

namespace benchmarks {

/// One part of the program each; they print their figures with the targets of the footage engine.
/// Memory comes first in a run: it reads the high-water mark of the process.
void measureMemory(const BenchClips& clips);
void measureIndex(const BenchClips& clips);
void measureSeek(const BenchClips& clips);
void measurePlay(const BenchClips& clips);
void measureSteps(const BenchClips& clips);
/// The targets are for 30 steps a second.
void measureBackward(const BenchClips& clips, int stepsPerSecond);
void measureSound(const BenchClips& clips);

}  // namespace benchmarks
