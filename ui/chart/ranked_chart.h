#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/report/summary.h"

class QCPItemText;
class QCustomPlot;

namespace ui::chart {

/// The implements in rank order, one line each: the mean over the hitters with its 95 % interval,
/// each hitter's mean with its interval as a marker of its own shape, and every kept shot as a
/// small stroke. A mark can be pointed at (its value is shown), clicked, or reached with ↑ and ↓.
/// Confined.
class RankedChart : public QWidget {
    Q_OBJECT

public:
    explicit RankedChart(QWidget* parent = nullptr);
    ~RankedChart() override;

    void show(const core::report::Summary& summary);
    /// Draws a line of the chart as chosen, without emitting.
    void setChosen(std::optional<core::project::ImplementId> implement);

    [[nodiscard]] QSize sizeHint() const override { return {760, 340}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {360, 200}; }

Q_SIGNALS:
    /// hitter absent: the line as a whole.
    void chosen(core::project::ImplementId implement,
                std::optional<core::project::HitterId> hitter);
    void shotActivated(core::project::ShotId shot);

protected:
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    /// A mark on the chart and what it stands for.
    struct Mark {
        double x{};
        double y{};
        QString text;
        core::project::ImplementId implement;
        std::optional<core::project::HitterId> hitter;
        std::optional<core::project::ShotId> shot;
    };
    void rebuild();
    void applyPalette();
    void drawImplement(const core::report::ImplementRow& row, double y);
    void drawHitters(const core::report::ImplementRow& row, double y);
    void drawShots(const core::report::CellRow& cell, double y);
    void drawLegend();
    void placeAxes();
    [[nodiscard]] const Mark* markNear(QPointF at) const;
    void point(const Mark* mark);
    void stepChosen(int step);

    QCustomPlot* m_plot;
    QCPItemText* m_tip{};
    core::report::Summary m_summary;
    std::vector<core::project::HitterId> m_hitters;
    std::vector<Mark> m_marks;
    std::optional<core::project::ImplementId> m_chosen;
};

}  // namespace ui::chart
