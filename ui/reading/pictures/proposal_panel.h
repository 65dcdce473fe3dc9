#pragma once

#include <QImage>
#include <QWidget>

#include "ui/reading/shot/shot_view.h"

class QAction;
class QLabel;
class QToolButton;

namespace ui::reading {

/// The ball's surface as the fit saw it, unrolled about the spin axis: the axis leaves the ball at
/// the upper and at the lower edge, a turn goes once across.
class SurfaceMap : public QWidget {
    Q_OBJECT

public:
    explicit SurfaceMap(QWidget* parent = nullptr);
    void setMap(const QImage& map);

    [[nodiscard]] QSize sizeHint() const override { return {220, 124}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QImage m_map;
};

/// What the pictures say of the shot: rate, interval, sort of spin, agreement with the marks, the
/// surface of the ball; or why they say nothing.
class ProposalPanel : public QWidget {
    Q_OBJECT

public:
    /// The action keeps the reading from the pictures.
    explicit ProposalPanel(QAction& keepFit, QWidget* parent = nullptr);
    void show(const ShotView& view);

private:
    QLabel* m_rate;
    QLabel* m_words;
    SurfaceMap* m_map;
    QToolButton* m_keep;
};

}  // namespace ui::reading
