#pragma once

#include <QStyledItemDelegate>
#include <QTableView>
#include <utility>

#include "core/doubts/doubt.h"
#include "ui/style/sign.h"
#include "ui/style/tokens.h"

namespace ui::doubts {

class DoubtListModel;

/// The sign of its weight, or that it is settled, and the colour of that.
[[nodiscard]] std::pair<style::Sign, style::Token> signOf(const core::doubts::Doubted& item);

/// A doubt in a row: the sign of its weight, the ball, and three lines: why, the numbers, whose.
/// Fixed in height, so that ten thousand rows need not be measured.
class DoubtDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    /// The model must outlive it.
    explicit DoubtDelegate(const DoubtListModel& model, QObject* parent = nullptr);

    /// For this font of the list.
    [[nodiscard]] static int rowHeight(const QFont& font);

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;

private:
    const DoubtListModel& m_model;
};

/// Makes a table of the model, or of what passes its rows on, one of such rows. The model must
/// outlive it.
void showAsDoubtRows(QTableView& table, const DoubtListModel& model);
/// All rows as high as the table's font asks for now; none is measured.
void fitDoubtRows(QTableView& table);

}  // namespace ui::doubts
