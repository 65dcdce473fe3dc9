#include "ui/publish/page_preview.h"

#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/words.h"
#include "ui/publish/tr.h"
#include "ui/style/plain_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::publish {
namespace {

constexpr std::size_t kMostSentences = 6;  // of more, the rest is on the page

QString lines(const std::vector<std::string>& texts, const QString& between) {
    QStringList all;
    for (const auto& text : texts) {
        all << QString::fromStdString(text);
    }
    return all.join(between);
}

/// Files whose name ends so.
std::size_t countOf(const std::vector<std::string>& files, std::string_view end) {
    return static_cast<std::size_t>(std::count_if(
        files.begin(), files.end(), [end](const auto& file) { return file.ends_with(end); }));
}

}  // namespace

/// The chart as wide as there is room, at most so large that its words are as large as those above.
class PagePreview::Chart : public QWidget {
public:
    void show(const QImage& picture) {
        m_picture = picture;
        setVisible(!picture.isNull());
        updateGeometry();
        update();
    }
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override {
        return m_picture.isNull() ? 0 : m_picture.height() * shownWidth(width) / m_picture.width();
    }
    [[nodiscard]] QSize sizeHint() const override {
        return {shownWidth(m_picture.width()), heightForWidth(m_picture.width())};
    }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter{this};
        painter.setRenderHint(QPainter::SmoothPixmapTransform);
        const QSize size{shownWidth(width()), heightForWidth(width())};
        const QImage scaled = m_picture.scaled(size * devicePixelRatioF(), Qt::IgnoreAspectRatio,
                                               Qt::SmoothTransformation);
        painter.drawImage(QRect{QPoint{}, size}, scaled);
    }

private:
    [[nodiscard]] int shownWidth(int width) const {
        return std::min(width, m_picture.width() * 2 / 3);  // 144 dots an inch, of 96
    }

    QImage m_picture;
};

PagePreview::PagePreview(QWidget* parent)
    : QGroupBox{tr("The page, as others see it"), parent},
      m_title{new QLabel},
      m_under{new QLabel},
      m_chart{new Chart},
      m_sentences{new QLabel} {
    QSizePolicy policy{QSizePolicy::Ignored, QSizePolicy::Preferred};
    policy.setHeightForWidth(true);
    m_chart->setSizePolicy(policy);
    m_chart->setAccessibleName(tr("The chart of the page"));
    style::setTextSize(m_title, style::TextSize::Title, style::Weight::Strong);
    style::setTextSize(m_under, style::TextSize::Small);
    m_under->setForegroundRole(QPalette::PlaceholderText);
    auto* column = new QVBoxLayout{this};
    column->setSpacing(style::kBetweenPx);
    addWords(*column, m_title, "preview_title");
    addWords(*column, m_under, "preview_under");
    addWords(*column, m_sentences, "preview_sentences");
    column->addWidget(m_chart);
    m_chart->hide();
}

void PagePreview::addWords(QVBoxLayout& column, QLabel* label, const char* name) {
    label->setObjectName(QLatin1String{name});
    style::showPlainWords(label);
    column.addWidget(label);
}

void PagePreview::show(const core::publish::Preview& preview) {
    m_title->setText(QString::fromStdString(preview.title));
    m_under->setText(lines(preview.subtitles, QStringLiteral("\n")));
    m_chart->show(QImage::fromData(QByteArray::fromStdString(preview.chart), "PNG"));
    auto first = preview.sentences;
    const std::size_t left = first.size() > kMostSentences ? first.size() - kMostSentences : 0;
    if (left > 0) {
        // The last line says what is left out and what is open: it is never the one that goes.
        first.erase(first.begin() + kMostSentences - 1, first.end() - 1);
    }
    QString text = lines(first, QStringLiteral("\n\n"));
    if (left > 0) {
        text += QStringLiteral("\n\n") +
                tr("%1 on the page.").arg(counted(left, "more line", "more lines"));
    }
    m_sentences->setText(text);
    m_title->setVisible(true);
    m_under->setVisible(true);
}

void PagePreview::say(const QString& words) {
    m_title->hide();
    m_under->hide();
    m_chart->show({});
    m_sentences->setText(words);
}

QString PagePreview::filesText(const core::publish::Preview& preview) {
    QStringList parts;
    std::size_t single = 0;
    for (const auto& file : preview.files) {
        const bool isOfMany = file.ends_with(".csv") || file.starts_with("figures/");
        single += isOfMany ? 0U : 1U;
    }
    parts << counted(countOf(preview.files, ".csv"), "table as CSV", "tables as CSV");
    if (const auto figures = countOf(preview.files, ".svg"); figures > 0) {
        parts << counted(figures, "figure as SVG and PNG", "figures as SVG and PNG");
    }
    if (preview.films > 0) {
        parts << counted(preview.films, "film", "films");
    }
    parts << counted(single, "further file", "further files");
    return tr("In all: %1.").arg(parts.join(QStringLiteral(", ")));
}

}  // namespace ui::publish
