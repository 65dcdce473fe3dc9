#pragma once

#include <QStyledItemDelegate>

namespace ui::findings {

class RankedView;

/// Paints the cells of a RankedView. Confined.
class RankedDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    /// The view owns the delegate.
    explicit RankedDelegate(RankedView& view);

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;

private:
    void paintGround(QPainter& painter, const QStyleOptionViewItem& option,
                     const QModelIndex& index) const;

    const RankedView& m_view;
};

}  // namespace ui::findings
