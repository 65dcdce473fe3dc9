#include "ui/bridge/home.h"

#include <QCoreApplication>
#include <QEvent>
#include <deque>
#include <mutex>
#include <utility>

namespace ui::bridge {

struct Home::Door {
    std::mutex mutex;
    Bell* bell{};  ///< null when closed
    std::deque<std::function<void()>> calls;
};

/// Lives and goes with the receiver. One event is one call.
class Home::Bell : public QObject {
public:
    Bell(std::shared_ptr<Door> door, QObject& receiver)
        : QObject{&receiver}, m_door{std::move(door)} {}
    ~Bell() override {
        std::deque<std::function<void()>> dropped;  // what they hold goes without the lock
        const std::lock_guard lock{m_door->mutex};
        dropped.swap(m_door->calls);
    }

protected:
    bool event(QEvent* event) override {
        if (event->type() != QEvent::User) {
            return QObject::event(event);
        }
        std::function<void()> call;
        {
            const std::lock_guard lock{m_door->mutex};
            call = std::move(m_door->calls.front());
            m_door->calls.pop_front();
        }
        call();  // may take the receiver away, and this with it
        return true;
    }

private:
    std::shared_ptr<Door> m_door;
};

Home::Home(QObject& receiver) : m_door{std::make_shared<Door>()} {
    m_door->bell = new Bell{m_door, receiver};
}

void Home::post(std::function<void()> call) const {
    const std::lock_guard lock{m_door->mutex};
    if (m_door->bell != nullptr) {
        m_door->calls.push_back(std::move(call));
        QCoreApplication::postEvent(m_door->bell, new QEvent{QEvent::User});  // Qt deletes it
    }
}

void Home::close() const {
    const std::lock_guard lock{m_door->mutex};
    m_door->bell = nullptr;
}

}  // namespace ui::bridge
