#pragma once

#include <QLocalServer>
#include <QObject>
#include <QString>

namespace ui::shell {

/// One window a person and display: a second start hands its project to the window that runs.
/// Confined to the thread of the window.
class RunningWindow : public QObject {
    Q_OBJECT

public:
    /// key: what tells windows apart, for example the display; the person's own folder for sockets
    /// is used (XDG Base Directory Specification, XDG_RUNTIME_DIR), which no one else can write to.
    explicit RunningWindow(const QString& key, QObject* parent = nullptr);

    /// Whether a window that runs has taken the file; empty: it was asked to come forward. False
    /// where none runs or it does not answer within a second.
    [[nodiscard]] bool hasTaken(const QString& file) const;
    /// From now on this is the window that runs. False where the system allows no socket: then
    /// every start has a window of its own.
    bool listen();

Q_SIGNALS:
    /// Another start wants this file shown, as an absolute path; empty: only the window.
    void asked(const QString& file);

private:
    void takeConnection();

    QString m_name;  ///< of the socket
    QLocalServer m_server;
};

}  // namespace ui::shell
