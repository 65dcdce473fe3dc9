#include "ui/shell/guide_viewer.h"

#include <QAbstractTextDocumentLayout>
#include <QPainter>
#include <QScrollBar>
#include <QSvgRenderer>
#include <QTextBlock>
#include <QTextTable>
#include <QTimer>

#include "core/guide/page_html.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::shell {
namespace {

constexpr int kLettersALine = 84;
constexpr double kLineHeightPercent = 128.0;

/// Headings in the program's sizes, lines with some air.
void layBlocks(QTextDocument& document, const QFont& body) {
    for (QTextBlock block = document.begin(); block.isValid(); block = block.next()) {
        QTextCursor cursor{block};
        QTextBlockFormat format = block.blockFormat();
        if (!block.text().contains(QChar::ObjectReplacementCharacter)) {  // else a drawing
            format.setLineHeight(kLineHeightPercent, QTextBlockFormat::ProportionalHeight);
        }
        const int level = format.headingLevel();
        if (level > 0) {
            format.setTopMargin(level == 1 ? style::kBetweenPx : style::kGroupsPx);
            format.setBottomMargin(style::kBetweenPx);
        }
        cursor.setBlockFormat(format);
        if (level > 0) {
            QTextCharFormat words;
            words.setFont(
                style::textFont(body, level == 1 ? style::TextSize::Head : style::TextSize::Title,
                                style::Weight::Strong));
            cursor.movePosition(QTextCursor::EndOfBlock, QTextCursor::KeepAnchor);
            cursor.setCharFormat(words);
        }
    }
}

/// One cell alone holds cautions: a remark of the gravest kind.
void layCautions(QTextTable& table, const QPalette& palette) {
    QTextTableFormat format = table.format();
    format.setCellPadding(style::kCardsPx);
    format.setBackground(style::colour(style::Token::GraveGround, palette));
    table.setFormat(format);
    QTextTableCell cell = table.cellAt(0, 0);
    QTextTableCellFormat bar = cell.format().toTableCellFormat();
    bar.setLeftBorder(style::kSelectionBarPx);
    bar.setLeftBorderStyle(QTextFrameFormat::BorderStyle_Solid);
    bar.setLeftBorderBrush(style::colour(style::Token::Grave, palette));
    cell.setFormat(bar);
}

/// A line below each row, a stronger one below the head.
void layRows(QTextTable& table, const QPalette& palette) {
    for (int row = 0; row < table.rows(); ++row) {
        for (int column = 0; column < table.columns(); ++column) {
            QTextTableCell cell = table.cellAt(row, column);
            QTextTableCellFormat line = cell.format().toTableCellFormat();
            line.setBottomBorder(style::kHairlinePx);
            line.setBottomBorderStyle(QTextFrameFormat::BorderStyle_Solid);
            line.setBottomBorderBrush(
                style::colour(row == 0 ? style::Token::Edge : style::Token::Line, palette));
            line.setPadding(style::kPairPx);
            cell.setFormat(line);
            QTextBlockFormat left;
            left.setAlignment(Qt::AlignLeft);
            cell.firstCursorPosition().mergeBlockFormat(left);
        }
    }
}

void layTables(QTextDocument& document, const QPalette& palette) {
    const auto frames = document.rootFrame()->childFrames();
    for (QTextFrame* frame : frames) {
        auto* table = qobject_cast<QTextTable*>(frame);
        if (table == nullptr) {
            continue;
        }
        QTextTableFormat format = table->format();
        format.setBorder(0);
        format.setCellSpacing(0);
        format.setWidth(QTextLength{QTextLength::PercentageLength, 100});
        format.setTopMargin(style::kCardsPx);
        format.setBottomMargin(style::kCardsPx);
        table->setFormat(format);
        const bool isCaution = table->rows() == 1 && table->columns() == 1;
        isCaution ? layCautions(*table, palette) : layRows(*table, palette);
    }
}

/// As it is, smaller where the column is narrower.
QSizeF sizeWithin(double room, const QSizeF& natural) {
    return natural * std::min(1.0, std::max(room, 100.0) / natural.width());
}

QImage scaledTo(double room, double pixelRatio, std::string_view png) {
    const QImage whole =
        QImage::fromData(QByteArrayView{png.data(), static_cast<qsizetype>(png.size())});
    QImage image = whole.scaled((sizeWithin(room, whole.size()) * pixelRatio).toSize(),
                                Qt::KeepAspectRatio, Qt::SmoothTransformation);
    image.setDevicePixelRatio(pixelRatio);
    return image;
}

}  // namespace

GuideViewer::GuideViewer(QWidget* parent) : QTextBrowser{parent} {
    setOpenLinks(false);
    setFrameShape(QFrame::NoFrame);
    setLineWrapMode(QTextEdit::FixedPixelWidth);
    // Always there: a bar that came while a page is laid would change the width it is laid for.
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
}

void GuideViewer::showPage(const QString& name) {
    m_name = name;
    lay();
    verticalScrollBar()->setValue(0);
}

void GuideViewer::lay() {
    const auto* page = core::guide::findPage(m_name.toStdString());
    if (page == nullptr) {
        clear();
        return;
    }
    setColumn();  // drawings are made as wide as it
    setHtml(QString::fromStdString(core::guide::bodyHtml(*page, core::guide::HtmlFor::Window)));
    document()->setDocumentMargin(style::kGroupsPx);
    document()->setIndentWidth(style::kGroupsPx);
    layBlocks(*document(), font());
    layTables(*document(), palette());
}

void GuideViewer::showSection(const QString& heading) {
    int top = 0;
    for (QTextBlock block = document()->begin(); block.isValid() && !heading.isEmpty();
         block = block.next()) {
        if (block.blockFormat().headingLevel() > 1 && block.text() == heading) {
            top = static_cast<int>(document()->documentLayout()->blockBoundingRect(block).top());
            break;
        }
    }
    verticalScrollBar()->setValue(top);
}

QVariant GuideViewer::loadResource(int type, const QUrl& name) {
    if (type != QTextDocument::ImageResource) {
        return {};
    }
    const std::string file = name.toString().toStdString();
    const double room = lineWrapColumnOrWidth() - 2.0 * style::kGroupsPx;
    const auto png = core::guide::picture(file);
    if (!png.empty()) {
        return scaledTo(room, devicePixelRatioF(), png);
    }
    const auto svg = core::guide::drawing(file);
    QByteArray bytes{svg.data(), static_cast<qsizetype>(svg.size())};
    bytes.replace("currentColor", palette().text().color().name().toLatin1());
    bytes.replace("Open Sans, DejaVu Sans, sans-serif", font().family().toUtf8());
    QSvgRenderer renderer{bytes};
    if (!renderer.isValid()) {
        return {};
    }
    const QSizeF size = sizeWithin(room, renderer.defaultSize());
    QImage image{(size * devicePixelRatioF()).toSize(), QImage::Format_ARGB32_Premultiplied};
    image.setDevicePixelRatio(devicePixelRatioF());
    image.fill(Qt::transparent);
    QPainter painter{&image};
    renderer.render(&painter, QRectF{QPointF{}, size});
    return image;
}

void GuideViewer::setColumn() {
    const int wished = kLettersALine * fontMetrics().averageCharWidth() + 2 * style::kGroupsPx;
    setLineWrapColumnOrWidth(std::min(wished, viewport()->width()));
}

void GuideViewer::resizeEvent(QResizeEvent* event) {
    QTextBrowser::resizeEvent(event);
    const int before = lineWrapColumnOrWidth();
    setColumn();
    if (lineWrapColumnOrWidth() != before) {
        QTimer::singleShot(0, this, &GuideViewer::layAgain);  // a page may be laid just now
    }
}

void GuideViewer::changeEvent(QEvent* event) {
    QTextBrowser::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange) {
        layAgain();
    }
}

void GuideViewer::layAgain() {
    const int scrolled = verticalScrollBar()->value();
    lay();
    verticalScrollBar()->setValue(scrolled);
}

}  // namespace ui::shell
