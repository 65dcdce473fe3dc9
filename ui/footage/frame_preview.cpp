#include "ui/footage/frame_preview.h"

#include <QPainter>

#include "ui/style/data_palette.h"
#include "ui/style/tokens.h"

namespace ui::footage {

FramePreview::FramePreview(QWidget* parent) : QWidget{parent} {
    setAccessibleName(tr("Picture of the clip"));
}

void FramePreview::showPicture(const QImage& picture, const QString& caption) {
    m_picture = picture;
    m_text = caption;
    update();
}

void FramePreview::showText(const QString& text) {
    m_picture = {};
    m_text = text;
    update();
}

void FramePreview::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter{this};
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.fillRect(rect(), style::colour(style::Token::Sunken, palette()));
    if (m_picture.isNull()) {
        painter.setPen(style::colour(style::Token::Quiet, palette()));
        painter.drawText(rect().adjusted(16, 16, -16, -16), Qt::AlignCenter | Qt::TextWordWrap,
                         m_text);
        return;
    }
    const QSize fitted = m_picture.size().scaled(size(), Qt::KeepAspectRatio);
    const QRect target{QPoint{(width() - fitted.width()) / 2, (height() - fitted.height()) / 2},
                       fitted};
    painter.drawImage(target, m_picture);
    const QRect caption = fontMetrics().boundingRect(m_text).adjusted(-6, -3, 6, 3);
    const QRect plate{target.left() + 6, target.bottom() - caption.height() - 5, caption.width(),
                      caption.height()};
    painter.fillRect(plate, style::chipGround());
    painter.setPen(style::chipWords());
    painter.drawText(plate, Qt::AlignCenter, m_text);
}

}  // namespace ui::footage
