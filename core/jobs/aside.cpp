#include "core/jobs/aside.h"

namespace core::jobs {

struct SharedCall::State {
    std::once_flag once;
    std::function<void()> call;
    std::exception_ptr thrown;

    void make() {
        std::call_once(once, [this] {
            try {
                std::exchange(call, nullptr)();
            } catch (...) {
                thrown = std::current_exception();
            }
        });
    }
};

SharedCall::SharedCall(std::function<void()> call) : m_state{std::make_shared<State>()} {
    m_state->call = std::move(call);
    Pool::ofProgram().add({}, Priority::Usual, [state = m_state](Context&) { state->make(); });
}

void SharedCall::finish() {
    m_state->make();
}

void SharedCall::finishOrThrow() {
    m_state->make();
    if (m_state->thrown) {
        std::rethrow_exception(m_state->thrown);
    }
}

}  // namespace core::jobs
