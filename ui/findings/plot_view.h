#pragma once

#include <QWidget>
#include <vector>

#include "ui/chart/scatter_chart.h"

class QComboBox;
class QLabel;

namespace ui::findings {

/// A chart and what it says in plain words.
struct PlotPage {
    QString title;
    chart::ScatterPlot plot;
    QString sentence;
};

/// One chart of several, chosen above, with its line in plain words below. Confined.
class PlotView : public QWidget {
    Q_OBJECT

public:
    explicit PlotView(const QString& name, QWidget* parent = nullptr);

    /// words: what holds for all pages, or why there is none.
    void show(std::vector<PlotPage> pages, const QString& words);

Q_SIGNALS:
    void activated(qint64 key);

private:
    void turnTo(int page);

    std::vector<PlotPage> m_pages;
    QComboBox* m_titles;
    chart::ScatterChart* m_chart;
    QLabel* m_sentence;
    QLabel* m_words;
};

}  // namespace ui::findings
