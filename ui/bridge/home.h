#pragma once

#include <QObject>
#include <functional>
#include <memory>

namespace ui::bridge {

/// The way home for work on other threads: runs calls in the thread of an object, from its event
/// loop, as long as that wants them. Copies lead to the same object and may outlive it.
///
/// Qt's event queue brings no more than a ring of the bell; the calls go through a lock that the
/// compiler sees. So the thread sanitizer knows the order of things, which it cannot inside Qt.
class Home {
public:
    explicit Home(QObject& receiver);

    /// From any thread.
    void post(std::function<void()> call) const;
    /// Calls that come from now on vanish. To be called before the receiver goes.
    void close() const;

private:
    struct Door;
    class Bell;
    std::shared_ptr<Door> m_door;
};

}  // namespace ui::bridge
