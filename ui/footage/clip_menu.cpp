#include "ui/footage/clip_menu.h"

#include <QActionGroup>
#include <QMenu>
#include <QTableView>
#include <algorithm>
#include <array>

#include "core/base/words.h"
#include "core/intake/clip_places.h"
#include "core/intake/day_setup.h"
#include "ui/footage/tr.h"
#include "ui/style/ask.h"

namespace ui::footage {
namespace {

using core::project::ClipId;
using core::project::ShotId;

constexpr std::size_t kMostNamedInQuestion = 3;

QString nameOfClips(const core::project::Snapshot& snapshot, const ClipMenu::Clips& clips) {
    return clips.size() == 1
               ? QString::fromStdString(core::project::clipName(snapshot, clips.front()))
               : QString::fromStdString(core::counted(clips.size(), "clip", "clips"));
}

QString whatHangsOn(const core::project::Snapshot& snapshot, const ClipMenu::Clips& clips) {
    std::size_t shots = 0;
    std::size_t kept = 0;
    for (const ClipId clip : clips) {
        for (const auto* shot : core::project::shotsOfClip(snapshot, clip)) {
            ++shots;
            kept += shot->standing == core::project::ShotStanding::Kept ? 1 : 0;
        }
    }
    const QString what = nameOfClips(snapshot, clips);
    return shots == 0
               ? tr("Remove %1? It has no shots.").arg(what)
               : tr("Remove %1? %2 with their marks and readings go too; %3 of "
                    "them in the findings.")
                     .arg(what, QString::fromStdString(core::counted(shots, "shot", "shots")))
                     .arg(kept == 0 ? tr("none") : QString::number(kept));
}

/// The clips with this part of the turn that a person made.
std::vector<core::project::Clip> turned(const core::project::Snapshot& snapshot,
                                        const ClipMenu::Clips& clips, int degrees) {
    std::vector<core::project::Clip> changed;
    for (const ClipId id : clips) {
        if (const auto* clip = snapshot.clips.find(id)) {
            changed.push_back(*clip);
            auto& next = changed.back();
            next.rotationDegrees =
                (next.rotationDegrees - next.turnedDegrees + degrees + 360) % 360;
            next.turnedDegrees = degrees;
        }
    }
    return changed;
}

QString escaped(const std::string& name) {
    return QString::fromStdString(name).replace(QLatin1Char('&'), QStringLiteral("&&"));
}

}  // namespace

ClipMenu::ClipMenu(core::project::Store& store, QTableView& list, std::function<Clips()> chosen,
                   std::function<bool(ClipId)> isMissing)
    : QObject{&list},
      m_store{store},
      m_list{list},
      m_chosen{std::move(chosen)},
      m_isMissing{std::move(isMissing)},
      m_remove{new QAction{tr("Remove…"), &list}} {
    m_remove->setObjectName(QStringLiteral("remove_clips"));
    m_remove->setShortcut(QKeySequence::Delete);
    m_remove->setShortcutContext(Qt::WidgetShortcut);
    list.addAction(m_remove);
    connect(m_remove, &QAction::triggered, this, &ClipMenu::removeChosen);
    list.setContextMenuPolicy(Qt::CustomContextMenu);
    connect(&list, &QWidget::customContextMenuRequested, this, &ClipMenu::show);
}

void ClipMenu::show(const QPoint& at) {
    if (!m_list.indexAt(at).isValid()) {
        return;
    }
    const bool canWrite = m_store.readOnlyReason().empty();
    const auto clips = m_chosen();
    const auto snapshot = m_store.snapshot();
    const auto shots = clips.size() == 1 ? core::project::shotsOfClip(*snapshot, clips.front())
                                         : std::vector<const core::project::Shot*>{};
    const auto first = shots.empty() ? ShotId{} : shots.front()->id;
    // Not run from here: a key may close the project, and the list with it, while the menu stands.
    auto* menu = new QMenu{&m_list};
    menu->setObjectName(QStringLiteral("clip_menu"));
    menu->setAttribute(Qt::WA_DeleteOnClose);
    auto* read =
        menu->addAction(tr("Read its shots"), this, [this, first] { Q_EMIT shotActivated(first); });
    read->setEnabled(!shots.empty());
    menu->addAction(tr("Find shots"), this, &ClipMenu::findWanted)->setEnabled(canWrite);
    auto* where = menu->addAction(tr("Show where it is…"), this, &ClipMenu::whereWanted);
    where->setEnabled(canWrite && clips.size() == 1 && m_isMissing(clips.front()));
    menu->addSeparator();
    addDays(*menu->addMenu(tr("Move to day")), clips);
    addTurns(*menu->addMenu(tr("Turn")), clips);
    menu->addSeparator();
    m_remove->setEnabled(canWrite);
    menu->addAction(m_remove);
    connect(menu, &QMenu::aboutToHide, m_remove, [remove = m_remove] { remove->setEnabled(true); });
    menu->popup(m_list.viewport()->mapToGlobal(at));
}

void ClipMenu::addDays(QMenu& menu, const Clips& clips) {
    const auto snapshot = m_store.snapshot();
    const bool canWrite = m_store.readOnlyReason().empty() && !clips.empty();
    for (const auto& day : snapshot->sessions) {
        const bool areThere = std::all_of(clips.begin(), clips.end(), [&](ClipId id) {
            const auto* clip = snapshot->clips.find(id);
            return clip != nullptr && clip->session == day.id;
        });
        menu.addAction(escaped(day.name), this, [this, clips, id = day.id] { move(clips, id); })
            ->setEnabled(canWrite && !areThere);
    }
    menu.addSeparator();
    menu.addAction(tr("New filming day…"), this, [this, clips] { moveToNewDay(clips); })
        ->setEnabled(canWrite);
}

void ClipMenu::addTurns(QMenu& menu, const Clips& clips) {
    constexpr std::array kTurns{QT_TR_NOOP("As the file says"), QT_TR_NOOP("Quarter turn right"),
                                QT_TR_NOOP("Upside down"), QT_TR_NOOP("Quarter turn left")};
    const auto snapshot = m_store.snapshot();
    const auto* first = clips.empty() ? nullptr : snapshot->clips.find(clips.front());
    auto* choice = new QActionGroup{&menu};
    for (std::size_t i = 0; i < kTurns.size(); ++i) {
        const int degrees = 90 * static_cast<int>(i);
        auto* action =
            menu.addAction(tr(kTurns[i]), this, [this, clips, degrees] { turn(clips, degrees); });
        action->setCheckable(true);
        action->setChecked(first != nullptr && first->turnedDegrees == degrees);
        action->setActionGroup(choice);
    }
    menu.setEnabled(m_store.readOnlyReason().empty() && first != nullptr && !isTally(*first));
}

void ClipMenu::removeChosen() {
    const auto clips = m_chosen();
    if (clips.empty() || !m_store.readOnlyReason().empty()) {
        Q_EMIT troubled(QString::fromStdString(m_store.readOnlyReason()));
        return;
    }
    style::askWhether(
        m_list,
        {tr("Remove clips"), whatHangsOn(*m_store.snapshot(), clips),
         tr("Undo brings everything back. The files stay where they are."), tr("Remove")},
        [this, clips] {
            const auto done = m_store.removeClips(clips);
            Q_EMIT troubled(done ? QString{} : QString::fromStdString(done.error().message));
        });
}

/// Kept shots whose number will be another are named before.
void ClipMenu::askFirst(const QString& title, const QString& what, const Clips& clips,
                        const std::vector<ShotId>& resting, std::function<void()> act) {
    if (resting.empty()) {
        act();
        return;
    }
    const auto snapshot = m_store.snapshot();
    style::askWhether(m_list,
                      {title, what.arg(nameOfClips(*snapshot, clips)),
                       tr("%1 on it: %2. They are read again and stay kept with their new numbers; "
                          "the old ones stay in the history.")
                           .arg(QString::fromStdString(core::counted(
                                    resting.size(), "kept shot rests", "kept shots rest")),
                                QString::fromStdString(core::intake::namesOfShots(
                                    *snapshot, resting, kMostNamedInQuestion))),
                       tr("%1, read again").arg(title)},
                      std::move(act));
}

void ClipMenu::askToMove(const Clips& clips, std::optional<core::project::SessionId> day,
                         std::function<void()> act) {
    const auto change = core::intake::factChangeOfMove(m_store, clips, day);
    if (!change) {
        Q_EMIT troubled(QString::fromStdString(change.error().message));
        return;
    }
    askFirst(tr("Move"), tr("Move %1 to another filming day?"), clips,
             core::intake::keptShotsRestingOn(*m_store.snapshot(), change.value()), std::move(act));
}

void ClipMenu::move(const Clips& clips, core::project::SessionId day) {
    askToMove(clips, day, [this, clips, day] {
        const auto done = core::intake::moveToDay(m_store, clips, day);
        Q_EMIT troubled(done ? QString{} : QString::fromStdString(done.error().message));
        if (done) {
            Q_EMIT readAgainWanted(done.value());
        }
    });
}

void ClipMenu::moveToNewDay(const Clips& clips) {
    style::askForText(
        m_list, {tr("New filming day"), tr("Name of the filming day")},
        [this, clips](const QString& name) {
            askToMove(clips, std::nullopt, [this, clips, name] {
                const auto done = core::intake::moveToNewDay(m_store, clips, name.toStdString());
                Q_EMIT troubled(done ? QString{} : QString::fromStdString(done.error().message));
                if (done) {
                    Q_EMIT readAgainWanted(done.value().resting);
                    Q_EMIT setUpWanted(done.value().day);
                }
            });
        });
}

void ClipMenu::turn(const Clips& clips, int degrees) {
    const auto snapshot = m_store.snapshot();
    askFirst(tr("Turn"), tr("Turn %1?"), clips,
             core::intake::keptShotsRestingOn(*snapshot, {{}, turned(*snapshot, clips, degrees)}),
             [this, clips, degrees] {
                 const auto done = core::intake::turnClips(m_store, clips, degrees);
                 Q_EMIT troubled(done ? QString{} : QString::fromStdString(done.error().message));
                 if (done) {
                     Q_EMIT readAgainWanted(done.value());
                 }
             });
}

}  // namespace ui::footage
