#include "ui/style/field_undo.h"

#include <gtest/gtest.h>

#include <QAction>
#include <QApplication>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QSpinBox>
#include <QTest>
#include <QVBoxLayout>

/// Ctrl+Z and Ctrl+Shift+Z while the cursor is in a field of a window that has steps of its own.
namespace ui::style {
namespace {

class FieldUndoTest : public ::testing::Test {
protected:
    FieldUndoTest() {
        QCoreApplication::instance()->installEventFilter(&filter);
        count(QKeySequence::Undo, undone);
        count(QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Z}, redone);
        for (QWidget* field : std::initializer_list<QWidget*>{&line, &lines, &number}) {
            column->addWidget(field);
        }
        line.setText(QStringLiteral("67"));
        lines.setPlainText(QStringLiteral("67"));
        number.setValue(67);
        window.show();
    }
    ~FieldUndoTest() override {
        for (QWidget* field : std::initializer_list<QWidget*>{&line, &lines, &number}) {
            field->setParent(nullptr);
        }
    }
    void count(const QKeySequence& keys, int& times) {
        auto* action = new QAction{&window};
        action->setShortcut(keys);
        QObject::connect(action, &QAction::triggered, &window, [&times] { ++times; });
        window.addAction(action);
    }
    void begin(QWidget& field) {
        window.activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
        field.setFocus();
        ASSERT_TRUE(field.hasFocus());
    }
    static void undo(QWidget& field) { QTest::keyClick(&field, Qt::Key_Z, Qt::ControlModifier); }
    static void redo(QWidget& field) {
        QTest::keyClick(&field, Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    }

    FieldUndo filter;
    QWidget window;
    QVBoxLayout* column = new QVBoxLayout{&window};
    QLineEdit line;
    QPlainTextEdit lines;
    QSpinBox number;
    int undone = 0;
    int redone = 0;
};

TEST_F(FieldUndoTest, WithNothingTypedTheWindowTakesBackItsStep) {
    int times = 0;
    for (QWidget* field : std::initializer_list<QWidget*>{&line, &lines, &number}) {
        begin(*field);
        undo(*field);
        redo(*field);
        ++times;
        EXPECT_EQ(undone, times) << field->metaObject()->className();
        EXPECT_EQ(redone, times) << field->metaObject()->className();
    }
    EXPECT_EQ(line.text(), QStringLiteral("67"));
}

TEST_F(FieldUndoTest, TypingIsTakenBackFirst) {
    begin(line);
    QTest::keyClick(&line, Qt::Key_End);
    QTest::keyClicks(&line, QStringLiteral("5"));
    EXPECT_EQ(line.text(), QStringLiteral("675"));
    undo(line);
    EXPECT_EQ(line.text(), QStringLiteral("67"));
    EXPECT_EQ(undone, 0);
    redo(line);
    EXPECT_EQ(line.text(), QStringLiteral("675"));
    EXPECT_EQ(redone, 0);
    undo(line);
    undo(line);
    EXPECT_EQ(undone, 1) << "nothing of it is left";
}

}  // namespace
}  // namespace ui::style
