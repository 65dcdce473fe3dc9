#pragma once

#include <QImage>
#include <QString>
#include <QWidget>

namespace ui::footage {

/// One picture of a clip, fitted into the widget, or a line of text in its place. Confined.
class FramePreview : public QWidget {
    Q_OBJECT

public:
    explicit FramePreview(QWidget* parent = nullptr);

    void showPicture(const QImage& picture, const QString& caption);
    void showText(const QString& text);

    [[nodiscard]] QSize sizeHint() const override { return {420, 240}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {220, 124}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QImage m_picture;
    QString m_text;
};

}  // namespace ui::footage
