#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/project/model.h"
#include "ui/style/spoken_parts.h"

namespace ui::footage {

/// One clip from its first to its last frame, with its shots as blocks whose edges and strikes can
/// be dragged or set to the place that is being looked at by key. Confined to the window's thread.
class ClipTimeLine : public QWidget, public style::SpokenParts {
    Q_OBJECT

public:
    struct Block {
        core::project::ShotId shot;
        qint64 first{};
        qint64 last{};
        std::optional<qint64> strike;
        QString label;
    };

    explicit ClipTimeLine(QWidget* parent = nullptr);

    void showClip(qint64 frameCount, std::vector<Block> blocks);
    void setFrame(qint64 frame);
    void setChosenShot(std::optional<core::project::ShotId> shot);
    [[nodiscard]] qint64 frame() const noexcept { return m_frame; }

    [[nodiscard]] std::vector<style::SpokenPart> spokenParts() override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

Q_SIGNALS:
    void frameChosen(qint64 frame);
    void shotChosen(core::project::ShotId shot);
    /// An edge or the strike was dragged and let go, or set by key.
    void rangeChosen(core::project::ShotId shot, qint64 first, qint64 last,
                     std::optional<qint64> strike);
    /// N, 2, 1 and Delete: what to do at the frame shown, or with the chosen shot.
    void shotWanted();
    void splitWanted();
    void joinWanted();
    void dropWanted();

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    enum class Edge { First, Last, Strike };
    struct Grip {
        std::size_t block;
        Edge edge;
    };
    [[nodiscard]] double xOf(double frame) const;
    [[nodiscard]] qint64 frameAt(double x) const;
    [[nodiscard]] std::optional<Grip> gripAt(QPointF at) const;
    [[nodiscard]] QRectF rectOf(const Block& block) const;
    void paintFrames(QPainter& painter) const;
    void paintShot(QPainter& painter, const Block& block) const;
    void paintDense(QPainter& painter) const;
    void choose(qint64 frame);
    void dragGrip(qint64 frame);
    void setEdge(Edge edge);
    bool editByKey(int key);

    qint64 m_frameCount{0};
    qint64 m_frame{0};
    std::vector<Block> m_blocks;
    std::optional<core::project::ShotId> m_chosen;
    std::optional<Grip> m_grip;
};

}  // namespace ui::footage
