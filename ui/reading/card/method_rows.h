#pragma once

#include <QWidget>

#include "ui/reading/card/headline.h"

namespace ui::reading {

class MethodRow;

/// Both ways to read the shot on one scale, as far as they have something to say, and whether they
/// agree. Confined.
class MethodRows : public QWidget {
    Q_OBJECT

public:
    explicit MethodRows(QWidget* parent = nullptr);

    void show(const ShotView& view, std::optional<Method> toKeep,
              std::optional<core::Rpm> noticeableStep);

Q_SIGNALS:
    void chosen(ui::reading::Method method);

private:
    MethodRow* m_pictures;
    MethodRow* m_marks;
};

}  // namespace ui::reading
