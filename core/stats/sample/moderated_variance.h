#pragma once

#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/model/distributions.h"

namespace core::stats {

/// Variance of single values of a sample and its degrees of freedom.
struct SampleVariance {
    double variance{};
    DegreesOfFreedom dof{};
};

/// Variances of many samples of the same kind, each drawn towards what all of them say: the true
/// variances are taken to follow a scaled inverse chi-square distribution whose location s0^2 and
/// degrees of freedom d0 come from the samples themselves, and each becomes
/// (d0 s0^2 + d s^2) / (d0 + d) with d0 + d degrees of freedom, at most those of all samples
/// together. Alike variances are pooled (d0 infinite), unlike ones stay their own.
/// Smyth 2004, Stat. Appl. Genet. Mol. Biol. 3:3, section 6 (moments of the log variances).
/// In the order of the samples; a single one is returned as it is.
/// Errors: NotFinite; OutOfRange for a variance or degrees of freedom that are not positive.
Result<std::vector<SampleVariance>> moderatedVariances(std::span<const SampleVariance> samples);

}  // namespace core::stats
