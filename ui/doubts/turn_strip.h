#pragma once

#include <QWidget>
#include <optional>

#include "core/doubts/claimed_turn.h"
#include "ui/style/spoken_parts.h"

namespace ui::doubts {

class TurnPictures;

/// The pictures of a claimed turn in a row: a ring about the start, two about the return, the
/// number of its frame below each.
class TurnStrip : public QWidget, public style::SpokenParts {
    Q_OBJECT

public:
    /// The pictures must outlive the strip.
    explicit TurnStrip(const TurnPictures& pictures, QWidget* parent = nullptr);
    void show(std::optional<core::doubts::ClaimedTurn> turn);
    /// Of each picture.
    void setSide(int px);

    /// Where each picture is.
    [[nodiscard]] std::vector<QRectF> places() const;

    [[nodiscard]] std::vector<style::SpokenPart> spokenParts() override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] QString captionOf(core::timebase::FrameIndex frame) const;
    [[nodiscard]] bool isEnd(core::timebase::FrameIndex frame) const;
    void paintOne(QPainter& painter, core::timebase::FrameIndex frame, const QRectF& place) const;

    const TurnPictures& m_pictures;
    std::optional<core::doubts::ClaimedTurn> m_turn;
    int m_sidePx;
};

}  // namespace ui::doubts
