#include "core/jobs/source.h"

#include <algorithm>
#include <utility>

namespace core::jobs {

Conveyor::Conveyor(Pool& pool, std::shared_ptr<Source> source, Options options)
    : m_pool{pool},
      m_source{std::move(source)},
      m_options{std::move(options)},
      m_self{std::make_shared<Conveyor*>(this)} {}

Conveyor::~Conveyor() {
    cancelJobs();
}

bool Conveyor::hasRoom() const {
    const auto atWork = static_cast<std::size_t>(std::count_if(
        m_away.begin(), m_away.end(), [](const Away& away) { return !away.hasEnded; }));
    return !m_isPaused && atWork < m_options.atOnce && m_away.size() < kMostAway;
}

void Conveyor::go() {
    if (std::exchange(m_isGiving, true)) {
        return;  // the source has told somebody that it begins a piece, who came back here
    }
    while (hasRoom()) {
        auto piece = m_source->next();
        if (!piece) {
            break;
        }
        const std::size_t number = ++m_given;
        m_away.push_back({number, {}, piece->what, false, {}});
        std::string title = piece->title;
        m_away.back().job = m_pool.add(
            std::move(title), m_options.priority,
            [source = m_source, piece = std::move(*piece), home = m_options.home, number,
             self = std::weak_ptr{m_self}](Context& context) {
                context.report(piece.fraction, piece.step);
                auto atHome = context.isCancelled() ? Source::AtHome{} : piece.work(context);
                context.then([home, self, number, atHome = std::move(atHome)] {
                    home([self, number, atHome] {
                        Conveyor* conveyor = nullptr;
                        if (const auto at = self.lock()) {
                            conveyor = *at;
                        }
                        if (conveyor != nullptr) {
                            conveyor->comeHome(number, atHome);
                        }
                    });
                });
            },
            InPause::Waits);
    }
    m_isGiving = false;
}

void Conveyor::resume() {
    m_isPaused = false;
    go();
}

void Conveyor::cancel() {
    m_source->cancel();
    cancelJobs();
}

void Conveyor::cancelJobs() {
    for (const Away& away : m_away) {
        m_pool.cancel(away.job);
    }
}

std::string Conveyor::atWork() const {
    return m_away.empty() ? std::string{} : m_away.front().what;
}

void Conveyor::comeHome(std::size_t number, Source::AtHome atHome) {
    const auto ended = std::find_if(m_away.begin(), m_away.end(),
                                    [number](const Away& away) { return away.number == number; });
    ended->hasEnded = true;
    ended->atHome = std::move(atHome);
    const std::weak_ptr alive{m_self};
    while (!m_away.empty() && m_away.front().hasEnded) {
        const auto home = std::move(m_away.front().atHome);
        m_away.pop_front();
        home ? home() : m_source->cancel();
        if (alive.expired()) {
            return;  // what was done at home has deleted this
        }
    }
    if (m_source->isCancelled()) {
        cancelJobs();
    }
    go();
    if (const auto moved = m_options.moved) {
        moved();  // last: this may be gone after it
    }
}

namespace {

/// Calls that wait for the thread that is at home.
class Doorstep {
public:
    void put(std::function<void()> call) {
        const std::lock_guard lock{m_mutex};
        m_calls.push_back(std::move(call));
        m_news.notify_one();
    }
    /// Blocks.
    std::function<void()> take() {
        std::unique_lock lock{m_mutex};
        m_news.wait(lock, [this] { return !m_calls.empty(); });
        auto call = std::move(m_calls.front());
        m_calls.pop_front();
        return call;
    }

private:
    std::mutex m_mutex;
    std::condition_variable m_news;
    std::deque<std::function<void()>> m_calls;
};

}  // namespace

void workOff(Source& source, Pool& pool, std::size_t atOnce, std::stop_token stop) {
    const bool isStopped = stop.stop_requested();
    const auto doorstep = std::make_shared<Doorstep>();
    const std::shared_ptr<Source> borrowed{std::shared_ptr<void>{}, &source};
    Conveyor conveyor{
        pool,
        borrowed,
        {.priority = Priority::Usual,
         .atOnce = std::max<std::size_t>(1, atOnce),
         .home = [doorstep](std::function<void()> call) { doorstep->put(std::move(call)); },
         .moved = {}}};
    const std::stop_callback stopped{std::move(stop), [&conveyor, doorstep] {
                                         doorstep->put([&conveyor] { conveyor.cancel(); });
                                     }};
    if (isStopped) {
        conveyor.cancel();
    }
    conveyor.go();
    while (!conveyor.isIdle()) {
        doorstep->take()();
    }
}

}  // namespace core::jobs
