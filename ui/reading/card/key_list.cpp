#include "ui/reading/card/key_list.h"

#include <QGridLayout>
#include <QLabel>

#include "ui/reading/reading_actions.h"
#include "ui/style/let_go.h"
#include "ui/style/text_font.h"

namespace ui::reading {
namespace {

QString keysOf(const QAction& action) {
    QStringList keys;
    for (const QKeySequence& key : action.shortcuts()) {
        keys << key.toString(QKeySequence::NativeText);
    }
    return keys.join(QObject::tr(" or "));
}

}  // namespace

KeyList::KeyList(const ReadingActions& actions, QWidget* parent)
    : QFrame{parent}, m_actions{actions}, m_grid{new QGridLayout{this}} {
    setFrameStyle(QFrame::Box | QFrame::Plain);
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_grid->setContentsMargins(18, 14, 18, 14);
    m_grid->setHorizontalSpacing(14);
    m_grid->setVerticalSpacing(3);
    hide();
}

void KeyList::fill() {
    style::emptyLayout(*m_grid);
    QList<QPair<QString, QString>> lines;
    for (const QAction* action : m_actions.all()) {
        if (!m_actions.digits.contains(const_cast<QAction*>(action))) {
            lines.append({keysOf(*action), action->whatsThis()});
        } else if (action == m_actions.digits.front()) {
            lines.append({tr("1 … 9"), action->whatsThis()});
        }
    }
    const auto half = (lines.size() + 1) / 2;
    for (qsizetype k = 0; k < lines.size(); ++k) {
        const int row = static_cast<int>(k % half);
        const int column = k < half ? 0 : 2;
        auto* key = new QLabel{lines[k].first, this};
        key->setFont(style::textFont(font(), style::TextSize::Body, style::Weight::Strong));
        m_grid->addWidget(key, row, column, Qt::AlignRight);
        m_grid->addWidget(new QLabel{lines[k].second, this}, row, column + 1);
    }
}

void KeyList::open() {
    fill();
    adjustSize();
    const QRect all = parentWidget()->rect();
    resize(size().boundedTo(all.size()));
    move(all.center() - rect().center());
    raise();
    show();
}

void KeyList::mousePressEvent(QMouseEvent*) {
    Q_EMIT closed();
}

}  // namespace ui::reading
