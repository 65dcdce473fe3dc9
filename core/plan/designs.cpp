#include "core/plan/designs.h"

#include <algorithm>
#include <numeric>

#include "core/base/expects.h"

namespace core::plan {
namespace {

std::vector<std::size_t> shuffledNumbers(std::size_t n, RandomOrder& random) {
    std::vector<std::size_t> numbers(n);
    std::iota(numbers.begin(), numbers.end(), std::size_t{0});
    random.shuffle(numbers);
    return numbers;
}

void rename(Design& design, const std::vector<std::size_t>& names) {
    for (auto& row : design) {
        for (auto& treatment : row) {
            treatment = names[treatment];
        }
    }
}

}  // namespace

Design cyclicSquare(std::size_t n) {
    CORE_EXPECTS(n > 0);
    Design design(n, std::vector<std::size_t>(n));
    for (std::size_t row = 0; row < n; ++row) {
        for (std::size_t place = 0; place < n; ++place) {
            design[row][place] = (row + place) % n;
        }
    }
    return design;
}

Design williamsDesign(std::size_t n) {
    CORE_EXPECTS(n > 0);
    std::vector<std::size_t> first(n);  // 0, 1, n-1, 2, n-2, …
    for (std::size_t place = 1; place < n; ++place) {
        const std::size_t step = (place + 1) / 2;
        first[place] = place % 2 == 1 ? step : n - step;
    }
    Design design(n, first);
    for (std::size_t row = 0; row < n; ++row) {
        for (auto& treatment : design[row]) {
            treatment = (treatment + row) % n;
        }
    }
    if (n % 2 == 1 && n > 1) {
        for (std::size_t row = 0; row < n; ++row) {
            design.emplace_back(design[row].rbegin(), design[row].rend());
        }
    }
    return design;
}

Design randomLatinSquare(std::size_t n, RandomOrder& random) {
    Design design = cyclicSquare(n);
    rename(design, shuffledNumbers(n, random));
    const auto places = shuffledNumbers(n, random);
    for (auto& row : design) {
        const auto before = row;
        for (std::size_t place = 0; place < n; ++place) {
            row[place] = before[places[place]];
        }
    }
    random.shuffle(design);
    return design;
}

Design randomWilliamsDesign(std::size_t n, RandomOrder& random) {
    Design design = williamsDesign(n);
    rename(design, shuffledNumbers(n, random));
    random.shuffle(design);
    return design;
}

}  // namespace core::plan
