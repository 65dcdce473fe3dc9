#include <gtest/gtest.h>

#include <QTest>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>

#include "core/intake/clock_evidence.h"
#include "core/intake/shot_pictures.h"
#include "tests/support/must.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"
#include "ui/reading/reading_screen.h"

/// A clip gives the same readings by the command `read`, by an intake that reads, and in the
/// window, when the same is known of camera and ball.
namespace ui::reading {
namespace {

namespace fs = std::filesystem;
using core::project::Store;
using nlohmann::json;
using tests::must;

constexpr double kSame = 1e-9;             // relative for rates, absolute for the axis
constexpr int kWaitMilliseconds = 120000;  // decoding, tracking and fitting on a busy machine

/// One shot as it was read: rate, standard uncertainty and interval in rpm, and the axis; or why
/// there is no reading.
struct Numbers {
    std::vector<double> values;
    std::string reason;
};

Numbers numbersOf(const core::Result<core::reading::PictureReading>& read) {
    if (!read || !read.value().rate) {
        return {{}, read ? read.value().reason : read.error().message};
    }
    const auto& reading = read.value();
    const auto& omega = reading.fit.angularVelocity;
    const double length = std::hypot(omega.x, omega.y, omega.z);
    return {{reading.rate->value.rpm, reading.rate->sigma.rpm, reading.interval95->low.rpm,
             reading.interval95->high.rpm, omega.x / length, omega.y / length, omega.z / length},
            {}};
}

Numbers numbersOf(const json& shot) {
    if (shot["status"] != "reading") {
        return {{}, shot["reason"]};
    }
    Numbers numbers{{shot["spin_rpm"], shot["standard_uncertainty_rpm"]}, {}};
    for (const auto* list : {&shot["interval_rpm"], &shot["axis"]}) {
        numbers.values.insert(numbers.values.end(), list->begin(), list->end());
    }
    return numbers;
}

/// What its truth tells of a clip, as far as a tester would know it.
struct Known {
    double diameterMm{};
    double readoutMs{};
    std::optional<double>
        captureRate;  ///< where the file plays at another rate and does not say so

    explicit Known(const json& truth)
        : diameterMm{1000.0 * truth["ball_diameter_m"].get<double>()},
          readoutMs{1000.0 * truth["readout_s"].get<double>()} {
        const json& plays = truth["container_fps"];
        const json tag = truth.value("capture_fps_tag", json());
        if (tag.is_null() && !plays.is_null() && plays != truth["capture_fps"]) {
            captureRate = truth["capture_fps"];
        }
    }
};

/// A clip in a folder of its own, to be read in three ways.
class SameReading : public ::testing::Test {
protected:
    void take(const fs::path& film) {
        fs::remove_all(card);
        fs::remove_all(projectFile);
        fs::create_directories(card);
        fs::copy_file(film, card / film.filename());
        clipFile = card / film.filename();
    }
    [[nodiscard]] std::vector<Numbers> byCommand(const Known& known) const {
        std::vector<std::string> command{TURNMARK_CLI,
                                         "read",
                                         clipFile.string(),
                                         "--json",
                                         "-",
                                         "--ball-diameter-mm",
                                         text(known.diameterMm),
                                         "--readout-ms",
                                         text(known.readoutMs)};
        if (known.captureRate) {
            command.insert(command.end(), {"--capture-rate", text(*known.captureRate)});
        }
        const auto done = tests::runProgram(command);
        EXPECT_EQ(done.status, 0) << done.errors;
        std::vector<Numbers> shots;
        const json answer = json::parse(done.output);
        for (const json& shot : answer["clips"][0]["shots"]) {
            shots.push_back(numbersOf(shot));
        }
        return shots;
    }
    /// A project of this clip with its shots found and nothing read.
    void findShots(const Known& known) {
        {
            const auto store = must(Store::create(projectFile));
            core::project::Session session;
            session.name = "day";
            session.ballDiameterMm = known.diameterMm;
            session.readoutSeconds = known.readoutMs / 1000.0;
            must(store->addSession(session));
        }
        intake({});
        if (known.captureRate) {
            const auto store = must(Store::open(projectFile));
            core::intake::ReviewersWord word;
            word.rate = must(core::timebase::captureRateFromDecimal(*known.captureRate));
            must(
                core::intake::setReviewersWord(*store, store->snapshot()->clips.begin()->id, word));
        }
        intake({"--find-shots"});
    }
    void intake(const std::vector<std::string>& steps) {
        std::vector<std::string> command{TURNMARK_CLI,  "intake",    projectFile.string(),
                                         card.string(), "--session", "day"};
        command.insert(command.end(), steps.begin(), steps.end());
        const auto done = tests::runProgram(command);
        EXPECT_EQ(done.status, 0) << done.errors;
    }
    [[nodiscard]] std::vector<Numbers> inTheWindow() const {
        const auto store = must(Store::open(projectFile));
        const auto frames = core::media::FrameService::create({});
        bridge::FrameRequester pictures{*frames};
        bridge::JobRunner jobs{1};
        ReadingScreen screen{*store, pictures, &jobs};
        screen.show();
        std::vector<Numbers> shots;
        const auto snapshot = store->snapshot();
        for (const auto* shot : shotsInOrder(*snapshot)) {
            screen.openShot(shot->id);
            const auto isRead = [&screen] {
                const auto& view = screen.desk().view();
                return view.proposal && !view.isReadingPictures;
            };
            EXPECT_TRUE(QTest::qWaitFor(isRead, kWaitMilliseconds));
            if (isRead()) {
                shots.push_back(numbersOf(screen.desk().view().proposal->outcome));
            }
        }
        return shots;
    }
    [[nodiscard]] std::vector<Numbers> byIntake() {
        intake({"--find-shots", "--read"});
        const auto store = must(Store::open(projectFile));
        const auto snapshot = store->snapshot();
        std::vector<Numbers> shots;
        for (const auto* shot : shotsInOrder(*snapshot)) {
            const auto request = must(core::reading::requestOf(*snapshot, shot->id));
            const auto kept = core::intake::keptReading(*store, shot->id, request);
            shots.push_back(kept ? numbersOf(*kept) : Numbers{{}, "nothing was kept"});
        }
        return shots;
    }
    static std::string text(double number) { return json(number).dump(); }

    /// Prints what the three ways gave, shot by shot. Returns how many shots have a reading.
    int compare(const fs::path& film, const Known& known) {
        SCOPED_TRACE(film.filename());
        take(film);
        const auto command = byCommand(known);
        findShots(known);
        // Read in a copy: what is kept of a reading is not read again.
        const fs::path unread = folder.path() / "unread.turnmark";
        fs::copy_file(projectFile, unread, fs::copy_options::overwrite_existing);
        const auto intaken = byIntake();
        fs::rename(unread, projectFile);
        const auto window = inTheWindow();
        EXPECT_EQ(intaken.size(), command.size());
        EXPECT_EQ(window.size(), command.size());
        int readings = 0;
        const auto shots = std::min({command.size(), intaken.size(), window.size()});
        for (std::size_t i = 0; i < shots; ++i) {
            const double worst =
                std::max(difference(command[i], intaken[i]), difference(command[i], window[i]));
            std::cout << film.filename().string() << ", shot " << i + 1 << ": "
                      << (command[i].values.empty() ? "no reading"
                                                    : text(command[i].values[0]) + " rpm")
                      << ", largest difference " << worst << '\n';
            EXPECT_LE(worst, kSame);
            readings += command[i].values.empty() ? 0 : 1;
        }
        return readings;
    }
    /// The largest of all numbers; infinite when one has a reading and the other none.
    static double difference(const Numbers& a, const Numbers& b) {
        EXPECT_EQ(a.values.size(), b.values.size()) << a.reason << b.reason;
        if (a.values.size() != b.values.size()) {
            return std::numeric_limits<double>::infinity();
        }
        double largest = 0.0;
        for (std::size_t i = 0; i < a.values.size(); ++i) {
            const double scale = std::max(1.0, std::abs(a.values[i]));
            largest = std::max(largest, std::abs(a.values[i] - b.values[i]) / scale);
        }
        return largest;
    }
    static json truthOf(fs::path film) {
        std::ifstream stream{film.replace_extension(".json")};
        return json::parse(stream);
    }

    tests::TemporaryFolder folder;
    fs::path card{folder.path() / "card"};
    fs::path projectFile{folder.path() / "p.turnmark"};
    fs::path clipFile;
};

TEST_F(SameReading, OfTheSamples) {
    int readings = 0;
    for (const auto& entry : fs::directory_iterator{fs::path{PROJECT_FOLDER} / "samples"}) {
        if (entry.path().extension() == ".mp4") {
            readings += compare(entry.path(), Known{truthOf(entry.path())});
        }
    }
    EXPECT_EQ(readings, 3);
}

// Two shots in one clip: neither may lean on the other in one way and not in another.
TEST_F(SameReading, OfAClipWithTwoShots) {
    const fs::path sample = fs::path{PROJECT_FOLDER} / "samples" / "plain_120fps.mp4";
    const auto list = folder.file("twice.txt");
    std::ofstream{list} << "file '" << sample.string() << "'\nfile '" << sample.string() << "'\n";
    const auto twice = folder.file("twice.mp4");
    ASSERT_EQ(tests::runProgram({"ffmpeg", "-v", "error", "-f", "concat", "-safe", "0", "-i", list,
                                 "-c", "copy", twice})
                  .status,
              0);
    EXPECT_EQ(compare(twice, Known{truthOf(sample)}), 2);
}

// TURNMARK_FOOTAGE names a folder of clips with their truth, as tests/data/footage, to be read too.
TEST_F(SameReading, OfTheFootageThatIsNamed) {
    const char* named = std::getenv("TURNMARK_FOOTAGE");
    const fs::path footage = tests::dataFolder() / "footage";
    int readings = 0;
    for (const auto& entry : fs::directory_iterator{named != nullptr ? fs::path{named} : footage}) {
        const bool isWanted = named != nullptr || entry.path().stem() == "rolling_shutter_120fps" ||
                              entry.path().stem() == "slow_240in30_untagged";
        if (isWanted && entry.path().extension() == ".mp4") {
            readings += compare(entry.path(), Known{truthOf(entry.path())});
        }
    }
    EXPECT_GE(readings, 2);
}

}  // namespace
}  // namespace ui::reading
