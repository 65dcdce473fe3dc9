#include "core/findings/settings.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "core/project/store.h"

namespace {

using namespace core::findings;
using core::ErrorCode;
using core::Rpm;
using core::project::Store;
using ::testing::HasSubstr;

/// A new project in a folder of its own, removed at the end.
class FindingsSettings : public ::testing::Test {
protected:
    FindingsSettings() {
        const auto name = std::string{"findings_settings_"} +
                          ::testing::UnitTest::GetInstance()->current_test_info()->name();
        m_folder = std::filesystem::temp_directory_path() / name;
        std::filesystem::remove_all(m_folder);
        std::filesystem::create_directories(m_folder);
        m_store = Store::create(m_folder / "p.turnmark").value();
    }
    ~FindingsSettings() override {
        m_store.reset();
        std::filesystem::remove_all(m_folder);
    }
    std::filesystem::path m_folder;
    std::unique_ptr<Store> m_store;
};

TEST_F(FindingsSettings, StepIsKeptAndUndone) {
    EXPECT_FALSE(noticeableStep(*m_store->snapshot()).value().has_value());
    ASSERT_TRUE(setNoticeableStep(*m_store, Rpm{300.0}).has_value());
    EXPECT_EQ(noticeableStep(*m_store->snapshot()).value(), Rpm{300.0});
    ASSERT_TRUE(m_store->undo().has_value());
    EXPECT_FALSE(noticeableStep(*m_store->snapshot()).value().has_value());
}

TEST_F(FindingsSettings, StepOfZeroOrLessIsRefusedAndChangesNothing) {
    const auto refused = setNoticeableStep(*m_store, Rpm{0.0});
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().code, ErrorCode::InvalidInput);
    EXPECT_FALSE(noticeableStep(*m_store->snapshot()).value().has_value());
}

TEST_F(FindingsSettings, BandsAreKeptAndUndone) {
    const auto made = Bands::parse("low 1200 high").value();
    ASSERT_TRUE(setBands(*m_store, made).has_value());
    EXPECT_EQ(bands(*m_store->snapshot()).value(), made);
    ASSERT_TRUE(m_store->undo().has_value());
    EXPECT_TRUE(bands(*m_store->snapshot()).value().isEmpty());
}

TEST_F(FindingsSettings, StoredTextThatMakesNoSenseIsDamagedAndNotIgnored) {
    ASSERT_TRUE(m_store->setSetting("bands", "low 5 4 high").has_value());
    ASSERT_TRUE(m_store->setSetting("noticeable_step_rpm", "much").has_value());
    EXPECT_EQ(bands(*m_store->snapshot()).error().code, ErrorCode::Damaged);
    EXPECT_EQ(noticeableStep(*m_store->snapshot()).error().code, ErrorCode::Damaged);
}

TEST_F(FindingsSettings, LookIsKeptAndIsNoStepOfUndo) {
    ASSERT_TRUE(setNoticeableStep(*m_store, Rpm{300.0}).has_value());
    const auto revision = m_store->snapshot()->revision;
    ASSERT_TRUE(keepLook(*m_store, {3, 99}).has_value());
    EXPECT_EQ(looks(*m_store->snapshot()).count, 3);
    EXPECT_EQ(m_store->snapshot()->revision, revision);
    ASSERT_TRUE(m_store->undo().has_value());
    EXPECT_FALSE(noticeableStep(*m_store->snapshot()).value().has_value());
    EXPECT_EQ(looks(*m_store->snapshot()).count, 3);
    ASSERT_TRUE(m_store->redo().has_value());
    EXPECT_EQ(looks(*m_store->snapshot()).fingerprint, 99U);
    EXPECT_TRUE(m_store->faults().value().empty());
}

TEST(NoticeableStepText, NumberWithOrWithoutItsUnit) {
    EXPECT_EQ(parseStep(" 300 rpm ").value(), Rpm{300.0});
    EXPECT_EQ(parseStep("12.5").value(), Rpm{12.5});
    EXPECT_FALSE(parseStep("  ").value().has_value());
}

TEST(NoticeableStepText, AnythingElseIsRefusedWithTheRemedy) {
    for (const char* text : {"much", "300 turns", "3 00", "nan", "-5", "0", "1e99", "1e999"}) {
        const auto step = parseStep(text);
        ASSERT_FALSE(step.has_value()) << text;
        EXPECT_EQ(step.error().code, ErrorCode::InvalidInput) << text;
    }
    EXPECT_THAT(parseStep("much").error().message, HasSubstr("\"much\" is not a number"));
}

}  // namespace
