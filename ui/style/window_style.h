#pragma once

#include <QProxyStyle>

class QStyleOptionButton;
class QStyleOptionHeader;
class QStyleOptionTab;

namespace ui::style {

/// How widgets look: Qt's Fusion, with buttons by rank, fields, boxes, heads, chosen rows and focus
/// drawn from the tokens, flat.
class WindowStyle : public QProxyStyle {
    Q_OBJECT

public:
    WindowStyle();

    void polish(QWidget* widget) override;
    using QProxyStyle::polish;
    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override;
    void drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                     const QWidget* widget) const override;
    void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option,
                            QPainter* painter, const QWidget* widget) const override;
    [[nodiscard]] QRect subControlRect(ComplexControl control, const QStyleOptionComplex* option,
                                       SubControl part, const QWidget* widget) const override;
    [[nodiscard]] int pixelMetric(PixelMetric metric, const QStyleOption* option,
                                  const QWidget* widget) const override;
    [[nodiscard]] int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                                QStyleHintReturn* more) const override;
    [[nodiscard]] QSize sizeFromContents(ContentsType type, const QStyleOption* option,
                                         const QSize& size, const QWidget* widget) const override;
    [[nodiscard]] QRect subElementRect(SubElement element, const QStyleOption* option,
                                       const QWidget* widget) const override;

private:
    void drawPushButtonLabel(const QStyleOptionButton& option, QPainter& painter,
                             const QWidget* widget) const;
    void drawHeadLabel(const QStyleOptionHeader& option, QPainter& painter,
                       const QWidget* widget) const;
    void drawTab(ControlElement element, const QStyleOptionTab& option, QPainter& painter,
                 const QWidget* widget) const;
    void drawToolButton(const QStyleOptionComplex& option, QPainter& painter,
                        const QWidget* widget) const;
};

}  // namespace ui::style
