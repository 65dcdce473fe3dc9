#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "core/synthesis/footage_maker.h"

namespace tests::demo {

namespace synthesis = core::synthesis;

/// What strikes the ball in the demo. Invented: no maker's product.
struct DemoImplement {
    std::string name;
    bool isWorn{};
    std::vector<std::pair<std::string, std::string>> attributes;  ///< column, value
};

/// One film of the demo: all shots of one hitter with one implement.
struct DemoClip {
    std::string fileName;     ///< in the demo's folder; its truth stands beside it as .json
    std::size_t implement{};  ///< index in DemoManifest::implements
    std::size_t hitter{};     ///< index in DemoManifest::hitters
    std::vector<synthesis::ShotTruth> shots;
};

/// The demo: a tennis club's stringing bench compares eight string set-ups in one racket frame,
/// two hitters, six shots a cell, ball three quarters dark, 240 frames per second.
struct DemoManifest {
    std::string statement;  ///< says that all of it is invented
    std::vector<DemoImplement> implements;
    std::vector<std::string> hitters;
    std::vector<DemoClip> clips;
};

/// The scene of every film of the demo, with the manifest that belongs to it; shots are filled in.
/// Always the same. One hitter disagrees with the other about one set-up by more than chance, and
/// one shot is a mishit, so that there is something to find.
struct DemoPlan {
    DemoManifest manifest;
    std::vector<synthesis::Scene> scenes;  ///< one a clip
};
core::Result<DemoPlan> planDemoFootage();

/// Renders and writes all films of the demo with their truths into a folder, which is made if it is
/// not there; files of the same names are replaced. Errors: Unsupported, WriteFailed.
core::Result<DemoManifest> writeDemoFootage(const std::filesystem::path& folder);

}  // namespace tests::demo
