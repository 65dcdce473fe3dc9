#include <gtest/gtest.h>

#include <QApplication>
#include <QCheckBox>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>
#include <QTest>
#include <QToolButton>
#include <memory>

#include "ui/style/data_table.h"
#include "ui/style/rank.h"
#include "ui/style/tokens.h"
#include "ui/style/window_style.h"

namespace ui::style {
namespace {

/// A widget in the look of the program, light or dark, as a picture.
class WindowStyleTest : public ::testing::TestWithParam<bool> {
protected:
    template <typename Widget>
    std::unique_ptr<Widget> dressed(std::unique_ptr<Widget> widget) {
        widget->setStyle(&m_style);
        for (auto* child : widget->template findChildren<QWidget*>()) {
            child->setStyle(&m_style);
        }
        widget->setPalette(windowPalette(GetParam()));
        return widget;
    }

    [[nodiscard]] QColor of(Token token) const { return colour(token, GetParam()); }

    static QColor at(QWidget& widget, QPoint place) {
        return widget.grab().toImage().pixelColor(place);
    }

    WindowStyle m_style;
};

std::unique_ptr<QPushButton> buttonOf(Rank rank) {
    auto button = std::make_unique<QPushButton>(QStringLiteral("Keep"));
    button->resize(120, 40);
    setRank(button.get(), rank);
    return button;
}

constexpr QPoint kInside{8, 8};

TEST_P(WindowStyleTest, ThePrimaryButtonIsFilledWithInk) {
    const auto button = dressed(buttonOf(Rank::Primary));
    EXPECT_EQ(at(*button, kInside), of(Token::Ink));
    button->setDown(true);
    EXPECT_EQ(at(*button, kInside), of(Token::InkPressed));
    button->setEnabled(false);
    button->setDown(false);
    EXPECT_EQ(at(*button, kInside), of(Token::Line));
}

TEST_P(WindowStyleTest, ASecondaryButtonIsSurfaceWithAnEdge) {
    const auto button = dressed(buttonOf(Rank::Secondary));
    EXPECT_EQ(at(*button, kInside), of(Token::Surface));
    EXPECT_EQ(at(*button, {60, 0}), of(Token::Edge));
    button->setEnabled(false);
    EXPECT_EQ(at(*button, {60, 0}), of(Token::Line));
}

TEST_P(WindowStyleTest, AQuietButtonHasNeitherGroundNorEdge) {
    const auto button = dressed(buttonOf(Rank::Quiet));
    EXPECT_EQ(at(*button, kInside), of(Token::Ground));
    EXPECT_EQ(at(*button, {60, 0}), of(Token::Ground));
}

TEST_P(WindowStyleTest, ASwitchThatIsOnIsPaleWithAnInkLineBelow) {
    const auto button = dressed(std::make_unique<QToolButton>());
    button->setCheckable(true);
    button->resize(120, 30);
    EXPECT_EQ(at(*button, kInside), of(Token::Surface));
    button->setChecked(true);
    EXPECT_EQ(at(*button, kInside), of(Token::Pale));
    EXPECT_EQ(at(*button, {60, 28}), of(Token::Ink));
}

TEST_P(WindowStyleTest, FocusIsARingOfInkThatIsSetOffFromAFilledFace) {
    const auto button = dressed(buttonOf(Rank::Primary));
    button->show();
    QTest::keyClick(button.get(), Qt::Key_Tab);  // from now on focus shows
    button->activateWindow();
    button->setFocus(Qt::TabFocusReason);
    ASSERT_TRUE(QTest::qWaitForWindowActive(button.get()));
    button->setAttribute(Qt::WA_UnderMouse, false);  // wherever the pointer is
    EXPECT_EQ(at(*button, {60, 1}), of(Token::Ink));
    EXPECT_EQ(at(*button, {60, 2}), of(Token::Ground));
    EXPECT_EQ(at(*button, kInside), of(Token::Ink));
}

TEST_P(WindowStyleTest, AFieldShowsByItsEdgeWhetherItIsWrongOrReadOnly) {
    const auto field = dressed(std::make_unique<QLineEdit>());
    field->resize(120, 30);
    EXPECT_EQ(at(*field, {60, 0}), of(Token::Edge));
    setWrong(field.get(), true);
    EXPECT_EQ(at(*field, {60, 1}), of(Token::Grave));
    setWrong(field.get(), false);
    field->setReadOnly(true);
    EXPECT_EQ(at(*field, {60, 0}), of(Token::Ground));
}

TEST_P(WindowStyleTest, AChosenRowIsPaleAndHasABarAtItsLeft) {
    const auto list = dressed(std::make_unique<QListWidget>());
    list->addItems({QString{}, QString{}});
    list->setFrameShape(QFrame::NoFrame);
    list->setCurrentRow(0);
    list->resize(120, 90);
    const int middle = list->visualItemRect(list->item(0)).center().y();
    EXPECT_EQ(at(*list, {1, middle}), of(Token::Edge)) << "without focus";
    EXPECT_EQ(at(*list, {60, middle}), of(Token::Pale));
    EXPECT_EQ(at(*list, {60, 80}), of(Token::Surface));
}

/// A text line of 60 pixels needs more than the stated heights.
TEST_P(WindowStyleTest, HeightsFollowTheText) {
    const auto primary = dressed(buttonOf(Rank::Primary));
    const auto secondary = dressed(buttonOf(Rank::Secondary));
    EXPECT_GE(primary->sizeHint().height(), kPrimaryHeightPx);
    EXPECT_GE(secondary->sizeHint().height(), kControlHeightPx);
    QFont large = secondary->font();
    large.setPixelSize(60);
    secondary->setFont(large);
    EXPECT_GE(secondary->sizeHint().height(), 60 + kRoomAroundLinePx);
}

INSTANTIATE_TEST_SUITE_P(LightAndDark, WindowStyleTest, ::testing::Bool());

}  // namespace
}  // namespace ui::style
