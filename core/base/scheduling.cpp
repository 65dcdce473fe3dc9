#include "core/base/scheduling.h"

#ifdef __linux__
#include <sched.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <cstdint>
#endif

namespace core {

#ifdef __linux__
namespace {

// A step of the nice value is a tenth more or less of a processor (sched(7)): a thread that
// competes with the window's gets a quarter of it with 5 steps and a tenth with 10.
constexpr int kPicturesSteps = 5;
constexpr int kBatchSteps = 10;
constexpr std::uint64_t kUsualSlice = 0;         // nanoseconds; 0: as the system has it
constexpr std::uint64_t kPromptSlice = 100'000;  // the shortest that Linux takes, from memory

/// struct sched_attr of sched_setattr(2), whose header and <sched.h> exclude each other in glibc
/// before 2.41.
struct SchedulingAttributes {
    std::uint32_t size;
    std::uint32_t policy;
    std::uint64_t flags;
    std::int32_t nice;
    std::uint32_t priority;
    std::uint64_t runtime;  // nanoseconds; of an ordinary thread the slice of time
    std::uint64_t deadline;
    std::uint64_t period;
};

/// Of the calling thread. Fails in no case that matters: then the thread stays as it is.
void setNiceAndSlice(int nice, std::uint64_t slice) noexcept {
    setpriority(PRIO_PROCESS, 0, nice);
    SchedulingAttributes attributes{};
    attributes.size = sizeof attributes;
    attributes.policy = SCHED_OTHER;
    attributes.nice = nice;
    attributes.runtime = slice;
    syscall(SYS_sched_setattr, 0, &attributes, 0);
}

}  // namespace

void giveWay(BackgroundWork work) noexcept {
    const int steps = work == BackgroundWork::Pictures ? kPicturesSteps : kBatchSteps;
    setNiceAndSlice(getpriority(PRIO_PROCESS, 0) + steps, kUsualSlice);
}

void wakePromptly() noexcept {
    setNiceAndSlice(getpriority(PRIO_PROCESS, 0), kPromptSlice);
}
#else
void giveWay(BackgroundWork) noexcept {}
void wakePromptly() noexcept {}
#endif

}  // namespace core
