#pragma once

#include <string>
#include <vector>

#include "core/project/snapshot.h"
#include "core/publish/material.h"

/// Projects in memory for the tests of publishing; every name and number is invented.
namespace tests {

struct InventedNames {
    std::vector<std::string> implements{"implement one", "implement two", "implement three"};
    std::vector<std::string> hitters{"Nadir", "Zenith"};
    std::string session{"first day"};
    std::string note;
    std::string reason{"mishit"};
    std::string reader{"Reader"};
    std::string title{"invented bench"};
};

/// Implement i with hitter j: `shotsACell` kept shots about 1500 + 300 i + 20 j rpm that scatter by
/// a fixed pattern; each cell has one more that was set aside.
core::project::Snapshot inventedSnapshot(const InventedNames& names, int shotsACell = 6);

/// The same ready to publish; its clip is nowhere.
core::publish::Material inventedMaterial(const InventedNames& names, int shotsACell = 6);

/// So many implements, "implement 1" and so on.
InventedNames manyImplements(int count);

/// Names that break what takes text for more than text.
InventedNames hostileNames();

}  // namespace tests
