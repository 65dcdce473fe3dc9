#include "ui/findings/plot_view.h"

#include <QComboBox>
#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/style/plain_label.h"

namespace ui::findings {

PlotView::PlotView(const QString& name, QWidget* parent)
    : QWidget{parent},
      m_titles{new QComboBox},
      m_chart{new chart::ScatterChart},
      m_sentence{new QLabel},
      m_words{new QLabel} {
    m_chart->setAccessibleName(name);
    m_titles->setAccessibleName(name);
    // Narrow where a name is long.
    m_titles->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_titles->setMinimumContentsLength(12);
    m_titles->setToolTip(tr("Which of them is drawn (↑ ↓)"));
    for (QLabel* label : {m_sentence, m_words}) {
        style::showPlainWords(label);
    }
    auto* layout = new QVBoxLayout{this};
    layout->addWidget(m_titles);
    layout->addWidget(m_chart, 1);
    layout->addWidget(m_sentence);
    layout->addWidget(m_words);
    connect(m_titles, &QComboBox::currentIndexChanged, this, &PlotView::turnTo);
    connect(m_chart, &chart::ScatterChart::activated, this, &PlotView::activated);
}

void PlotView::show(std::vector<PlotPage> pages, const QString& words) {
    const QString before = m_titles->currentText();
    m_pages = std::move(pages);
    {
        const QSignalBlocker quiet{m_titles};
        m_titles->clear();
        for (const PlotPage& page : m_pages) {
            m_titles->addItem(page.title);
        }
        m_titles->setCurrentIndex(std::max(0, m_titles->findText(before)));
    }
    m_titles->setVisible(m_pages.size() > 1);
    m_chart->setVisible(!m_pages.empty());
    m_sentence->setVisible(!m_pages.empty());
    m_words->setText(words);
    m_words->setVisible(!words.isEmpty());
    m_words->setAlignment(m_pages.empty() ? Qt::AlignCenter : Qt::AlignLeft);
    turnTo(m_titles->currentIndex());
}

void PlotView::turnTo(int page) {
    if (page < 0 || page >= static_cast<int>(m_pages.size())) {
        return;
    }
    const PlotPage& shown = m_pages[static_cast<std::size_t>(page)];
    m_chart->show(shown.plot);
    m_sentence->setText(shown.sentence);
}

}  // namespace ui::findings
