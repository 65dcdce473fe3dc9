#pragma once

#include <QLayout>
#include <memory>
#include <vector>

namespace ui::style {

/// Items side by side, as many as have room in a row, in their order. For buttons whose words are
/// longer in other languages or with larger text.
class RowsLayout : public QLayout {
public:
    /// What is left of a row: shared by its items, or free behind the last.
    enum class Rest { Shared, Free };

    explicit RowsLayout(QWidget* parent, Rest rest = Rest::Shared);
    RowsLayout(const RowsLayout&) = delete;
    RowsLayout& operator=(const RowsLayout&) = delete;
    ~RowsLayout() override;

    void addItem(QLayoutItem* item) override;
    [[nodiscard]] int count() const override { return static_cast<int>(m_items.size()); }
    [[nodiscard]] QLayoutItem* itemAt(int index) const override;
    QLayoutItem* takeAt(int index) override;
    [[nodiscard]] Qt::Orientations expandingDirections() const override { return {}; }
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    /// As wide as the widest item.
    [[nodiscard]] QSize minimumSize() const override;
    /// All in one row.
    [[nodiscard]] QSize sizeHint() const override;
    void setGeometry(const QRect& place) override;

private:
    using Row = std::vector<QLayoutItem*>;
    [[nodiscard]] std::vector<Row> rowsFor(int width) const;

    Rest m_rest;
    std::vector<std::unique_ptr<QLayoutItem>> m_items;
};

}  // namespace ui::style
