#include "core/spin/fit/kernels.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstring>

#include "core/base/expects.h"

#ifdef __x86_64__
#define TURNMARK_HAS_WIDE_LOOPS 1
#endif

// What is inlined takes on the instructions of the function that it is inlined into.
#define TURNMARK_INLINE [[gnu::always_inline]] inline

namespace core::spin::fit {

namespace {

constexpr std::size_t kLane = 8;
using Lane [[gnu::vector_size(kLane * sizeof(float))]] = float;

TURNMARK_INLINE void load(const float* from, Lane& lane) {
    std::memcpy(&lane, from, sizeof(Lane));
}
TURNMARK_INLINE void store(const Lane& lane, float* to) {
    std::memcpy(to, &lane, sizeof(Lane));
}
TURNMARK_INLINE float sumOfLane(const Lane& lane) {
    return ((lane[0] + lane[4]) + (lane[2] + lane[6])) +
           ((lane[1] + lane[5]) + (lane[3] + lane[7]));
}

/// Two matrices of the same number of rows, column by column, and where their product goes.
struct Product {
    const float* a{};
    const float* b{};
    std::ptrdiff_t rows{};
    std::ptrdiff_t columnsOfA{};  // and rows of the result
    std::ptrdiff_t columnsOfB{};
    float* result{};
    bool isLower{};  // only what is on the diagonal or below it is wanted
};

/// kA x kB numbers of the result at once, so that each number read is used several times.
template <std::size_t kA, std::size_t kB>
TURNMARK_INLINE void addTile(const Product& p, std::ptrdiff_t firstA, std::ptrdiff_t firstB) {
    Lane sums[kA][kB] = {};
    const float* a = p.a + firstA * p.rows;
    const float* b = p.b + firstB * p.rows;
    for (std::ptrdiff_t row = 0; row < p.rows; row += static_cast<std::ptrdiff_t>(kLane)) {
        Lane left[kA];
#pragma GCC unroll 16
        for (std::size_t i = 0; i < kA; ++i) {
            load(a + static_cast<std::ptrdiff_t>(i) * p.rows + row, left[i]);
        }
#pragma GCC unroll 16
        for (std::size_t j = 0; j < kB; ++j) {
            Lane right;
            load(b + static_cast<std::ptrdiff_t>(j) * p.rows + row, right);
#pragma GCC unroll 16
            for (std::size_t i = 0; i < kA; ++i) {
                sums[i][j] += left[i] * right;
            }
        }
    }
#pragma GCC unroll 16
    for (std::size_t j = 0; j < kB; ++j) {
#pragma GCC unroll 16
        for (std::size_t i = 0; i < kA; ++i) {
            p.result[(firstB + static_cast<std::ptrdiff_t>(j)) * p.columnsOfA + firstA +
                     static_cast<std::ptrdiff_t>(i)] = sumOfLane(sums[i][j]);
        }
    }
}

template <std::size_t kB>
TURNMARK_INLINE void addColumns(const Product& p, std::ptrdiff_t firstB) {
    constexpr std::size_t kA = 3;
    constexpr auto kStep = static_cast<std::ptrdiff_t>(kA);
    std::ptrdiff_t i = p.isLower ? firstB / kStep * kStep : 0;
    for (; i + kStep <= p.columnsOfA; i += kStep) {
        addTile<kA, kB>(p, i, firstB);
    }
    for (; i < p.columnsOfA; ++i) {
        addTile<1, kB>(p, i, firstB);
    }
}

TURNMARK_INLINE void multiplyBody(const Product& p) {
    constexpr std::size_t kB = 4;
    constexpr auto kStep = static_cast<std::ptrdiff_t>(kB);
    std::ptrdiff_t j = 0;
    for (; j + kStep <= p.columnsOfB; j += kStep) {
        addColumns<kB>(p, j);
    }
    for (; j < p.columnsOfB; ++j) {
        addColumns<1>(p, j);
    }
}

/// The recurrence for kLanes x kLane points at a time; use(coefficient index, lane, value) is told
/// each harmonic. cosine: weight of the points.
template <std::size_t kLanes>
struct HarmonicPoints {
    Lane x[kLanes], y[kLanes], z[kLanes], cosine[kLanes];
};

/// From the Legendre functions of one degree and the one before to those of the next.
template <std::size_t kLanes>
TURNMARK_INLINE void stepDegree(float up, float down, const HarmonicPoints<kLanes>& at,
                                Lane (&last)[kLanes], Lane (&legendre)[kLanes]) {
#pragma GCC unroll 16
    for (std::size_t k = 0; k < kLanes; ++k) {
        const Lane next = (up * at.z[k]) * legendre[k] - down * last[k];
        last[k] = legendre[k];
        legendre[k] = next;
    }
}

/// From the sines and cosines of one order to those of the next.
template <std::size_t kLanes>
TURNMARK_INLINE void stepOrder(HarmonicPoints<kLanes>& at, Lane (&sine)[kLanes]) {
#pragma GCC unroll 16
    for (std::size_t k = 0; k < kLanes; ++k) {
        const Lane next = at.x[k] * at.cosine[k] - at.y[k] * sine[k];
        sine[k] = at.x[k] * sine[k] + at.y[k] * at.cosine[k];
        at.cosine[k] = next;
    }
}

template <std::size_t kLanes, class Use>
TURNMARK_INLINE void forEachHarmonic(const HarmonicFactors& factors, HarmonicPoints<kLanes>& at,
                                     const Use& use) {
    const int degree = factors.degree;
    const float* a = factors.a.data();
    const float* b = factors.b.data();
    Lane sine[kLanes] = {};
    for (int m = 0; m <= degree; ++m) {
        Lane last[kLanes] = {};
        Lane legendre[kLanes];
#pragma GCC unroll 16
        for (std::size_t k = 0; k < kLanes; ++k) {
            legendre[k] = last[k] + factors.sectoral.data()[m];
        }
        for (int l = m; l <= degree; ++l) {
            if (l > m) {
                const int of = m * (degree + 1) + l;
                stepDegree(a[of], b[of], at, last, legendre);
            }
#pragma GCC unroll 16
            for (std::size_t k = 0; k < kLanes; ++k) {
                use(l * l + l + m, k, legendre[k] * at.cosine[k]);
            }
            if (m > 0) {
#pragma GCC unroll 16
                for (std::size_t k = 0; k < kLanes; ++k) {
                    use(l * l + l - m, k, legendre[k] * sine[k]);
                }
            }
        }
        stepOrder(at, sine);
    }
}

/// Points of which the coordinates stand in columns, with a weight each or 1.
struct Points {
    const float* xyz{};
    std::ptrdiff_t columnStep{};
    std::ptrdiff_t count{};
    const float* weight{};
};

/// Lanes beyond the last point are zero.
template <std::size_t kLanes>
TURNMARK_INLINE void gather(const Points& points, std::ptrdiff_t first,
                            HarmonicPoints<kLanes>& at) {
    constexpr auto kWidth = static_cast<std::ptrdiff_t>(kLane);
#pragma GCC unroll 16
    for (std::size_t k = 0; k < kLanes; ++k) {
        const std::ptrdiff_t from = first + static_cast<std::ptrdiff_t>(k) * kWidth;
        const auto count =
            static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(points.count - from, 0, kWidth));
        float x[kLane] = {};
        float y[kLane] = {};
        float z[kLane] = {};
        float weight[kLane] = {};
        for (std::size_t i = 0; i < count; ++i) {
            const float* point = points.xyz + from + static_cast<std::ptrdiff_t>(i);
            x[i] = point[0];
            y[i] = point[points.columnStep];
            z[i] = point[2 * points.columnStep];
            weight[i] = points.weight == nullptr
                            ? 1.0F
                            : points.weight[from + static_cast<std::ptrdiff_t>(i)];
        }
        load(x, at.x[k]);
        load(y, at.y[k]);
        load(z, at.z[k]);
        load(weight, at.cosine[k]);
    }
}

TURNMARK_INLINE void addHarmonicsBody(const HarmonicFactors& factors, const Points& points,
                                      float* basis, std::ptrdiff_t rows) {
    constexpr std::size_t kLanes = 2;
    constexpr auto kStep = static_cast<std::ptrdiff_t>(kLanes * kLane);
    for (std::ptrdiff_t first = 0; first < points.count; first += kStep) {
        HarmonicPoints<kLanes> at;
        gather(points, first, at);
        float* const row = basis + first;
        forEachHarmonic<kLanes>(
            factors, at,
            [ row,
              rows ](int index, std::size_t k, const Lane& value) __attribute__((always_inline)) {
                float* const place = row + index * rows + static_cast<std::ptrdiff_t>(k * kLane);
                Lane sum;
                load(place, sum);
                sum += value;
                store(sum, place);
            });
    }
}

/// kColumns functions at once.
template <std::size_t kColumns>
TURNMARK_INLINE void sumHarmonics(const HarmonicFactors& factors, const Points& points,
                                  const float* coefficients, std::ptrdiff_t size, float* result) {
    for (std::ptrdiff_t first = 0; first < points.count;
         first += static_cast<std::ptrdiff_t>(kLane)) {
        HarmonicPoints<1> at;
        gather(points, first, at);
        Lane sums[kColumns] = {};
        forEachHarmonic<1>(
            factors, at,
            [&sums, coefficients,
             size ](int index, std::size_t, const Lane& value) __attribute__((always_inline)) {
#pragma GCC unroll 16
                for (std::size_t c = 0; c < kColumns; ++c) {
                    sums[c] += coefficients[static_cast<std::ptrdiff_t>(c) * size + index] * value;
                }
            });
        const auto count = static_cast<std::size_t>(
            std::min<std::ptrdiff_t>(points.count - first, static_cast<std::ptrdiff_t>(kLane)));
#pragma GCC unroll 16
        for (std::size_t c = 0; c < kColumns; ++c) {
            std::memcpy(result + static_cast<std::ptrdiff_t>(c) * points.count + first, &sums[c],
                        count * sizeof(float));
        }
    }
}

TURNMARK_INLINE void sumHarmonicsBody(const HarmonicFactors& factors, const Points& points,
                                      const Eigen::MatrixXf& coefficients, float* result) {
    const float* from = coefficients.data();
    const std::ptrdiff_t size = coefficients.rows();
    std::ptrdiff_t left = coefficients.cols();
    const auto next = [&](std::ptrdiff_t columns) __attribute__((always_inline)) {
        from += columns * size;
        result += columns * points.count;
    };
    for (; left >= 9; left -= 9) {
        sumHarmonics<9>(factors, points, from, size, result);
        next(9);
    }
    for (; left >= 3; left -= 3) {
        sumHarmonics<3>(factors, points, from, size, result);
        next(3);
    }
    for (; left >= 1; left -= 1) {
        sumHarmonics<1>(factors, points, from, size, result);
        next(1);
    }
}

void multiplyPlain(const Product& p) {
    multiplyBody(p);
}
void addHarmonicsPlain(const HarmonicFactors& factors, const Points& points, float* basis,
                       std::ptrdiff_t rows) {
    addHarmonicsBody(factors, points, basis, rows);
}
void sumHarmonicsPlain(const HarmonicFactors& factors, const Points& points,
                       const Eigen::MatrixXf& coefficients, float* result) {
    sumHarmonicsBody(factors, points, coefficients, result);
}

#ifdef TURNMARK_HAS_WIDE_LOOPS
[[gnu::target("avx2,fma")]] void multiplyWide(const Product& p) {
    multiplyBody(p);
}
[[gnu::target("avx2,fma")]] void addHarmonicsWide(const HarmonicFactors& factors,
                                                  const Points& points, float* basis,
                                                  std::ptrdiff_t rows) {
    addHarmonicsBody(factors, points, basis, rows);
}
[[gnu::target("avx2,fma")]] void sumHarmonicsWide(const HarmonicFactors& factors,
                                                  const Points& points,
                                                  const Eigen::MatrixXf& coefficients,
                                                  float* result) {
    sumHarmonicsBody(factors, points, coefficients, result);
}
const bool kIsWide = static_cast<bool>(__builtin_cpu_supports("avx2")) &&
                     static_cast<bool>(__builtin_cpu_supports("fma"));
const auto kMultiply = kIsWide ? multiplyWide : multiplyPlain;
const auto kAddHarmonics = kIsWide ? addHarmonicsWide : addHarmonicsPlain;
const auto kSumHarmonics = kIsWide ? sumHarmonicsWide : sumHarmonicsPlain;
#else
const auto kMultiply = multiplyPlain;
const auto kAddHarmonics = addHarmonicsPlain;
const auto kSumHarmonics = sumHarmonicsPlain;
#endif

}  // namespace

Eigen::MatrixXf productOf(const Eigen::MatrixXf& a, const Eigen::MatrixXf& b) {
    CORE_EXPECTS(a.rows() == b.rows() && a.rows() % kRowStep == 0);
    Eigen::MatrixXf result(a.cols(), b.cols());
    kMultiply({a.data(), b.data(), a.rows(), a.cols(), b.cols(), result.data(), false});
    return result;
}

Eigen::MatrixXf lowerGram(const Eigen::MatrixXf& a) {
    CORE_EXPECTS(a.rows() % kRowStep == 0);
    Eigen::MatrixXf result(a.cols(), a.cols());
    kMultiply({a.data(), a.data(), a.rows(), a.cols(), a.cols(), result.data(), true});
    return result;
}

void addHarmonics(const HarmonicFactors& factors, const Eigen::Ref<const Eigen::MatrixX3f>& points,
                  const Eigen::Ref<const Eigen::VectorXf>& weight, Eigen::MatrixXf& basis) {
    CORE_EXPECTS(basis.rows() == filledUp(points.rows()));
    kAddHarmonics(factors, {points.data(), points.outerStride(), points.rows(), weight.data()},
                  basis.data(), basis.rows());
}

Eigen::MatrixXf harmonicSums(const HarmonicFactors& factors,
                             const Eigen::Ref<const Eigen::MatrixX3f>& points,
                             const Eigen::MatrixXf& coefficients) {
    Eigen::MatrixXf result(points.rows(), coefficients.cols());
    kSumHarmonics(factors, {points.data(), points.outerStride(), points.rows(), nullptr},
                  coefficients, result.data());
    return result;
}

}  // namespace core::spin::fit
