#include <QDate>
#include <QFileDialog>

#include "core/intake/session_for.h"
#include "ui/plan/plan_screen.h"
#include "ui/plan/tally_dialog.h"

/// Counts that were made elsewhere.
namespace ui::plan {

void PlanScreen::chooseTally() {
    const QString file =
        QFileDialog::getOpenFileName(this, tr("Import a tally"), {}, tableFilter());
    if (!file.isEmpty()) {
        importTally(file);
    }
}

void PlanScreen::importTally(const QString& file) {
    const std::filesystem::path path{file.toStdString()};
    auto table = core::intake::readTableFile(path);
    if (!table) {
        say(QString::fromStdString(table.error().message));
        return;
    }
    const auto day = core::intake::sessionFor(
        m_store, {}, QDate::currentDate().toString(Qt::ISODate).toStdString());
    if (!day) {
        say(QString::fromStdString(day.error().message));
        return;
    }
    say({});
    TallyDialog dialog{m_store, day.value(), path, std::move(table).value(), this};
    if (dialog.exec() == QDialog::Accepted) {
        const auto& done = dialog.imported();
        Q_EMIT statusChanged(done.alreadyThere > 0
                                 ? tr("The %1 shots of this tally are in the project already.")
                                       .arg(done.alreadyThere)
                                 : tr("Imported %1 shots.").arg(done.added));
    }
}

}  // namespace ui::plan
