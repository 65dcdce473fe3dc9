#include "ui/plan/tally_dialog.h"
#include "tests/support/named_widget.h"

#include <gtest/gtest.h>

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableWidget>
#include <QTest>
#include <fstream>

#include "tests/core/intake/clip_project.h"
#include "tests/support/reference_csv.h"

/// The dialog for a table of frame counts, driven by keys and clicks.
namespace ui::plan {
namespace {

using tests::must;

class TallyDialogTest : public ::testing::Test {
protected:
    void SetUp() override {
        store = must(core::project::Store::create(folder.path() / "p.turnmark"));
    }
    void look(const std::filesystem::path& file) {
        dialog = std::make_unique<TallyDialog>(
            *store, file, must(core::intake::readTallySheet(file)), "2026-05-03");
        dialog->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(dialog.get()));
    }
    void lookAt(const std::string& text) {
        std::ofstream{folder.file("t.csv"), std::ios::binary} << text;
        look(folder.path() / "t.csv");
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(*dialog, name);
    }
    void type(const char* field, const QString& text) {
        auto& line = child<QLineEdit>(field);
        line.setFocus();
        line.selectAll();
        QTest::keyClicks(&line, text);
    }
    /// Chooses the item that begins with these letters.
    void choose(const char* list, const QString& letters) {
        QTest::keyClicks(&child<QComboBox>(list), letters);
    }
    [[nodiscard]] QString message() { return child<QLabel>("tally_message").text(); }
    [[nodiscard]] bool mayImport() { return child<QPushButton>("tally_import").isEnabled(); }
    /// A row of the preview, fields separated by bars.
    [[nodiscard]] QString previewed(int row) {
        const auto& preview = child<QTableWidget>("tally_preview");
        QStringList fields;
        for (int column = 0; column < preview.columnCount(); ++column) {
            const auto* item = preview.item(row, column);
            fields << (item == nullptr ? QString{} : item->text());
        }
        return fields.join(QLatin1Char('|'));
    }
    void import() { QTest::mouseClick(&child<QPushButton>("tally_import"), Qt::LeftButton); }

    tests::TemporaryFolder folder;
    std::unique_ptr<core::project::Store> store;
    std::unique_ptr<TallyDialog> dialog;
};

// tests/data/tallies/README.md: the first count is of Gut 24 kg with A, 5 frames; 60·120/5 rpm.
TEST_F(TallyDialogTest, HowItWasReadAndTheFirstShotsAreShown) {
    look(tests::dataFolder() / "tallies" / "cells_utf16le_mark_tab.txt");
    EXPECT_EQ(child<QLabel>("tally_read").text(),
              QStringLiteral("cells_utf16le_mark_tab.txt, read as UTF-16 (little-endian), "
                             "separated by tabs"));
    EXPECT_TRUE(message().contains(QStringLiteral("frames per second")));
    EXPECT_FALSE(mayImport());
    type("tally_rate", QStringLiteral("120"));
    EXPECT_EQ(message(), QStringLiteral("12 shots will be imported."));
    EXPECT_EQ(previewed(0), QStringLiteral("2|Gut 24 kg||A|5|1|120|1440"));
    EXPECT_EQ(previewed(3), QStringLiteral("3|Gut 24 kg||Zo\u00EB|4|1|120|1800"));
    import();
    EXPECT_EQ(dialog->result(), QDialog::Accepted);
    EXPECT_EQ(dialog->imported().added, 12U);
    EXPECT_EQ(store->snapshot()->shots.size(), 12U);
    EXPECT_EQ(store->snapshot()->sessions.begin()->date, "2026-05-03");
}

TEST_F(TallyDialogTest, ThePreviewFollowsEveryChoice) {
    lookAt("Racket,Anna,Ben,mass\ngut,10,11,95\n");
    type("tally_rate", QStringLiteral("240"));
    EXPECT_FALSE(mayImport());
    QTest::keyClick(&child<QComboBox>("tally_shape"), Qt::Key_End);
    EXPECT_EQ(previewed(1), QStringLiteral("2|gut||Ben|11|1|240|1309"));
    EXPECT_EQ(previewed(2), QStringLiteral("2|gut||mass|95|1|240|152"));
    choose("tally_role_3", QStringLiteral("att"));
    EXPECT_EQ(previewed(1), QStringLiteral("2|gut||Ben|11|1|240|1309|95"));
    EXPECT_TRUE(mayImport()) << message().toStdString();
    QTest::keyClick(&child<QComboBox>("tally_role_1"), Qt::Key_Home);
    EXPECT_EQ(previewed(0), QStringLiteral("2|gut||Ben|11|1|240|1309|95"));
    choose("tally_role_2", QStringLiteral("imp"));
    EXPECT_EQ(child<QComboBox>("tally_role_0").currentText(), QStringLiteral("leave out"))
        << "one column holds the implement";
    QTest::keyClick(&child<QComboBox>("tally_role_2"), Qt::Key_Home);
    EXPECT_TRUE(message().contains(QStringLiteral("hold the implement")));
    EXPECT_FALSE(mayImport());
}

TEST_F(TallyDialogTest, ATableOfOneHitterNamesThemHere) {
    lookAt("Racket,Frames\ngut,10\n");
    type("tally_rate", QStringLiteral("240"));
    EXPECT_FALSE(mayImport());
    type("tally_hitter", QStringLiteral("Anna"));
    EXPECT_EQ(previewed(0), QStringLiteral("2|gut||Anna|10|1|240|1440"));
    EXPECT_TRUE(mayImport());
}

TEST_F(TallyDialogTest, WhatIsDoubtfulIsListedAndDecidedByTicks) {
    lookAt("Racket,Who,Frames\nSet 3,A,5\nset  3,A,5\nSet 3,A,55\nSet 3,A,ten\nSet 3,A,5\n");
    type("tally_rate", QStringLiteral("240"));
    const auto& list = child<QPlainTextEdit>("tally_doubts");
    ASSERT_TRUE(list.isVisible());
    for (const char* line :
         {"Row 5, column C: \"ten\"", "Row 4, column C: 55 frames", "\"Set 3\" and \"set  3\""}) {
        EXPECT_TRUE(list.toPlainText().contains(QString::fromUtf8(line)))
            << list.toPlainText().toStdString();
    }
    auto& leaveOut = child<QCheckBox>("tally_leave_out");
    EXPECT_EQ(leaveOut.text(), QStringLiteral("Leave out 1 row with a fault"));
    EXPECT_FALSE(child<QComboBox>("tally_comma").isVisible());
    QTest::keyClick(&leaveOut, Qt::Key_Space);
    QTest::keyClick(&child<QCheckBox>("tally_accept"), Qt::Key_Space);
    EXPECT_FALSE(mayImport());
    QTest::keyClick(&child<QComboBox>("tally_alike"), Qt::Key_Down);
    EXPECT_TRUE(mayImport()) << message().toStdString();
    EXPECT_EQ(previewed(1), QStringLiteral("3|Set 3||A|5|1|240|2880"));
    import();
    EXPECT_EQ(store->snapshot()->shots.size(), 4U);
    EXPECT_EQ(store->snapshot()->implements.size(), 1U);
}

TEST_F(TallyDialogTest, WhatACommaMeansIsAsked) {
    lookAt("Racket;Who;Frames;fps\ngut;A;5;1,000\n");
    auto& comma = child<QComboBox>("tally_comma");
    ASSERT_TRUE(comma.isVisible());
    EXPECT_FALSE(mayImport());
    QTest::keyClick(&comma, Qt::Key_End);
    EXPECT_EQ(previewed(0), QStringLiteral("2|gut||A|5|1|1000|12000"));
    EXPECT_TRUE(mayImport());
    EXPECT_TRUE(comma.isVisible()) << "so that it can be changed";
}

TEST_F(TallyDialogTest, NothingIsLeftBehindWhenItIsCancelled) {
    lookAt("Racket,Who,Frames\ngut,A,10\n");
    QTest::keyClick(dialog.get(), Qt::Key_Escape);
    EXPECT_EQ(dialog->result(), QDialog::Rejected);
    EXPECT_TRUE(store->snapshot()->sessions.isEmpty());
    EXPECT_EQ(store->undoText(), std::nullopt);
}

TEST_F(TallyDialogTest, ALongImportShowsItsProgress) {
    std::string text = "Racket,Who,Frames\n";
    for (int i = 0; i < 1500; ++i) {
        text += "gut,A," + std::to_string(8 + i % 4) + "\n";
    }
    lookAt(text);
    type("tally_rate", QStringLiteral("240"));
    auto& progress = child<QProgressBar>("tally_progress");
    QSignalSpy values{&progress, &QProgressBar::valueChanged};
    import();
    EXPECT_EQ(dialog->imported().added, 1500U);
    EXPECT_GE(values.count(), 3);  // of at most 500 shots each
    EXPECT_EQ(progress.value(), progress.maximum());
}

}  // namespace
}  // namespace ui::plan
