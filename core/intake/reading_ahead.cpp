#include "core/intake/reading_ahead.h"

#include <algorithm>
#include <memory>

#include "core/base/guarded.h"
#include "core/base/words.h"
#include "core/reading/reading_archive.h"

namespace core::intake {

void ReadingAhead::queue(project::ShotId shot) {
    if (std::find(m_queue.begin(), m_queue.end(), shot) == m_queue.end()) {
        m_queue.push_back(shot);
    }
}

std::vector<project::ShotId> ReadingAhead::shotsAtWork() const {
    std::vector<project::ShotId> shots;
    for (const auto& [shot, request] : m_atWork) {
        shots.push_back(shot);
    }
    return shots;
}

bool ReadingAhead::isAtWork(project::ShotId shot) const {
    return std::any_of(m_atWork.begin(), m_atWork.end(),
                       [shot](const auto& each) { return each.first == shot; });
}

bool ReadingAhead::isAtWork(project::ShotId shot, const reading::ShotRequest& request) const {
    return std::find(m_atWork.begin(), m_atWork.end(), std::pair{shot, request}) != m_atWork.end();
}

bool ReadingAhead::isKept(project::ShotId shot, const reading::ShotRequest& request) {
    auto known = m_keptKeys.find(shot);
    if (known == m_keptKeys.end()) {
        const auto archive = m_store.archiveOf(shot);
        known =
            m_keptKeys
                .emplace(shot, archive && archive.value() ? archive.value()->key : std::string{})
                .first;
    }
    return known->second == reading::keyOf(request);
}

void ReadingAhead::noteKept(project::ShotId shot, const reading::ShotRequest& request) {
    m_keptKeys[shot] = reading::keyOf(request);
}

Result<std::optional<ReadingAhead::Work>> ReadingAhead::begin(project::ShotId shot) {
    BOOST_OUTCOME_TRY(request, reading::requestOf(*m_store.snapshot(), shot));
    if (isKept(shot, request)) {
        return std::optional<Work>{};
    }
    BOOST_OUTCOME_TRY(found, shotPicturesOf(m_store, shot));
    const auto task = std::make_shared<const ShotPictures>(std::move(found));
    m_atWork.emplace_back(shot, task->request);
    if (m_listeners.begun) {
        m_listeners.begun(shot);
    }
    return std::optional<Work>{[this, task](std::stop_token stop, const auto& progress) -> AtHome {
        auto reading = guarded([&] { return readShotPictures(*task, std::move(stop), progress); });
        return [this, task, reading = std::move(reading)] { comeHome(*task, reading); };
    }};
}

void ReadingAhead::comeHome(const ShotPictures& task,
                            const Result<reading::PictureReading>& reading) {
    std::erase(m_atWork, std::pair{task.shot, task.request});
    if (!reading && reading.error().code == ErrorCode::Cancelled) {
        m_isCancelled = true;
    }
    Result<void> kept = ok();
    if (reading) {
        kept = keepPictures(m_store, task, reading.value());
        if (kept) {
            noteKept(task.shot, task.request);
        }
    }
    m_listeners.ended({task.shot, task.request, reading, kept});
}

std::optional<jobs::Source::Piece> ReadingAhead::next() {
    while (!m_isCancelled && !m_queue.empty()) {
        const project::ShotId shot = m_queue.front();
        m_queue.pop_front();
        const std::string title = said("Reading ahead, {} to go", m_queue.size() + 1);
        auto work = begin(shot);
        if (work && work.value()) {
            return Piece{title, {}, 0.0, {}, [work = *work.value()](jobs::Context& context) {
                             return work(context.stopToken(),
                                         [&context](double share) { context.report(share, {}); });
                         }};
        }
    }
    return std::nullopt;
}

void ReadingAhead::cancel() {
    m_isCancelled = true;
    m_queue.clear();
}

}  // namespace core::intake
