#pragma once

#include <concepts>

#include "core/project/file/changeset.h"
#include "core/project/store/kinds.h"

namespace core::project {

/// The rows of an open project, in the file and in the memory alike. Whoever changes them has begun
/// a transaction and, when it fails, gives the memory the snapshot from before. Private to
/// core/project.
class Rows {
public:
    Rows(Database& database, Snapshot all) : m_database{database}, m_all{std::move(all)} {}

    [[nodiscard]] Database& database() const noexcept { return m_database; }
    /// As after the last change. Not to be held over the next one.
    [[nodiscard]] const Snapshot& all() const noexcept { return m_all; }
    /// The same, to be handed out.
    [[nodiscard]] SnapshotPtr snapshot();
    void restore(SnapshotPtr snapshot);
    void setRevision(std::int64_t revision) { inMemory().revision = revision; }

    /// Errors: NotFound, which says what is missing.
    template <class Entity>
    [[nodiscard]] Result<Entity> find(Id<Entity> id) const {
        const Entity* found = m_all.of<Entity>().find(id);
        if (found == nullptr) {
            return kindOf<Entity>().missing(id.value);
        }
        return *found;
    }
    /// Puts them in under the next ids, which they are given back with. Errors: of Kind::insert().
    template <class Entity>
    Result<std::vector<Entity>> add(std::vector<Entity> entities) {
        for (Entity& entity : entities) {
            BOOST_OUTCOME_TRY(id, insertNew(m_database, entity));
            entity.id = id;
        }
        put(entities);
        return entities;
    }
    template <class Entity>
    Result<Entity> add(Entity entity) {
        BOOST_OUTCOME_TRY(id, insertNew(m_database, entity));
        entity.id = id;
        put(std::vector{entity});
        return entity;
    }
    template <class Entity>
    Result<void> change(std::vector<Entity> entities) {
        for (const Entity& entity : entities) {
            BOOST_OUTCOME_TRY(kindOf<Entity>().update(m_database, written(entity)));
        }
        put(std::move(entities));
        return ok();
    }
    template <class Entity>
    Result<void> change(const Entity& entity) {
        return change(std::vector{entity});
    }
    /// Takes out those for which it holds. Returns how many.
    template <class Entity>
    Result<std::size_t> removeIf(std::predicate<const Entity&> auto isMeant) {
        std::vector<Id<Entity>> ids;
        for (const Entity& entity : m_all.of<Entity>()) {
            if (isMeant(entity)) {
                BOOST_OUTCOME_TRY(kindOf<Entity>().erase(m_database, entity.id.value));
                ids.push_back(entity.id);
            }
        }
        const std::size_t count = ids.size();
        Entities<Entity>& table = inMemory().of<Entity>();
        table = table.changed({}, std::move(ids));
        return count;
    }
    /// Takes rows from the file that were changed there alone. Errors: Damaged.
    Result<void> reload(const TouchedRows& touched);

private:
    Snapshot& inMemory() {
        m_shared.reset();
        return m_all;
    }
    template <class Entity>
    void put(std::vector<Entity> entities) {
        Entities<Entity>& table = inMemory().of<Entity>();
        table = table.changed(std::move(entities));
    }

    Database& m_database;
    Snapshot m_all;
    SnapshotPtr m_shared;  ///< of m_all; null when it has changed since
};

}  // namespace core::project
