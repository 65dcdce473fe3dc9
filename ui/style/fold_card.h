#pragma once

#include <QGroupBox>

class QToolButton;

namespace ui::style {

/// A card of which the title alone is seen until it is opened, by whoever presses the title or by
/// the program.
class FoldCard : public QGroupBox {
    Q_OBJECT

public:
    FoldCard(const QString& title, QWidget* content);

    void setOpen(bool isOpen);
    [[nodiscard]] bool isOpen() const noexcept { return m_isOpen; }

private:
    QToolButton* m_head;
    QWidget* m_content;
    bool m_isOpen{false};
};

}  // namespace ui::style
