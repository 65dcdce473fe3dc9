#pragma once

#include <filesystem>
#include <stop_token>

#include "core/project/store.h"

namespace core::intake {

/// A clip as read from its file, ready to be put into a project. Immutable value.
struct PreparedClip {
    project::Clip clip;  ///< id and session open
    project::ClipFrames frames;
};

/// Reads index, fingerprint and clock of a file. Slow part of adding a clip; needs no project, so
/// it may run on any thread. The path is stored relative to the project's folder where it can be.
/// Errors: as media::readClipIndex.
Result<PreparedClip> prepareClip(const std::filesystem::path& file,
                                 const std::filesystem::path& projectFile,
                                 std::stop_token stop = {});

/// Puts a prepared clip into the project, at the capture rate of its filming day where nothing in
/// the file states one (asFilmedOnDay()), as one edit. Errors: as project::Store::addClip.
Result<project::ClipId> addPreparedClip(project::Store& store, project::SessionId session,
                                        const PreparedClip& prepared);

}  // namespace core::intake
