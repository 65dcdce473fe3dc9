#pragma once

#include <QWidget>
#include <optional>

#include "core/base/units.h"
#include "ui/style/spoken_parts.h"

namespace ui::reading {

/// A rate with its 95 % interval and its hard bounds, drawn to scale in rpm; below them, where
/// asked for, the ends of the scale and the noticeable step as a ruler.
class IntervalBar : public QWidget, public style::SpokenParts {
    Q_OBJECT

public:
    struct Content {
        core::Rpm estimate;
        core::Interval<core::Rpm> interval95;
        std::optional<core::Interval<core::Rpm>> bounds;
        std::optional<core::Rpm> noticeableStep;
    };

    explicit IntervalBar(QWidget* parent = nullptr);
    /// range: of the axis, shared with a neighbour; absent: shownRange() of the content.
    void setContent(std::optional<Content> content,
                    std::optional<core::Interval<core::Rpm>> range = std::nullopt,
                    bool hasScale = true);

    /// The part of the rpm axis that is shown: at least ± 10 % about the estimate, so that a
    /// narrow interval looks narrow.
    [[nodiscard]] static core::Interval<core::Rpm> shownRange(const Content& content);

    [[nodiscard]] std::vector<style::SpokenPart> spokenParts() override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void paintScale(QPainter& painter, double pxPerRpm) const;

    std::optional<Content> m_content;
    core::Interval<core::Rpm> m_range{};
    bool m_hasScale{true};
};

}  // namespace ui::reading
