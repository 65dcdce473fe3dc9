#include <gtest/gtest.h>

#include <QApplication>
#include <QFontDatabase>
#include <QFontInfo>
#include <QFontMetricsF>
#include <QLabel>

#include "ui/style/tabular_font.h"
#include "ui/style/text_font.h"

namespace ui::style {
namespace {

QFont openSans() {
    QFont font{loadFonts()};
    font.setPointSizeF(10.0);
    return font;
}

TEST(TextFont, TheFontsOfTheProgramAreKnownToIt) {
    EXPECT_EQ(loadFonts(), QStringLiteral("Open Sans"));
    EXPECT_EQ(QFontInfo{openSans()}.family(), QStringLiteral("Open Sans"));
}

/// Columns of numbers line up in it, so the tables need no font of fixed width.
TEST(TextFont, DigitsAreEquallyWideInBothWeights) {
    for (const Weight weight : {Weight::Regular, Weight::Strong}) {
        const QFont font = textFont(openSans(), TextSize::Body, weight);
        EXPECT_EQ(tabularFont(font).family(), font.family());
    }
}

TEST(TextFont, StrongWordsAreWiderThanRegularOnes) {
    const QString words = QStringLiteral("natural gut 25 kg");
    const QFontMetricsF regular{textFont(openSans(), TextSize::Body)};
    const QFontMetricsF strong{textFont(openSans(), TextSize::Body, Weight::Strong)};
    EXPECT_GT(strong.horizontalAdvance(words), 1.02 * regular.horizontalAdvance(words));
}

TEST(TextFont, SizesArePartsOfTheBody) {
    const QFont body = openSans();
    EXPECT_NEAR(textFont(body, TextSize::Small).pointSizeF(), 9.0, 1e-9);
    EXPECT_NEAR(textFont(body, TextSize::Title).pointSizeF(), 13.5, 1e-9);
    QFont larger{body};
    larger.setPointSizeF(20.0);
    EXPECT_NEAR(textFont(larger, TextSize::Small).pointSizeF(), 18.0, 1e-9);
    EXPECT_NEAR(textFont(body, TextSize::Small).pointSizeF(), 9.0, 1e-9);
}

TEST(TextFont, AWidgetFollowsTheFontOfTheProgram) {
    const QFont before = QApplication::font();
    QWidget window;
    QLabel label{&window};
    setTextSize(&label, TextSize::Title, Weight::Strong);
    QFont larger{before};
    larger.setPointSizeF(20.0);
    QApplication::setFont(larger);
    QCoreApplication::processEvents();
    EXPECT_NEAR(label.font().pointSizeF(), 27.0, 1e-9);
    QApplication::setFont(before);
}

}  // namespace
}  // namespace ui::style
