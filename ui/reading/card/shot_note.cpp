#include "ui/reading/card/shot_note.h"

#include <QHBoxLayout>
#include <QLabel>

#include "ui/reading/card/reason_edit.h"
#include "ui/style/tokens.h"

namespace ui::reading {

ShotNote::ShotNote(ReadingDesk& desk, QWidget* parent)
    : QWidget{parent}, m_desk{desk}, m_line{new ReasonEdit} {
    m_line->setObjectName(QStringLiteral("shot_note"));
    m_line->setAccessibleName(tr("Note"));
    m_line->setPlaceholderText(tr("about this shot"));
    m_line->setToolTip(
        tr("Your words about this shot: searched in the list, published with its "
           "reading. Enter keeps them."));
    m_line->setFocusPolicy(Qt::ClickFocus);
    m_line->setEnabled(desk.store().readOnlyReason().empty());
    auto* name = new QLabel{tr("Note")};
    name->setForegroundRole(QPalette::PlaceholderText);
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(style::kBetweenPx);
    row->addWidget(name);
    row->addWidget(m_line, 1);
    connect(&desk, &ReadingDesk::viewChanged, this, &ShotNote::refresh);
    connect(&desk, &ReadingDesk::shotClosed, this, &ShotNote::refresh);
    connect(m_line, &ReasonEdit::given, this, [this] {
        keep();
        leave();
    });
    connect(m_line, &ReasonEdit::givenUp, this, [this] {
        m_line->setModified(false);
        leave();
        refresh();
    });
    connect(m_line, &QLineEdit::editingFinished, this, &ShotNote::keep);
    refresh();
}

void ShotNote::leave() {
    m_line->clearFocus();
}

/// What is being written stays while other things of the shot change.
void ShotNote::refresh() {
    const bool isShown = m_desk.hasShot() && !m_desk.view().areNamesHidden && !m_desk.isBlind();
    const auto shot = isShown ? std::optional{m_desk.view().shot.id} : std::nullopt;
    if (shot != m_shot) {
        keep();
        m_shot = shot;
        m_line->setModified(false);
    }
    setVisible(isShown);
    if (isShown && !m_line->isModified()) {
        const QString note = QString::fromStdString(m_desk.view().shot.note);
        if (m_line->text() != note) {
            m_line->setText(note);
        }
        m_line->setCursorPosition(0);
    }
}

void ShotNote::keep() {
    if (!m_shot || !m_line->isModified()) {
        return;
    }
    m_line->setModified(false);
    const auto kept = m_desk.store().setShotNote(*m_shot, m_line->text().toStdString());
    if (!kept) {
        m_desk.advise(QString::fromStdString(kept.error().message));
    }
}

}  // namespace ui::reading
