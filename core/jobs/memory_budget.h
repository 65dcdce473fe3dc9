#pragma once

#include <array>
#include <atomic>
#include <cstddef>

namespace core::jobs {

/// What memory is held for.
enum class MemoryUse {
    Pictures,  ///< decoded, for the eye
    CutOuts,   ///< small pictures of the shot that is looked at
    Readings   ///< frames that a job works with, and what was read from them
};
inline constexpr std::size_t kMemoryUses = 3;

/// The bytes that the large holdings of a program may take together. Nobody is kept waiting: a
/// holder asks how much it may have, and lets go of what it can spare when that is less than it
/// has. Shared: every member may be called from any thread.
class MemoryBudget {
public:
    /// A quarter of the machine's memory, at most 2 GiB; 1 GiB where the machine does not tell.
    [[nodiscard]] static std::size_t usualLimitBytes() noexcept;
    /// The one of the program, at first with the usual limit.
    [[nodiscard]] static MemoryBudget& ofProgram();

    explicit MemoryBudget(std::size_t limitBytes) : m_limit{limitBytes} {}
    MemoryBudget(const MemoryBudget&) = delete;
    MemoryBudget& operator=(const MemoryBudget&) = delete;

    void setLimitBytes(std::size_t bytes) noexcept { m_limit = bytes; }

    struct Counters {
        std::size_t limitBytes{};
        std::array<std::size_t, kMemoryUses> heldBytes{};  ///< by MemoryUse
        std::size_t mostBytes{};                           ///< held at once so far, all together

        [[nodiscard]] std::size_t allBytes() const noexcept {
            return heldBytes[0] + heldBytes[1] + heldBytes[2];
        }
    };
    [[nodiscard]] Counters counters() const noexcept;

    /// What one holder has; nothing is held any more when it goes. Confined.
    class Holding {
    public:
        /// The budget must outlive the holding.
        Holding(MemoryBudget& budget, MemoryUse use) noexcept : m_budget{&budget}, m_use{use} {}
        ~Holding() { set(0); }
        Holding(const Holding&) = delete;
        Holding& operator=(const Holding&) = delete;

        /// What the holder has now.
        void set(std::size_t bytes) noexcept;
        [[nodiscard]] std::size_t bytes() const noexcept { return m_bytes; }
        /// What it may have, as long as others keep what they have.
        [[nodiscard]] std::size_t allowedBytes() const noexcept;

    private:
        MemoryBudget* m_budget;
        MemoryUse m_use;
        std::size_t m_bytes{0};
    };

private:
    std::atomic<std::size_t> m_limit;
    std::array<std::atomic<std::size_t>, kMemoryUses> m_held{};
    std::atomic<std::size_t> m_all{0};
    std::atomic<std::size_t> m_most{0};
};

/// Gives memory that was let go, and that is kept for later, back to the system: what waits in
/// RecycledMemory::ofProgram(), and what the allocator keeps (malloc_trim(3); elsewhere nothing
/// happens to that). Takes some milliseconds: for moments of rest.
void giveBackMemory() noexcept;

}  // namespace core::jobs
