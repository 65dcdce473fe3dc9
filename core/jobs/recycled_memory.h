#pragma once

#include <cstddef>
#include <mutex>
#include <vector>

namespace core::jobs {

/// Memory for large things that come and go, as decoded pictures do. Asking the system for such
/// memory and touching it for the first time may take longer than filling it; so what is given back
/// here waits for the next who takes as much.
///
/// When nothing of the right size waits, what waits in other sizes goes back to the system before
/// more is asked for: memory that lies idle never adds to new memory. Shared.
///
/// Pages are of the usual size. Large ones would need fewer touches, but a virtual machine hands
/// free large pages back to its host, and to get them again took ten times as long as zeroing
/// usual ones (2.3 s against 0.15 s for 512 MiB).
class RecycledMemory {
public:
    /// Where decoded pictures come from. Lives until the program ends.
    [[nodiscard]] static RecycledMemory& ofProgram();

    RecycledMemory() = default;
    /// Every block must have been given back.
    ~RecycledMemory();
    RecycledMemory(const RecycledMemory&) = delete;
    RecycledMemory& operator=(const RecycledMemory&) = delete;

    /// At least as large as was asked for, begins on a page, and holds anything.
    struct Block {
        std::byte* data{};  ///< null when the system has no memory left
        std::size_t bytes{};
    };
    [[nodiscard]] Block take(std::size_t bytes) noexcept;
    void giveBack(const Block& block) noexcept;
    /// Hands the memory of all blocks that wait back to the system.
    void letGo() noexcept;

    struct Counters {
        std::size_t takenBytes{};    ///< in blocks that somebody has
        std::size_t waitingBytes{};  ///< in blocks that were given back
    };
    [[nodiscard]] Counters counters() const;

private:
    void letGoLocked() noexcept;

    mutable std::mutex m_mutex;
    std::vector<Block> m_waiting;  // the latest one at the end
    Counters m_counters;
};

}  // namespace core::jobs
