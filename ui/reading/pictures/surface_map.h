#pragma once

#include <QImage>
#include <QWidget>

#include "core/reading/read_shot.h"

namespace ui::reading {

/// The ball's surface as the fit saw it, unrolled about the spin axis: the axis leaves the ball at
/// the upper and at the lower edge, a turn goes once across.
class SurfaceMap : public QWidget {
    Q_OBJECT

public:
    explicit SurfaceMap(QWidget* parent = nullptr);
    void setReading(const core::reading::PictureReading& read);

    [[nodiscard]] QSize sizeHint() const override { return {220, 124}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QImage m_map;
};

}  // namespace ui::reading
