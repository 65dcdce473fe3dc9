#pragma once

#include <QToolButton>

#include "ui/bridge/job_runner.h"

namespace ui::shell {

/// What runs in the background, on every screen: a line about the first job over a bar with its
/// share; the rest in a menu, where each can be cancelled and all can be paused. Hidden while
/// nothing runs. Confined.
class JobsButton : public QToolButton {
    Q_OBJECT

public:
    explicit JobsButton(bridge::JobRunner& jobs, QWidget* parent = nullptr);

    /// With words, or the sign and the bar alone.
    void setWide(bool isWide);
    /// 0 while nothing runs.
    [[nodiscard]] int widthFor(bool isWide) const;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

Q_SIGNALS:
    /// It needs another width, or none.
    void resized();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void refresh();

    bridge::JobRunner& m_jobs;
    QMenu* m_menu;
    double m_share{};  ///< of the first job
    bool m_isWide{true};
};

}  // namespace ui::shell
