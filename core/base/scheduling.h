#pragma once

/// Which threads the processors serve first when there are fewer of them than work. Elsewhere than
/// on Linux, where these are properties of single threads, nothing here does anything.
namespace core {

/// What a thread of the background works for.
enum class BackgroundWork {
    Pictures,  ///< for the eye: what was asked for is waited for
    Batch      ///< for later: whole filming days, reports, copies
};

/// From here on the calling thread, and every thread that it starts, gives way to threads that do
/// not (nice value, setpriority(2)). Called once, when the thread begins.
void giveWay(BackgroundWork work) noexcept;

/// From here on the calling thread is served at once when what it waited for has come, also while
/// all processors are busy with threads that give way; otherwise each write to the disk that it
/// waits for takes some milliseconds longer. For the thread that the window runs on.
/// (A short slice of time, sched_setattr(2); Linux 6.12 and later.)
void wakePromptly() noexcept;

}  // namespace core
