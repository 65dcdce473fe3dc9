#pragma once

#include <QAbstractButton>

#include "ui/reading/card/headline.h"
#include "ui/reading/card/interval_bar.h"

namespace ui::reading {

/// One way to read the shot: its name, its number and its interval to the scale of the other way.
/// Pressed, it is the one that Keep keeps. Confined.
class MethodRow : public QAbstractButton {
    Q_OBJECT

public:
    explicit MethodRow(Method method, QWidget* parent = nullptr);

    struct Content {
        QString number;  ///< or why there is none, in a word or two
        std::optional<IntervalBar::Content> bar;
        std::optional<core::Interval<core::Rpm>> range;
        bool hasScale{};
    };
    void show(const Content& content, bool isChosen);
    [[nodiscard]] QString number() const { return m_number; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void placeBar();

    QString m_number;
    IntervalBar* m_bar;
};

}  // namespace ui::reading
