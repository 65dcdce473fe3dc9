#pragma once

#include <QWidget>

#include "ui/publish/open_points.h"

class QVBoxLayout;

namespace ui::publish {

/// What is open before publishing, one row each: its sign, what it is, and a button that leads to
/// where it is settled. Confined.
class PointList : public QWidget {
    Q_OBJECT

public:
    explicit PointList(QWidget* parent = nullptr);
    void show(const std::vector<OpenPoint>& points);

Q_SIGNALS:
    void wayChosen(ui::publish::OpenPoint::Way way);

private:
    struct Row {
        OpenPoint point;
        QWidget* row;
    };
    [[nodiscard]] QWidget* makeRow(const OpenPoint& point);

    QVBoxLayout* m_rows;
    std::vector<Row> m_shown;
};

}  // namespace ui::publish
