#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include "core/publish/publish.h"
#include "tests/core/publish/invented_project.h"
#include "tests/support/process.h"

namespace tests {

inline bool hasProgram(const std::string& name) {
    return runProgram({"sh", "-c", "command -v " + name}).status == 0;
}

inline std::string scriptFile(const std::string& name) {
    return std::string{PUBLISH_TESTS} + "/" + name;
}

/// Publishes an invented project into a fresh folder.
class PublishedFolder : public ::testing::Test {
protected:
    core::publish::Published publishInto(const std::string& name,
                                         const core::publish::Material& material,
                                         core::publish::PublishOptions options = {}) const {
        if (options.publishedOn.empty()) {
            options.publishedOn = "2026-05-18";
        }
        auto done = core::publish::publish(material, folder.path() / name, options);
        EXPECT_TRUE(done.has_value()) << done.error().message;
        return done ? done.value() : core::publish::Published{};
    }
    TemporaryFolder folder;
};

}  // namespace tests
