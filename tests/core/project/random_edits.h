#pragma once

#include <cstdint>
#include <random>

#include "core/project/store.h"

namespace tests::project {

/// Does random things to a project: every kind of edit, undo and redo, many of them refused on
/// purpose (a frame outside the clip, an empty reason). The same seed and project give the same
/// edits.
class RandomEditor {
public:
    /// Best begun on a project that fill() has filled.
    RandomEditor(core::project::Store& store, std::uint64_t seed);
    /// At most one step of undo. Errors are those of the store; refusals count as edits.
    core::Result<void> edit();
    /// One edit that is neither undo nor redo.
    core::Result<void> editForward();

private:
    core::Result<void> editShots(int choice);
    core::Result<void> editStructure(int choice);
    core::Result<void> addWhatWasUndone(const core::project::Snapshot& snapshot);
    core::Result<void> decide(int choice);
    int below(int limit);
    core::project::ShotId anyShot();
    core::project::ClipId anyClip();
    core::spin::MarkSet anyMarks(const core::project::Shot& shot);

    core::project::Store& m_store;
    std::mt19937_64 m_random;
};

}  // namespace tests::project
