#pragma once

#include <QAbstractButton>

#include "ui/shell/recent_projects.h"

namespace ui::shell {

/// A project that was open lately: its ball, its name, how far it is, what needs somebody. Pressed,
/// it is opened. Confined.
class RecentRow : public QAbstractButton {
    Q_OBJECT

public:
    explicit RecentRow(RecentProject project, QWidget* parent = nullptr);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {200, sizeHint().height()}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    int paintNeed(QPainter& painter) const;

    RecentProject m_project;
};

}  // namespace ui::shell
