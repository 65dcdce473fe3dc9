#pragma once

#include <QLabel>

class QTimer;

namespace ui::shell {

/// What the window says below: on as many lines as the words need, so that none is cut. Hidden
/// while there is nothing to say, unless it keeps its place.
class StatusLine : public QLabel {
    Q_OBJECT

public:
    static constexpr int kUsualMilliseconds = 4000;
    /// For what is to be read and remembered.
    static constexpr int kLongMilliseconds = 20000;

    StatusLine();

    /// What holds until something else does.
    void say(const QString& words);
    /// What has just happened, for so long; it stands in place of what holds.
    void tell(const QString& words, int milliseconds = kUsualMilliseconds);
    /// Whether the line stays where it is without words, so that nothing jumps.
    void setPlaceKept(bool isKept);

private:
    void refresh();

    QString m_lasting;
    QString m_news;
    QTimer* m_newsEnd;
    bool m_isPlaceKept{false};
};

}  // namespace ui::shell
