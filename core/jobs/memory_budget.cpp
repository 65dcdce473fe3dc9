#include "core/jobs/memory_budget.h"

#include <algorithm>

#include "core/jobs/recycled_memory.h"

#ifdef __linux__
#include <malloc.h>
#include <unistd.h>
#endif

namespace core::jobs {
namespace {

constexpr std::size_t kGibibyte = std::size_t{1} << 30U;

}  // namespace

std::size_t MemoryBudget::usualLimitBytes() noexcept {
#ifdef __linux__
    const long pages = sysconf(_SC_PHYS_PAGES);
    const long pageBytes = sysconf(_SC_PAGE_SIZE);
    if (pages > 0 && pageBytes > 0) {
        return std::min(static_cast<std::size_t>(pages) / 4 * static_cast<std::size_t>(pageBytes),
                        2 * kGibibyte);
    }
#endif
    return kGibibyte;
}

MemoryBudget& MemoryBudget::ofProgram() {
    static MemoryBudget budget{usualLimitBytes()};
    return budget;
}

MemoryBudget::Counters MemoryBudget::counters() const noexcept {
    Counters counters;
    counters.limitBytes = m_limit;
    for (std::size_t i = 0; i < kMemoryUses; ++i) {
        counters.heldBytes[i] = m_held[i];
    }
    counters.mostBytes = m_most;
    return counters;
}

void MemoryBudget::Holding::set(std::size_t bytes) noexcept {
    // Unsigned arithmetic: a smaller number is taken off.
    m_budget->m_held[static_cast<std::size_t>(m_use)] += bytes - m_bytes;
    const std::size_t all = m_budget->m_all += bytes - m_bytes;
    m_bytes = bytes;
    std::size_t most = m_budget->m_most;
    while (all > most && !m_budget->m_most.compare_exchange_weak(most, all)) {
    }
}

std::size_t MemoryBudget::Holding::allowedBytes() const noexcept {
    const std::size_t limit = m_budget->m_limit;
    const std::size_t all = m_budget->m_all;
    const std::size_t others = all > m_bytes ? all - m_bytes : 0;
    return limit > others ? limit - others : 0;
}

void giveBackMemory() noexcept {
    RecycledMemory::ofProgram().letGo();
#ifdef __GLIBC__
    malloc_trim(0);
#endif
}

}  // namespace core::jobs
