#include "ui/footage/session_box.h"

#include <QSignalBlocker>
#include <algorithm>

namespace ui::footage {

SessionBox::SessionBox(core::project::Store& store, Offer offer, QWidget* parent)
    : QComboBox{parent}, m_store{store}, m_offer{offer} {
    setAccessibleName(tr("Filming day"));
    setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    setMinimumContentsLength(8);  // the row it stands in has room at 1024 px in every language
    connect(this, &QComboBox::activated, this, [this] { m_isChosen = true; });
    m_listening = store.listen([this](const core::project::Store::Change& change) {
        if (change.structure) {
            refresh();
        }
    });
    refresh();
}

/// As wide as its longest name, within reason: a row that has no room for it breaks.
QSize SessionBox::sizeHint() const {
    constexpr int kMostLetters = 40;
    QSize size = QComboBox::sizeHint();
    int names = 0;
    for (int i = 0; i < count(); ++i) {
        names = std::max(names, fontMetrics().horizontalAdvance(itemText(i)));
    }
    const int letter = fontMetrics().averageCharWidth();
    const int least = minimumContentsLength() * letter;
    size.rwidth() += std::clamp(names, least, std::max(least, kMostLetters * letter)) - least;
    return size;
}

std::optional<core::project::SessionId> SessionBox::session() const {
    const QVariant id = currentData();
    return id.isValid() ? std::optional{core::project::SessionId{id.toLongLong()}} : std::nullopt;
}

bool SessionBox::chooseAdded(const std::string& name) {
    const auto snapshot = m_store.snapshot();
    const auto added = std::find_if(snapshot->sessions.begin(), snapshot->sessions.end(),
                                    [&name](const auto& session) { return session.name == name; });
    if (added == snapshot->sessions.end()) {
        return false;
    }
    setCurrentIndex(findData(QVariant::fromValue(static_cast<qlonglong>(added->id.value))));
    return true;
}

void SessionBox::refresh() {
    const QVariant before = currentData();
    const QSignalBlocker quiet{this};
    clear();
    const auto snapshot = m_store.snapshot();
    for (const auto& session : snapshot->sessions) {
        const QString name = QString::fromStdString(session.name);
        const QString date = QString::fromStdString(session.date);
        addItem(
            date.isEmpty() || name.contains(date) ? name : QStringLiteral("%1, %2").arg(name, date),
            QVariant::fromValue(static_cast<qlonglong>(session.id.value)));
    }
    const int last = count() - 1;
    if (m_offer == Offer::KnownAndNew) {
        addItem(tr("a new filming day"));
    } else if (count() == 0) {
        addItem(tr("none yet"));
    }
    int place = last;
    if (m_isChosen) {
        place = before.isValid() ? findData(before) : count() - 1;
    }
    setCurrentIndex(place >= 0 ? place : count() - 1);
    updateGeometry();
}

}  // namespace ui::footage
