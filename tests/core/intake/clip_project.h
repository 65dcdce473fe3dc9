#pragma once

#include <filesystem>
#include <memory>
#include <stdexcept>
#include <string>

#include "core/intake/add_clip.h"
#include "core/project/store.h"
#include "tests/support/must.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

namespace tests::intake {

/// A project in a folder of its own with one clip beside it, captured at 240 frames per second,
/// playing at 30 and tagged so (tests/data/footage/README.md).
struct ClipProject {
    TemporaryFolder folder;
    std::filesystem::path clipFile{folder.path() / "bench" / "slow.mp4"};
    std::unique_ptr<core::project::Store> store;
    core::project::ClipId clip;

    ClipProject() {
        std::filesystem::create_directories(clipFile.parent_path());
        std::filesystem::copy_file(dataFolder() / "footage" / "slow_240in30_tagged.mp4", clipFile);
        store = must(core::project::Store::create(clipFile.parent_path() / "p.turnmark"));
        core::project::Session session;
        session.name = "day";
        session.date = "2026-01-01";
        const auto added = must(store->addSession(session));
        clip = must(core::intake::addPreparedClip(
            *store, added, must(core::intake::prepareClip(clipFile, store->file()))));
    }
    [[nodiscard]] core::project::Clip record() const {
        const auto snapshot = store->snapshot();
        const auto* found = snapshot->clips.find(clip);
        if (found == nullptr) {
            throw std::runtime_error("the clip is gone");
        }
        return *found;
    }
};

}  // namespace tests::intake
