#include <QDate>

#include "core/base/words.h"
#include "ui/plan/plan_screen.h"
#include "ui/plan/tally_dialog.h"
#include "ui/style/ask.h"

/// Counts that were made elsewhere.
namespace ui::plan {

void PlanScreen::chooseTally() {
    style::askForFile(*this, {tr("Import frame counts"), {}, tableFilter()},
                      [this](const QString& file) { importTally(file); });
}

void PlanScreen::importTally(const QString& file) {
    const std::filesystem::path path{file.toStdString()};
    auto sheet = core::intake::readTallySheet(path);
    if (!sheet) {
        say(QString::fromStdString(sheet.error().message));
        return;
    }
    say({});
    auto* dialog = new TallyDialog{m_store, path, std::move(sheet).value(),
                                   QDate::currentDate().toString(Qt::ISODate).toStdString(), this};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog] {
        const auto& done = dialog->imported();
        const auto shots = done.alreadyThere > 0 ? done.alreadyThere : done.added;
        const auto count = QString::fromStdString(core::counted(shots, "shot", "shots"));
        Q_EMIT statusChanged(done.alreadyThere > 0
                                 ? tr("This table was imported before: %1.").arg(count)
                                 : tr("Imported %1.").arg(count));
    });
    dialog->open();
}

}  // namespace ui::plan
