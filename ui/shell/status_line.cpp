#include "ui/shell/status_line.h"

#include <QTimer>

#include "ui/style/tokens.h"

namespace ui::shell {

StatusLine::StatusLine() : m_newsEnd{new QTimer{this}} {
    setObjectName(QStringLiteral("status"));
    setTextFormat(Qt::PlainText);
    setWordWrap(true);
    setContentsMargins(style::kCardsPx, style::kPairPx, style::kCardsPx, style::kPairPx);
    setMinimumWidth(1);  // a long path gives way
    m_newsEnd->setSingleShot(true);
    connect(m_newsEnd, &QTimer::timeout, this, [this] {
        m_news.clear();
        refresh();
    });
    refresh();
}

void StatusLine::say(const QString& words) {
    m_lasting = words;
    refresh();
}

void StatusLine::tell(const QString& words, int milliseconds) {
    m_news = words;
    m_newsEnd->start(milliseconds);
    refresh();
}

void StatusLine::setPlaceKept(bool isKept) {
    m_isPlaceKept = isKept;
    refresh();
}

void StatusLine::refresh() {
    setText(m_news.isEmpty() ? m_lasting : m_news);
    setVisible(m_isPlaceKept || !text().isEmpty());
}

}  // namespace ui::shell
