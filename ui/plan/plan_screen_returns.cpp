#include <QDate>
#include <QFileDialog>

#include "core/intake/assign_by_plan.h"
#include "core/intake/film_order.h"
#include "ui/plan/plan_desk.h"
#include "ui/plan/plan_screen.h"
#include "ui/plan/tally_dialog.h"

/// What comes back after filming: whose the shots are, and counts that were made elsewhere.
namespace ui::plan {

core::Result<core::project::SessionId> PlanScreen::session(bool mayAdd) {
    const auto snapshot = m_store.snapshot();
    if (!snapshot->sessions.isEmpty()) {
        return (snapshot->sessions.end() - 1)->id;
    }
    if (!mayAdd) {
        return core::fail(core::ErrorCode::NotFound,
                          tr("There are no clips yet. Add them in Footage first.").toStdString());
    }
    core::project::Session session;
    session.date = QDate::currentDate().toString(Qt::ISODate).toStdString();
    session.name =
        m_desk->plan().session.empty() ? "Session of " + session.date : m_desk->plan().session;
    session.marking = m_desk->plan().marking;
    return m_store.addSession(session);
}

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
    const auto day = session(true);
    if (!table || !day) {
        say(QString::fromStdString(!table ? table.error().message : day.error().message));
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

void PlanScreen::assignByOrder() {
    const auto day = session(false);
    if (!day) {
        say(QString::fromStdString(day.error().message));
        return;
    }
    const auto done = core::intake::assignByPlanOrder(m_store, day.value(),
                                                      core::intake::WhenCountsDiffer::Refuse);
    if (done) {
        tellAssignment(done.value());
    } else {
        say(QString::fromStdString(done.error().message));
    }
}

void PlanScreen::assignByCards() {
    const auto day = session(false);
    const auto clips = day ? core::intake::filmOrder(m_store, day.value())
                           : core::Result<std::vector<core::project::ClipId>>{day.error()};
    if (!clips) {
        say(QString::fromStdString(clips.error().message));
        return;
    }
    std::vector<core::intake::SlateSearch> searches;
    for (const auto clip : clips.value()) {
        auto search = core::intake::slateSearchOf(m_store, clip);
        if (!search) {
            say(QString::fromStdString(search.error().message));
            return;
        }
        searches.push_back(std::move(search).value());
    }
    say({});
    m_jobs.start<std::vector<core::intake::ClipSlates>>(
        tr("Looking for slate cards"),
        [searches](
            bridge::JobContext& context) -> core::Result<std::vector<core::intake::ClipSlates>> {
            std::vector<core::intake::ClipSlates> slates;
            const auto count = static_cast<double>(searches.size());
            for (const auto& search : searches) {
                const auto done = static_cast<double>(slates.size());
                auto read =
                    core::intake::readSlateCards(search, context.stopToken(), [&](double share) {
                        context.report((done + share) / count,
                                       PlanScreen::tr("clip %1 of %2").arg(done + 1).arg(count));
                    });
                if (!read) {
                    return read.error();
                }
                slates.push_back({search.clip, std::move(read).value()});
            }
            return slates;
        },
        this, [this, day = day.value()](const auto& slates) { cardsCameHome(day, slates); });
}

void PlanScreen::cardsCameHome(core::project::SessionId session,
                               const core::Result<std::vector<core::intake::ClipSlates>>& slates) {
    if (!slates) {
        if (slates.error().code != core::ErrorCode::Cancelled) {
            say(QString::fromStdString(slates.error().message));
        }
        return;
    }
    const auto done = core::intake::assignBySlateCards(m_store, session, slates.value());
    if (done) {
        tellAssignment(done.value());
    } else {
        say(QString::fromStdString(done.error().message));
    }
}

void PlanScreen::tellAssignment(const core::intake::AssignmentReport& report) {
    QStringList remarks;
    for (const auto& remark : report.remarks) {
        remarks << QString::fromStdString(remark);
    }
    say(remarks.join(QLatin1Char('\n')));
    Q_EMIT statusChanged(tr("Assigned %1 shots; %2 were right already, %3 are assigned otherwise "
                            "and stay so, %4 stay open.")
                             .arg(report.assigned)
                             .arg(report.alreadyRight)
                             .arg(report.leftElsewhere)
                             .arg(report.leftOpen));
}

}  // namespace ui::plan
