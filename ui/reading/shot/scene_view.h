#pragma once

#include <QImage>
#include <QWidget>
#include <optional>

#include "ui/bridge/frame_requester.h"
#include "ui/reading/reading_desk.h"
#include "ui/reading/shot/scene_aim.h"
#include "ui/style/spoken_parts.h"

namespace ui::reading {

/// The whole frame with the ball ringed and its path dotted. A click sets the centre of the ball in
/// this frame; dragging from the centre to the edge sets the radius too. A click that does not set
/// it is answered in words over the picture. The wheel zooms about the pointer, the right or middle
/// button moves the picture. With the keyboard in it, the arrow keys move a ring (SceneAim), Enter
/// sets the ball there and Esc takes the ring away.
class SceneView : public QWidget, public style::SpokenParts {
    Q_OBJECT

public:
    SceneView(ReadingDesk& desk, bridge::FrameRequester& requester, QWidget* parent = nullptr);

    /// The opened clip of the shot on the desk.
    void setClip(bridge::FrameRequester::Clip clip);
    /// There is no film: the pictures kept in the project are shown in their places.
    void setKept();
    /// Picture coordinates to widget coordinates at the present zoom.
    [[nodiscard]] QPointF toWidget(QPointF picturePx) const;
    [[nodiscard]] QPointF toPicture(QPointF widgetPx) const;
    void zoomAbout(QPointF widgetPx, double factor);
    void fit();
    /// The frame whose picture is shown; absent while there is none.
    [[nodiscard]] std::optional<core::timebase::FrameIndex> pictureFrame() const;
    /// What is said over the picture; empty when there is nothing to say.
    [[nodiscard]] QString remark() const;

    [[nodiscard]] std::vector<style::SpokenPart> spokenParts() override;
    [[nodiscard]] QSize sizeHint() const override { return {560, 320}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {200, 120}; }

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;

private:
    void request();
    void setBall(BallRing place);
    void endAim();
    [[nodiscard]] double usualRadiusPx() const;
    [[nodiscard]] bool isOfAim(const QKeyEvent& key) const;
    [[nodiscard]] double scale() const;
    [[nodiscard]] QSizeF pictureSize() const;
    void paintPicture(QPainter& painter) const;
    void paintKept(QPainter& painter) const;
    void paintPath(QPainter& painter) const;
    void paintBall(QPainter& painter) const;
    void paintRemark(QPainter& painter, const QString& text) const;

    ReadingDesk& m_desk;
    bridge::FrameRequester& m_requester;
    std::optional<bridge::FrameRequester::Clip> m_clip;
    quint64 m_number{0};
    core::timebase::FrameIndex m_lastAsked;
    QImage m_picture;
    core::timebase::FrameIndex m_shownFrame;  ///< of m_picture, or of m_failure
    QString m_failure;
    QString m_refusal;   ///< why the last click did not set the ball
    double m_zoom{1.0};  ///< 1 fits the frame into the widget
    QPointF m_middle;    ///< picture point in the middle of the widget
    struct Gesture {
        Qt::MouseButton button{Qt::NoButton};
        QPointF from;  ///< widget px
        QPointF now;
        QPointF middleBefore;
    };
    std::optional<Gesture> m_gesture;
    std::optional<SceneAim> m_aim;
};

}  // namespace ui::reading
