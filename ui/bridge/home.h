#pragma once

#include <QObject>
#include <functional>
#include <memory>
#include <mutex>

namespace ui::bridge {

/// The way home for work on other threads: runs calls in the thread of an object, by queued
/// connection, as long as that wants them. Copies lead to the same object and may outlive it.
class Home {
public:
    explicit Home(QObject& receiver) : m_door{std::make_shared<Door>(&receiver)} {}

    /// From any thread.
    void post(std::function<void()> call) const {
        const std::lock_guard lock{m_door->mutex};
        if (m_door->receiver != nullptr) {
            QMetaObject::invokeMethod(m_door->receiver, std::move(call), Qt::QueuedConnection);
        }
    }
    /// Calls that come from now on vanish. To be called before the receiver goes.
    void close() const {
        const std::lock_guard lock{m_door->mutex};
        m_door->receiver = nullptr;
    }

private:
    struct Door {
        explicit Door(QObject* object) : receiver{object} {}
        std::mutex mutex;
        QObject* receiver;
    };
    std::shared_ptr<Door> m_door;
};

}  // namespace ui::bridge
