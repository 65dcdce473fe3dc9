#pragma once

#include <QWidget>

#include "ui/reading/reading_desk.h"
#include "ui/style/spoken_parts.h"

namespace ui::reading {

/// The frames of the shot along capture time, the strike at 0, in milliseconds; marks as shapes.
/// Pressing and dragging goes to the nearest frame.
class FrameTimeLine : public QWidget, public style::SpokenParts {
    Q_OBJECT

public:
    explicit FrameTimeLine(ReadingDesk& desk, QWidget* parent = nullptr);

    /// Where a frame stands, in widget coordinates.
    [[nodiscard]] double xOf(core::timebase::FrameIndex frame) const;

    [[nodiscard]] std::vector<style::SpokenPart> spokenParts() override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;

private:
    void goTo(double xPx);
    [[nodiscard]] double xOfSeconds(double seconds) const;
    void paintScale(QPainter& painter, double lineY) const;
    void paintMarks(QPainter& painter, double y) const;

    ReadingDesk& m_desk;
};

}  // namespace ui::reading
