#include "ui/shell/recent_projects.h"

#include <QBuffer>
#include <QFileInfo>
#include <QSettings>

namespace ui::shell {
namespace {

const QString kRecentKey = QStringLiteral("recent_projects");
constexpr qsizetype kMost = 6;

QList<RecentProject> storedProjects() {
    QList<RecentProject> projects;
    QSettings settings;
    const int count = settings.beginReadArray(kRecentKey);
    for (int i = 0; i < count; ++i) {
        settings.setArrayIndex(i);
        const auto text = [&settings](const char* key) {
            return settings.value(QLatin1String{key}).toString();
        };
        RecentProject project{
            text("file"),
            text("words"),
            text("on"),
            static_cast<StepState::Need>(settings.value(QStringLiteral("need")).toInt()),
            text("need_words"),
            {}};
        project.ball.loadFromData(settings.value(QStringLiteral("ball")).toByteArray(), "PNG");
        projects << project;
    }
    settings.endArray();
    return projects;
}

QByteArray pngOf(const QImage& image) {
    QByteArray bytes;
    QBuffer buffer{&bytes};
    buffer.open(QIODevice::WriteOnly);
    return !image.isNull() && image.save(&buffer, "PNG") ? bytes : QByteArray{};
}

}  // namespace

QString RecentProject::name() const {
    return QFileInfo{file}.completeBaseName();
}

QList<RecentProject> recentProjects() {
    auto projects = storedProjects();
    projects.removeIf([](const RecentProject& each) { return !QFileInfo::exists(each.file); });
    return projects;
}

void noteRecentProject(const RecentProject& project) {
    auto projects = storedProjects();
    projects.removeIf([&](const RecentProject& each) { return each.file == project.file; });
    projects.prepend(project);
    while (projects.size() > kMost) {
        projects.removeLast();
    }
    QSettings settings;
    settings.beginWriteArray(kRecentKey, static_cast<int>(projects.size()));
    for (qsizetype i = 0; i < projects.size(); ++i) {
        const RecentProject& each = projects[i];
        settings.setArrayIndex(static_cast<int>(i));
        settings.setValue(QStringLiteral("file"), each.file);
        settings.setValue(QStringLiteral("words"), each.words);
        settings.setValue(QStringLiteral("on"), each.on);
        settings.setValue(QStringLiteral("need"), static_cast<int>(each.need));
        settings.setValue(QStringLiteral("need_words"), each.needWords);
        settings.setValue(QStringLiteral("ball"), pngOf(each.ball));
    }
    settings.endArray();
}

}  // namespace ui::shell
