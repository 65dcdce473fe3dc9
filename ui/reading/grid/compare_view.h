#pragma once

#include <QTimer>
#include <QWidget>

#include "ui/reading/grid/ball_pictures.h"
#include "ui/reading/reading_desk.h"

namespace ui::reading {

/// The start and a return, large: side by side, or in turn at one place (a difference in attitude
/// then jumps). The return is the one at the current frame, else the last one; without returns it
/// is the current frame.
class CompareView : public QWidget {
    Q_OBJECT

public:
    enum class Mode { Off, SideBySide, Blink };

    CompareView(ReadingDesk& desk, const BallPictures& pictures, QWidget* parent = nullptr);

    void setMode(Mode mode);
    [[nodiscard]] Mode mode() const noexcept { return m_mode; }
    /// Off, side by side, blink, and off again.
    void stepMode();
    /// The two frames that are compared.
    [[nodiscard]] core::timebase::FrameIndex startFrame() const;
    [[nodiscard]] core::timebase::FrameIndex otherFrame() const;

    [[nodiscard]] QSize minimumSizeHint() const override { return {200, 120}; }

Q_SIGNALS:
    void modeChanged();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void paintOne(QPainter& painter, const QRectF& place, core::timebase::FrameIndex frame,
                  const QString& name) const;

    ReadingDesk& m_desk;
    const BallPictures& m_pictures;
    Mode m_mode{Mode::Off};
    bool m_showsOther{false};
    QTimer m_blink;
};

}  // namespace ui::reading
