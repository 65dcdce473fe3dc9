#pragma once

#include <QPointer>
#include <QWidget>
#include <optional>
#include <vector>

#include "core/findings/findings.h"

class QCPItemLine;
class QCPItemText;
class QCustomPlot;

namespace ui::chart {

class ShotStrokes;

/// The implements in rank order, one line each: the mean with its 95 % interval and its letters;
/// where hitters are shown apart, each hitter's mean as a marker of its own shape; every kept shot
/// as a small stroke. Bands are shaded. The noticeable step is a ruler that is dragged along the
/// axis, or moved with ← and → (Shift: coarser). A mark can be pointed at (its value is shown),
/// clicked, or reached with ↑ and ↓. Confined.
class RankedChart : public QWidget {
    Q_OBJECT

public:
    explicit RankedChart(QWidget* parent = nullptr);
    ~RankedChart() override;

    /// The comparison of one hitter, or of all together. findings may be null: an empty chart.
    void show(const core::findings::FindingsPtr& findings,
              std::optional<core::project::HitterId> hitter);
    void setHittersApart(bool areApart);
    /// Draws a line of the chart as chosen, without emitting.
    void setChosen(std::optional<core::project::ImplementId> implement);

    /// The lower end of the ruler; absent while no step is set.
    [[nodiscard]] std::optional<double> rulerLowRpm() const;
    /// The middle of the ruler, in the coordinates of plot().
    [[nodiscard]] QPointF rulerCentre() const;
    /// What is said of the mark that is pointed at; empty for none.
    [[nodiscard]] QString pointedText() const;
    [[nodiscard]] QWidget* plot() const;

    [[nodiscard]] QSize sizeHint() const override { return {760, 300}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {360, 180}; }

Q_SIGNALS:
    /// hitter absent: the line as a whole.
    void chosen(core::project::ImplementId implement,
                std::optional<core::project::HitterId> hitter);
    void shotActivated(core::project::ShotId shot);

protected:
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    /// One implement on the chart, highest mean first; those that were not compared last.
    struct Line {
        core::project::ImplementId implement;
        QString name;
        QString letters;
        std::optional<core::findings::Estimate> mean;
        std::optional<double> bareMeanRpm;  ///< without an interval
        QString text;
    };
    /// A mark on the chart and what it stands for.
    struct Mark {
        double x{};
        double y{};
        QString text;  ///< empty for a shot, see textOf()
        core::project::ImplementId implement;
        std::optional<core::project::HitterId> hitter;
        std::optional<core::project::ShotId> shot;
    };

    [[nodiscard]] QString textOf(const Mark& mark) const;
    void makeLines();
    void rebuild();
    void applyPalette();
    void drawBands();
    void drawLine(const Line& line, double y);
    void drawCells(const Line& line, double y);
    void drawShots(const core::findings::CellFinding& cell, double y);
    void drawLetters(const Line& line, double y);
    void drawLegend();
    void drawRuler();
    void placeRuler();
    void placeAxes();
    [[nodiscard]] std::vector<const core::findings::CellFinding*> cellsOf(
        core::project::ImplementId implement) const;
    [[nodiscard]] double stepRpm() const;
    [[nodiscard]] bool isOnRuler(QPointF at) const;
    [[nodiscard]] const Mark* markNear(QPointF at) const;
    void point(const Mark* mark);
    void stepChosen(int step);
    void moveRuler(double toRpm);
    bool onKey(int key, Qt::KeyboardModifiers modifiers);
    void onPress(QPointF at);
    void onMove(QPointF at);

    QCustomPlot* m_plot;
    ShotStrokes* m_strokes{};  ///< of all shots
    QCPItemText* m_tip{};
    QCPItemText* m_rulerText{};
    std::vector<QCPItemLine*> m_rulerLines;
    core::findings::FindingsPtr m_findings;
    std::optional<core::project::HitterId> m_hitter;
    bool m_areHittersApart{true};
    std::vector<Line> m_lines;
    std::vector<core::project::HitterId> m_hitters;
    std::vector<Mark> m_marks;
    std::optional<core::project::ImplementId> m_chosen;
    std::optional<double> m_rulerLow;    ///< absent: not moved by hand yet
    std::optional<double> m_dragOffset;  ///< from the ruler's lower end to the pointer, rpm
};

}  // namespace ui::chart
