#pragma once

#include <QDesktopServices>
#include <QList>
#include <QObject>
#include <QUrl>

namespace tests {

/// Takes the place of the browser and of the file manager.
class OpenedPlaces : public QObject {
    Q_OBJECT

public:
    OpenedPlaces() { QDesktopServices::setUrlHandler(QStringLiteral("file"), this, "open"); }
    ~OpenedPlaces() override { QDesktopServices::unsetUrlHandler(QStringLiteral("file")); }
    QList<QUrl> opened;

public Q_SLOTS:
    void open(const QUrl& url) { opened << url; }
};

}  // namespace tests
