#include <gtest/gtest.h>

#include <stdexcept>

#include "tests/core/project/project_maker.h"
#include "tests/core/project/random_edits.h"
#include "tests/support/in_german.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;

class ProjectUndo : public ::testing::Test {
protected:
    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();

    void reopen() {
        store.reset();
        auto opened = Store::open(file);
        if (!opened) {
            throw std::runtime_error(opened.error().message);
        }
        store = std::move(opened).value();
    }
    [[nodiscard]] std::string content() const { return contentOf(*store->snapshot()); }
};

TEST_F(ProjectUndo, AnEmptyProjectHasNothingToUndo) {
    EXPECT_FALSE(store->undoText());
    EXPECT_FALSE(store->redoText());
    EXPECT_EQ(store->undo().error().code, ErrorCode::NotFound);
    EXPECT_EQ(store->redo().error().code, ErrorCode::NotFound);
}

TEST_F(ProjectUndo, SurvivesClosing) {
    const SmallProject small = fill(*store);
    const std::string before = content();
    ASSERT_TRUE(store->setAside(small.shots[0], "mishit"));
    const std::string after = content();
    reopen();
    EXPECT_EQ(store->undoText(), "Set aside shot 1 of clip b.mp4: mishit.");
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(content(), before);
    reopen();
    EXPECT_EQ(content(), before);
    EXPECT_EQ(store->redoText(), "Set aside shot 1 of clip b.mp4: mishit.");
    ASSERT_TRUE(store->redo());
    EXPECT_EQ(content(), after);
    EXPECT_FALSE(store->redoText());
}

TEST_F(ProjectUndo, ARemovedClipComesBackWithAllThatHangsOnIt) {
    const SmallProject small = fill(*store);
    ASSERT_TRUE(store->setMarks(small.shots[0], startAndReturn(2, 12)));
    ASSERT_TRUE(store->keepReading(readingOf(small.shots[0], 1500.0)));
    ASSERT_TRUE(store->addSecondLook(small.shots[0], "outlier"));
    ASSERT_TRUE(store->orderSecondReadings(std::vector{small.shots[1]}));
    const ShotCorrection byHand{{}, small.clip, small.shots[2], CorrectionKind::ByHand, {1}, {2}};
    ASSERT_TRUE(store->addCorrections(std::vector{byHand}));
    const std::string before = content();
    const auto frames = store->clipFrames(small.clip).value()->stamps.ticks;
    ASSERT_TRUE(store->removeClips(std::vector{small.clip}));
    EXPECT_EQ(store->undoText(), "Removed the clip b.mp4 with 3 shots and 1 reading.");
    const auto now = store->snapshot();
    EXPECT_TRUE(now->clips.isEmpty() && now->shots.isEmpty() && now->readings.isEmpty() &&
                now->secondLooks.isEmpty() && now->secondReadings.isEmpty() &&
                now->corrections.isEmpty());
    EXPECT_EQ(store->clipFrames(small.clip).error().code, ErrorCode::NotFound);
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
    const std::string after = content();
    reopen();
    EXPECT_EQ(content(), after);
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(content(), before);
    EXPECT_EQ(store->clipFrames(small.clip).value()->stamps.ticks, frames);
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
    ASSERT_TRUE(store->redo());
    EXPECT_EQ(content(), after);
    EXPECT_EQ(store->removeClips(std::vector{small.clip}).error().code, ErrorCode::NotFound);
}

TEST_F(ProjectUndo, ANewEditEndsRedoAndTheHistoryStillTells) {
    const SmallProject small = fill(*store);
    ASSERT_TRUE(store->setAside(small.shots[0], "mishit"));
    ASSERT_TRUE(store->undo());
    ASSERT_TRUE(store->setDoubtful(small.shots[0], true));
    EXPECT_FALSE(store->redoText());
    EXPECT_EQ(store->redo().error().code, ErrorCode::NotFound);
    const auto history = store->history().value();
    const auto from = history.end() - 3;
    EXPECT_EQ(from[0].what, "Set aside shot 1 of clip b.mp4: mishit.");
    EXPECT_EQ(from[1].what, "Undid: Set aside shot 1 of clip b.mp4: mishit.");
    EXPECT_EQ(from[2].what, "Marked shot 1 of clip b.mp4 as doubtful.");
}

// The file is for whoever opens it next: kept in English, shown in the language of the person.
TEST_F(ProjectUndo, TheHistoryIsKeptInEnglishAndShownInGerman) {
    {
        const core::InGerman german;
        const SmallProject small = fill(*store);
        ASSERT_TRUE(store->setAside(small.shots[0], "mishit"));
        EXPECT_EQ(shotName(*store->snapshot(), *store->snapshot()->shots.find(small.shots[0])),
                  "Schlag 1 von Clip b.mp4");
        EXPECT_EQ(store->undoText(), "Schlag 1 von Clip b.mp4 zurückgestellt: mishit.");
        EXPECT_EQ(store->history().value().back().what, *store->undoText());
        EXPECT_EQ(store->setAside(small.shots[1], " ").error().message,
                  "Geben Sie an, warum Schlag 2 von Clip b.mp4 zurückgestellt wird.");
    }
    EXPECT_EQ(store->undoText(), "Set aside shot 1 of clip b.mp4: mishit.");
}

TEST_F(ProjectUndo, ARefusedEditKeepsRedo) {
    const SmallProject small = fill(*store);
    ASSERT_TRUE(store->undo());
    const auto redo = store->redoText();
    ASSERT_FALSE(store->setAside(small.shots[0], "mishit"));  // undone: the shots are gone
    EXPECT_EQ(store->redoText(), redo);
}

/// Edits at random; then all is undone to the empty project, redone to the end, and the file says
/// the same as the memory at each turn.
class RandomUndo : public ProjectUndo, public ::testing::WithParamInterface<std::uint64_t> {};

TEST_P(RandomUndo, UndoneToTheEmptyProjectAndRedoneToTheEnd) {
    constexpr int kEdits = 200;
    const std::string empty = content();
    fill(*store);
    RandomEditor editor{*store, GetParam()};
    for (int i = 0; i < kEdits; ++i) {
        (void)editor.editForward();  // refusals are part of the game
    }
    const std::string end = content();
    reopen();
    EXPECT_EQ(content(), end);
    int undone = 0;
    while (store->undo()) {
        ++undone;
    }
    EXPECT_GT(undone, kEdits / 2);
    EXPECT_EQ(content(), empty);
    reopen();
    EXPECT_EQ(content(), empty);
    while (store->redo()) {
        --undone;
    }
    EXPECT_EQ(undone, 0);
    EXPECT_EQ(content(), end);
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

TEST_P(RandomUndo, FileAndMemorySayTheSameAfterEditsUndoAndRedoMixed) {
    fill(*store);
    RandomEditor editor{*store, GetParam() + 1000};
    for (int i = 0; i < 200; ++i) {
        (void)editor.edit();
    }
    const std::string end = content();
    const std::int64_t revision = store->snapshot()->revision;
    reopen();
    EXPECT_EQ(content(), end);
    EXPECT_EQ(store->snapshot()->revision, revision);
    EXPECT_EQ(store->history().value().size(), static_cast<std::size_t>(revision));
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomUndo, ::testing::Values(1U, 2U, 3U, 4U, 5U));

}  // namespace
}  // namespace tests::project
