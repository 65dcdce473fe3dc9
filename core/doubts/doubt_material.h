#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <span>

#include "core/doubts/picture_opinion.h"
#include "core/doubts/reading_facts.h"
#include "core/project/store.h"

namespace core::doubts {

/// What doubts rest on besides the snapshot: facts of the readings, and what the pictures say, as
/// far as they were read ahead. Immutable once handed out: copies share what did not change.
struct DoubtMaterial {
    project::SnapshotPtr snapshot;
    std::map<project::ReadingId, std::shared_ptr<const ReadingFacts>> facts;
    std::map<project::ShotId, std::shared_ptr<const PictureOpinion>> opinions;
};

/// Gathers the material from a store, shot by shot, so that a window stays awake meanwhile.
/// Confined to the thread of the store, which must outlive it.
class MaterialGatherer {
public:
    explicit MaterialGatherer(const project::Store& store);

    /// These shots have changed, or were read from their pictures; empty: all may have.
    void refresh(std::span<const project::ShotId> shots = {});
    /// Looks at this many shots more. True when nothing is left to look at. Errors: of the file.
    Result<bool> gather(std::size_t shots);
    /// As far as gathered; the snapshot is that of now.
    [[nodiscard]] DoubtMaterial material() const;

private:
    Result<void> gatherOne(const project::Snapshot& snapshot, const project::Shot& shot);
    Result<void> gatherFacts(const project::Shot& shot);

    /// The clip whose shots are looked at: they follow one another.
    struct ClipAtHand {
        project::ClipId clip;
        std::shared_ptr<const project::ClipFrames> frames;
        std::int64_t usualTicks{};
    };
    Result<void> takeInHand(project::ClipId clip);

    const project::Store& m_store;
    ClipAtHand m_atHand;
    project::SnapshotPtr m_indexed;  ///< that of m_readings
    project::ReadingsByShot m_readings{};
    std::vector<project::ShotId> m_waiting;  ///< from the back
    std::map<project::ReadingId, std::shared_ptr<const ReadingFacts>> m_facts;
    std::map<project::ShotId, std::shared_ptr<const PictureOpinion>> m_opinions;
    std::map<project::ShotId, std::string> m_keys;  ///< of the archives behind the opinions
};

/// Everything at once.
Result<DoubtMaterial> gatherAll(const project::Store& store);

}  // namespace core::doubts
