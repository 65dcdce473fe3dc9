#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <utility>

#include "core/jobs/pool.h"

namespace core::jobs {

/// A call that is made once: by the program's pool when it has a thread to spare, else by whoever
/// needs it done. So it may be waited for inside a job, whatever the pool is busy with.
class SharedCall {
public:
    explicit SharedCall(std::function<void()> call);
    /// Makes the call unless that was begun; blocks until it has ended.
    void finish();
    /// The same, and throws what the call has thrown.
    void finishOrThrow();

private:
    struct State;
    std::shared_ptr<State> m_state;
};

/// Work for another thread while this one does something else. Confined. What it is given by
/// reference must live until get(), or until the aside goes, which waits for the work too.
template <class T>
class Aside {
public:
    explicit Aside(std::function<T()> work)
        : m_result{std::make_unique<std::optional<T>>()},
          m_call{[result = m_result.get(), work = std::move(work)] { result->emplace(work()); }} {}
    ~Aside() {
        if (m_result) {
            m_call.finish();
        }
    }
    Aside(Aside&&) noexcept = default;
    Aside& operator=(Aside&&) = delete;

    /// Blocks; once. Throws what the work has thrown.
    T get() {
        m_call.finishOrThrow();
        const auto result = std::exchange(m_result, nullptr);
        return std::move(**result);
    }

private:
    std::unique_ptr<std::optional<T>> m_result;
    SharedCall m_call;
};

}  // namespace core::jobs
