#pragma once

#include <QGroupBox>
#include <QImage>

#include "core/publish/preview.h"

class QLabel;
class QVBoxLayout;

namespace ui::publish {

/// What the published page begins with, in small: its title, whose shots, the first sentences, the
/// chart below them, which may be high. Confined.
class PagePreview : public QGroupBox {
    Q_OBJECT

public:
    explicit PagePreview(QWidget* parent = nullptr);

    void show(const core::publish::Preview& preview);
    /// In the place of the page: why there is none.
    void say(const QString& words);

    /// "index.html, findings.pdf, …, 12 tables as CSV, 5 figures as SVG and PNG, 36 films"
    [[nodiscard]] static QString filesText(const core::publish::Preview& preview);

private:
    class Chart;
    void addWords(QVBoxLayout& column, QLabel* label, const char* name);

    QLabel* m_title;
    QLabel* m_under;
    Chart* m_chart;
    QLabel* m_sentences;
};

}  // namespace ui::publish
