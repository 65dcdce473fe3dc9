#include <fmt/format.h>
#include <fmt/ranges.h>

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "core/base/words.h"
#include "core/evidence/gather.h"
#include "core/evidence/prune.h"
#include "core/project/store.h"

namespace cli {
namespace {

using core::Result;
using core::project::Store;
using Json = nlohmann::ordered_json;

struct EvidenceOptions {
    std::string project;
    bool gather{};
    bool pruneAll{};
    bool pruneSetAside{};
    std::string pruneBefore;
    bool isConfirmed{};
    bool json{};

    [[nodiscard]] bool prunes() const { return pruneAll || pruneSetAside || !pruneBefore.empty(); }
};

std::string nameOf(const core::project::Snapshot& snapshot, core::project::ShotId id) {
    const auto* shot = snapshot.shots.find(id);
    return shot != nullptr ? shotName(snapshot, *shot)
                           : fmt::format("a shot that was removed (number {})", id.value);
}

std::string kilobytes(std::int64_t bytes) {
    return fmt::format("{:.1f} kB", static_cast<double>(bytes) / 1000.0);
}

Json sizesJson(const core::project::Snapshot& snapshot,
               const std::vector<core::project::StoredSize>& sizes) {
    Json list = Json::array();
    for (const auto& size : sizes) {
        list.push_back({{"shot", nameOf(snapshot, size.shot)},
                        {"first_frame", size.firstFrame.value},
                        {"last_frame", size.lastFrame.value},
                        {"bytes", size.bytes},
                        {"made_at", size.madeAt}});
    }
    return list;
}

std::int64_t totalOf(const std::vector<core::project::StoredSize>& sizes) {
    std::int64_t total = 0;
    for (const auto& size : sizes) {
        total += size.bytes;
    }
    return total;
}

void printSizes(const core::project::Snapshot& snapshot,
                const std::vector<core::project::StoredSize>& sizes) {
    for (const auto& size : sizes) {
        std::cout << fmt::format("{}: frames {} to {}, {}, kept {}\n", nameOf(snapshot, size.shot),
                                 size.firstFrame.value, size.lastFrame.value, kilobytes(size.bytes),
                                 size.madeAt);
    }
}

Result<void> printList(const Store& store, bool asJson) {
    BOOST_OUTCOME_TRY(sizes, store.pictureSizes());
    BOOST_OUTCOME_TRY(wanting, core::evidence::wantingShots(store));
    const auto snapshot = store.snapshot();
    if (asJson) {
        Json without = Json::array();
        for (const auto shot : wanting) {
            without.push_back(nameOf(*snapshot, shot));
        }
        printJson(Json{{"shots", sizesJson(*snapshot, sizes)},
                       {"bytes", totalOf(sizes)},
                       {"kept_without_pictures", without}});
        return core::ok();
    }
    printSizes(*snapshot, sizes);
    std::cout << fmt::format("{} with pictures, {} in all\n",
                             core::counted(sizes.size(), "shot", "shots"),
                             kilobytes(totalOf(sizes)));
    if (!wanting.empty()) {
        std::cout << fmt::format("{} without pictures; --gather makes them from the footage\n",
                                 core::counted(wanting.size(), "kept shot", "kept shots"));
    }
    return core::ok();
}

Result<void> gather(Store& store, bool asJson) {
    BOOST_OUTCOME_TRY(gathered, core::evidence::gatherMissing(store));
    if (asJson) {
        std::cout << Json{{"made", gathered.made}, {"troubles", gathered.troubles}}.dump(
                         2, ' ', false, Json::error_handler_t::replace)
                  << '\n';
    } else {
        std::cout << fmt::format("kept the pictures of {}\n",
                                 core::counted(gathered.made, "shot", "shots"));
    }
    if (gathered.troubles.empty()) {
        return core::ok();
    }
    return core::fail(core::ErrorCode::NotFound,
                      fmt::format("{}", fmt::join(gathered.troubles, "\n")));
}

/// What would go, for nothing brings it back.
Result<void> printChoice(const core::project::Snapshot& snapshot,
                         const std::vector<core::project::StoredSize>& chosen, bool asJson) {
    if (asJson) {
        printJson(Json{{"would_let_go", sizesJson(snapshot, chosen)}, {"bytes", totalOf(chosen)}});
        return core::ok();
    }
    printSizes(snapshot, chosen);
    std::cout << fmt::format(
        "{} would be removed, {}; undo does not bring them back. Nothing is removed yet: say "
        "--confirm to do it.\n",
        core::counted(chosen.size(), "shot's pictures", "shots' pictures"),
        kilobytes(totalOf(chosen)));
    return core::ok();
}

Result<void> prune(Store& store, const EvidenceOptions& options) {
    core::evidence::PruneChoice choice{options.pruneAll, options.pruneSetAside, {}};
    if (!options.pruneBefore.empty()) {
        choice.madeBefore = options.pruneBefore;
    }
    if (!options.isConfirmed) {
        BOOST_OUTCOME_TRY(named, core::evidence::chosenToPrune(store, choice));
        return printChoice(*store.snapshot(), named, options.json);
    }
    BOOST_OUTCOME_TRY(gone, core::evidence::prune(store, choice));
    if (options.json) {
        printJson(Json{{"let_go", sizesJson(*store.snapshot(), gone)}, {"bytes", totalOf(gone)}});
    } else {
        std::cout << fmt::format("removed the pictures of {}, {}\n",
                                 core::counted(gone.size(), "shot", "shots"),
                                 kilobytes(totalOf(gone)));
    }
    return core::ok();
}

Result<void> runEvidence(const EvidenceOptions& options) {
    if (options.gather && options.prunes()) {
        return core::fail(core::ErrorCode::InvalidInput,
                          "Gather or remove, one at a time: what is removed would be gathered "
                          "again.");
    }
    if (!options.gather && !options.prunes()) {
        BOOST_OUTCOME_TRY(toRead, Store::openToRead(options.project));
        return printList(*toRead, options.json);
    }
    BOOST_OUTCOME_TRY(store, Store::open(options.project));
    return options.gather ? gather(*store, options.json) : prune(*store, options);
}

}  // namespace

void addEvidence(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<EvidenceOptions>();
    CLI::App* command = program.add_subcommand(
        "evidence",
        "Lists, makes or removes the small ball pictures that are kept in the project, so that a "
        "shot can be seen and marked again without its film.");
    command->add_option("project", options->project, "project file (.turnmark)")->required();
    command->add_flag("--gather", options->gather,
                      "make the pictures that kept shots do not have yet, from the footage");
    command->add_flag("--prune-all", options->pruneAll,
                      "remove all pictures; undo does not bring them back");
    command->add_flag("--prune-set-aside", options->pruneSetAside,
                      "remove the pictures of shots that were set aside");
    command->add_option("--prune-before", options->pruneBefore,
                        "remove pictures that were kept before this day, as 2026-05-03");
    command->add_flag("--confirm", options->isConfirmed,
                      "remove them; without it they are only named");
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runEvidence(*options); }; });
}

}  // namespace cli
