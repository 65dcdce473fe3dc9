#pragma once

#include <QStyledItemDelegate>

namespace ui::reading {

/// A shot in two lines: its ball, its number with its state, whose it is; at the right its spin
/// over the uncertainty. Fixed in height, so that ten thousand rows need not be measured.
class ShotDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;
};

}  // namespace ui::reading
