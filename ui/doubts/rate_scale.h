#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "ui/doubts/rate_axis.h"
#include "ui/style/spoken_parts.h"

namespace ui::doubts {

/// Rates that rival for one shot, or for one cell, and the other shots beside it, on one scale: the
/// one in use as a filled mark, its rivals as rings, the other shots as ticks. Words never run into
/// each other: what would goes a line lower.
class RateScale : public QWidget, public style::SpokenParts {
    Q_OBJECT

public:
    struct Claim {
        double rpm{};
        QString words;  ///< with the number: "2051 in use"
        bool isInUse{};
    };
    struct Content {
        std::vector<Claim> claims;   ///< in any order
        std::vector<double> others;  ///< rpm
        QString othersWords;         ///< what the others are
        /// Two rates at least: one alone says nothing on a scale.
        [[nodiscard]] bool saysSomething() const { return claims.size() + others.size() > 1; }
    };

    explicit RateScale(QWidget* parent = nullptr);
    /// Hides itself when that says nothing.
    void show(Content content);

    /// Where the marks with their words are, in the order of the claims by rate; for this width.
    struct Placed {
        const Claim* claim{};
        QPointF mark;
        QRectF words;
    };
    [[nodiscard]] std::vector<Placed> placed(int width) const;

    [[nodiscard]] std::vector<style::SpokenPart> spokenParts() override;
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    /// Between the ends of the axis, px.
    struct Room {
        double left{};
        double right{};
    };
    [[nodiscard]] Room roomOf(int width) const;
    [[nodiscard]] double xOf(double rpm, const Room& room) const;
    [[nodiscard]] double laneHeightPx() const;
    [[nodiscard]] double claimsBottomPx(const std::vector<Placed>& claims) const;
    void paintAxis(QPainter& painter, const Room& room, double topPx) const;
    void paintOthers(QPainter& painter, const Room& room, double topPx) const;

    Content m_content;
    std::optional<RateAxis> m_axis;
};

}  // namespace ui::doubts
