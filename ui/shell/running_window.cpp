#include "ui/shell/running_window.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFileInfo>
#include <QLocalSocket>
#include <QStandardPaths>

namespace ui::shell {
namespace {

constexpr int kAnswerMs = 1000;
/// A path of a file is at most 4096 bytes long on Linux; more is not from another start.
constexpr qint64 kLongestPath = 8192;

}  // namespace

RunningWindow::RunningWindow(const QString& key, QObject* parent) : QObject{parent} {
    const QByteArray hash =
        QCryptographicHash::hash(key.toUtf8(), QCryptographicHash::Sha256).toHex().left(16);
    m_name = QDir{QStandardPaths::writableLocation(QStandardPaths::RuntimeLocation)}.filePath(
        QStringLiteral("turnmark-%1").arg(QString::fromLatin1(hash)));
    connect(&m_server, &QLocalServer::newConnection, this, &RunningWindow::takeConnection);
}

bool RunningWindow::hasTaken(const QString& file) const {
    QLocalSocket socket;
    socket.connectToServer(m_name);
    if (!socket.waitForConnected(kAnswerMs)) {
        return false;
    }
    const QString path = file.isEmpty() ? QString{} : QFileInfo{file}.absoluteFilePath();
    socket.write(path.toUtf8() + '\n');
    // The answer comes when the line was read, so that a window that hangs takes nothing.
    return socket.waitForBytesWritten(kAnswerMs) && socket.waitForReadyRead(kAnswerMs) &&
           socket.readAll() == "taken\n";
}

bool RunningWindow::listen() {
    m_server.setSocketOptions(QLocalServer::UserAccessOption);
    if (m_server.listen(m_name)) {
        return true;
    }
    // Left by a window that was killed: hasTaken() found nobody behind it.
    QLocalServer::removeServer(m_name);
    return m_server.listen(m_name);
}

void RunningWindow::takeConnection() {
    QLocalSocket* socket = m_server.nextPendingConnection();
    connect(socket, &QLocalSocket::disconnected, socket, &QObject::deleteLater);
    connect(socket, &QLocalSocket::readyRead, this, [this, socket] {
        if (!socket->canReadLine()) {
            if (socket->bytesAvailable() > kLongestPath) {
                socket->abort();
            }
            return;
        }
        const QByteArray line = socket->readLine(kLongestPath);
        socket->write("taken\n");
        socket->flush();
        Q_EMIT asked(QString::fromUtf8(line).chopped(1));
    });
}

}  // namespace ui::shell
