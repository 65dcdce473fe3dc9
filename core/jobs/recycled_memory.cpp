#include "core/jobs/recycled_memory.h"

#include <algorithm>
#include <cstdint>
#include <new>

#include "core/base/expects.h"

#ifdef __linux__
#include <sys/mman.h>
#endif

namespace core::jobs {
namespace {

constexpr std::size_t kStep = std::size_t{4} << 10U;  // of the sizes: a page, as a rule

#ifdef __linux__

// Straight from the system, so that letting go gives back whatever the allocator thinks of it.
std::byte* fromSystem(std::size_t bytes) noexcept {
    void* data = mmap(nullptr, bytes, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    return data == MAP_FAILED ? nullptr : static_cast<std::byte*>(data);
}

void toSystem(const RecycledMemory::Block& block) noexcept {
    munmap(block.data, block.bytes);
}

#else

std::byte* fromSystem(std::size_t bytes) noexcept {
    return static_cast<std::byte*>(::operator new (bytes, std::align_val_t{kStep}, std::nothrow));
}

void toSystem(const RecycledMemory::Block& block) noexcept {
    ::operator delete (block.data, std::align_val_t{kStep});
}

#endif

}  // namespace

RecycledMemory& RecycledMemory::ofProgram() {
    // Never destroyed: pictures may outlive everything else that is static.
    static auto* const memory = new RecycledMemory;
    return *memory;
}

RecycledMemory::~RecycledMemory() {
    letGo();
    CORE_EXPECTS(m_counters.takenBytes == 0);
}

RecycledMemory::Block RecycledMemory::take(std::size_t bytes) noexcept {
    CORE_EXPECTS(bytes > 0);
    if (bytes > SIZE_MAX / 2) {
        return {};
    }
    const std::size_t wanted = (bytes + kStep - 1) / kStep * kStep;
    const std::scoped_lock lock{m_mutex};
    Block block{nullptr, wanted};
    const auto found = std::find_if(m_waiting.rbegin(), m_waiting.rend(),
                                    [wanted](const Block& one) { return one.bytes == wanted; });
    if (found != m_waiting.rend()) {
        block = *found;
        m_waiting.erase(std::next(found).base());
        m_counters.waitingBytes -= wanted;
    } else {
        letGoLocked();
        block.data = fromSystem(wanted);
    }
    if (block.data == nullptr) {
        return {};
    }
    m_counters.takenBytes += wanted;
    return block;
}

void RecycledMemory::giveBack(const Block& block) noexcept {
    const std::scoped_lock lock{m_mutex};
    m_counters.takenBytes -= block.bytes;
    try {
        m_waiting.push_back(block);
        m_counters.waitingBytes += block.bytes;
    } catch (const std::bad_alloc&) {
        toSystem(block);
    }
}

void RecycledMemory::letGoLocked() noexcept {
    std::ranges::for_each(m_waiting, toSystem);
    m_waiting.clear();
    m_counters.waitingBytes = 0;
}

void RecycledMemory::letGo() noexcept {
    const std::scoped_lock lock{m_mutex};
    letGoLocked();
}

RecycledMemory::Counters RecycledMemory::counters() const {
    const std::scoped_lock lock{m_mutex};
    return m_counters;
}

}  // namespace core::jobs
