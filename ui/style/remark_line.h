#pragma once

#include <QWidget>

class QLabel;

namespace ui::style {

/// What a remark asks for.
enum class RemarkKind { Grave, Question, Note, Done };

/// One remark: a bar and a sign by its kind, and its words, of which the first may be strong. A
/// note has no ground of its own. Texts are shown, never run.
class RemarkLine : public QWidget {
    Q_OBJECT

public:
    RemarkLine(RemarkKind kind, const QString& strong, const QString& words,
               QWidget* parent = nullptr);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    RemarkKind m_kind;
};

}  // namespace ui::style
