#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <map>
#include <memory>
#include <string>
#include <tuple>
#include <vector>

#include "core/project/model.h"
#include "core/project/reading_effort.h"

namespace core::project {

/// Entities of one kind, sorted by id. Immutable and cheap to copy: a changed table shares every
/// entity that did not change with the one it was made from.
template <class Entity>
class Entities {
    using Rows = std::vector<std::shared_ptr<const Entity>>;

public:
    /// Goes over the entities themselves. Valid as long as this table or a copy of it lives.
    class Iterator {
    public:
        using iterator_category = std::random_access_iterator_tag;
        using value_type = Entity;
        using difference_type = std::ptrdiff_t;
        using pointer = const Entity*;
        using reference = const Entity&;

        Iterator() = default;
        explicit Iterator(typename Rows::const_iterator at) : m_at{at} {}
        reference operator*() const { return **m_at; }
        pointer operator->() const { return m_at->get(); }
        reference operator[](difference_type n) const { return *m_at[n]; }
        Iterator& operator++() { return *this += 1; }
        Iterator operator++(int) { return Iterator{m_at++}; }
        Iterator& operator--() { return *this -= 1; }
        Iterator operator--(int) { return Iterator{m_at--}; }
        Iterator& operator+=(difference_type n) {
            m_at += n;
            return *this;
        }
        Iterator& operator-=(difference_type n) { return *this += -n; }
        friend Iterator operator+(Iterator it, difference_type n) { return it += n; }
        friend Iterator operator+(difference_type n, Iterator it) { return it += n; }
        friend Iterator operator-(Iterator it, difference_type n) { return it -= n; }
        friend difference_type operator-(Iterator a, Iterator b) { return a.m_at - b.m_at; }
        auto operator<=>(const Iterator&) const = default;

    private:
        typename Rows::const_iterator m_at{};
    };

    Entities() : m_rows{std::make_shared<const Rows>()} {}
    explicit Entities(std::vector<Entity> sortedById) {
        Rows rows;
        rows.reserve(sortedById.size());
        for (Entity& entity : sortedById) {
            rows.push_back(std::make_shared<const Entity>(std::move(entity)));
        }
        m_rows = std::make_shared<const Rows>(std::move(rows));
    }

    [[nodiscard]] Iterator begin() const noexcept { return Iterator{m_rows->begin()}; }
    [[nodiscard]] Iterator end() const noexcept { return Iterator{m_rows->end()}; }
    [[nodiscard]] std::size_t size() const noexcept { return m_rows->size(); }
    [[nodiscard]] bool isEmpty() const noexcept { return m_rows->empty(); }
    /// Null when there is none. O(log n). Valid as long as this table or a copy of it lives.
    [[nodiscard]] const Entity* find(Id<Entity> id) const noexcept {
        const auto at = lowerBound(*m_rows, id);
        return at != m_rows->end() && (*at)->id == id ? at->get() : nullptr;
    }

    /// This table with entities added, replaced or, by id, left out. O(n) pointers, and O(log n)
    /// for each change.
    [[nodiscard]] Entities changed(std::vector<Entity> put,
                                   std::vector<Id<Entity>> leftOut = {}) const {
        std::sort(leftOut.begin(), leftOut.end());
        Rows rows = *m_rows;
        for (Entity& entity : put) {
            const auto at = lowerBound(rows, entity.id);
            const bool isKnown = at != rows.end() && (*at)->id == entity.id;
            auto shared = std::make_shared<const Entity>(std::move(entity));
            if (isKnown) {
                rows[static_cast<std::size_t>(at - rows.begin())] = std::move(shared);
            } else {
                rows.insert(at, std::move(shared));
            }
        }
        std::erase_if(rows, [&leftOut](const auto& row) {
            return std::binary_search(leftOut.begin(), leftOut.end(), row->id);
        });
        Entities table;
        table.m_rows = std::make_shared<const Rows>(std::move(rows));
        return table;
    }

private:
    static auto lowerBound(const Rows& rows, Id<Entity> id) {
        return std::lower_bound(rows.begin(), rows.end(), id,
                                [](const auto& row, Id<Entity> key) { return row->id < key; });
    }

    std::shared_ptr<const Rows> m_rows;
};

/// One of something for every kind of entity that a project keeps: the list of kinds. A new kind is
/// a value in model.h, a line and a name here, and its columns and table in store/.
template <template <class> class Of>
struct OfEachKind {
    Of<Session> sessions;
    Of<Implement> implements;
    Of<Hitter> hitters;
    Of<Cell> cells;
    Of<Clip> clips;
    Of<Shot> shots;  ///< in a snapshot by id; use shotsOfClip for the order of the film
    Of<Reading> readings;
    Of<ShotCorrection> corrections;
    Of<PlanRecord> plans;  ///< one or none; see planOf()
    Of<SecondLook> secondLooks;
    Of<SecondReading> secondReadings;
    Of<ReadingEffort> efforts;  ///< grow without a new revision; see Store::noteEfforts()

    template <class Entity>
    [[nodiscard]] Of<Entity>& of() {
        return std::get<Of<Entity>&>(std::tie(sessions, implements, hitters, cells, clips, shots,
                                              readings, corrections, plans, secondLooks,
                                              secondReadings, efforts));
    }
    template <class Entity>
    [[nodiscard]] const Of<Entity>& of() const {
        return const_cast<OfEachKind*>(this)->template of<Entity>();
    }
};

/// A project as it stood at one revision. Immutable: worker threads compute on it without locks.
struct Snapshot : OfEachKind<Entities> {
    std::int64_t revision{};
    std::string reader;  ///< who marks now
    std::map<std::string, std::string> settings;
};

using SnapshotPtr = std::shared_ptr<const Snapshot>;

/// The plan of the filming day; an empty one when nothing is planned. Valid as long as the
/// snapshot.
[[nodiscard]] const plan::Plan& planOf(const Snapshot& snapshot);
/// Second readings that wait, in their order.
[[nodiscard]] std::vector<const SecondReading*> waitingSecondReadings(const Snapshot& snapshot);
/// The shots of a clip in the order of the film.
[[nodiscard]] std::vector<const Shot*> shotsOfClip(const Snapshot& snapshot, ClipId clip);
/// All shots, clip by clip in the order in which the clips were added, then by strike.
[[nodiscard]] std::vector<const Shot*> shotsInOrder(const Snapshot& snapshot);
/// All readings of a shot, oldest first.
[[nodiscard]] std::vector<const Reading*> readingsOfShot(const Snapshot& snapshot, ShotId shot);
/// The same of all shots that have any, for who goes through many.
using ReadingsByShot = std::map<ShotId, std::vector<const Reading*>>;
[[nodiscard]] ReadingsByShot readingsByShot(const Snapshot& snapshot);
/// "polyester 23 kg · hitter A", or empty when there is no such cell. The condition is added where
/// another implement has the same name: "polyester 23 kg (worn) · hitter A".
[[nodiscard]] std::string cellName(const Snapshot& snapshot, CellId cell);
/// Name of an implement, with its condition where another one has the same name.
[[nodiscard]] std::string implementName(const Snapshot& snapshot, ImplementId implement);
/// The file name of a clip without its folders, or "clip 7" when there is none.
[[nodiscard]] std::string clipName(const Snapshot& snapshot, ClipId clip);
/// "shot 3 of clip b.mp4", in the language of the person.
[[nodiscard]] std::string shotName(const Snapshot& snapshot, const Shot& shot);
/// The same for sentences of the history (core/base/kept_words.h).
[[nodiscard]] std::string shotNameToKeep(const Snapshot& snapshot, const Shot& shot);

}  // namespace core::project
