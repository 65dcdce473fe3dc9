#include "ui/publish/page_preview.h"

#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/words.h"
#include "ui/bridge/cut_out.h"
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

/// As wide as there is room, at most so large that its words are as large as those above.
class PagePreview::Picture : public QWidget {
public:
    /// mostScale: logical pixels for one of the picture.
    Picture(double mostScale, const QString& name) : m_mostScale{mostScale} {
        QSizePolicy policy{QSizePolicy::Ignored, QSizePolicy::Preferred};
        policy.setHeightForWidth(true);
        setSizePolicy(policy);
        setAccessibleName(name);
        hide();
    }
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
        return std::min(width, static_cast<int>(m_mostScale * m_picture.width()));
    }

    double m_mostScale;
    QImage m_picture;
};

PagePreview::PagePreview(QWidget* parent)
    : QGroupBox{tr("The page, as others see it"), parent},
      m_title{new QLabel},
      m_under{new QLabel},
      m_chart{new Picture{96.0 / 144.0, tr("The chart of the page")}},  // dots an inch
      m_strip{new Picture{1.0, tr("Frames behind a number")}},
      m_stripWords{new QLabel},
      m_first{new QLabel},
      m_sentences{new QLabel} {
    style::setTextSize(m_title, style::TextSize::Title, style::Weight::Strong);
    for (QLabel* small : {m_under, m_stripWords}) {
        style::setTextSize(small, style::TextSize::Small);
        small->setForegroundRole(QPalette::PlaceholderText);
    }
    auto* column = new QVBoxLayout{this};
    column->setSpacing(style::kBetweenPx);
    addWords(*column, m_title, "preview_title");
    addWords(*column, m_under, "preview_under");
    addWords(*column, m_first, "preview_first");
    column->addWidget(m_chart);
    column->addWidget(m_strip);
    addWords(*column, m_stripWords, "preview_strip_words");
    addWords(*column, m_sentences, "preview_sentences");
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
    m_strip->show(preview.strip ? bridge::imageOf(*preview.strip) : QImage{});
    m_stripWords->setText(QString::fromStdString(preview.stripWords));
    m_stripWords->setVisible(!preview.stripWords.empty());
    auto sentences = preview.sentences;
    const std::size_t left =
        sentences.size() > kMostSentences ? sentences.size() - kMostSentences : 0;
    if (left > 0) {
        // The last line says what is left out and what is open: it is never the one that goes.
        sentences.erase(sentences.begin() + kMostSentences - 1, sentences.end() - 1);
    }
    m_first->setText(sentences.empty() ? QString{} : QString::fromStdString(sentences.front()));
    if (!sentences.empty()) {
        sentences.erase(sentences.begin());
    }
    QString text = lines(sentences, QStringLiteral("\n\n"));
    if (left > 0) {
        text += QStringLiteral("\n\n") +
                tr("%1 on the page.").arg(counted(left, "more line", "more lines"));
    }
    m_sentences->setText(text);
    m_first->setVisible(true);
    m_title->setVisible(true);
    m_under->setVisible(true);
}

void PagePreview::say(const QString& words) {
    m_title->hide();
    m_under->hide();
    m_first->hide();
    m_chart->show({});
    m_strip->show({});
    m_stripWords->hide();
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
