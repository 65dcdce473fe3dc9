#include "ui/style/window_style.h"

#include <QAbstractItemView>
#include <QHeaderView>
#include <QLineEdit>
#include <QListView>
#include <QPainter>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QStyleOption>
#include <QToolButton>
#include <algorithm>

#include "ui/style/text_font.h"
#include "ui/style/tokens.h"
#include "ui/style/window_parts.h"

namespace ui::style {
namespace {

constexpr int kButtonSidePx = 12;
constexpr int kQuietSidePx = 8;
constexpr int kToolButtonSidePx = 6;
constexpr int kQuietToolSidePx = 4;
constexpr int kFieldSidePx = 4;  // besides the margin of the widget
constexpr int kLeastTargetPx = 24;
constexpr int kScrollBarPx = 12;
constexpr int kBoxPx = 16;
constexpr int kTabSidePx = 12;
constexpr int kCellSidePx = 6;    // left and right of what stands in a cell
constexpr int kHeadMarginPx = 2;  // that Fusion leaves in a head
constexpr int kGroupTitlePx = 8;  // above the title of a group

bool isButton(const QWidget* widget) {
    return qobject_cast<const QPushButton*>(widget) != nullptr ||
           qobject_cast<const QToolButton*>(widget) != nullptr;
}

/// Rows that are chosen whole show by their bar where the keys go to.
bool isRowWithBar(const QWidget* widget) {
    const auto* view = qobject_cast<const QAbstractItemView*>(widget);
    return view != nullptr && (view->selectionBehavior() == QAbstractItemView::SelectRows ||
                               qobject_cast<const QListView*>(widget) != nullptr);
}

bool isReadOnlyText(const QWidget* widget) {
    const auto* text = qobject_cast<const QPlainTextEdit*>(widget);
    return text == nullptr || text->isReadOnly();
}

void drawFrame(QPainter& painter, const QStyleOption& option, const QWidget* widget) {
    const bool isList = qobject_cast<const QAbstractItemView*>(widget) != nullptr;
    const bool hasFocus = option.state.testFlag(QStyle::State_HasFocus) && !isList;
    const Token edge = hasFocus                           ? Token::Ink
                       : isList || isReadOnlyText(widget) ? Token::Line
                                                          : Token::Edge;
    painter.save();
    painter.setPen(QPen{colour(edge, option.palette), kHairlinePx});
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(option.rect.adjusted(0, 0, -1, -1));
    painter.restore();
}

void drawGroupFrame(QPainter& painter, const QStyleOption& option) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{colour(Token::Line, option.palette), kHairlinePx});
    painter.setBrush(colour(Token::Surface, option.palette));
    painter.drawRoundedRect(QRectF{option.rect}.adjusted(0.5, 0.5, -0.5, -0.5), kCardRadiusPx,
                            kCardRadiusPx);
    painter.restore();
}

/// The head of a column stands where its texts and numbers do.
Qt::Alignment columnAlignment(const QWidget* head, int section) {
    const auto* view = qobject_cast<const QHeaderView*>(head);
    if (view == nullptr || view->model() == nullptr || view->model()->rowCount() == 0) {
        return Qt::AlignLeft | Qt::AlignVCenter;
    }
    const QVariant stated = view->model()->index(0, section).data(Qt::TextAlignmentRole);
    const auto sides = Qt::Alignment{stated.toInt()} & Qt::AlignHorizontal_Mask;
    return (sides == Qt::Alignment{} ? Qt::AlignLeft : sides) | Qt::AlignVCenter;
}

void drawMenuBarItem(QPainter& painter, const QStyleOption& option) {
    const auto* item = qstyleoption_cast<const QStyleOptionMenuItem*>(&option);
    const bool isChosen = option.state.testFlag(QStyle::State_Selected) ||
                          option.state.testFlag(QStyle::State_Sunken);
    painter.fillRect(option.rect,
                     colour(isChosen ? Token::BandHover : Token::Band, programPalette()));
    painter.setPen(option.palette.color(QPalette::ButtonText));
    painter.drawText(option.rect, Qt::AlignCenter | Qt::TextShowMnemonic | Qt::TextSingleLine,
                     item != nullptr ? item->text : QString{});
}

int extraOfStrongWords(const QStyleOptionButton& option, const QWidget* widget) {
    const QFontMetrics strong{textFont(widget->font(), TextSize::Body, Weight::Strong)};
    return std::max(0, strong.horizontalAdvance(option.text) -
                           option.fontMetrics.horizontalAdvance(option.text));
}

}  // namespace

WindowStyle::WindowStyle() : QProxyStyle{QStringLiteral("Fusion")} {}

void WindowStyle::polish(QWidget* widget) {
    QProxyStyle::polish(widget);
    if (qobject_cast<QLineEdit*>(widget) != nullptr) {
        widget->setAttribute(Qt::WA_Hover);
    }
}

void WindowStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option,
                                QPainter* painter, const QWidget* widget) const {
    switch (element) {
        case PE_PanelButtonCommand:
        case PE_PanelButtonTool:
            drawButtonFace(*painter, *option, rankOf(widget, *option));
            return;
        case PE_PanelLineEdit:
            if (const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
                frame != nullptr && frame->lineWidth > 0) {
                drawFieldFace(*painter, *option, widget, option->state.testFlag(State_ReadOnly));
                return;
            }
            break;
        case PE_FrameLineEdit:
        case PE_FrameButtonTool:
        case PE_FrameTabBarBase:
            return;  // the face has it
        case PE_FrameFocusRect:
            if (!isButton(widget) && !isRowWithBar(widget)) {
                drawFocusRing(*painter, option->rect, option->palette);
            }
            return;
        case PE_IndicatorCheckBox:
        case PE_IndicatorItemViewItemCheck:
            drawCheckBox(*painter, *option);
            return;
        case PE_IndicatorRadioButton:
            drawRadioButton(*painter, *option);
            return;
        case PE_Frame:
            drawFrame(*painter, *option, widget);
            return;
        case PE_FrameGroupBox:
            drawGroupFrame(*painter, *option);
            return;
        case PE_FrameTabWidget:
            painter->fillRect(QRect{option->rect.topLeft(), QSize{option->rect.width(), 1}},
                              colour(Token::Line, option->palette));
            return;
        case PE_PanelItemViewItem:
            if (const auto* item = qstyleoption_cast<const QStyleOptionViewItem*>(option)) {
                drawItemGround(*painter, *item, widget);
                return;
            }
            break;
        case PE_PanelItemViewRow:
            QProxyStyle::drawPrimitive(element, option, painter, widget);
            drawRowLine(*painter, *option, widget);
            return;
        default:
            break;
    }
    QProxyStyle::drawPrimitive(element, option, painter, widget);
}

void WindowStyle::drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                              const QWidget* widget) const {
    if (const auto* button = qstyleoption_cast<const QStyleOptionButton*>(option);
        button != nullptr && element == CE_PushButtonLabel) {
        drawPushButtonLabel(*button, *painter, widget);
        return;
    }
    if (const auto* item = qstyleoption_cast<const QStyleOptionViewItem*>(option);
        item != nullptr && element == CE_ItemViewItem) {
        QStyleOptionViewItem plain{*item};
        plain.palette.setColor(QPalette::HighlightedText, colour(Token::Text, item->palette));
        QProxyStyle::drawControl(element, &plain, painter, widget);
        return;
    }
    if (const auto* tab = qstyleoption_cast<const QStyleOptionTab*>(option)) {
        drawTab(element, *tab, *painter, widget);
        return;
    }
    switch (element) {
        case CE_HeaderSection:
            if (const auto* head = qstyleoption_cast<const QStyleOptionHeader*>(option)) {
                drawHeadGround(*painter, *option, head->orientation);
            }
            return;
        case CE_HeaderEmptyArea:
            drawHeadGround(
                *painter, *option,
                option->state.testFlag(State_Horizontal) ? Qt::Horizontal : Qt::Vertical);
            return;
        case CE_HeaderLabel:
            if (const auto* head = qstyleoption_cast<const QStyleOptionHeader*>(option)) {
                drawHeadLabel(*head, *painter, widget);
            }
            return;
        case CE_MenuBarEmptyArea:
            painter->fillRect(option->rect, colour(Token::Band, programPalette()));
            return;
        case CE_MenuBarItem:
            drawMenuBarItem(*painter, *option);
            return;
        case CE_ToolBar:
            painter->fillRect(
                QRect{option->rect.left(), option->rect.bottom(), option->rect.width(), 1},
                colour(Token::Line, option->palette));
            return;
        case CE_ProgressBarGroove:
            drawProgressGroove(*painter, *option);
            return;
        case CE_ProgressBarLabel:
            return;  // the line is too thin for a text; what it says stands beside it
        case CE_ProgressBarContents:
            if (const auto* bar = qstyleoption_cast<const QStyleOptionProgressBar*>(option)) {
                drawProgressBar(*painter, *bar);
            }
            return;
        default:
            QProxyStyle::drawControl(element, option, painter, widget);
    }
}

void WindowStyle::drawPushButtonLabel(const QStyleOptionButton& option, QPainter& painter,
                                      const QWidget* widget) const {
    const Rank rank = rankOf(widget, option);
    QStyleOptionButton label{option};
    label.palette.setColor(QPalette::ButtonText, buttonWords(option, rank));
    if (rank == Rank::Primary) {
        painter.setFont(textFont(painter.font(), TextSize::Body, Weight::Strong));
    }
    QProxyStyle::drawControl(CE_PushButtonLabel, &label, &painter, widget);
}

void WindowStyle::drawHeadLabel(const QStyleOptionHeader& option, QPainter& painter,
                                const QWidget* widget) const {
    QStyleOptionHeader quiet{option};
    quiet.palette.setColor(QPalette::ButtonText, colour(Token::Quiet, option.palette));
    painter.setFont(textFont(painter.font(), TextSize::Small));
    quiet.fontMetrics = painter.fontMetrics();
    if (option.orientation == Qt::Horizontal) {
        quiet.textAlignment = columnAlignment(widget, option.section);
        quiet.rect.adjust(kCellSidePx - kHeadMarginPx, 0, kHeadMarginPx - kCellSidePx, 0);
    }
    QProxyStyle::drawControl(CE_HeaderLabel, &quiet, &painter, widget);
}

void WindowStyle::drawTab(ControlElement element, const QStyleOptionTab& option, QPainter& painter,
                          const QWidget* widget) const {
    if (element == CE_TabBarTabShape) {
        drawTabShape(painter, option);
        return;
    }
    QStyleOptionTab quiet{option};
    quiet.state.setFlag(State_HasFocus, false);  // the shape has the ring
    if (element == CE_TabBarTabLabel && !option.state.testFlag(State_Selected)) {
        quiet.palette.setColor(QPalette::WindowText, colour(Token::Quiet, option.palette));
    }
    QProxyStyle::drawControl(element, element == CE_TabBarTab ? &option : &quiet, &painter, widget);
}

void WindowStyle::drawToolButton(const QStyleOptionComplex& option, QPainter& painter,
                                 const QWidget* widget) const {
    const auto* tool = qstyleoption_cast<const QStyleOptionToolButton*>(&option);
    const Rank rank = rankOf(widget, option);
    QStyleOptionToolButton label{*tool};
    drawButtonFace(painter, option, rank);
    label.palette.setColor(QPalette::ButtonText, buttonWords(option, rank));
    if (rank == Rank::Primary) {
        label.font = textFont(tool->font, TextSize::Body, Weight::Strong);
    }
    if (tool->toolButtonStyle == Qt::ToolButtonTextBesideIcon && !tool->icon.isNull()) {
        label.rect.setLeft(label.rect.left() + kToolButtonSidePx - 3);  // words keep the right side
    }
    drawControl(CE_ToolButtonLabel, &label, &painter, widget);
}

void WindowStyle::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option,
                                     QPainter* painter, const QWidget* widget) const {
    const QPalette& palette = option->palette;
    const bool isEnabled = option->state.testFlag(State_Enabled);
    const QColor sign = colour(isEnabled ? Token::Quiet : Token::Off, palette);
    const auto centre = [&](SubControl part) {
        return QRectF{subControlRect(control, option, part, widget)}.center();
    };
    if (qstyleoption_cast<const QStyleOptionToolButton*>(option) != nullptr) {
        drawToolButton(*option, *painter, widget);
    } else if (const auto* box = qstyleoption_cast<const QStyleOptionComboBox*>(option)) {
        if (box->frame) {
            drawFieldFace(*painter, *option, widget, false);
        }
        drawChevron(*painter, centre(SC_ComboBoxArrow), false, sign);
    } else if (const auto* spin = qstyleoption_cast<const QStyleOptionSpinBox*>(option)) {
        if (spin->frame) {
            drawFieldFace(*painter, *option, widget, false);
        }
        if (spin->buttonSymbols != QAbstractSpinBox::NoButtons) {
            const QColor off = colour(Token::Off, palette);
            const auto may = [&](QAbstractSpinBox::StepEnabledFlag step) {
                return spin->stepEnabled.testFlag(step) ? sign : off;
            };
            drawChevron(*painter, centre(SC_SpinBoxUp), true, may(QAbstractSpinBox::StepUpEnabled));
            drawChevron(*painter, centre(SC_SpinBoxDown), false,
                        may(QAbstractSpinBox::StepDownEnabled));
        }
    } else if (const auto* bar = qstyleoption_cast<const QStyleOptionSlider*>(option);
               bar != nullptr && control == CC_ScrollBar) {
        drawScrollBar(*painter, *bar, subControlRect(control, option, SC_ScrollBarSlider, widget));
    } else {
        if (control == CC_GroupBox) {
            painter->setFont(textFont(painter->font(), TextSize::Body, Weight::Strong));
        }
        QProxyStyle::drawComplexControl(control, option, painter, widget);
    }
}

QRect WindowStyle::subControlRect(ComplexControl control, const QStyleOptionComplex* option,
                                  SubControl part, const QWidget* widget) const {
    const QRect usual = QProxyStyle::subControlRect(control, option, part, widget);
    if (control != CC_GroupBox) {
        return usual;
    }
    switch (part) {
        case SC_GroupBoxLabel:  // strong words need more
            return usual.translated(kCardsPx, kGroupTitlePx).adjusted(0, 0, usual.width() / 5, 0);
        case SC_GroupBoxContents:
            return usual.adjusted(0, kGroupTitlePx, 0, 0);
        default:
            return usual;
    }
}

int WindowStyle::pixelMetric(PixelMetric metric, const QStyleOption* option,
                             const QWidget* widget) const {
    switch (metric) {
        case PM_LayoutHorizontalSpacing:
        case PM_LayoutVerticalSpacing:
            return kBetweenPx;
        case PM_LayoutLeftMargin:
        case PM_LayoutTopMargin:
        case PM_LayoutRightMargin:
        case PM_LayoutBottomMargin:
            return kCardsPx;
        case PM_IndicatorWidth:
        case PM_IndicatorHeight:
        case PM_ExclusiveIndicatorWidth:
        case PM_ExclusiveIndicatorHeight:
            return kBoxPx;
        case PM_FocusFrameHMargin:
            return kCellSidePx - 1;  // to which Qt adds one
        case PM_ScrollBarExtent:
            return kScrollBarPx;
        default:
            return QProxyStyle::pixelMetric(metric, option, widget);
    }
}

int WindowStyle::styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                           QStyleHintReturn* more) const {
    if (hint == SH_Table_GridLineColor && option != nullptr) {
        return static_cast<int>(colour(Token::Line, option->palette).rgb());
    }
    if (hint == SH_DialogButtonBox_ButtonsHaveIcons) {
        return 0;  // those of the toolkit are of another hand
    }
    return QProxyStyle::styleHint(hint, option, widget, more);
}

QSize WindowStyle::sizeFromContents(ContentsType type, const QStyleOption* option,
                                    const QSize& size, const QWidget* widget) const {
    if (option == nullptr) {
        return QProxyStyle::sizeFromContents(type, option, size, widget);
    }
    const int line = option->fontMetrics.height();
    const auto atLeast = [&](const QSize& wanted, int height) {
        return QSize{wanted.width(), std::max(wanted.height(), height)};
    };
    const auto buttonHeight = [&] {
        return heightFor(
            rankOf(widget, *option) == Rank::Primary ? kPrimaryHeightPx : kControlHeightPx, line);
    };
    if (const auto* button = qstyleoption_cast<const QStyleOptionButton*>(option);
        button != nullptr && type == CT_PushButton) {
        const bool isPrimary = rankOf(widget, *option) == Rank::Primary;
        const int more = isPrimary ? extraOfStrongWords(*button, widget) : 0;
        const bool isQuiet = rankOf(widget, *option) == Rank::Quiet;
        const int side = isQuiet ? kQuietSidePx : kButtonSidePx;
        return {size.width() + 2 * side + more, buttonHeight()};
    }
    switch (type) {
        case CT_ToolButton:
            return {size.width() + 2 * (rankOf(widget, *option) == Rank::Quiet ? kQuietToolSidePx
                                                                               : kToolButtonSidePx),
                    buttonHeight()};
        case CT_LineEdit: {
            const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
            const QSize usual = QProxyStyle::sizeFromContents(type, option, size, widget);
            const bool isFramed = frame != nullptr && frame->lineWidth > 0;
            return isFramed ? atLeast({usual.width() + 2 * kFieldSidePx, usual.height()},
                                      heightFor(kControlHeightPx, line))
                            : usual;
        }
        case CT_ComboBox:
        case CT_SpinBox:
            return atLeast(QProxyStyle::sizeFromContents(type, option, size, widget),
                           heightFor(kControlHeightPx, line));
        case CT_HeaderSection: {
            const QSize usual = QProxyStyle::sizeFromContents(type, option, size, widget);
            return atLeast({usual.width() + 2 * (kCellSidePx - kHeadMarginPx), usual.height()},
                           kLeastTargetPx);
        }
        case CT_CheckBox:
        case CT_RadioButton:
            return atLeast(QProxyStyle::sizeFromContents(type, option, size, widget),
                           kLeastTargetPx);
        case CT_TabBarTab:
            return atLeast({size.width() + 2 * kTabSidePx, size.height()},
                           heightFor(kControlHeightPx, line));
        default:
            return QProxyStyle::sizeFromContents(type, option, size, widget);
    }
}

QRect WindowStyle::subElementRect(SubElement element, const QStyleOption* option,
                                  const QWidget* widget) const {
    const QRect usual = QProxyStyle::subElementRect(element, option, widget);
    const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
    const bool isField = element == SE_LineEditContents && frame != nullptr && frame->lineWidth > 0;
    return isField ? usual.adjusted(kFieldSidePx, 0, -kFieldSidePx, 0) : usual;
}

}  // namespace ui::style
