#pragma once

#include <QGroupBox>
#include <QImage>

#include "core/publish/preview.h"

class QLabel;
class QVBoxLayout;

namespace ui::publish {

/// What the published page begins with, in small: its title, whose shots, its first sentence, the
/// chart, which may be high, frames behind a number, then further sentences. Confined.
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
    class Picture;
    void addWords(QVBoxLayout& column, QLabel* label, const char* name);

    QLabel* m_title;
    QLabel* m_under;
    Picture* m_chart;
    Picture* m_strip;
    QLabel* m_stripWords;
    QLabel* m_first;
    QLabel* m_sentences;  ///< after the first
};

}  // namespace ui::publish
