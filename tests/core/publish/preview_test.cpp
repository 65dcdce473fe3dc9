#include "core/publish/preview.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "tests/core/publish/published_folder.h"
#include "tests/support/must.h"

namespace core::publish {
namespace {

namespace fs = std::filesystem;
using tests::must;

class PreviewTest : public tests::PublishedFolder {
protected:
    /// Names of what publish() wrote, sorted.
    [[nodiscard]] std::vector<std::string> written(const Material& material,
                                                   const PublishOptions& options) const {
        std::vector<std::string> names;
        for (const auto& file : publishInto("out", material, options).written.files) {
            names.push_back(fs::relative(file, folder.path() / "out").string());
        }
        std::sort(names.begin(), names.end());
        return names;
    }
    [[nodiscard]] std::string page() const {
        return tests::bytesOf(folder.path() / "out" / "index.html");
    }
    static PublishOptions withDoubts(std::size_t shots) {
        PublishOptions options;
        options.findDoubts = [shots](const findings::Findings&) -> Result<OpenDoubts> {
            OpenDoubts open;
            for (std::size_t i = 0; i < shots; ++i) {
                open.shots[project::ShotId{static_cast<std::int64_t>(i + 1)}] = "marked";
            }
            return open;
        };
        return options;
    }
};

TEST_F(PreviewTest, NamesTheFilesThatAreWrittenAndSaysWhatThePageSays) {
    const auto material = tests::inventedMaterial({});
    const auto options = withDoubts(3);
    const auto preview = must(previewOf(material, options));
    EXPECT_EQ(preview.files, written(material, options));
    EXPECT_EQ(preview.title, "Spin rates: invented bench");
    ASSERT_FALSE(preview.subtitles.empty());
    // Three implements with two hitters, six kept shots each (invented_project.h).
    EXPECT_EQ(preview.subtitles.front(), "3 implements, 2 hitters, 36 shots that count");
    const std::string html = page();
    ASSERT_GE(preview.sentences.size(), 3U);
    for (const auto& sentence : preview.sentences) {
        EXPECT_NE(html.find(sentence), std::string::npos) << sentence;
    }
    EXPECT_NE(preview.sentences.back().find("doubts about 3 shots"), std::string::npos);
    EXPECT_TRUE(preview.chart.starts_with("\x89PNG"));  // ISO/IEC 15948, 5.2
    EXPECT_EQ(preview.films, 0U);
}

TEST_F(PreviewTest, BlindHittersHaveNoNamesInIt) {
    const auto material = tests::inventedMaterial({});
    PublishOptions options;
    options.blindHitters = true;
    options.films = Films::OneAShot;
    const auto preview = must(previewOf(material, options));
    options.films = Films::None;  // the clip is nowhere
    EXPECT_EQ(preview.files, written(material, options));
    EXPECT_EQ(preview.films, 36U);
    for (const auto& sentence : preview.sentences) {
        EXPECT_EQ(sentence.find("Nadir"), std::string::npos) << sentence;
        EXPECT_EQ(sentence.find("Zenith"), std::string::npos) << sentence;
    }
}

TEST_F(PreviewTest, OfAProjectWithoutKeptShotsThereIsNoChart) {
    const auto preview = must(previewOf(tests::inventedMaterial({}, 0), {}));
    EXPECT_TRUE(preview.chart.empty());
    EXPECT_EQ(preview.subtitles.front(), "0 implements, 0 hitters, 0 shots that count");
}

}  // namespace
}  // namespace core::publish
