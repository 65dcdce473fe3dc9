#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "app/cli/command.h"
#include "core/accuracy/accuracy_table.h"
#include "core/base/guarded.h"
#include "core/jobs/source.h"

namespace cli {
namespace {

using core::Result;
using core::accuracy::Trial;

struct AccuracyOptions {
    int shots{400};
    int furtherShots{60};
    std::vector<std::string> conditions;  ///< all of them if empty
    std::uint64_t seed{7};
    int threads{0};
    std::string listFile;
    bool overwrite{};
};

/// A shot to be rendered and read.
struct TrialOrder {
    std::uint64_t seed{};
    core::accuracy::Situation situation{};
};

/// Seeds of the single shots: one after the other, and none shared by neighbouring seeds of a run.
std::vector<TrialOrder> ordersOf(const AccuracyOptions& options) {
    const std::uint64_t first = options.seed * 1'000'003U;
    std::vector<TrialOrder> orders;
    const auto add = [&](core::accuracy::Situation situation, int count) {
        for (int i = 0; i < count; ++i) {
            orders.push_back(
                {first + core::accuracy::seedOffset(situation) + static_cast<std::uint64_t>(i),
                 situation});
        }
    };
    add(core::accuracy::Situation::Usual, options.shots);
    for (const auto situation : core::accuracy::kFurtherSituations) {
        const auto name = core::accuracy::situationName(situation);
        const bool isWanted = options.conditions.empty() ||
                              std::find(options.conditions.begin(), options.conditions.end(),
                                        name) != options.conditions.end();
        add(situation, isWanted ? options.furtherShots : 0);
    }
    return orders;
}

/// One piece for each shot.
class Trials : public core::jobs::Source {
public:
    Trials(const AccuracyOptions& options, const std::filesystem::path& folder)
        : m_orders{ordersOf(options)}, m_folder{folder} {}

    std::optional<Piece> next() override {
        if (m_failure || m_next == m_orders.size()) {
            return std::nullopt;
        }
        const auto& order = m_orders[m_next++];
        return Piece{{}, {}, 0.0, {}, [this, &order](core::jobs::Context& context) {
                         auto trial = core::guarded([&] {
                             return core::accuracy::runTrial(order.seed, order.situation, m_folder,
                                                             context.stopToken());
                         });
                         return
                             [this, &order, trial = std::move(trial)] { take(order.seed, trial); };
                     }};
    }
    void cancel() override {}
    [[nodiscard]] bool isCancelled() const override { return m_failure.has_value(); }
    [[nodiscard]] Result<std::vector<Trial>> outcome() {
        if (m_failure) {
            return *m_failure;
        }
        return std::move(m_trials);
    }

private:
    void take(std::uint64_t seed, const Result<Trial>& trial) {
        if (trial) {
            m_trials.push_back(trial.value());
        } else if (!m_failure) {
            m_failure = trial.error();
            m_failure->message = fmt::format("Shot of seed {}: {}", seed, m_failure->message);
        }
    }

    const std::vector<TrialOrder> m_orders;
    const std::filesystem::path& m_folder;
    std::size_t m_next{0};
    std::vector<Trial> m_trials;
    std::optional<core::Error> m_failure;
};

Result<std::vector<Trial>> runAll(const AccuracyOptions& options) {
    BOOST_OUTCOME_TRY(folder, core::StagingFolder::in(std::filesystem::temp_directory_path()));
    core::jobs::Pool pool{{.threads = static_cast<unsigned>(std::max(0, options.threads))}};
    Trials trials{options, folder.path()};
    core::jobs::workOff(trials, pool, pool.threads());
    return trials.outcome();
}

/// Empty where nothing is seen.
struct ReadoutTexts {
    std::string value, own, common;
};

ReadoutTexts textsOf(const std::optional<core::image::ReadoutEstimate>& seen) {
    if (!seen) {
        return {};
    }
    return {fmt::format("{:.5f}", seen->value.seconds),
            fmt::format("{:.5f}", seen->ownSigma.seconds),
            fmt::format("{:.5f}", seen->commonSigma.seconds)};
}

std::string listCsv(const std::vector<Trial>& trials) {
    std::string list =
        "seed,condition,marking,ball_px,frames,frames_per_turn,exposure_turn_deg,smear_px,axis_to_"
        "camera_deg,"
        "readout_s,readout_seen_s,readout_own_sigma_s,readout_common_sigma_s,"
        "hand_held,figure,quality,true_rpm,found,read,false_reading,warned,kink,frames_beyond,"
        "relative_error,"
        "relative_sigma,covered,axis_error_deg,centre_error_px,radius_error,find_s,track_s,fit_"
        "s,"
        "reason\n";
    for (const auto& t : trials) {
        const auto& c = t.conditions;
        const auto seen = textsOf(t.readoutSeen);
        list += fmt::format(
            "{},{},{},{:.1f},{},{:.2f},{:.1f},{:.1f},{:.1f},{:.4f},{},{},{},{},{},{},{:.1f},"
            "{},{},{},{},{},{},{:.5f},{:.5f},{},{:.2f},{:.3f},{:.4f},{:.3f},{:.3f},{:.3f},\"{}\"\n",
            t.seed, core::accuracy::situationName(t.situation),
            core::synthesis::markingName(c.marking), c.ballDiameterPx, c.framesFullyInside,
            c.framesPerTurn, c.exposureTurnDeg, c.blurPx, c.axisToCameraDeg, c.readoutS, seen.value,
            seen.own, seen.common, c.isHandHeld, c.hasFigure, c.constantQuality, t.truth.rpm,
            t.isFound, t.isRead, t.hasFalseReading, t.isWarned, t.hasKink, t.framesBeyond,
            t.relativeError, t.relativeSigma, t.isCovered, t.axisErrorDeg, t.centreErrorPx,
            t.radiusError, t.findTime.seconds, t.trackTime.seconds, t.fitTime.seconds, t.reason);
    }
    return list;
}

Result<void> accuracy(const AccuracyOptions& options) {
    const core::WriteRule rule{existingBy(options.overwrite)};
    if (!options.listFile.empty()) {
        BOOST_OUTCOME_TRY(core::mayWrite(options.listFile, rule));  // before the long work
    }
    BOOST_OUTCOME_TRY(trials, runAll(options));
    if (!options.listFile.empty()) {
        BOOST_OUTCOME_TRY(core::writeFile(options.listFile, listCsv(trials), rule));
    }
    std::cout << core::accuracy::accuracyText(core::accuracy::accuracyRows(trials));
    return core::ok();
}

std::vector<std::string> furtherNames() {
    std::vector<std::string> names;
    for (const auto situation : core::accuracy::kFurtherSituations) {
        names.push_back(core::accuracy::situationName(situation));
    }
    return names;
}

}  // namespace

void addAccuracy(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<AccuracyOptions>();
    CLI::App* command = program.add_subcommand(
        "accuracy", "Reads rendered shots of known spin and says how far off the readings are.");
    command->add_option("--shots", options->shots, "how many shots")->check(CLI::Range(0, 100000));
    command
        ->add_option("--further-shots", options->furtherShots,
                     "how many more of every further condition, each a row of its own")
        ->check(CLI::Range(0, 100000));
    command->add_option("--condition", options->conditions, "only these of the further conditions")
        ->check(CLI::IsMember(furtherNames()));
    command->add_option("--seed", options->seed, "another seed, other shots");
    command
        ->add_option("--threads", options->threads,
                     "shots at a time; one for each core if not given")
        ->check(CLI::Range(1, 256));
    command->add_option("--list", options->listFile, "write every shot there as CSV");
    addOverwrite(*command, options->overwrite);
    command->callback([options, &chosen] { chosen = [options] { return accuracy(*options); }; });
}

}  // namespace cli
