#include "ui/footage/day_assign_panel.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "core/intake/film_order.h"
#include "ui/footage/session_box.h"
#include "ui/style/hold_back.h"
#include "ui/style/plain_label.h"
#include "ui/style/rows_layout.h"
#include "ui/style/scrolled_down.h"
#include "ui/style/tokens.h"

namespace ui::footage {

using core::intake::WhenCountsDiffer;

DayAssignPanel::DayAssignPanel(core::project::Store& store, bridge::JobRunner& jobs,
                               QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_jobs{jobs},
      m_session{new SessionBox{store, SessionBox::Offer::Known}},
      m_byCards{new QPushButton{tr("By slate cards")}},
      m_byOrder{new QPushButton{tr("By order of the plan")}},
      m_message{new QLabel},
      m_anyway{new QPushButton{tr("Assign anyway")}} {
    m_session->setObjectName(QStringLiteral("assign_session"));
    m_byCards->setObjectName(QStringLiteral("by_cards"));
    m_byCards->setToolTip(
        tr("Looks through the clips of the filming day for cards and assigns the shots "
           "after each; shots that are assigned stay so"));
    m_byOrder->setObjectName(QStringLiteral("by_order"));
    m_byOrder->setToolTip(
        tr("The first shot found is the first one planned, and so on; shots that are "
           "assigned stay so"));
    m_message->setObjectName(QStringLiteral("day_message"));
    style::showPlainWords(m_message);
    m_message->hide();
    m_anyway->setObjectName(QStringLiteral("assign_anyway"));
    m_anyway->setToolTip(tr(
        "Shot by shot from the first one on, as far as shots and plan both reach; one undo takes "
        "it back"));
    m_anyway->hide();
    auto* buttons = new QWidget;
    auto* places = new style::RowsLayout{buttons};
    places->setContentsMargins(0, 0, 0, 0);
    places->setSpacing(style::kBetweenPx);
    places->addWidget(m_byCards);
    places->addWidget(m_byOrder);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_session);
    layout->addWidget(buttons);
    layout->addWidget(m_message);
    layout->addWidget(m_anyway);
    style::holdBack({m_byCards, m_byOrder, m_anyway},
                    QString::fromStdString(store.readOnlyReason()));
    connect(m_session, &QComboBox::activated, this, [this] { say({}); });
    connect(m_byCards, &QPushButton::clicked, this, &DayAssignPanel::assignByCards);
    connect(m_byOrder, &QPushButton::clicked, this,
            [this] { assignByOrder(WhenCountsDiffer::Refuse); });
    connect(m_anyway, &QPushButton::clicked, this,
            [this] { assignByOrder(WhenCountsDiffer::Assign); });
    m_listening = m_store.listen([this](const core::project::Store::Change&) { refresh(); });
    refresh();
}

void DayAssignPanel::refresh() {
    const auto snapshot = m_store.snapshot();
    const bool hasShots = !snapshot->shots.isEmpty();
    m_byCards->setEnabled(hasShots);
    m_byOrder->setEnabled(hasShots && !core::project::planOf(*snapshot).isEmpty());
}

void DayAssignPanel::assignByOrder(WhenCountsDiffer whenCountsDiffer) {
    const auto day = m_session->session();
    if (!day) {
        return;
    }
    const auto done = core::intake::assignByPlanOrder(m_store, *day, whenCountsDiffer);
    tell(done);
    const bool mayGoOn = !done && done.error().code == core::ErrorCode::Contradiction;
    m_anyway->setVisible(mayGoOn);
    if (mayGoOn) {
        style::bringIntoView(*m_anyway);
    }
}

void DayAssignPanel::assignByCards() {
    const auto day = m_session->session();
    if (!day) {
        return;
    }
    const auto clips = core::intake::filmOrder(m_store, *day);
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
    say(tr("Looking for slate cards…"));
    m_jobs.start<Slates>(
        tr("Looking for slate cards"),
        [searches](bridge::JobContext& context) -> core::Result<Slates> {
            Slates slates;
            const auto count = static_cast<double>(searches.size());
            for (const auto& search : searches) {
                const auto done = static_cast<double>(slates.size());
                auto read =
                    core::intake::readSlateCards(search, context.stopToken(), [&](double share) {
                        context.report((done + share) / count,
                                       tr("clip %1 of %2").arg(done + 1).arg(count));
                    });
                if (!read) {
                    return read.error();
                }
                slates.push_back({search.clip, std::move(read).value()});
            }
            return slates;
        },
        this, [this, day = *day](const auto& slates) { cardsCameHome(day, slates); });
}

void DayAssignPanel::cardsCameHome(core::project::SessionId session,
                                   const core::Result<Slates>& slates) {
    if (slates) {
        tell(core::intake::assignBySlateCards(m_store, session, slates.value()));
    } else {
        say(slates.error().code == core::ErrorCode::Cancelled
                ? QString{}
                : QString::fromStdString(slates.error().message));
    }
}

void DayAssignPanel::tell(const core::Result<core::intake::AssignmentReport>& report) {
    if (!report) {
        say(QString::fromStdString(report.error().message));
        return;
    }
    QString text = tr("Assigned: %1. Already right: %2. Assigned differently and not changed: %3. "
                      "Not assigned: %4.")
                       .arg(report.value().assigned)
                       .arg(report.value().alreadyRight)
                       .arg(report.value().leftElsewhere)
                       .arg(report.value().leftOpen);
    for (const auto& remark : report.value().remarks) {
        text += QLatin1Char('\n') + QString::fromStdString(remark);
    }
    say(text);
}

void DayAssignPanel::say(const QString& text) {
    m_message->setText(text);
    m_message->setVisible(!text.isEmpty());
    m_anyway->hide();
}

}  // namespace ui::footage
