#include <QCoreApplication>
#include <QString>

QString rightWords() {
    return QCoreApplication::translate("ui::chart", "Right");
}

QString wrongWords(int at) {
    const QString all[] = {
        QStringLiteral("Said in English alone"),
        QCoreApplication::translate("ui::chart", "Nobody translated this"),
        QCoreApplication::translate("ui::chart", "Not finished"),
        QCoreApplication::translate("ui::chart", "%1 of %2"),
        QCoreApplication::translate("ui::chart", "&Keep"),
    };
    return all[at];
}
