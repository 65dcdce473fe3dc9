#include "ui/doubts/weight_delegate.h"

#include <QPainter>
#include <utility>

#include "ui/doubts/doubts_screen.h"
#include "ui/style/sign.h"
#include "ui/style/tokens.h"

namespace ui::doubts {
namespace {

using style::Sign;
using style::Token;

constexpr int kSignPx = 16;

std::pair<Sign, Token> signOf(const core::doubts::Doubted& item) {
    using core::doubts::Grade;
    if (item.isSettled) {
        return {Sign::Done, Token::Done};
    }
    switch (item.doubts.front().grade) {
        case Grade::Grave:
            return {Sign::Grave, Token::Grave};
        case Grade::Question:
            return {Sign::Question, Token::Question};
        case Grade::Note:
            break;
    }
    return {Sign::Note, Token::Quiet};
}

}  // namespace

QString weightText(const core::doubts::Doubted& item) {
    if (item.isSettled) {
        return DoubtsScreen::tr("settled");
    }
    switch (item.doubts.front().grade) {
        case core::doubts::Grade::Grave:
            return DoubtsScreen::tr("grave");
        case core::doubts::Grade::Question:
            return DoubtsScreen::tr("question");
        case core::doubts::Grade::Note:
            break;
    }
    return DoubtsScreen::tr("note");
}

WeightDelegate::WeightDelegate(ItemAt itemAt, QObject* parent)
    : QStyledItemDelegate{parent}, m_itemAt{std::move(itemAt)} {}

void WeightDelegate::initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const {
    QStyledItemDelegate::initStyleOption(option, index);
    const auto* item = m_itemAt(index.row());
    if (item == nullptr) {
        return;
    }
    const auto [sign, token] = signOf(*item);
    const double ratio = option->widget != nullptr ? option->widget->devicePixelRatioF() : 1.0;
    QPixmap picture{QSize{kSignPx, kSignPx} * ratio};
    picture.setDevicePixelRatio(ratio);
    picture.fill(Qt::transparent);
    QPainter painter{&picture};
    style::drawSign(painter, sign, {0.0, 0.0, kSignPx, kSignPx},
                    style::colour(token, option->palette));
    painter.end();
    QIcon icon{picture};
    icon.addPixmap(picture, QIcon::Selected);  // else Qt makes one in the colour of the selection
    option->features |= QStyleOptionViewItem::HasDecoration;
    option->decorationSize = {kSignPx, kSignPx};
    option->icon = icon;
}

}  // namespace ui::doubts
