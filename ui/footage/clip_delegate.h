#pragma once

#include <QStyledItemDelegate>

#include "ui/models/clip_table_model.h"

namespace ui::bridge {
class ClipPictures;
}

namespace ui::footage {

/// A clip in two lines a cell: its picture and name over its length, its rate over where that is
/// known from, its shots as flights, its implement over the hitter, the sign of its worst remark.
/// Fixed in height.
class ClipDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    /// Model and pictures must outlive it.
    ClipDelegate(const models::ClipTableModel& clips, bridge::ClipPictures& pictures,
                 QObject* parent);

    /// Without pictures names have their room too.
    void setPictured(bool isPictured) { m_isPictured = isPictured; }

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const override;

private:
    void paintPicture(QPainter& painter, const QStyleOptionViewItem& option,
                      core::project::ClipId clip) const;
    [[nodiscard]] int wordsLeft() const;

    const models::ClipTableModel& m_clips;
    bridge::ClipPictures& m_pictures;
    bool m_isPictured{true};
};

/// As high as every row of the list.
[[nodiscard]] int clipRowHeight(const QFont& font);

}  // namespace ui::footage
