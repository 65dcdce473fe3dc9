#include "core/doubts/doubt_material.h"

#include <algorithm>

#include "core/reading/project_reading.h"
#include "core/reading/reading_archive.h"

namespace core::doubts {

MaterialGatherer::MaterialGatherer(const project::Store& store) : m_store{store} {
    refresh();
}

void MaterialGatherer::refresh(std::span<const project::ShotId> shots) {
    m_atHand = {};  // the clip's frames may be others
    if (!shots.empty()) {
        m_waiting.insert(m_waiting.end(), shots.begin(), shots.end());
        return;
    }
    m_waiting.clear();
    for (const project::Shot* shot : project::shotsInOrder(*m_store.snapshot())) {
        m_waiting.push_back(shot->id);
    }
    std::reverse(m_waiting.begin(), m_waiting.end());
}

Result<bool> MaterialGatherer::gather(std::size_t shots) {
    const auto snapshot = m_store.snapshot();
    if (m_indexed != snapshot && !m_waiting.empty()) {
        m_indexed = snapshot;
        m_readings = project::readingsByShot(*snapshot);
    }
    for (std::size_t done = 0; done < shots && !m_waiting.empty(); ++done) {
        const project::ShotId id = m_waiting.back();
        m_waiting.pop_back();
        if (const project::Shot* shot = snapshot->shots.find(id)) {
            BOOST_OUTCOME_TRY(gatherOne(*snapshot, *shot));
        } else {
            m_opinions.erase(id);
            m_keys.erase(id);
        }
    }
    return m_waiting.empty();
}

Result<void> MaterialGatherer::takeInHand(project::ClipId clip) {
    if (m_atHand.frames == nullptr || m_atHand.clip != clip) {
        BOOST_OUTCOME_TRY(frames, m_store.clipFrames(clip));
        m_atHand = {clip, frames, usualInterval(frames->stamps)};
    }
    return ok();
}

/// Of the reading that counts and of those that it is compared with.
Result<void> MaterialGatherer::gatherFacts(const project::Shot& shot) {
    if (!shot.counting) {
        return ok();
    }
    for (const project::Reading* reading : m_readings[shot.id]) {
        if (!m_facts.contains(reading->id)) {
            BOOST_OUTCOME_TRY(takeInHand(shot.clip));
            m_facts[reading->id] = std::make_shared<const ReadingFacts>(
                factsOf(*reading, *m_atHand.frames, m_atHand.usualTicks));
        }
    }
    return ok();
}

Result<void> MaterialGatherer::gatherOne(const project::Snapshot& snapshot,
                                         const project::Shot& shot) {
    BOOST_OUTCOME_TRY(gatherFacts(shot));
    const project::Clip* clip = snapshot.clips.find(shot.clip);
    if (clip == nullptr || project::isTally(*clip)) {
        return ok();
    }
    const auto request = reading::requestOf(snapshot, shot.id);
    const std::string key = request ? reading::keyOf(request.value()) : std::string{};
    if (!key.empty() && m_keys[shot.id] == key) {
        return ok();
    }
    m_opinions.erase(shot.id);
    m_keys.erase(shot.id);
    if (key.empty()) {
        return ok();  // its clock is not settled
    }
    BOOST_OUTCOME_TRY(kept, m_store.archiveOf(shot.id));
    if (!kept || kept->key != key) {
        return ok();
    }
    if (const auto read = reading::fromArchive(kept->bytes)) {  // else a cache that does not help
        m_opinions[shot.id] = std::make_shared<const PictureOpinion>(opinionOf(read.value()));
        m_keys[shot.id] = key;
    }
    return ok();
}

DoubtMaterial MaterialGatherer::material() const {
    return {m_store.snapshot(), m_facts, m_opinions};
}

Result<DoubtMaterial> gatherAll(const project::Store& store) {
    MaterialGatherer gatherer{store};
    BOOST_OUTCOME_TRY(gatherer.gather(store.snapshot()->shots.size()));
    return gatherer.material();
}

}  // namespace core::doubts
