#pragma once

#include <QToolButton>

#include "ui/shell/step_state.h"
#include "ui/style/sign.h"

namespace ui::shell {

/// One step of the work on the band: its sign in a ring that closes with the share done, its name,
/// and its state in a few words. The sign of a need stands at the ring. Confined.
class StepButton : public QToolButton {
    Q_OBJECT

public:
    /// What gives way where the band is too narrow.
    enum class Fit { All, NoState, RingOnly };

    StepButton(QAction* step, style::Sign sign, QWidget* parent = nullptr);
    void setState(const StepState& state);
    [[nodiscard]] const StepState& state() const noexcept { return m_state; }
    void setFit(Fit fit);
    [[nodiscard]] int widthFor(Fit fit) const;

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void paintRing(QPainter& painter, const QRectF& ring) const;
    void paintNeed(QPainter& painter, const QRectF& ring) const;
    [[nodiscard]] bool isPresent() const;

    style::Sign m_sign;
    StepState m_state;
    Fit m_fit{Fit::All};
};

}  // namespace ui::shell
