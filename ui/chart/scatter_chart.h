#pragma once

#include <QString>
#include <QWidget>
#include <optional>
#include <vector>

#include "ui/style/spoken_parts.h"

class QCPItemText;
class QCustomPlot;

namespace ui::chart {

/// What a scatter chart shows. Points open something: `key` comes back with activated().
struct ScatterPlot {
    struct Point {
        double x{};
        double y{};
        QString text;  ///< what is said when it is pointed at
        qint64 key{};
        bool isInUse{};  ///< drawn larger, and its text stands beside it
    };
    /// y = level + slope (x - centre), drawn over the whole width.
    struct Trend {
        double centre{};
        double level{};
        double slope{};
        bool isMinor{};   ///< dashed
        QString label{};  ///< above the line; nothing when empty
    };
    QString xLabel;
    QString yLabel;
    std::vector<Point> points;
    std::vector<Trend> trends;
    bool isCurve{};  ///< points are joined, values begin at zero; whoever shows it says what
                     ///< they are above it
};

/// Points in a plane, with lines. ← and → go from point to point and say their values, Enter or a
/// double click opens one. Confined.
class ScatterChart : public QWidget, public style::SpokenParts {
    Q_OBJECT

public:
    explicit ScatterChart(QWidget* parent = nullptr);

    void show(ScatterPlot plot);
    [[nodiscard]] QString pointedText() const;
    [[nodiscard]] std::vector<style::SpokenPart> spokenParts() override;

    [[nodiscard]] QSize sizeHint() const override { return {420, 200}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 120}; }

Q_SIGNALS:
    void activated(qint64 key);

protected:
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void rebuild();
    void drawPoints();
    void drawTrends();
    void setRanges();
    void labelPointInUse();
    void labelTrend(const ScatterPlot::Trend& trend);
    [[nodiscard]] std::optional<std::size_t> pointNear(QPointF at) const;
    void point(std::optional<std::size_t> at);
    bool onKey(int key);

    QCustomPlot* m_canvas;
    QCPItemText* m_tip{};
    ScatterPlot m_plot;
    std::optional<std::size_t> m_pointed;
};

}  // namespace ui::chart
