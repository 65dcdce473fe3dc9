#include <algorithm>
#include <memory>

#include "core/base/words.h"
#include "core/intake/clip_shots.h"
#include "core/intake/film_order.h"
#include "core/intake/shot_pictures.h"
#include "core/intake/take_in.h"
#include "core/media/file/clip_index.h"
#include "core/project/clip_location.h"

/// What is to be done in each phase, and how it comes home.
namespace core::intake {
namespace {

double sizeOf(const std::filesystem::path& file) {
    std::error_code problem;
    const auto size = std::filesystem::file_size(file, problem);
    return problem ? 1.0 : 1.0 + static_cast<double>(size);
}

double sizeOf(const project::Clip& clip) {
    return 1.0 + static_cast<double>(clip.sizeBytes);
}

/// Pixels to be decoded; what is done with them takes about as long for each.
double sizeOf(const project::Shot& shot, const project::Clip& clip) {
    return static_cast<double>(shot.lastFrame.value - shot.firstFrame.value + 1) *
           static_cast<double>(std::max(1, clip.width)) *
           static_cast<double>(std::max(1, clip.height));
}

const project::Clip* clipOfContent(const project::Snapshot& snapshot,
                                   const std::string& fingerprint) {
    const auto at =
        std::find_if(snapshot.clips.begin(), snapshot.clips.end(),
                     [&](const project::Clip& clip) { return clip.fingerprint == fingerprint; });
    return at == snapshot.clips.end() ? nullptr : &*at;
}

}  // namespace

void TakeIn::queueFiles() {
    std::set<std::string> known;
    const auto snapshot = m_store.snapshot();
    for (const auto& clip : snapshot->clips) {
        known.insert(clip.fingerprint);
    }
    const auto shared = std::make_shared<const std::set<std::string>>(std::move(known));
    for (const auto& film : m_films) {
        const auto begin = [this, film, shared, project = m_store.file()] {
            return std::optional<Work>{
                [this, film, shared, project](jobs::Context& context) -> AtHome {
                    const auto print = media::fingerprint(film);
                    Result<std::optional<PreparedClip>> prepared{std::nullopt};
                    if (!print) {
                        prepared = print.error();
                    } else if (!shared->contains(print.value())) {
                        auto clip = prepareClip(film, project, context.stopToken());
                        if (clip) {
                            prepared = std::optional{std::move(clip).value()};
                        } else {
                            prepared = clip.error();
                        }
                    }
                    return [this, film, print = print ? print.value() : std::string{}, prepared] {
                        addClip(film, print, prepared);
                    };
                }};
        };
        m_queue.push_back({film.filename().string(), sizeOf(film), begin});
    }
}

/// A clip that the project knows and that is not where it was: this is where it is now.
void TakeIn::findAgain(const project::Clip& clip, const std::filesystem::path& film) {
    std::error_code ignored;  // what cannot be looked at is not there
    if (std::filesystem::exists(m_store.file().parent_path() / clip.path, ignored)) {
        return;
    }
    const auto kept = m_store.setClipPath(clip.id, project::pathToKeep(m_store.file(), film));
    if (kept) {
        ++m_report.foundAgain;
    } else {
        refuse(film.string(), kept.error());
    }
}

void TakeIn::addClip(const std::filesystem::path& film, const std::string& fingerprint,
                     const Result<std::optional<PreparedClip>>& prepared) {
    const std::string name = film.string();
    if (!prepared) {
        refuse(name, prepared.error());
        return;
    }
    // Looked up again: the same content may have come under another name meanwhile.
    const auto snapshot = m_store.snapshot();
    if (const auto* clip = clipOfContent(*snapshot, fingerprint)) {
        ++m_report.alreadyThere;
        m_clips.insert(clip->id);
        findAgain(*clip, film);
        return;
    }
    if (!prepared.value()) {
        m_report.refused.push_back(
            {name, said("The clip was removed from the project meanwhile. Take it in again.")});
        return;
    }
    const auto added = addPreparedClip(m_store, m_session, *prepared.value());
    if (!added) {
        refuse(name, added.error());
        return;
    }
    ++m_report.added;
    m_clips.insert(added.value());
}

void TakeIn::queueSearches() {
    const auto snapshot = m_store.snapshot();
    for (const auto id : m_clips) {
        const auto* clip = snapshot->clips.find(id);
        if (clip != nullptr && !project::isTally(*clip) && !clip->wasSearchedForShots) {
            const auto name = project::clipName(*snapshot, id);
            m_queue.push_back(
                {name, sizeOf(*clip), [this, name, id] { return beginSearch(name, id); }});
        }
    }
}

std::optional<TakeIn::Work> TakeIn::beginSearch(const std::string& name, project::ClipId clip) {
    auto search = shotSearchOf(m_store, clip);
    if (!search) {
        refuse(name, search.error());
        return std::nullopt;
    }
    return
        [this, name, clip, search = std::move(search).value()](jobs::Context& context) -> AtHome {
            return [this, name, clip, found = searchShots(search, context.stopToken())] {
                if (!found) {
                    refuse(name, found.error());
                    return;
                }
                const auto added = addNewShots(m_store, clip, found.value());
                if (!added) {
                    refuse(name, added.error());
                    return;
                }
                ++m_report.searched;
                m_report.shotsFound += added.value().size();
            };
        };
}

// The cards of all clips decide together, so that all are read while one shot has no cell.
void TakeIn::queueCards() {
    const auto snapshot = m_store.snapshot();
    const bool isOpen =
        std::any_of(snapshot->shots.begin(), snapshot->shots.end(), [&](const project::Shot& shot) {
            const auto* clip = snapshot->clips.find(shot.clip);
            return !shot.cell && clip != nullptr && clip->session == m_session;
        });
    if (!isOpen) {
        return;
    }
    const auto order = filmOrder(m_store, m_session);
    if (!order) {
        refuse(said("slate cards"), order.error());
        return;
    }
    for (const auto id : order.value()) {
        const auto name = project::clipName(*snapshot, id);
        m_queue.push_back({name, sizeOf(*snapshot->clips.find(id)),
                           [this, name, id] { return beginCards(name, id); }});
    }
}

std::optional<TakeIn::Work> TakeIn::beginCards(const std::string& name, project::ClipId clip) {
    auto search = slateSearchOf(m_store, clip);
    if (!search) {
        ++m_cardFailures;
        refuse(name, search.error());
        return std::nullopt;
    }
    return
        [this, name, clip, search = std::move(search).value()](jobs::Context& context) -> AtHome {
            return [this, name, clip, stretches = readSlateCards(search, context.stopToken())] {
                if (stretches) {
                    m_slates.push_back({clip, stretches.value()});
                } else {
                    ++m_cardFailures;
                    refuse(name, stretches.error());
                }
            };
        };
}

void TakeIn::queueReadings() {
    const auto snapshot = m_store.snapshot();
    for (const auto* shot : project::shotsInOrder(*snapshot)) {
        if (shot->standing == project::ShotStanding::Open && m_clips.contains(shot->clip)) {
            const auto name = project::shotName(*snapshot, *shot);
            m_queue.push_back({name, sizeOf(*shot, *snapshot->clips.find(shot->clip)),
                               [this, name, id = shot->id] { return beginReading(name, id); }});
        }
    }
}

std::optional<TakeIn::Work> TakeIn::beginReading(const std::string& name, project::ShotId shot) {
    auto work = m_readings.begin(shot);
    if (!work) {
        refuse(name, work.error());
        return std::nullopt;
    }
    if (!work.value()) {
        return std::nullopt;
    }
    return [work = *work.value()](jobs::Context& context) { return work(context.stopToken(), {}); };
}

void TakeIn::wasRead(const ReadingAhead::Outcome& outcome) {
    if (!outcome.reading && outcome.reading.error().code == ErrorCode::Cancelled) {
        m_report.isCancelled = true;
    } else if (!outcome.reading) {
        ++m_report.shotsUnread;
    } else if (!outcome.kept) {
        const auto snapshot = m_store.snapshot();
        const auto* shot = snapshot->shots.find(outcome.shot);
        refuse(shot != nullptr ? project::shotName(*snapshot, *shot) : said("a shot"),
               outcome.kept.error());
    } else {
        ++m_report.shotsRead;
    }
}

}  // namespace core::intake
