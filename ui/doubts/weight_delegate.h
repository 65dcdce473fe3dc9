#pragma once

#include <QStyledItemDelegate>
#include <functional>

#include "core/doubts/doubt.h"

namespace ui::doubts {

/// "grave", or "settled" whatever it was.
[[nodiscard]] QString weightText(const core::doubts::Doubted& item);

/// Puts the sign of its weight before each weight in words.
class WeightDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    /// Gives what is doubted in a row; null where there is none.
    using ItemAt = std::function<const core::doubts::Doubted*(int row)>;

    explicit WeightDelegate(ItemAt itemAt, QObject* parent = nullptr);

protected:
    void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override;

private:
    ItemAt m_itemAt;
};

}  // namespace ui::doubts
